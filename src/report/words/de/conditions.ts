// German: the conditions of a run sheet and what they can be, for every sentence that speaks of them. Names stand
// without article, so that sentences can list them.

import type { RunSheet } from "../../../schema/index.ts";
import type { ConditionPair, HeatCondition, SheetCondition } from "../../../science/index.ts";
import { bySourceAs, degrees, type SheetLine, sheetMoment, stated } from "../sheet-line.ts";
import { bareSource, list, onSource } from "./names.ts";

export const conditionNames: { readonly [C in SheetCondition | HeatCondition | "dial" | "level"]: string } = {
  setting: "Aufstellung",
  load: "Beladung",
  vents: "Lüftungsgitter",
  "fan-inside": "Lüfter innen",
  "fan-at-rear": "Lüfter hinten",
  dial: "Reglerstellung",
  level: "Schräglage",
  supply: "Versorgungsspannung",
  gas: "Gasart",
  "gas-pressure": "Gasdruck",
  altitude: "Höhenlage",
};

export const settings = {
  bench: "auf der Werkbank",
  "vehicle-indoors": "im Fahrzeug, in der Halle",
  "vehicle-outdoors": "im Fahrzeug, im Freien",
  driving: "während der Fahrt",
};
export const vents = { open: "frei", "part-covered": "teilweise abgedeckt", covered: "abgedeckt" };

const values: { readonly [value: string]: string } = {
  ...settings,
  ...vents,
  empty: "leer",
  part: "teilweise voll",
  full: "voll",
  propane: "Propan",
  butane: "Butan",
  mixed: "Gemisch",
  yes: "ja",
  no: "nein",
};

/** "auf der Werkbank"; what a sheet does not say is said to be so. */
export const conditionValue = (value: string | null): string =>
  value === null ? "nicht angegeben" : (values[value] ?? value);

/** "Lüfter innen: hier ja, in den Bezugsläufen nein" */
export const conditionPair = ({ condition, here, knownGood }: ConditionPair): string =>
  `${conditionNames[condition]}: hier ${conditionValue(here)}, in den Bezugsläufen ${conditionValue(knownGood)}`;

const yesOrNo = (value: boolean) => (value ? "ja" : "nein");

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
export const bySource = bySourceAs(onSource);

/** What a run sheet says, in the order in which one walks round the fridge; null where it does not say. */
export const sheetConditions: readonly SheetLine[] = [
  { name: "Aufstellung", value: ({ setting }) => setting && settings[setting] },
  {
    name: "Schräglage",
    value: ({ tiltSidewaysDegrees: sideways, tiltLengthwaysDegrees: lengthways }, hand) =>
      [
        ...(sideways === undefined ? [] : [`${degrees(sideways, hand)} quer`]),
        ...(lengthways === undefined ? [] : [`${degrees(lengthways, hand)} längs`]),
      ].join(", ") || null,
  },
  { name: "aufrecht seit", value: ({ uprightSince: since }, hand) => stated(since, (text) => sheetMoment(text, hand)) },
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

/** The whole sheet, as a page reads it out: what reports tell elsewhere stands here too. */
export const sheetLines: readonly SheetLine[] = [
  { name: "Kühlschrank", value: ({ fridge }) => fridge },
  {
    name: "von der Wartung nicht berührt",
    value: ({ untouchedSources: untouched }) => untouched && list(untouched.map(bareSource)),
  },
  ...sheetConditions,
  { name: "Notizen", value: ({ notes }) => notes },
];
