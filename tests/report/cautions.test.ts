// Advice near gas, mains, 12 V, heat and ammonia never stands alone: its caution is in the same object, in
// every face. The meanings are those of the project's list of cautions that must stand.

import { describe, expect, test } from "vitest";
import { analysisPage } from "../../src/report/analysis/analysis-page.ts";
import { analysisDocument, analysisText } from "../../src/report/analysis/index.ts";
import { handOf, type Language, languageCodes, say, words } from "../../src/report/index.ts";
import { drawSheets } from "../../src/report/test-report/sheets.ts";
import { layOut } from "../../src/report/test-report/test-report-layout.ts";
import { tellTestReport } from "../../src/report/test-report/test-report-telling.ts";
import { causes } from "../../src/schema/documents/index.ts";
import { heatSources } from "../../src/schema/index.ts";
import { checkFor } from "../../src/science/causes/next-checks.ts";
import type { CautionCode, CheckCode } from "../../src/science/sayings.ts";
import { context, nothingHeated } from "./fixture.ts";
import { notebook } from "./notebook.ts";

/** What each caution must still say, however it is worded. */
const meanings: { readonly [L in Language]: { readonly [C in CautionCode]: readonly RegExp[] } } = {
  en: {
    gas: [
      /never leave gas .*unattended/i,
      /indoors/,
      /pit or drain/,
      /people sleep/,
      /licensed fitter/,
      /yellow or sooty/i,
      /smell of gas/i,
      /doubt about the flue/,
      /gas off/,
      /carbon monoxide/,
    ],
    night: [
      /night run is on electricity/,
      /gas stretch is attended/i,
      /flame, flue, leaks/,
      /checked/,
      /may light gas when mains fails/,
      /close its gas valve/,
    ],
    "stopped-on-gas": [
      /do not relight/i,
      /do not hurry in/,
      /no switches/,
      /no flame/,
      /keep out/,
      /open air/,
      /emergency service/,
      /late, by an hour or so, by two while a thermostat cycles/, // simulated fridges: npm run bench stop-study
      /LPG alarms \(mounted low\)/,
      /carbon monoxide alarms must be fitted/,
    ],
    "two-sources": [/one source at a time/i, /overheat the boiler/],
    "no-cold": [/not level/i, /hot boiler for hours/, /switch off/, /ruins/],
    dc12: [
      /10 to 15\sA/,
      /leisure battery in hours or less/,
      /charging supply/,
      /not run an engine indoors/i,
      /fused bench supply/,
      /fused, clamped, isolated or differential/,
      /USB must never become the 12\sV return/,
    ],
    mains: [
      /earthed/,
      /RCD/,
      /qualified person/,
      /appliance first and the socket last/,
      /reverse order/,
      /probe board never touches mains/,
      /approved plug-in meter/,
    ],
    "cooling-unit": [
      /smell of ammonia/i,
      /yellow deposit/,
      /everybody out/,
      /no flame/,
      /hydrogen burn/,
      /only if that is safe/,
      /do not touch/,
      /never cut, drill, weld or heat/i,
      /14 to 25\sbar/,
      /licensed disposal/i,
    ],
    road: [
      /fuel stations, ferries and garages/,
      /law and fitted safety devices allow/,
      /nothing over the vents while on gas/i,
    ],
    food: [/not at mid-cabinet/, /few degrees warmer/, /never judges whether food/, /limits with their source/],
  },
  de: {
    gas: [
      /nie unbeaufsichtigt/,
      /nie in geschlossenen Räumen/,
      /Grube oder einem Abfluss/,
      /Menschen schlafen/,
      /örtlichen Vorschriften und ein zugelassener Fachbetrieb/,
      /Gelbe oder rußende Flamme/,
      /Gasgeruch/,
      /Zweifel am Abgasrohr/,
      /Gas zu, nicht betreiben/,
      /Kohlenmonoxid/,
    ],
    night: [
      /Über Nacht .*auf Strom/,
      /Abschnitt auf Gas wird beaufsichtigt/,
      /Flamme, Abgasrohr, Dichtheit und Kohlenmonoxid/,
      /geprüft/,
      /bei Ausfall der 230\sV Gas zünden/,
      /Schließen Sie .*sein Gasventil/,
    ],
    "stopped-on-gas": [
      /nicht wieder zünden/,
      /nicht hineineilen/,
      /keine Schalter/,
      /keine offene Flamme/,
      /draußen bleiben/,
      /im Freien/,
      /Notruf/,
      /spät, etwa nach einer Stunde/,
      /Gaswarner für Flüssiggas \(tief angebracht\)/,
      /Kohlenmonoxidmelder müssen eingebaut sein/,
    ],
    "two-sources": [/nur eine Energiequelle auf einmal/, /überhitzen den Kocher/],
    "no-cold": [/nicht waagerecht/i, /seit Stunden ein heißer Kocher/, /ausschalten/, /zerstört/],
    dc12: [
      /10 bis 15\sA/,
      /Aufbaubatterie in wenigen Stunden oder schneller/,
      /ladende Versorgung/,
      /keinen Motor in geschlossenen Räumen/,
      /abgesichertes Labornetzteil/,
      /abgesichert, spannungsbegrenzt, galvanisch getrennt oder differenziell/,
      /USB darf nie zur Rückleitung der 12\sV werden/,
    ],
    mains: [
      /Schutzleiter/,
      /RCD/,
      /Elektrofachkraft/,
      /Erst am Gerät anschließen, zuletzt an der Steckdose/,
      /umgekehrter Reihenfolge/,
      /Fühlerplatine berührt nie die Netzspannung/,
      /zugelassenen Zwischenstecker-Messgerät/,
    ],
    "cooling-unit": [
      /Ammoniakgeruch/,
      /gelber Belag/,
      /alle hinaus/,
      /keine Flamme/,
      /Wasserstoff brennen/,
      /nur abschalten, wenn das gefahrlos geht/,
      /nicht berühren/,
      /nie aufschneiden, anbohren, schweißen oder erhitzen/,
      /14 bis 25\sbar/,
      /Entsorgung durch einen zugelassenen Betrieb/,
    ],
    road: [
      /Tankstellen, Fähren und Garagen/,
      /Gesetz und eingebaute Sicherheitseinrichtungen/,
      /Auf Gas nie etwas vor die Lüftungsgitter/,
    ],
    food: [
      /nicht in der Mitte des Kühlraums/,
      /ein paar Grad wärmer/,
      /beurteilt nie, ob Lebensmittel/,
      /Grenzwerte mit ihrer Quelle/,
    ],
  },
};

/** How every caution ends: where it comes from, and who decides. */
const closes: { readonly [L in Language]: readonly RegExp[] } = {
  en: [/common practice, no source/i, /local codes and licensed gas and electrical people decide/],
  de: [/gängige Praxis, ohne Quelle/i, /entscheiden die örtlichen Vorschriften und zugelassene Fachbetriebe/],
};

/** What not to do when a flame may have gone out. */
const flameOut: { readonly [L in Language]: RegExp } = {
  en: /do not relight.*do not hurry in.*no switches.*no flame.*keep out/i,
  de: /nicht wieder zünden.*nicht hineineilen.*keine Schalter.*keine offene Flamme.*draußen bleiben/i,
};

/** Words in an advice that put a hand near something, and the caution that must then stand beside it. */
const dangers: { readonly [L in Language]: readonly (readonly [RegExp, CautionCode])[] } = {
  en: [
    [/\b(gas|flue|burner|jet)\b|\bflame\b/i, "gas"],
    [/\bmains\b|plug-in meter|\bsocket\b/i, "mains"],
    [/12\sV/, "dc12"],
    [/nights? on electricity|overnight/i, "night"],
    [/cooling unit/i, "cooling-unit"],
    [/\bfood\b|bottles|defrost/i, "food"],
    [/\blevel\b/i, "no-cold"],
  ],
  de: [
    [/\bGas|Abgas|Brenner|Düse|Flamme/, "gas"],
    [/230\sV|Netzspannung|Zwischenstecker|Steckdose/, "mains"],
    [/12\sV/, "dc12"],
    [/nachts|Nacht auf Strom|über Nacht/i, "night"],
    [/Kühlaggregat/, "cooling-unit"],
    [/Lebensmittel|Flaschen|abtauen/i, "food"],
    [/waagerecht|Wasserwaage/, "no-cold"],
  ],
};

/** Mentions that send no hand there; each says why. */
const harmless: readonly (readonly [CheckCode, CautionCode, string])[] = [
  ["prove-heat-in-watts", "cooling-unit", "names the cooling unit as a cause only"],
  ["seat-probes", "gas", "the flue is named as a place to keep the probe away from"],
];

const codes = Object.keys(words("en").checks) as CheckCode[];
const everyCheck = codes.flatMap((code) => [null, ...heatSources].map((source) => checkFor(code, source)));

for (const language of languageCodes) {
  const own = words(language);

  describe(`in ${language}`, () => {
    for (const [code, wanted] of Object.entries(meanings[language]) as [CautionCode, readonly RegExp[]][]) {
      test(`the caution "${code}" keeps its whole meaning`, () => {
        for (const meaning of wanted) expect(own.cautions[code].text).toMatch(meaning);
      });
    }

    test("every caution says that it is common practice and who decides", () => {
      for (const meaning of closes[language]) expect(own.cautionClose).toMatch(meaning);
    });

    for (const code of codes) {
      test(`the check "${code}" carries the caution of whatever its words come near`, () => {
        const { title, text } = own.checks[code];
        const { cautions } = checkFor(code);
        for (const [danger, caution] of dangers[language]) {
          const excused = harmless.some(([check, about]) => check === code && about === caution);
          if (danger.test(`${title}. ${text}`) && !excused) expect(cautions, `${danger}`).toContain(caution);
        }
      });
    }

    test("every check prints its cautions whole in text, page and JSON, right beside it", () => {
      const spaced = (text: string) => text.replaceAll("\u00a0", " ").replace(/\s+/g, " ");
      for (const check of everyCheck) {
        const analysis = { ...nothingHeated, nextChecks: [check] };
        const [inJson] = analysisDocument(analysis, { ...context, language }).nextChecks;
        const text = spaced(
          analysisText(analysis, { ...context, language }, { colour: false, width: 80 }).replace(/^ *! /gm, ""),
        );
        const page = spaced(
          analysisPage({ title: "x", analysis, context: { ...context, language } }).replace(/<[^>]+>/g, ""),
        );
        expect(inJson.caution === null).toBe(check.cautions.length === 0);
        for (const code of check.cautions) {
          const caution = spaced(own.cautions[code].text);
          expect(inJson.caution).toContain(caution);
          expect(text).toContain(caution);
          expect(page).toContain(caution);
          expect(text.indexOf(caution)).toBeGreaterThan(text.indexOf(spaced(own.checks[check.check].title)));
        }
      }
    });

    test("every check has its cautions whole on the paper of the test report, right under it and on the same page", () => {
      const close = (text: string) => text.replaceAll(/\s/g, "").toLowerCase();
      for (const check of everyCheck) {
        const analysis = { ...nothingHeated, nextChecks: [check] };
        const told = tellTestReport({
          madeMs: 0,
          letterhead: null,
          fridge: null,
          runs: [],
          analysis,
          context: { ...context, language },
          service: null,
        });
        const book = notebook();
        drawSheets(book.paper, layOut(told, own, book.paper), String);
        const { title, text } = own.checks[check.check];
        const at = book.parts.findIndex(({ texts }) => close(texts.join("")).includes(close(title + text)));
        expect(at, title).toBeGreaterThanOrEqual(0);
        if (check.cautions.length === 0) continue;
        const under = book.parts[at + 1];
        expect(under.page).toBe(book.parts[at].page);
        for (const code of check.cautions)
          expect(close(under.texts.join(""))).toContain(close(own.cautions[code].text));
      }
    });

    test("of every check in one letter each keeps its caution in its own item: in full at first, then by its short name", () => {
      const analysis = { ...nothingHeated, nextChecks: everyCheck };
      const reader = { ...context, language };
      const spaced = (text: string) => text.replaceAll("\u00a0", " ").replaceAll("&#39;", "'").replace(/\s+/g, " ");
      const items = (
        analysisPage({ title: "x", analysis, context: reader }).match(/<li><strong>[\s\S]*?<\/li>/g) ?? []
      ).map((item) => spaced(item.replace(/<[^>]+>/g, " ")));
      const text = analysisText(analysis, reader, { colour: false, width: 80 }).replace(/^ *! /gm, "");
      const blocks = spaced(text.replace(/^ {2}(\d+)\. /gm, "§"))
        .split("§")
        .slice(1);
      for (const told of [items, blocks]) {
        expect(told).toHaveLength(everyCheck.length);
        const full = new Set<CautionCode>();
        everyCheck.forEach(({ cautions }, index) => {
          const [whole = "", again = ""] = told[index].split(/(?:Caution as above|Vorsicht wie oben):/);
          for (const code of cautions) {
            const { about, text: caution } = own.cautions[code];
            if (full.has(code)) {
              expect(again).toContain(spaced(about));
              expect(whole).not.toContain(spaced(caution));
            } else expect(whole).toContain(spaced(caution));
            full.add(code);
          }
        });
        expect(full.size).toBeGreaterThan(6);
      }
      const inJson = analysisDocument(analysis, reader).nextChecks;
      everyCheck.forEach(({ cautions }, index) => {
        for (const code of cautions)
          expect(spaced(inJson[index].caution ?? "")).toContain(spaced(own.cautions[code].text));
      });
    });

    test("cooling that stopped on gas, or on a source nobody named, is never told without its caution", () => {
      const hand = handOf(language, 0);
      for (const source of ["gas", null] as const) {
        const event = say(
          own.events,
          { code: "cooling-stopped", source, finDifferenceBefore: 6, finDifferenceAfter: 0, doubt: "heat-goes-on" },
          hand,
        );
        expect(event).toContain(own.cautions["stopped-on-gas"].text);
        expect(say(own.reasons, { code: "flame-out", unixMs: 0, minutes: 60, source }, hand)).toMatch(
          flameOut[language],
        );
        const stopped = { code: "cooling-stopped", log: "x.csv", source, times: 2, startMs: 0, minutes: 60 } as const;
        expect(say(own.warnings, stopped, hand)).toMatch(flameOut[language]);
      }
    });
  });
}

/** What a hand does there, whatever the check's words say of it. */
const atHand: readonly (readonly [CheckCode, CautionCode, string])[] = [
  ["clean-flue-and-burner", "gas", "flame and flue"],
  ["clean-flue-and-burner", "cooling-unit", "tools and brushes beside the unit"],
  ["measure-gas-pressure", "gas", "a burning appliance and an open test point"],
  ["measure-element", "mains", "a mains element's terminals"],
  ["measure-element", "dc12", "a 12 V element's terminals"],
  ["measure-supply-voltage", "mains", "live at the fridge"],
  ["measure-supply-voltage", "dc12", "sense leads on a battery"],
  ["check-level", "no-cold", "a tilted unit under heat"],
  ["fan-at-rear", "gas", "moved air at flame and flue, something near the vents"],
  ["fan-at-rear", "road", "nothing over the vents while on gas"],
  ["fan-at-rear", "mains", "wiring behind the fridge"],
  ["wait-for-load", "food", "food left in a doubtful fridge"],
  ["seat-probes", "cooling-unit", "fixing a probe near tubes under pressure"],
  ["seat-probes", "mains", "probe leads near mains wiring"],
  ["add-ambient-probe", "cooling-unit", "a hand and a clip behind the lower vent"],
  ["add-ambient-probe", "mains", "probe leads near mains wiring"],
  ["defrost", "cooling-unit", "scraping or heating the evaporator"],
  ["record-longer", "no-cold", "hours of heat without cold"],
  ["record-known-good", "two-sources", "one source after another"],
  ["prove-heat-in-watts", "mains", "a meter at the plug"],
  ["prove-heat-in-watts", "dc12", "a clamp meter at the element"],
  ["prove-heat-in-watts", "no-cold", "heat without cold"],
  ["ask-a-fitter", "cooling-unit", "what the fitter is called for"],
  ["why-flame-went-out", "stopped-on-gas", "gas may have flowed unburned"],
  ["why-flame-went-out", "gas", "flue and flame failure device"],
  ["why-supply-was-lost", "mains", "plug, lead and fuse"],
  ["why-supply-was-lost", "dc12", "fuse and charger"],
  ["why-supply-was-lost", "night", "gas that the fridge chose itself"],
  ["dial-to-coldest", "gas", "a bigger flame"],
  ["dial-to-coldest", "night", "the fridge runs on"],
];
for (const [check, caution, why] of atHand) {
  test(`"${check}" carries the caution "${caution}": ${why}`, () => {
    expect(checkFor(check).cautions).toContain(caution);
  });
}

test("every cause that can be looked for has a check that tells it apart", () => {
  const looked = new Set(codes.flatMap((code) => checkFor(code).separates));
  expect(causes.filter((cause) => cause !== "none" && cause !== "other" && !looked.has(cause))).toEqual([]);
});

test("no check names a caution twice", () => {
  for (const { check, cautions } of everyCheck) expect([...new Set(cautions)], check).toEqual(cautions);
});

test("a check that has the fridge run on one source carries that source's caution and no other's", () => {
  expect(checkFor("record-another-night", "mains").cautions).toEqual(["night", "mains", "two-sources"]);
  expect(checkFor("record-another-night").cautions).toEqual(expect.arrayContaining(["gas", "mains", "dc12", "night"]));
});
