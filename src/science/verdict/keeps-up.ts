// Does it keep up: the settled cabinet temperature, as the runs had it and on a hot day. A separate statement from the
// verdict: a sound fridge can be too small for the heat, and a weak one can still do on a cool day.

import type { HeatSource } from "../../schema/index.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import type { KeepsUpFinding } from "../findings.ts";
import { coolestAmbient, type DepthLaw, depthAt, depthLaw, nightlyDepth } from "../hot-days/depth-law.ts";
import { depthAtLeast, heldTemperature } from "../hot-days/stretch-depth.ts";
import { type Estimate, estimate, type Unknown, unknown } from "../numbers/estimate.ts";
import type { ReasonSaying, UnknownSaying } from "../sayings.ts";
import type { WitnessSpread } from "../strength/witness-spread.ts";

const hotAmbient = 32;

/** Runs this close to an ambient speak of it, K; beyond, the law is carried on. */
export const reachOfRuns = 3;

/** The food limit that predictions are held against, °C; its sources stand in src/report/words. */
export const foodLimit = 8;

/** Whether an ambient, °C, is so far from those of the runs that the law is carried on to it. */
export const isBeyond = ({ coolest, warmest }: DepthLaw, ambient: number): boolean =>
  ambient > warmest + reachOfRuns || ambient < coolest - reachOfRuns;

/**
 * Kelvin below ambient that three-way fridges in order reach in the cabinet: 20 to 25 at the least, 28 to 30 a good one.
 * Common practice, no source.
 */
const usualDepth = { low: 20, good: 28 } as const;

/**
 * @param stretches all heated stretches of one source in the given runs.
 * @param spread how much the cooling differs from night to night, as the known-good runs of any source tell.
 * @param baseline `generic` where no known-good run of this source was given: the depth is then held against the usual one.
 */
export function keepsUp(
  source: HeatSource | null,
  stretches: readonly StretchEvidence[],
  spread: WitnessSpread,
  baseline: "own" | "kind" | "generic",
): KeepsUpFinding {
  const law = depthLaw(stretches, nightlyDepth(spread, stretches));
  const held = newestHeld(stretches);
  if (law === null) {
    const why = noDepth(stretches);
    return { source, settledHere: held ?? why, settledAt32: why, baseline: "none", reasons: [] };
  }
  return {
    source,
    settledHere: held ?? settledAt(law, null, law.meanAmbient),
    settledAt32: settledAt(law, held, hotAmbient),
    baseline,
    reasons: [
      ...lawReasons(law, hotAmbient),
      ...(held === null ? [] : [{ code: "at-least" } as const]),
      ...(baseline === "generic" ? againstUsual(law) : []),
    ],
  };
}

/** Where the depth lies in the usual range, and what that cannot see. */
function againstUsual(law: DepthLaw): ReasonSaying[] {
  const { depth, error } = depthAt(law, law.meanAmbient);
  const { low, good } = usualDepth;
  const side = depth - 2 * error >= low ? "above" : depth + 2 * error < low ? "below" : "across";
  return [
    { code: "usual-depth", belowAmbient: depth, ambient: law.meanAmbient, low, good, side },
    { code: "usual-depth-cannot-see" },
  ];
}

/**
 * Predicted settled cabinet temperature, °C, as the fridge ran: under full cooling, but no colder than its dial held it.
 *
 * @param held what the thermostat held; null where it did not cycle.
 */
export function settledAt(law: DepthLaw, held: Estimate | null, ambient: number): Estimate {
  const { depth, error } = depthAt(law, ambient);
  const full = estimate("Cel", ambient - depth, ambient - depth - 2 * error, ambient - depth + 2 * error, {
    standardError: error,
  });
  if (held === null) return full;
  const warmer = (a: number | null, b: number | null) => (a === null || b === null ? null : Math.max(a, b));
  return estimate("Cel", Math.max(full.value, held.value), warmer(full.low, held.low), warmer(full.high, held.high));
}

/** What the dial held when the source last ran; null when it did not hold it back. */
export function newestHeld(stretches: readonly StretchEvidence[]): Estimate | null {
  const newest = stretches.toSorted((a, b) => b.stretch.startMs - a.stretch.startMs);
  return newest.map(heldTemperature).find((answer) => answer !== null) ?? null;
}

/** Why these stretches hold no depth. */
export function noDepth(stretches: readonly StretchEvidence[]): Unknown {
  const warm = stretches.filter((stretch) => stretch.ambient >= coolestAmbient);
  const [first] = stretches;
  const goods = slowedByGoods(warm);
  if (goods !== null) return goods;
  return warm.length === 0 && first !== undefined && Number.isFinite(first.ambient)
    ? unknown({ code: "ambient-too-low", ambient: first.ambient, needed: coolestAmbient })
    : unknown(startedCold(stretches) ?? { code: "not-settled" });
}

/** Goods that may still have cooled: of these stretches the one that came deepest tells the most. */
export function slowedByGoods(stretches: readonly StretchEvidence[]): Unknown | null {
  const seen = stretches.flatMap((stretch) => {
    const belowAmbient = depthAtLeast(stretch);
    return belowAmbient === null ? [] : [{ belowAmbient, ambient: stretch.ambient }];
  });
  if (seen.length === 0) return null;
  const deepest = seen.reduce((best, one) => (one.belowAmbient > best.belowAmbient ? one : best));
  return unknown({ code: "goods-may-have-cooled", ...deepest });
}

/** Where every stretch began too cold for a fall to fit, that is the reason, and the same as is told of its numbers. */
function startedCold(stretches: readonly StretchEvidence[]): UnknownSaying | null {
  const whys = stretches.flatMap(({ fitted }) => ("why" in fitted ? [fitted.why] : []));
  const isEvery = whys.length === stretches.length && whys.every(({ code }) => code === "starts-settled");
  return isEvery ? (whys[0] ?? null) : null;
}

/** What a prediction at an ambient rests on. */
function lawReasons(law: DepthLaw, ambient: number): ReasonSaying[] {
  const { points, meanAmbient, meanDepth, slope, slopeError, warmest } = law;
  const isSeen = points.some((point) => point.from !== "fit");
  return [
    {
      code: isSeen ? "settled-from" : "settled-projected",
      stretches: points.length,
      belowAmbient: meanDepth,
      ambient: meanAmbient,
    },
    ...(law.isOwnSlope ? [] : [{ code: "slope-default", kelvinPerKelvin: slope, standardError: slopeError } as const]),
    ...(ambient - warmest > reachOfRuns
      ? [{ code: "extrapolated", fromAmbient: warmest, toAmbient: ambient } as const]
      : []),
  ];
}
