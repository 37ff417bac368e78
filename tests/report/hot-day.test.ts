import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import { describe, expect, test } from "vitest";
import { hotDayDocument, hotDayPage, hotDayText } from "../../src/report/hot-day/index.ts";
import { handOf, say, words } from "../../src/report/index.ts";
import { hotDayDocumentSchema, jsonSchemaOf } from "../../src/schema/documents/index.ts";
import { heatSources } from "../../src/schema/index.ts";
import { climateClasses } from "../../src/science/hot-days/climate-classes.ts";
import { adviceCodes, adviceFor } from "../../src/science/hot-days/hot-day-advice.ts";
import type { HotDayAdviceCode, HotDayReasonSayings } from "../../src/science/hot-days/index.ts";
import { type CautionCode, isKnown } from "../../src/science/index.ts";
import { estimate } from "../../src/science/numbers/estimate.ts";
import limits from "../reference/limits.json" with { type: "json" };
import { predictions } from "./hot-day-fixture.ts";

const { hotDay, cautions, cautionClose, names, report } = words("en");
const hand = handOf("en", 0);
const spaced = (text: string) => text.replaceAll("\u00a0", " ").replace(/\s+/g, " ");
const ajv = new Ajv2020({ strict: false, allErrors: true });
addFormats.default(ajv);
const published = ajv.compile(jsonSchemaOf("hot-day"));

for (const [name, { prediction, context }] of Object.entries(predictions)) {
  describe(`a prediction ${name}`, () => {
    const document = JSON.parse(JSON.stringify(hotDayDocument(prediction, context)));
    const texts = [60, 100].map((width) => hotDayText(prediction, context, { colour: false, width }));
    const page = hotDayPage({ title: "Hot day", prediction, context });

    test("fits the schema, and the published JSON Schema", () => {
      expect(() => hotDayDocumentSchema.parse(document)).not.toThrow();
      expect(published(document), JSON.stringify(published.errors)).toBe(true);
    });

    test("says its answer first, the same in text, page and JSON", () => {
      for (const text of texts) {
        const [, answer] = text.split("\n\n");
        expect(spaced(answer)).toBe(spaced(document.sentence));
      }
      expect(spaced(page.replaceAll("&#39;", "'"))).toContain(
        `<p class="in-a-sentence">${spaced(document.sentence)}</p>`,
      );
    });

    test("keeps to the width asked for, without colour codes", () => {
      texts.forEach((text, i) => {
        for (const line of text.split("\n")) expect(line.length, line).toBeLessThanOrEqual([60, 100][i]);
        expect(text).not.toContain("\u001b");
      });
    });

    test("names the probe's place, the top shelf, the limits with their source and local rules, and never says safe", () => {
      for (const text of [...texts, page]) {
        const plain = spaced(text);
        expect(plain).toMatch(/top shelf/);
        expect(plain).toContain("local rules decide");
        expect(plain).toMatch(/Regulation \(EU\) 2019\/2016/);
        expect(plain).not.toMatch(/\bsafe\b/i);
      }
    });

    test("prints every advice with its cautions right behind it", () => {
      const text = spaced(texts[1].replace(/^ *! /gm, ""));
      const said = new Set<CautionCode>();
      for (const { advice, cautions: codes } of prediction.advice) {
        const from = text.indexOf(spaced(hotDay.advice[advice].title));
        expect(from).toBeGreaterThan(0);
        const full = codes.filter((code) => !said.has(code));
        const again = codes.filter((code) => said.has(code));
        for (const code of codes) said.add(code);
        const wanted = [
          spaced(hotDay.advice[advice].text),
          ...full.map((code) => `Caution, ${spaced(cautions[code].about)}: ${spaced(cautions[code].text)}`),
          ...(full.length === 0 ? [] : [spaced(cautionClose)]),
          ...(again.length === 0
            ? []
            : [`Caution as above: ${again.map((code) => spaced(cautions[code].about)).join("; ")}.`]),
        ];
        expect(text.slice(from)).toContain(wanted.join(" "));
      }
      for (const { caution } of document.advice) expect(caution).toContain(spaced(cautionClose));
    });

    test("holds no NaN, null or undefined in its words", () => {
      for (const text of [...texts, page]) expect(text).not.toMatch(/NaN|undefined|\bnull\b|Infinity/);
    });
  });
}

test("the answer reads as a sentence with its interval", () => {
  const at = (value: number, source: "gas" | "mains", side: "below" | "across" | "above") => ({
    settled: estimate("Cel", value, value - 3, value + 3, { standardError: 1.5 }),
    source,
    side,
    isHeld: false,
  });
  const told = (...answers: ReturnType<typeof at>[]) => spaced(hotDay.settles(32, false, answers, handOf("en", 0)));
  expect(told(at(7, "gas", "across"))).toBe(
    "Whether this fridge holds 8 °C at 32 °C outside is open: it settles at 7.0 °C (4.0 to 10.0) on gas.",
  );
  expect(told(at(3, "mains", "below"), at(4, "gas", "below"))).toBe(
    "At 32 °C outside this fridge holds 8 °C: it settles at 3.0 °C (0.0 to 6.0) on mains; at 4.0 °C (1.0 to 7.0) on gas.",
  );
  expect(told(at(14, "gas", "above"))).toBe(
    "At 32 °C outside this fridge does not hold 8 °C: it settles at 14.0 °C (11.0 to 17.0) on gas.",
  );
  expect(told(at(3, "mains", "below"), at(14, "gas", "above"))).toBe(
    "Whether this fridge holds 8 °C at 32 °C outside depends on the source: yes, at 3.0 °C (0.0 to 6.0) on mains; no, at 14.0 °C (11.0 to 17.0) on gas.",
  );
});

test("the ambient that nobody typed is said to be the trip's warmest", () => {
  const { prediction, context } = predictions["through a trip"];
  expect(spaced(hotDayDocument(prediction, context).sentence)).toMatch(/34 °C outside, the trip's warmest,/);
  const { prediction: day, context: asked } = predictions["at an ambient"];
  expect(hotDayDocument(day, asked).sentence).not.toContain("the trip's warmest");
});

for (const language of ["en", "de"] as const) {
  test(`in ${language} what the answer does not see stands right under it, with the warmer places and their interval`, () => {
    const { prediction, context } = predictions["at an ambient"];
    const told = { ...context, language };
    const text = hotDayText(prediction, told, { colour: false, width: 100 });
    const page = hotDayPage({ title: "Hot day", prediction, context: told });
    const warmer = handOf(language, 0).brief(prediction.topShelf);
    expect(spaced(text.split("\n\n")[2])).toContain(spaced(warmer));
    const [, under] = spaced(page).split('<p class="in-a-sentence">')[1].split('</p> <p class="note">');
    expect(under.split("</p>")[0]).toContain(spaced(warmer));
    const nothing = predictions["with a source that did not run"];
    const silent = hotDayText(nothing.prediction, { ...nothing.context, language }, { colour: false, width: 100 });
    expect(spaced(silent.split("\n\n")[2])).not.toContain(spaced(warmer));
  });
}

test("without a trip and unless one source was asked for, all that have a number lead, the coldest first", () => {
  const { prediction, context } = predictions["at an ambient"];
  const known = prediction.sources.flatMap(({ source, settled }) => (isKnown(settled) ? [{ source, settled }] : []));
  expect(known.length).toBeGreaterThan(1);
  const coldestFirst = known.toSorted((a, b) => a.settled.value - b.settled.value);
  const { sentence } = hotDayDocument(prediction, context);
  const at = coldestFirst.map(({ source, settled }) =>
    sentence.indexOf(`${spaced(handOf("en", 0).brief(settled))} ${names.onSource(source)}`),
  );
  expect(Math.min(...at)).toBeGreaterThan(0);
  expect(at).toEqual(at.toSorted((a, b) => a - b));
  // What follows is of one of them, and says of which.
  const text = hotDayText(prediction, context, { colour: false, width: 80 });
  expect(text).toContain(`In numbers, ${names.onSource(prediction.source)} (the newest run)`);
  expect(text).toContain(`Climate classes to compare with, ${names.onSource(prediction.source)}`);
  expect(text).not.toContain("it would settle at");
  const asked = hotDayDocument(prediction, { ...context, asked: { ...context.asked, source: "gas" } });
  expect(asked.sentence.match(/ on (gas|mains)/g)).toHaveLength(1);
});

test("a climate class says in words what its figures are", () => {
  const settled = estimate("Cel", 17, 12, 21, { standardError: 2 });
  expect(spaced(hotDay.classLine("ST", 16, 38, settled, "no", handOf("en", 0)))).toBe(
    "ST, 16 to 38 °C: at 38 °C outside it settles at 17 °C (12 to 21); 8 °C would not be held.",
  );
  expect(spaced(words("de").hotDay.classLine("ST", 16, 38, settled, "no", handOf("de", 0)))).toBe(
    "ST, 16 bis 38 °C: Bei 38 °C außen pendelt er sich bei 17 °C (12 bis 21) ein; 8 °C würden nicht gehalten.",
  );
});

describe("the strip of hours", () => {
  const { prediction, context } = predictions["through a trip"];
  const text = hotDayText(prediction, context, { colour: false, width: 80 });
  const { trip } = prediction;
  if (trip === null) throw new Error("no trip");

  test("tells every hour by a sign and a figure", () => {
    const rows = (name: string) =>
      text
        .split("\n")
        .filter((line) => line.startsWith(`  ${name}`))
        .flatMap((line) => line.slice(10).trim().split(/\s+/));
    // "cabinet" also begins no other line; the last hour ends the trip and has no column.
    const [signs, figures] = [rows(hotDay.strip.against8(hand).replace("\u00a0", " ")), rows("cabinet ")];
    expect(signs).toHaveLength(trip.hours.length - 1);
    trip.hours.slice(0, -1).forEach(({ cabinet }, i) => {
      if (!isKnown(cabinet)) throw new Error("not known");
      const { low, high } = cabinet;
      const mark = (high ?? Infinity) <= 8 ? "below" : (low ?? -Infinity) > 8 ? "above" : "across";
      expect(signs[i]).toBe(hotDay.marks[mark].sign);
      expect(Number(figures[i].replace("\u2212", "-"))).toBe(Math.round(cabinet.value) + 0);
    });
    expect(new Set(signs).size).toBe(3);
  });

  test("explains its signs, and only those that occur", () => {
    const plain = spaced(text);
    for (const mark of ["below", "across", "above"] as const)
      expect(plain).toContain(spaced(hotDay.marks[mark].name(hand)));
    expect(plain).not.toContain(`${hotDay.marks.unknown.sign} ${hotDay.marks.unknown.name(hand)}`);
    expect(plain).toContain(hotDay.strip.keyBeyond);
  });
});

describe("advice", () => {
  const dangers: readonly (readonly [RegExp, CautionCode])[] = [
    [/\bgas\b|flame|flue/i, "gas"],
    [/12\sV/, "dc12"],
    [/overnight|evening before/i, "night"],
    [/driving|road|fuel stations|vents/i, "road"],
    [/goods|household fridge/i, "food"],
    [/\bmains\b/i, "mains"],
  ];
  const harmless: readonly (readonly [HotDayAdviceCode, CautionCode, string])[] = [
    ["cool-down-on-mains", "food", "goods are named as what may be in it"],
    ["gas-on-the-road", "dc12", "12 V is named as what a row of the forecast may say"],
    ["gas-while-driving", "dc12", "12 V is named as what a row of the forecast may say"],
    ["dc12-on-charge", "road", "driving is when the charging supply works"],
    ["shade-the-wall", "gas", "vents are named; the caution of the road speaks of gas under them"],
    ["gas-at-night", "mains", "a site with mains is chosen, nothing is connected"],
    ["fan-at-the-rear", "road", "the vents stay free"],
  ];

  for (const code of adviceCodes) {
    test(`"${code}" carries the caution of whatever its words come near`, () => {
      const { title, text } = hotDay.advice[code];
      const { cautions: carried } = adviceFor(code);
      expect(carried.length).toBeGreaterThan(0);
      for (const [danger, caution] of dangers) {
        const excused = harmless.some(([advice, about]) => advice === code && about === caution);
        if (danger.test(`${title}. ${text}`) && !excused) expect(carried, `${danger}`).toContain(caution);
      }
    });
  }

  test("to record a source carries that source's own caution", () => {
    for (const source of heatSources) expect(adviceFor("record-the-source", source).cautions).toContain(source);
  });

  test("a trip is told to cool down on mains first, and to find out whether it may drive on gas", () => {
    const codes = predictions["through a trip"].prediction.advice.map(({ advice }) => advice);
    expect(codes[0]).toBe("cool-down-on-mains");
    expect(codes).toContain("gas-while-driving");
  });
});

test("climate classes and food limits are those of tests/reference/limits.json, each with its source there", () => {
  // IEC 62552-1:2015; Regulation (EU) 2019/2016, Annex IV, Table 3; English regulations 2013; FSA; USDA and FDA.
  expect(climateClasses.map(({ name, coolest, warmest }) => ({ class: name, min: coolest, max: warmest }))).toEqual(
    limits.climateClasses.rows.map(({ class: name, min, max }) => ({ class: name, min, max })),
  );
  const fresh = limits.storage.rows.find(({ compartment }) => compartment === "fresh food");
  const plain = spaced(report.foodLimits(hand));
  expect(plain).toContain(`fresh food ${fresh?.min} to ${fresh?.max} °C, target ${fresh?.target} °C`);
  expect(plain).toContain("at or below 8 °C");
  expect(plain).toContain("40 °F, which is 4.4 °C");
  expect(spaced(hotDay.classesNote)).toMatch(
    /outside Regulation \(EU\) 2019\/2019 \(Article 1\): compare, do not claim/,
  );
});

test("every reason is a whole sentence", () => {
  const samples: HotDayReasonSayings = {
    "runs-settled": { stretches: 1, belowAmbient: 27.4, ambient: 23 },
    "slope-of-its-own": { perKelvin: -0.2, standardError: 0.05 },
    "slope-usual": { perKelvin: -0.05, standardError: 0.07 },
    "bends-when-hot": { fromAmbient: 27 },
    "cold-runs-left-out": { runs: 2, below: 15 },
    "exhaust-on-probe": { stretches: 3, error: 0.8 },
    "dial-held": { estimate: estimate("Cel", 5, 4.5, 5.5) },
    "from-duty": {},
    "beyond-runs": { coolest: 20, warmest: 26, ambient: 35 },
    "starts-at": { celsius: 5, from: "settled", withGoods: true },
    "boiler-from": { cold: true },
    "rate-usual": { source: "gas", perHour: 0.27 },
    "warming-usual": { perHour: 0.12 },
    "sun-allowed": { kelvin: 4, standardError: 2, hours: 3 },
    "driving-allowed": { share: 0.1, hours: 4 },
    "load-allowed": { kilograms: 5, celsius: 22, ownShare: 0.6 },
    "cannot-from": {
      unixMs: Date.UTC(2026, 6, 10, 9),
      source: "dc12",
      why: { code: "source-not-run", source: "dc12" },
    },
  };
  for (const [code, values] of Object.entries(samples)) {
    const sentence = say(hotDay.reasons, { code, ...values } as never, handOf("en", 120));
    expect(sentence, code).toMatch(/^[A-Z0-9].*\.$/);
    expect(sentence).not.toMatch(/NaN|undefined/);
  }
});
