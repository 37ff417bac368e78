// The conditions that the run sheets of two runs state, apart from what feeds the heat (gas-heat.ts, heat-law.ts): a
// difference leaves either witness of cooling open by so much, silences one of them, or leaves nothing to compare.
//
// The widths are those of this project's simulated fridges (twelve random ones at 25 °C; how they were found stands in
// DEVELOPERS.md, "What a stated condition leaves open"). No published source was found for any of them.

import { type HeatSource, heatSources, type RunSheet } from "../../schema/index.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import type { Unknown } from "../numbers/estimate.ts";
import type { ConditionEffect, ReasonSaying, SheetCondition } from "../sayings.ts";

/** What is left open of the logarithms of cooling by slope and by fins, standard deviations. */
interface Open {
  readonly slope: number;
  readonly fins: number;
}

/** A silenced witness may not speak; what the other one then leaves open stands beside it. */
type Effect = Open | { readonly silent: "slope" | "fins"; readonly open: Open } | "refused";

interface Condition {
  readonly code: SheetCondition;
  /** null: the sheet does not say. */
  readonly of: (sheet: RunSheet | null) => string | null;
  /** @param warmest ambient of the two runs, °C; NaN where neither shows one. */
  readonly differs: (values: readonly (string | null)[], warmest: number) => Effect;
  /** One side states it, the other says nothing. */
  readonly oneSided: Open;
}

const open = (slope: number, fins: number): Open => ({ slope, fins });
/** Nobody writes down the fan that was not there. */
const yes = (value: boolean | undefined) => (value === true ? "yes" : "no");

/**
 * Less air to the unit costs a tenth on a cool day and a third on one above 32 °C: common practice, no source; simulated fridges in
 * a shaft that passes 60 % of the air lose as much at 34 °C, and in one that passes half, half of it at 38 °C: beyond 36 °C no
 * width is honest. The fan's own 5 % hold up to 25 °C.
 */
const airway = (warmest: number): Effect => {
  if (warmest > 36) return "refused";
  const share = 0.05 + 0.015 * Math.max(0, Math.min(10, warmest - 25) || 0);
  return open(share, share);
};

const conditions: readonly Condition[] = [
  {
    code: "setting",
    of: (sheet) => sheet?.setting ?? null,
    // Driving shakes, tilts and fans the unit from minute to minute: no width for that is honest. Elsewhere a fridge built in
    // feels the room: 4 K of room over vent air move the slope by 9 % and the fins by 2 %, a third less air 3 and 4 %.
    differs: (values) =>
      values.includes("driving")
        ? "refused"
        : values.includes("vehicle-outdoors")
          ? open(0.09, 0.04)
          : open(0.05, 0.04),
    oneSided: open(0.05, 0.04),
  },
  {
    code: "load",
    of: (sheet) => sheet?.load ?? null,
    // Warm goods lower the slope by a quarter, cold ones raise it as much; the fins move by 4 to 7 %.
    differs: () => ({ silent: "slope", open: open(0, 0.05) }),
    oneSided: open(0.08, 0.03),
  },
  {
    code: "vents",
    of: (sheet) => sheet?.vents ?? null,
    // Two thirds of the air cost 4 %; much less air 13 % on a mild day and half of the cooling on a hot one.
    differs: (values, warmest) => (values.includes("covered") ? "refused" : airway(warmest)),
    oneSided: open(0.03, 0.03),
  },
  {
    code: "fan-inside",
    of: (sheet) => yes(sheet?.fanInside),
    // It halves the fin difference and hardly moves the slope (under 1 %); its own watts and the mixed air come on top.
    differs: () => ({ silent: "fins", open: open(0.04, 0) }),
    oneSided: open(0, 0),
  },
  {
    code: "fan-at-rear",
    of: (sheet) => yes(sheet?.fanAtRear),
    differs: (_, warmest) => airway(warmest),
    oneSided: open(0, 0),
  },
];

/** Of a standard deviation, 95 %. */
const reach = 2;

/** How the sheets of two runs bear on comparing them. */
export interface SheetReference {
  /** Variance of ln(cooling) by either witness; null where it may not speak. */
  readonly slope: number | null;
  readonly fins: number | null;
  readonly reasons: readonly ReasonSaying[];
}

/** For two runs of one service job, whose differing conditions are told and weighed by before-after/ itself. */
export const asTheyRan = (): SheetReference => ({ slope: 0, fins: 0, reasons: [] });

/**
 * @param warmest ambient of the two runs, °C; NaN where neither shows one
 * @returns the reason where the two cannot be compared at all
 */
export function referSheets(here: RunSheet | null, there: RunSheet | null, warmest: number): SheetReference | Unknown {
  let slope = 0;
  let fins = 0;
  const silent = new Set<"slope" | "fins">();
  const reasons: ReasonSaying[] = [];
  for (const { code, of, differs, oneSided } of conditions) {
    const values = [of(here), of(there)] as const;
    if (values[0] === values[1]) continue;
    const effect = differs(values, warmest);
    // What nobody would leave unsaid (driving, covered vents) differs from silence too.
    const isOneSided = values.includes(null) && effect !== "refused";
    const told = { condition: code, here: values[0], knownGood: values[1] } as const;
    if (effect === "refused") return { why: { code: "conditions-differ", ...told } };
    const width = isOneSided ? oneSided : "silent" in effect ? effect.open : effect;
    slope += width.slope ** 2;
    fins += width.fins ** 2;
    if (!isOneSided && "silent" in effect) silent.add(effect.silent);
    if (silent.size === 2) return { why: { code: "conditions-differ", ...told } };
    const shares = { slopeShare: reach * width.slope, finShare: reach * width.fins };
    reasons.push({ code: "condition-differs", ...told, effect: isOneSided ? "wider" : effectOf(effect), ...shares });
  }
  return { slope: silent.has("slope") ? null : slope, fins: silent.has("fins") ? null : fins, reasons };
}

/** What a difference between two values of a condition does to a comparison. What one dial's words mean nobody knows: it is told. */
export function effectOfDifference(code: SheetCondition | "dial", here: string, there: string): ConditionEffect {
  const condition = conditions.find((one) => one.code === code);
  return condition === undefined ? "told" : effectOf(condition.differs([here, there], Number.NaN));
}

const effectOf = (effect: Effect): ConditionEffect =>
  effect === "refused" ? "refused" : "silent" in effect ? `${effect.silent}-silent` : "wider";

/** What neither side states, said once: the conditions that this source feels, and that are taken as equal. */
export function takenEqual(test: StretchEvidence, knownGood: readonly StretchEvidence[]): readonly ReasonSaying[] {
  const runs = [test, ...knownGood];
  const unsaid = silences.filter(
    ({ feels, isSaid }) =>
      test.source !== null && feels.includes(test.source) && !runs.some((run) => isSaid(run.run.recording.sheet, run)),
  );
  return unsaid.length === 0 ? [] : [{ code: "conditions-taken-equal", conditions: unsaid.map(({ code }) => code) }];
}

interface Silence {
  readonly code: Extract<ReasonSaying, { code: "conditions-taken-equal" }>["conditions"][number];
  readonly feels: readonly HeatSource[];
  readonly isSaid: (sheet: RunSheet | null, run: StretchEvidence) => boolean;
}

const electric = ["mains", "dc12"] as const;
const silences: readonly Silence[] = [
  { code: "setting", feels: heatSources, isSaid: (sheet) => sheet?.setting !== undefined },
  { code: "level", feels: heatSources, isSaid: (sheet) => sheet?.tiltSidewaysDegrees !== undefined },
  { code: "dial", feels: heatSources, isSaid: (sheet) => sheet?.dial !== undefined },
  { code: "load", feels: heatSources, isSaid: (sheet) => sheet?.load !== undefined },
  { code: "vents", feels: heatSources, isSaid: (sheet) => sheet?.vents !== undefined },
  { code: "supply", feels: electric, isSaid: (_, { supplyVolts }) => supplyVolts !== null },
  { code: "gas", feels: ["gas"], isSaid: (sheet) => sheet?.gasKind !== undefined },
  { code: "gas-pressure", feels: ["gas"], isSaid: (sheet) => sheet?.gasPressureMbar !== undefined },
  { code: "altitude", feels: ["gas"], isSaid: (sheet) => sheet?.altitudeMetres !== undefined },
];
