// German: the test report for customer and workshop.

import type { HeatSource, RunSheet } from "../../../schema/index.ts";
import type { Estimate } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { capital } from "../phrasing.ts";
import { conditionValue, settings, vents } from "./conditions.ts";
import { bareSource, onSource } from "./names.ts";

const yesOrNo = (value: boolean) => (value ? "ja" : "nein");
const stated = <V>(value: V | undefined, write: (value: V) => string) => (value === undefined ? null : write(value));
const degrees = (value: number, hand: Hand) => `${hand.number(value, 1)}°`;

const ventCovers: { readonly [C in NonNullable<RunSheet["ventCovers"]>]: string } = { off: "ab", on: "dran" };
const flueCaps: { readonly [C in NonNullable<RunSheet["flueCap"]>]: string } = {
  clear: "frei",
  blocked: "verstopft",
  missing: "fehlt",
};
const fins: { readonly [F in NonNullable<RunSheet["fins"]>]: string } = { clear: "frei", frosted: "bereift" };
const sealTests: { readonly [S in NonNullable<RunSheet["sealPaperTest"]>]: string } = {
  drags: "hält ringsum",
  slips: "rutscht heraus",
};

/** "Gas 170 W, 230 V 135 W" */
const bySource = (
  values: { readonly [S in HeatSource]?: number | undefined },
  unit: "W" | "V",
  hand: Hand,
): string | null => {
  const told = (["gas", "mains", "dc12"] as const).flatMap((source) => {
    const value = values[source];
    return value === undefined
      ? []
      : [`${onSource(source)} ${hand.quantity(value, unit, Number.isInteger(value) ? 0 : 1)}`];
  });
  return told.length === 0 ? null : told.join(", ");
};

/** Conditions of a run sheet in the order in which one walks round the fridge; null where the sheet does not say. */
const conditions: readonly {
  readonly name: string;
  readonly value: (sheet: RunSheet, hand: Hand) => string | null | undefined;
}[] = [
  { name: "Aufstellung", value: ({ setting }) => setting && settings[setting] },
  {
    name: "Schräglage",
    value: ({ tiltSidewaysDegrees: sideways, tiltLengthwaysDegrees: lengthways }, hand) =>
      [
        ...(sideways === undefined ? [] : [`${degrees(sideways, hand)} quer`]),
        ...(lengthways === undefined ? [] : [`${degrees(lengthways, hand)} längs`]),
      ].join(", ") || null,
  },
  { name: "aufrecht seit", value: ({ uprightSince }) => uprightSince?.replace("T", " ") },
  { name: "Energiequelle von Hand gewählt", value: ({ sourceChosenByHand: is }) => stated(is, yesOrNo) },
  { name: "Lüftungsgitter", value: (sheet) => sheet.vents && vents[sheet.vents] },
  { name: "Winterabdeckungen", value: (sheet) => sheet.ventCovers && ventCovers[sheet.ventCovers] },
  { name: "Abgaskappe", value: ({ flueCap }) => flueCap && flueCaps[flueCap] },
  { name: "Gasart", value: ({ gasKind }) => gasKind && conditionValue(gasKind) },
  {
    name: "Gasdruck",
    value: ({ gasPressureMbar: mbar }, hand) => stated(mbar, (value) => `${hand.number(value, 0)}\u00a0mbar`),
  },
  {
    name: "Höhenlage",
    value: ({ altitudeMetres: m }, hand) => stated(m, (value) => `${hand.number(value, 0)}\u00a0m`),
  },
  { name: "Flamme, Abgasrohr, Dichtheit und CO geprüft", value: ({ gasChecked: is }) => stated(is, yesOrNo) },
  { name: "Versorgung", value: ({ supplyVolts }, hand) => supplyVolts && bySource(supplyVolts, "V", hand) },
  {
    name: "Leistung gemessen",
    value: ({ measuredWatts }, hand) => measuredWatts && bySource(measuredWatts, "W", hand),
  },
  { name: "Nennleistung", value: ({ ratedWatts }, hand) => ratedWatts && bySource(ratedWatts, "W", hand) },
  { name: "Nennspannung", value: ({ ratedVolts }, hand) => ratedVolts && bySource(ratedVolts, "V", hand) },
  {
    name: "Lüfter",
    value: ({ fanInside, fanAtRear }) =>
      [
        ...(fanInside === undefined ? [] : [`innen ${yesOrNo(fanInside)}`]),
        ...(fanAtRear === undefined ? [] : [`hinten ${yesOrNo(fanAtRear)}`]),
      ].join(", ") || null,
  },
  { name: "Rippen zu Beginn", value: (sheet) => sheet.fins && fins[sheet.fins] },
  { name: "Beladung", value: ({ load }) => load && conditionValue(load) },
  { name: "Türdichtung, Papierstreifen", value: ({ sealPaperTest }) => sealPaperTest && sealTests[sealPaperTest] },
  { name: "Lampe geht aus", value: ({ lampGoesOut: is }) => stated(is, yesOrNo) },
  { name: "Regler", value: ({ dial }) => dial },
  { name: "geprüft von", value: ({ checkedBy }) => checkedBy },
];

export const testReport = {
  title: "Prüfbericht",
  serviceTitle: "Prüfbericht, vor und nach der Wartung",
  /** Of the page's tab and the PDF's window. */
  documentTitle: (title: string, fridge: string | null) => (fridge === null ? title : `${title}: ${fridge}`),
  noName: "Kühlschrank ohne Namen",
  written: (moment: string) => `Geschrieben ${moment}`,
  pageOf: (page: number, pages: number) => `Seite ${page} von ${pages}`,
  whens: { run: "Lauf", before: "davor", after: "danach" },

  kind: "Bauart",
  cabinet: "Kühlraum",
  litres: (litres: number, hand: Hand) => `${hand.number(litres, 0)}\u00a0Liter`,
  ratedHeat: "Nennleistung",
  bySource,
  aboutFridge: "zum Kühlschrank",
  runOf: (name: string, id: string | null, period: string | null) =>
    `${name}${period === null ? "" : `, ${period}`}${id === null || id === name ? "" : ` (${id})`}`,

  verdictHeading: "Urteil",
  curvesHeading: "Kurven",
  doneHeading: "Was getan und notiert wurde",
  nothingNoted: "Es wurde nichts notiert.",
  note: (when: string | null, text: string) => (when === null ? text : `${capital(when)}: ${text}`),
  noteAt: (moment: string, text: string) => `${moment}: ${text}`,
  sheetHeading: "Laufblatt",
  conditions,
  noSheet: "Es gibt kein Laufblatt.",
  noSheetOf: (when: string) => `Es gibt kein Laufblatt (${when}).`,
  notChecked: (when: string | null, items: string) => `Nicht geprüft${when === null ? "" : ` (${when})`}: ${items}.`,
  allChecked: "Alles auf der Liste wurde abgehakt.",
  differs: (before: string, after: string) => `davor ${before}, danach ${after}`,
  notStated: "nicht angegeben",

  controlHeading: "Gegenvergleich",
  noControl:
    "Kein Laufblatt nennt eine Energiequelle, an der niemand gearbeitet hat, also trennt nichts die Arbeit von der Nacht: Auch Reif, Fühler, Umgebung und Beladung können sich geändert haben.",
  untouched: (sources: readonly HeatSource[]) =>
    `Bei der Wartung blieb unberührt: ${sources.map(bareSource).join(" und ")}; was sich dort änderte, kam mit der Nacht, nicht mit der Arbeit.`,
  overControl: (source: HeatSource, control: HeatSource, e: Estimate, hand: Hand) =>
    `${capital(onSource(source))}, gemessen an ${bareSource(control)}: ${hand.brief(e)} von vorher.`,
  controlCannotTell: (source: HeatSource, control: HeatSource, why: string) =>
    `${capital(onSource(source))} lässt sich nicht an ${bareSource(control)} messen. ${why}`,

  afterHeading: "Der Kühlschrank nach der Wartung",
  lessLikely: (causes: readonly string[]) => `weniger wahrscheinlich: ${causes.join("; ")}`,
  scrapHeading: "Noch nicht bewiesen, bevor etwas weggeworfen wird",
  scrapNote:
    "Das Kühlaggregat ist unter den Ursachen, und nach einem einzigen Lauf wird keines aufgegeben. All das muss erst gezeigt sein, und dann entscheidet ein zugelassener Fachbetrieb.",
  signatures: ["Ort und Datum", "für die Werkstatt", "Kunde"] as readonly string[],

  command: {
    pdf: "auch einen Prüfbericht von ein oder zwei A4-Seiten als PDF in FILE schreiben",
    letterhead: "eigene Worte der Werkstatt oben auf dem Prüfbericht",
  },
};
