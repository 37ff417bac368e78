// A run laid out over the clock beforehand: which source from when to when, what each stretch will prove, who must be there.
//
// A person switches the sources over, never the program, so that every switch falls into the hours when someone is
// there, and a night is one electric stretch that runs through. Gas burns only then, and never between 21 and 7 o'clock.

import { type HeatSource, msPerHour } from "../../schema/index.ts";
import { leastWarmingHours, settleBeforeWarming } from "../evidence/warming-rate.ts";
import type { CautionCode } from "../sayings.ts";
import { finsAloneHours } from "../strength/comparison.ts";
import { type ChecklistItem, checklistFor } from "./checklist.ts";
import { type DayHours, DayWindow } from "./day-hours.ts";
import { type Layout, layOut, leastPauseHours, type PlannedStretch, usualPauseHours } from "./lay-out.ts";
import type { PlanReasonSaying, PlanRefusalSaying } from "./plan-sayings.ts";
import { type Proof, proofsOf } from "./proofs.ts";

export interface PlanRequest {
  /** When logging begins; the probes are in and the door is shut. */
  readonly startMs: number;
  /** When all must be over, at the latest; left out: as long as it takes. */
  readonly untilMs?: number;
  /** Sources to run, each once, in the wished order. */
  readonly sources: readonly HeatSource[];
  /** The clock beside the fridge. */
  readonly utcOffsetMinutes: number;
  /** When someone is there to switch over; 7 to 21 o'clock unless stated. */
  readonly attended?: DayHours;
  /** Sources follow each other without a pause, the boiler hot and the cabinet cold: quicker, and proves less. */
  readonly isSwitchedWhileCold?: boolean;
}

/** One part of the plan. */
export interface PlanStep {
  readonly kind: "settling" | "stretch" | "warming-back";
  /** null for the parts with the fridge off. */
  readonly source: HeatSource | null;
  readonly startMs: number;
  readonly endMs: number;
  /** Someone stays with it the whole time. */
  readonly isAttended: boolean;
  /** Runs, or warms back, while nobody is there. */
  readonly isOvernight: boolean;
  /** What the part proves, in order; only what it runs long enough for. */
  readonly proofs: readonly Proof[];
  readonly reasons: readonly PlanReasonSaying[];
  readonly cautions: readonly CautionCode[];
}

export interface RunPlan {
  readonly startMs: number;
  readonly endMs: number;
  readonly utcOffsetMinutes: number;
  readonly attended: DayHours;
  readonly isSwitchedWhileCold: boolean;
  readonly sources: readonly HeatSource[];
  readonly steps: readonly PlanStep[];
  /** What holds for the whole plan. */
  readonly reasons: readonly PlanReasonSaying[];
  readonly checklist: readonly ChecklistItem[];
}

export type PlanOutcome =
  | { readonly outcome: "planned"; readonly plan: RunPlan }
  | { readonly outcome: "refused"; readonly reason: PlanRefusalSaying };

/** Gas burns only within these hours of the day, whoever is there. CAUTIONS: nights are on electricity. */
const gasHours: DayHours = { fromHour: 7, toHour: 21 };
/** Outside these hours of the day it is night, whoever is there: begun at half past six a run is one of the day. */
const wakingHours: DayHours = { fromHour: 6, toHour: 22 };
/** The fridge off and shut shows how far the probes differ from each other, h. */
const settlingHours = 0.5;
/** Warming back for so long shows its rate, h. */
const warmingShownHours = settleBeforeWarming + leastWarmingHours;

/** Plans a run, or says why there is no plan. */
export function planRun(request: PlanRequest): PlanOutcome {
  const { startMs, untilMs, sources, utcOffsetMinutes, attended = gasHours, isSwitchedWhileCold = false } = request;
  const attendedWindow = new DayWindow(attended, utcOffsetMinutes);
  const gasWindow = new DayWindow(
    { fromHour: Math.max(attended.fromHour, gasHours.fromHour), toHour: Math.min(attended.toHour, gasHours.toHour) },
    utcOffsetMinutes,
  );
  const refused = (reason: PlanRefusalSaying): PlanOutcome => ({ outcome: "refused", reason });
  if (isSwitchedWhileCold && sources.length < 2) return refused({ code: "one-source-cannot-switch" });
  if (isSwitchedWhileCold && sources.every((source) => source === "gas"))
    return refused({ code: "no-electric-source" });
  const firstOnMs = startMs + settlingHours * msPerHour;
  const asked = { firstOnMs, sources, attended: attendedWindow, gas: gasWindow, isSwitchedWhileCold };
  const layout = layOut({ ...asked, untilMs });
  if (layout === null) {
    const unhurried = untilMs === undefined ? null : layOut(asked);
    if (unhurried !== null) {
      const hasPauses = sources.length > 1 && !isSwitchedWhileCold;
      const needed = { untilMs: endOf(unhurried), sources: sources.length, hasGas: sources.includes("gas"), hasPauses };
      return refused({ code: "needs-more-time", ...needed });
    }
    if (sources.includes("gas")) {
      return refused({ code: "gas-needs-longer-day", ...gasWindow.hours, neededHours: finsAloneHours });
    }
    return refused({ code: "nothing-fits" });
  }
  return { outcome: "planned", plan: planOf(request, layout, attended, gasWindow) };
}

const endOf = ({ stretches }: Layout) => stretches[stretches.length - 1].endMs;

/** @param gas when gas may burn. */
function planOf(request: PlanRequest, layout: Layout, attended: DayHours, gas: DayWindow): RunPlan {
  const { startMs, sources, utcOffsetMinutes, isSwitchedWhileCold = false } = request;
  const { stretches } = layout;
  const day = new DayWindow(wakingHours, utcOffsetMinutes);
  const planned = stretches.map(({ source }) => source).filter((source, i, all) => all.indexOf(source) === i);
  const isReordered = planned.some((source, i) => source !== sources[i]);
  const steps = [
    settling(startMs, stretches[0], day),
    ...stretches.flatMap((stretch, i): PlanStep[] => [
      ...(i > 0 && stretch.startMs > stretches[i - 1].endMs ? [pause(stretches[i - 1], stretch, day)] : []),
      stretchStep(stretch, i > 0 && stretch.source === stretches[0].source, day),
    ]),
  ];
  return {
    startMs,
    endMs: endOf(layout),
    utcOffsetMinutes,
    attended,
    isSwitchedWhileCold,
    sources: planned,
    steps,
    reasons: [
      ...(isReordered ? [{ code: "order-changed", asked: sources, planned } as const] : []),
      ...(sources.includes("gas") ? [{ code: "gas-by-day-only", ...gas.hours } as const] : []),
    ],
    checklist: checklistFor(sources),
  };
}

function settling(startMs: number, first: PlannedStretch, day: DayWindow): PlanStep {
  const waits = first.startMs - startMs > settlingHours * msPerHour + 1;
  return {
    kind: "settling",
    source: null,
    startMs,
    endMs: first.startMs,
    isAttended: false,
    isOvernight: isOvernight(startMs, first.startMs, day),
    proofs: [],
    reasons: [
      { code: "settling-shows-offset" },
      ...(waits ? [{ code: "waits-for-a-person", untilMs: first.startMs } as const] : []),
    ],
    cautions: [],
  };
}

function pause(before: PlannedStretch, next: PlannedStretch, day: DayWindow): PlanStep {
  const hours = (next.startMs - before.endMs) / msPerHour;
  const waits = hours > usualPauseHours + 1e-6;
  return {
    kind: "warming-back",
    source: null,
    startMs: before.endMs,
    endMs: next.startMs,
    isAttended: false,
    isOvernight: isOvernight(before.endMs, next.startMs, day),
    proofs: [],
    reasons: [
      { code: "boiler-must-cool", hours: leastPauseHours },
      ...(hours >= warmingShownHours
        ? [{ code: "warming-tells-seal-from-load", hours: warmingShownHours } as const]
        : []),
      ...(waits ? [{ code: "waits-for-a-person", untilMs: next.startMs } as const] : []),
    ],
    cautions: ["food"],
  };
}

function stretchStep(stretch: PlannedStretch, isBack: boolean, day: DayWindow): PlanStep {
  const { source, startMs, endMs, isSwitched } = stretch;
  const overnight = isOvernight(startMs, endMs, day);
  const proofs = proofsOf(startMs, isSwitched).filter(({ byMs }) => byMs <= endMs);
  const hasCurve = isSwitched || proofs.some(({ proof }) => proof === "curve");
  return {
    kind: "stretch",
    source,
    startMs,
    endMs,
    isAttended: source === "gas",
    isOvernight: overnight,
    proofs,
    reasons: [
      ...(overnight ? [{ code: "night-runs-through", source } as const] : []),
      ...(isBack ? [{ code: "back-to-the-first", source } as const] : []),
      ...(isSwitched ? [{ code: "switched-while-cold", hours: finsAloneHours } as const] : []),
      ...(hasCurve ? [] : [{ code: "curve-not-in-time", source } as const]),
    ],
    cautions: [...(overnight ? (["night"] as const) : []), source, "two-sources", "no-cold"],
  };
}

/** Whether any of it lies in the night. */
const isOvernight = (startMs: number, endMs: number, day: DayWindow) =>
  !day.holds(startMs) || endMs > day.endAfter(startMs);
