// What is checked at the fridge before a run, each with the caution that belongs to it. An item is ticked when the run
// sheet has its fields; what is not ticked is told on the report.

import { type HeatSource, heatSources, type RunSheet } from "../../schema/index.ts";
import type { CautionCode } from "../sayings.ts";

/** The items, in the order in which one walks round the fridge. */
export const checklistCodes = [
  "tilt",
  "upright-since",
  "source-by-hand",
  "vents",
  "vent-covers",
  "flue-cap",
  "gas-kind",
  "gas-checked",
  "mains-volts",
  "dc12-volts",
  "fans",
  "fins",
  "load",
  "seal",
  "lamp",
  "dial",
  "checked-by",
] as const;
export type ChecklistCode = (typeof checklistCodes)[number];

/** A check and its cautions in one object, so that no face can show one without the other. */
export interface ChecklistItem {
  readonly item: ChecklistCode;
  /** Where the run sheet keeps it, as `coldfall sheet` names the fields. */
  readonly fields: readonly string[];
  readonly cautions: readonly CautionCode[];
}

/** What to check before a run on these sources. */
export const checklistFor = (sources: readonly HeatSource[]): readonly ChecklistItem[] =>
  rowsFor(sources).map(({ item, fields, cautions }) => ({ item, fields, cautions: cautions(sources) }));

/**
 * What the run sheet leaves open.
 *
 * @param sheet null: there is none, and everything is open.
 * @param sources those the run used.
 */
export const uncheckedItems = (
  sheet: RunSheet | null,
  sources: readonly HeatSource[] = heatSources,
): readonly ChecklistItem[] =>
  rowsFor(sources)
    .filter(({ isTicked }) => !isTicked(sheet ?? {}))
    .map(({ item, fields, cautions }) => ({ item, fields, cautions: cautions(sources) }));

interface ChecklistRow {
  readonly item: ChecklistCode;
  readonly fields: readonly string[];
  readonly isTicked: (sheet: RunSheet) => boolean;
  readonly cautions: (sources: readonly HeatSource[]) => readonly CautionCode[];
  /** The one source it belongs to; all when left out. */
  readonly only?: HeatSource;
}

const rowsFor = (sources: readonly HeatSource[]) =>
  checklistCodes.map((item) => rows[item]).filter(({ only }) => only === undefined || sources.includes(only));

/** Those of some cautions that belong to a source which is run. */
const ofSources =
  (always: readonly CautionCode[], mayBe: readonly HeatSource[] = []) =>
  (sources: readonly HeatSource[]): readonly CautionCode[] => [
    ...always,
    ...mayBe.filter((source) => sources.includes(source)),
  ];

const isGiven = (...values: readonly unknown[]) => values.every((value) => value !== undefined);

const rows: { readonly [C in ChecklistCode]: ChecklistRow } = {
  tilt: {
    item: "tilt",
    fields: ["tiltSidewaysDegrees", "tiltLengthwaysDegrees"],
    isTicked: (sheet) => isGiven(sheet.tiltSidewaysDegrees, sheet.tiltLengthwaysDegrees),
    cautions: ofSources(["no-cold"]),
  },
  "upright-since": {
    item: "upright-since",
    fields: ["uprightSince"],
    isTicked: (sheet) => isGiven(sheet.uprightSince),
    cautions: ofSources(["no-cold", "cooling-unit"]),
  },
  "source-by-hand": {
    item: "source-by-hand",
    fields: ["sourceChosenByHand"],
    // "No" is no tick: the sources of such a run are found from the curves, not told.
    isTicked: (sheet) => sheet.sourceChosenByHand === true,
    cautions: ofSources(["night", "two-sources"]),
  },
  vents: {
    item: "vents",
    fields: ["vents"],
    isTicked: (sheet) => isGiven(sheet.vents),
    cautions: ofSources([], ["gas"]),
  },
  "vent-covers": {
    item: "vent-covers",
    fields: ["ventCovers"],
    isTicked: (sheet) => isGiven(sheet.ventCovers),
    cautions: ofSources([], ["gas"]),
  },
  "flue-cap": {
    item: "flue-cap",
    fields: ["flueCap"],
    isTicked: (sheet) => isGiven(sheet.flueCap),
    cautions: ofSources(["gas"]),
    only: "gas",
  },
  "gas-kind": {
    item: "gas-kind",
    fields: ["gasKind"],
    isTicked: (sheet) => isGiven(sheet.gasKind),
    cautions: ofSources(["gas"]),
    only: "gas",
  },
  "gas-checked": {
    item: "gas-checked",
    fields: ["gasChecked"],
    isTicked: (sheet) => sheet.gasChecked === true,
    cautions: ofSources(["gas"]),
    only: "gas",
  },
  "mains-volts": {
    item: "mains-volts",
    fields: ["supplyVolts"],
    isTicked: (sheet) => isGiven(sheet.supplyVolts?.mains),
    cautions: ofSources(["mains"]),
    only: "mains",
  },
  "dc12-volts": {
    item: "dc12-volts",
    fields: ["supplyVolts"],
    isTicked: (sheet) => isGiven(sheet.supplyVolts?.dc12),
    cautions: ofSources(["dc12"]),
    only: "dc12",
  },
  fans: {
    item: "fans",
    fields: ["fanInside", "fanAtRear"],
    isTicked: (sheet) => isGiven(sheet.fanInside, sheet.fanAtRear),
    cautions: ofSources([], ["gas", "mains", "dc12"]),
  },
  fins: {
    item: "fins",
    fields: ["fins"],
    isTicked: (sheet) => isGiven(sheet.fins),
    cautions: ofSources(["cooling-unit"]),
  },
  load: {
    item: "load",
    fields: ["load"],
    isTicked: (sheet) => isGiven(sheet.load),
    cautions: ofSources(["food"]),
  },
  seal: {
    item: "seal",
    fields: ["sealPaperTest"],
    isTicked: (sheet) => isGiven(sheet.sealPaperTest),
    cautions: ofSources([]),
  },
  lamp: {
    item: "lamp",
    fields: ["lampGoesOut"],
    isTicked: (sheet) => isGiven(sheet.lampGoesOut),
    cautions: ofSources([]),
  },
  dial: {
    item: "dial",
    fields: ["dial"],
    isTicked: (sheet) => isGiven(sheet.dial),
    cautions: ofSources([]),
  },
  "checked-by": {
    item: "checked-by",
    fields: ["checkedBy"],
    isTicked: (sheet) => isGiven(sheet.checkedBy),
    cautions: ofSources([]),
  },
};
