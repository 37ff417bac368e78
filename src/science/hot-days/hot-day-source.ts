// One source at one ambient: the settled cabinet, the warmest ambient that still holds 8 °C, the time from warm to cold.

import type { HeatSource } from "../../schema/index.ts";
import { type Answer, type Estimate, estimate, type Unknown, unknown } from "../numbers/estimate.ts";
import { foodLimit, isBeyond, noDepth, reachOfRuns, settledAt } from "../verdict/keeps-up.ts";
import type { MarchStep } from "./cabinet-march.ts";
import { climateClasses } from "./climate-classes.ts";
import { bendsFrom, coolestAmbient, type DepthLaw, depthAt } from "./depth-law.ts";
import { ownShareOfHeat, type SourceNumbers } from "./fridge-numbers.ts";
import type { ComparedClass, DepthCurve, HotDaySource } from "./hot-day-findings.ts";
import { type MarchSetting, marchAll } from "./hot-day-marches.ts";
import type { HotDayReasonSaying } from "./hot-day-sayings.ts";
import { hoursUntil } from "./march-band.ts";
import { notRun } from "./trip.ts";

/** @param ambient °C; a source that did not run, or shows no depth, comes with the reason in place of its numbers */
export function sourceOnHotDay(source: HeatSource | null, ambient: number, setting: MarchSetting): HotDaySource {
  const own = setting.fridge.sources.get(source);
  if (own === undefined) return withoutDepth(source, notRun(source), null);
  if (own.law === null) return withoutDepth(source, noDepth(own.stretches), own.held);
  const { law, held } = own;
  const { depth, error } = depthAt(law, ambient);
  return {
    source,
    settled: settledAt(law, held, ambient),
    belowAmbient: estimate("K", depth, Math.max(0, depth - 2 * error), depth + 2 * error, { standardError: error }),
    warmestAmbientFor8: warmestFor8(law, held),
    hoursUntil8: source === null ? unknown({ code: "source-unknown" }) : untilCold(source, ambient, setting),
    slope: estimate("1", law.slope, law.slope - 2 * law.slopeError, law.slope + 2 * law.slopeError, {
      standardError: law.slopeError,
    }),
    isOwnSlope: law.isOwnSlope,
    isExtrapolated: isBeyond(law, ambient),
    points: law.points,
    curve: depthCurve(law, ambient),
    classes: climateClasses.map((one): ComparedClass => {
      const settled = settledAt(law, held, one.warmest);
      return { ...one, settled, holds8: holds8(settled) };
    }),
    reasons: [...sourceReasons(own, law, ambient), ...loadReasons(setting)],
  };
}

function withoutDepth(source: HeatSource | null, why: Unknown, held: Estimate | null): HotDaySource {
  return {
    source,
    settled: why,
    belowAmbient: why,
    warmestAmbientFor8: why,
    hoursUntil8: why,
    slope: why,
    isOwnSlope: false,
    isExtrapolated: false,
    points: [],
    curve: null,
    classes: [],
    reasons: held === null ? [] : [{ code: "dial-held", estimate: held }],
  };
}

function holds8({ low, high }: Estimate): ComparedClass["holds8"] {
  if (high !== null && high <= foodLimit) return "yes";
  return low !== null && low > foodLimit ? "no" : "undecided";
}

/** Ambients that are looked at, °C. */
const [leastAmbient, mostAmbient] = [10, 50];
const stepsPerKelvin = 10;

/** The warmest ambient at which the settled cabinet is still at 8 °C; an end that is not met by 50 °C stays open. */
function warmestFor8(law: DepthLaw, held: Estimate | null): Answer {
  const settled = Array.from({ length: (mostAmbient - leastAmbient) * stepsPerKelvin + 1 }, (_, i) => {
    const ambient = leastAmbient + i / stepsPerKelvin;
    return { ambient, ...settledAt(law, held, ambient) };
  });
  const last = (end: "value" | "low" | "high") => {
    const first = settled.findIndex((one) => !((one[end] ?? Number.NaN) <= foodLimit));
    return first < 0 ? "any" : first === 0 ? "none" : settled[first - 1].ambient;
  };
  const value = last("value");
  if (value === "any") return unknown({ code: "holds-at-any", celsius: foodLimit, ambient: mostAmbient });
  if (value === "none") return unknown({ code: "holds-at-none", celsius: foodLimit, ambient: leastAmbient });
  const [low, high] = [last("high"), last("low")];
  return estimate("Cel", value, typeof low === "number" ? low : null, typeof high === "number" ? high : null);
}

function depthCurve(law: DepthLaw, asked: number): DepthCurve {
  const from = Math.floor(Math.min(law.coolest, asked, 20)) - 1;
  const to = Math.ceil(Math.max(law.warmest, asked, 35)) + 2;
  const ambient = Float64Array.from({ length: 2 * (to - from) + 1 }, (_, i) => from + i / 2);
  const at = Array.from(ambient, (celsius) => depthAt(law, celsius));
  return {
    ambient,
    depth: Float64Array.from(at, ({ depth }) => depth),
    low: Float64Array.from(at, ({ depth, error }) => Math.max(0, depth - 2 * error)),
    high: Float64Array.from(at, ({ depth, error }) => depth + 2 * error),
    seenFrom: law.coolest - reachOfRuns,
    seenTo: law.warmest + reachOfRuns,
  };
}

function sourceReasons(own: SourceNumbers, law: DepthLaw, ambient: number): HotDayReasonSaying[] {
  const { points, meanDepth, meanAmbient, slope, slopeError, coolest, warmest } = law;
  const cold = own.stretches.filter((one) => one.ambient < coolestAmbient).length;
  const exhausts = own.stretches.map((one) => one.ambientError).filter((error) => error > 0);
  return [
    { code: "runs-settled", stretches: points.length, belowAmbient: meanDepth, ambient: meanAmbient },
    ...(exhausts.length === 0
      ? []
      : [{ code: "exhaust-on-probe", stretches: exhausts.length, error: Math.max(...exhausts) } as const]),
    ...(points.some(({ from }) => from === "duty") ? [{ code: "from-duty" } as const] : []),
    { code: law.isOwnSlope ? "slope-of-its-own" : "slope-usual", perKelvin: slope, standardError: slopeError },
    ...(ambient > bendsFrom ? [{ code: "bends-when-hot", fromAmbient: bendsFrom } as const] : []),
    ...(own.held === null ? [] : [{ code: "dial-held", estimate: own.held } as const]),
    ...(isBeyond(law, ambient) ? [{ code: "beyond-runs", coolest, warmest, ambient } as const] : []),
    ...(cold === 0 ? [] : [{ code: "cold-runs-left-out", runs: cold, below: coolestAmbient } as const]),
  ];
}

/** What goods put in at the start do; a trip says the same. */
const loadReasons = ({ fridge, load }: MarchSetting): HotDayReasonSaying[] =>
  load === null ? [] : [{ code: "load-allowed", ...load, ownShare: ownShareOfHeat(load, fridge.warming.value) }];

/** Switched on with all at ambient: long enough for any fridge that gets there, h. */
const longestPullDown = 72;
const stepsPerHour = 6;

function untilCold(source: HeatSource, ambient: number, setting: MarchSetting): Answer {
  const steps = Array.from(
    { length: longestPullDown * stepsPerHour + 1 },
    (_, i): MarchStep => ({ hours: i / stepsPerHour, ambient, source, sun: false, driving: false }),
  );
  const marches = marchAll(steps, { kind: "ambient", celsius: ambient, isCooling: false }, setting);
  const [middle] = marches;
  const settles = middle[middle.length - 1];
  const never = { code: "never-crosses", celsius: foodLimit, settles, falling: middle[0] > foodLimit } as const;
  return hoursUntil(foodLimit, steps, marches) ?? unknown(never);
}
