// English: the conditions of a run sheet and what they can be, for every sentence that speaks of them.

import type { RunSheet } from "../../../schema/index.ts";
import type { ConditionPair, HeatCondition, SheetCondition } from "../../../science/index.ts";
import { capital } from "../phrasing.ts";
import { bySourceAs, degrees, type SheetLine, sheetMoment, stated } from "../sheet-line.ts";
import { bareSource, list } from "./names.ts";

export const conditionNames: { readonly [C in SheetCondition | HeatCondition | "dial" | "level"]: string } = {
  setting: "the setting",
  load: "the load",
  vents: "the vents",
  "fan-inside": "a fan inside",
  "fan-at-rear": "a fan at the rear",
  dial: "the dial",
  level: "how level it stood",
  supply: "the supply voltage",
  gas: "the kind of gas",
  "gas-pressure": "the gas pressure",
  altitude: "the altitude",
};

export const settings = {
  bench: "on the bench",
  "vehicle-indoors": "in the vehicle, indoors",
  "vehicle-outdoors": "in the vehicle, outdoors",
  driving: "driving",
} as const;
export const vents = { open: "open", "part-covered": "partly covered", covered: "covered" } as const;

const values: { readonly [value: string]: string } = { ...settings, ...vents, part: "partly full" };

/** "on the bench"; what a sheet does not say is said to be so. */
export const conditionValue = (value: string | null): string =>
  value === null ? "not stated" : (values[value] ?? value);

/** "A fan inside: yes here, no in the known-good runs". */
export const conditionPair = ({ condition, here, knownGood }: ConditionPair): string =>
  `${capital(conditionNames[condition].replace(/^the /, ""))}: ${conditionValue(here)} here, ${conditionValue(knownGood)} in the known-good runs`;

const yesOrNo = (value: boolean) => (value ? "yes" : "no");

const sealTests: { readonly [S in NonNullable<RunSheet["sealPaperTest"]>]: string } = {
  drags: "drags all round",
  slips: "slips somewhere",
};

/** "gas 170 W, mains 135 W" */
export const bySource = bySourceAs(bareSource);

/** What a run sheet says, in the order in which one walks round the fridge; null where it does not say. */
export const sheetConditions: readonly SheetLine[] = [
  { name: "stood", value: ({ setting }) => setting && settings[setting] },
  {
    name: "tilt",
    value: ({ tiltSidewaysDegrees: sideways, tiltLengthwaysDegrees: lengthways }, hand) =>
      [
        ...(sideways === undefined ? [] : [`${degrees(sideways, hand)} sideways`]),
        ...(lengthways === undefined ? [] : [`${degrees(lengthways, hand)} lengthways`]),
      ].join(", ") || null,
  },
  { name: "upright since", value: ({ uprightSince: since }, hand) => stated(since, (text) => sheetMoment(text, hand)) },
  { name: "source chosen by hand", value: ({ sourceChosenByHand: is }) => stated(is, yesOrNo) },
  { name: "vents", value: (sheet) => sheet.vents && vents[sheet.vents] },
  { name: "vent covers", value: ({ ventCovers }) => ventCovers },
  { name: "flue cap", value: ({ flueCap }) => flueCap },
  { name: "gas", value: ({ gasKind }) => gasKind },
  {
    name: "gas pressure",
    value: ({ gasPressureMbar: mbar }, hand) => stated(mbar, (value) => `${hand.number(value, 0)}\u00a0mbar`),
  },
  { name: "altitude", value: ({ altitudeMetres: m }, hand) => stated(m, (value) => `${hand.number(value, 0)}\u00a0m`) },
  { name: "flame, flue, leaks and CO checked", value: ({ gasChecked: is }) => stated(is, yesOrNo) },
  { name: "supply", value: ({ supplyVolts }, hand) => supplyVolts && bySource(supplyVolts, "V", hand) },
  { name: "heat measured", value: ({ measuredWatts }, hand) => measuredWatts && bySource(measuredWatts, "W", hand) },
  { name: "rated heat", value: ({ ratedWatts }, hand) => ratedWatts && bySource(ratedWatts, "W", hand) },
  { name: "rated supply", value: ({ ratedVolts }, hand) => ratedVolts && bySource(ratedVolts, "V", hand) },
  {
    name: "fans",
    value: ({ fanInside, fanAtRear }) =>
      [
        ...(fanInside === undefined ? [] : [`inside ${yesOrNo(fanInside)}`]),
        ...(fanAtRear === undefined ? [] : [`at the rear ${yesOrNo(fanAtRear)}`]),
      ].join(", ") || null,
  },
  { name: "fins at the start", value: ({ fins }) => fins },
  { name: "load", value: ({ load }) => load && conditionValue(load) },
  { name: "door seal, strip of paper", value: ({ sealPaperTest }) => sealPaperTest && sealTests[sealPaperTest] },
  { name: "lamp goes out", value: ({ lampGoesOut: is }) => stated(is, yesOrNo) },
  { name: "dial", value: ({ dial }) => dial },
  { name: "checked by", value: ({ checkedBy }) => checkedBy },
];

/** The whole sheet, as a page reads it out: what reports tell elsewhere stands here too. */
export const sheetLines: readonly SheetLine[] = [
  { name: "fridge", value: ({ fridge }) => fridge },
  {
    name: "not touched by the service",
    value: ({ untouchedSources: untouched }) => untouched && list(untouched.map(bareSource)),
  },
  ...sheetConditions,
  { name: "notes", value: ({ notes }) => notes },
];
