// German: the plan of a run, its checklist, and the help of `coldfall plan`.

import type { HeatSource, Phrases } from "../../../schema/index.ts";
import type {
  ChecklistCode,
  PlanProofCode,
  PlanReasonSayings,
  PlanRefusalSayings,
} from "../../../science/plan/index.ts";
import type { Hand } from "../../hand.ts";
import { capital } from "../phrasing.ts";
import { bareSource, list, onSource } from "./names.ts";

const hourOfDay = (hour: number) =>
  `${String(Math.floor(hour)).padStart(2, "0")}:${String(Math.round((hour % 1) * 60)).padStart(2, "0")}`;
const listed = (sources: readonly HeatSource[]) => list(sources.map((source) => bareSource(source)));
const reasons: Phrases<PlanReasonSayings, Hand> = {
  "settling-shows-offset": () =>
    "Die Aufzeichnung läuft schon, während der Kühlschrank aus und zu ist: Das zeigt, wie weit die Fühler voneinander abweichen.",
  "boiler-must-cool": ({ hours }, hand) =>
    `Der Kocher braucht ${hand.span(hours)} zum Auskühlen: Nur aus kaltem Kocher sagt die Zeit bis zum Kältebeginn etwas, und ein warmer Kühlraum lässt eine Abkühlung zum Anpassen übrig.`,
  "warming-tells-seal-from-load": ({ hours }, hand) =>
    `${capital(hand.span(hours))} Rückerwärmung bei geschlossener Tür unterscheiden auch eine undichte Türdichtung von warmer Beladung.`,
  "waits-for-a-person": ({ untilMs }, hand) =>
    `Das dauert bis ${hand.clock(untilMs)}, wenn jemand zum Umschalten da ist.`,
  "night-runs-through": ({ source }) =>
    `Die Nacht läuft auf Strom: ${bareSource(source)} läuft durch, denn niemand schaltet um, und Gas bleibt nie allein.`,
  "gas-by-day-only": ({ fromHour, toHour }) =>
    `Gas ist nur zwischen ${hourOfDay(fromHour)} und ${hourOfDay(toHour)} geplant, und die ganze Zeit ist jemand dabei.`,
  "order-changed": ({ asked, planned }) =>
    `Gewünscht war ${listed(asked)}; die Reihenfolge ist jetzt ${listed(planned)}, damit Gas am Tag brennt, wenn jemand da ist, und keine Nacht verloren geht.`,
  "switched-while-cold": ({ hours }, hand) =>
    `Im kalten Zustand umgeschaltet: kein Kältebeginn, keine Abkühlkonstante, keine Tiefe, aber die Rippen zeigen, ob diese Energiequelle übernimmt; der Bericht nennt nach ${hand.span(hours)} eine Kühlleistung allein aus den Rippen.`,
  "back-to-the-first": ({ source }) =>
    `Zurück auf ${bareSource(source)}: Was sich inzwischen geändert hat (Reif, Wetter), zeigt sich zwischen seinen beiden Teilen.`,
  "curve-not-in-time": ({ source }) =>
    `Zu kurz für Abkühlkonstante und Tiefe ${onSource(source)}; die Kühlleistung kommt aus Rippen und Anfangsgefälle.`,
};

const refusals: Phrases<PlanRefusalSayings, Hand> = {
  "gas-needs-longer-day": ({ fromHour, toHour, neededHours }, hand) =>
    `Kein Plan: Gas läuft nur unter Aufsicht, hier von ${hourOfDay(fromHour)} bis ${hourOfDay(toHour)}, und braucht ${hand.span(neededHours)} am Stück. Geben Sie mit --attended längere Zeiten an oder lassen Sie Gas weg.`,
  "needs-more-time": ({ untilMs, sources, hasGas, hasPauses }, hand) => {
    const why = [
      ...(hasGas ? ["Gas nur am Tag und unter Aufsicht läuft"] : []),
      ...(hasPauses ? ["der Kocher zwischen den Energiequellen auskühlen muss"] : []),
    ];
    const since = why.length === 0 ? "" : `, weil ${why.join(" und ")}`;
    const ways = [
      "Geben Sie ein späteres --until an",
      ...(sources > 1 ? ["lassen Sie eine Energiequelle weg"] : ["beginnen Sie früher"]),
      ...(hasPauses ? ["schalten Sie im kalten Zustand um"] : []),
    ];
    return `Kein Plan: Es dauert bis ${hand.moment(untilMs)}${since}. ${ways.slice(0, -1).join(", ")} oder ${ways.at(-1)}.`;
  },
  "one-source-cannot-switch": () =>
    "Kein Plan: Zum Umschalten im kalten Zustand braucht es mindestens zwei Energiequellen.",
  "no-electric-source": () =>
    "Kein Plan: Umschalten im kalten Zustand beginnt und endet auf Strom, damit niemand Tag und Nacht dabeibleiben muss.",
  "nothing-fits": () =>
    "In die Zeiten, in denen jemand zum Umschalten da ist, passt kein Plan. Geben Sie mit --attended längere Zeiten an oder beginnen Sie früher.",
};

/** Completes "bis 13:45 ..." and "14:00 bis 14:30 ...". */
const proofs: { readonly [P in PlanProofCode]: (source: HeatSource | null) => string } = {
  heat: (source) =>
    source === "gas"
      ? "Wärme nachgewiesen (Abgas- oder Kocherfühler)"
      : "Wärme nachgewiesen (Volt und Ampere, oder Kocherfühler)",
  onset: () => "Kältebeginn (gängige Praxis, ohne Quelle)",
  cold: () => "Kälte nachgewiesen: Rippen kälter als die Kühlraumluft",
  fins: () => "die Rippen zeigen, ob die Kälte gehalten wird",
  strength: () => "Kühlleistung bekannt, aus Rippen und Anfangsgefälle",
  dead: () => "noch keine Kälte: Er kühlt nicht",
  curve: () => "Abkühlkonstante und Tiefe bekannt",
  "better-curve": () => "Abkühlkonstante und Tiefe gut bekannt",
};

const blank = "________";

/** Title, what to do, and the blank to fill in. */
const checklist: {
  readonly [C in ChecklistCode]: { readonly title: string; readonly text: string; readonly blank: string };
} = {
  tilt: {
    title: "Schräglage",
    text: "Mit der Wasserwaage auf dem Boden des Gefrierfachs oder auf der Verdampferplatte gemessen: höchstens 2 bis 3 Grad in jeder Richtung, oder was der Hersteller angibt.",
    blank: `quer ${blank}°, längs ${blank}°`,
  },
  "upright-since": {
    title: "Aufrecht seit",
    text: "Nach liegendem Transport oder rauer Fahrt steht er einige Stunden, besser einen Tag aufrecht, bevor er beheizt wird.",
    blank: `${blank}${blank}`,
  },
  "source-by-hand": {
    title: "Energiequelle von Hand gewählt",
    text: "Ein Kühlschrank, der seine Energiequelle selbst wählt, steht auf Handbetrieb, immer nur eine Energiequelle; sonst werden die Energiequellen aus den Kurven gefunden, nicht angegeben.",
    blank: "",
  },
  vents: {
    title: "Lüftungsgitter",
    text: "Beide Lüftungsgitter frei, nichts dahinter verstaut.",
    blank: "frei / teilweise abgedeckt / abgedeckt",
  },
  "vent-covers": {
    title: "Winterabdeckungen",
    text: "Winterabdeckungen ab, außer wenn der Lauf mit ihnen sein soll.",
    blank: "ab / dran",
  },
  "flue-cap": {
    title: "Abgaskappe",
    text: "Von außen angesehen: da, und frei von Nestern, Ruß und Rost.",
    blank: "frei / verstopft / fehlt",
  },
  "gas-kind": {
    title: "Gasart",
    text: "Was in der Flasche ist; ein Wechsel der Gasart ändert die Wärme um rund 12\u00a0%.",
    blank: `Propan / Butan / Gemisch, ${blank} mbar, falls gemessen`,
  },
  "gas-checked": {
    title: "Flamme, Abgasrohr, Dichtheit und Kohlenmonoxid geprüft",
    text: "Vor dem Abschnitt auf Gas, durch eine sachkundige Person: keine Prüfung, kein Gas.",
    blank: `am ${blank} von ${blank}`,
  },
  "mains-volts": {
    title: "Volt und Watt auf 230\u00a0V",
    text: "Am zugelassenen Zwischenstecker-Messgerät abgelesen, sobald der Kühlschrank heizt.",
    blank: `${blank} V, ${blank} W`,
  },
  "dc12-volts": {
    title: "Volt und Ampere auf 12\u00a0V",
    text: "An den Klemmen des Kühlschranks, während er heizt, aus einer ladenden Versorgung.",
    blank: `${blank} V, ${blank} A`,
  },
  fans: {
    title: "Lüfter",
    text: "Innen und hinten wie in den Bezugsläufen, und so gelassen: Ein Lüfter innen halbiert die Rippendifferenz. Kein Lüfter nahe einer Gasflamme.",
    blank: "innen ja / nein, hinten ja / nein",
  },
  fins: {
    title: "Rippen",
    text: "Frei von Reif, der Fühler dort angeklemmt, wo er immer sitzt.",
    blank: "frei / bereift",
  },
  load: {
    title: "Beladung",
    text: "Am besten leer; sonst beladen wie in den Bezugsläufen, und ebenso warm oder kalt.",
    blank: "leer / teilweise / voll",
  },
  seal: {
    title: "Papiertest der Türdichtung",
    text: "Ein Papierstreifen in der geschlossenen Tür zieht sich ringsum mit leichtem Widerstand; Fühlerkabel auf der Scharnierseite.",
    blank: `hält / rutscht bei ${blank}`,
  },
  lamp: {
    title: "Lampe aus",
    text: "Sie geht mit der Tür aus: den Schalter von Hand drücken und nachsehen.",
    blank: "",
  },
  dial: { title: "Regler", text: "Auf der kältesten Stellung, und dort gelassen.", blank: `auf ${blank}` },
  "checked-by": { title: "Wer geprüft hat", text: "", blank: `${blank}${blank}` },
};

export const plan = {
  reasons,
  refusals,
  proofs,
  checklist,

  title: (sources: readonly HeatSource[]) => `Plan eines Laufs: ${listed(sources)}`,
  pageTitle: "Plan eines Laufs",
  when: (period: string, offset: string) => `${period}; Zeiten in ${offset}`,
  steps: {
    settling: "aus, Tür zu: angleichen",
    "warming-back": "aus, Tür zu: Rückerwärmung",
  },
  stretch: (source: HeatSource) => onSource(source),
  attended: "die ganze Zeit beaufsichtigt",
  overnight: "über Nacht",
  by: (clock: string) => `bis ${clock}`,
  between: (from: string, to: string) => `${from} bis ${to}`,
  stepsHeading: "Stunde für Stunde",
  reasonsHeading: "Warum so",
  checklistHeading: "Vor dem ersten Einschalten abzuhaken",
  checklistNote:
    "Was abgehakt ist, kommt auf das Laufblatt (auf der Seite des Laufs, mit „coldfall sheet RUN --set FIELD=VALUE“ oder in einer Datei neben dem Protokoll); was nicht abgehakt ist, wird im Bericht genannt.",
  otherWay: (isSwitched: boolean) =>
    isSwitched
      ? "Der lange Weg, jedes Mal aus kaltem Kocher, zeigt auch Kältebeginn, Abkühlkonstante und Tiefe: ohne Umschalten im kalten Zustand planen."
      : "Wenig Zeit: Umschalten im kalten Zustand plant die Energiequellen ohne Pause nacheinander; je zwei bis drei Stunden zeigen allein durch die Rippen, ob jede die Kälte hält.",
  care: "Vorsicht",
  careFor: (about: readonly string[]) => `Vorsicht: siehe ${about.join("; ")}.`,
  tickBox: "[ ]",
  uncheckedHeading: "Vor dem Lauf nicht abgehakt",
  unchecked: (title: string, fields: string) => `${title} (Laufblatt: ${fields}).`,
  noneUnchecked: "Alles auf der Liste wurde abgehakt.",

  command: {
    clocksChange: (laterMinutes: number) =>
      `Während dieses Plans werden die Uhren umgestellt, seine Zeiten nicht: Danach zeigen Uhren ${Math.abs(laterMinutes)} min ${laterMinutes > 0 ? "mehr" : "weniger"} als der Plan, auch für den, der bei Gas dabeibleibt.`,
    summary:
      "einen Lauf über die Uhr planen: was jeder Abschnitt wann beweist, wer da sein muss und was vorher zu prüfen ist",
    from: "wann die Aufzeichnung beginnt: eine Uhrzeit (die nächste, die kommt) oder YYYY-MM-DDTHH:MM",
    date: "der Tag zu --from, YYYY-MM-DD",
    until: "wann alles vorbei sein muss: eine Uhrzeit, die erste nach dem Beginn, oder YYYY-MM-DDTHH:MM",
    sources: "Energiequellen in der gewünschten Reihenfolge, etwa mains,gas,dc12",
    attended:
      "Tageszeiten, zu denen jemand zum Umschalten da ist; Gas läuft nur darin und nie zwischen 21:00 und 07:00",
    switchWhileCold: "ohne Pausen, der Kühlraum bleibt kalt: schneller, und zeigt weniger",
    json: "den Plan als JSON ausgeben (coldfall schema plan)",
    html: "den Plan auch als druckbare Seite in FILE schreiben",
    expectedTime: "eine Uhrzeit wie 13:00 oder einen Tag mit Uhrzeit wie 2026-06-04T13:00",
    expectedDate: "einen Tag wie 2026-06-04",
    expectedSources: "gas, mains und dc12 je höchstens einmal, etwa mains,gas,dc12",
    expectedAttended: "zwei Uhrzeiten, die frühere zuerst, etwa 07:00-21:00",
    expectedUntil: "eine Zeit nach dem Beginn",
    examples: [
      "coldfall plan --from 13:00 --sources mains,gas,dc12",
      "coldfall plan --from 16:00 --date 2026-06-04 --sources mains --html plan.html",
      "coldfall plan --from 09:00 --sources mains,gas --switch-while-cold",
    ],
  },
};
