// Where cooling paused within a heated stretch, whatever the reason: cycling.ts and cooling-stopped.ts say which.

import { msPerMinute } from "../../../schema/index.ts";
import { type CoolingPhase, coolingPhases } from "../change-points.ts";
import type { Series, Stretch } from "../series.ts";
import { medianBetween } from "../smoothing.ts";

export interface CoolingPause {
  /** Row where cooling began to fail. */
  readonly from: number;
  /** Row where it began to come back; the stretch's end when it did not. */
  readonly to: number;
  readonly hasResumed: boolean;
  /** The sign of cooling before and at its least, K: the fin difference when both probes are there. */
  readonly signBefore: number;
  readonly signLeast: number;
  /** Level of the cabinet (else the evaporator) where cooling failed, °C. */
  readonly levelAtStop: number;
  /** Its highest, °C, up to where returning cold had turned it. */
  readonly levelHighest: number;
  /** Its last within the pause, °C. */
  readonly levelLast: number;
}

const levelMs = 5 * msPerMinute;
/** Cold that comes back needs so long to turn the cabinet, ms. */
const turnsMs = 20 * msPerMinute;
/** Where cooling has paused the cabinet warms: by this much at least, K, unless the pause has only just begun, ms. */
const leastWarming = 0.5;
const justBegunMs = 30 * msPerMinute;

/** So long after a switch without a pause the old source's cold still dies away: what falls then has not stopped, ms. */
const dyingAwayMs = 45 * msPerMinute;
/** Unless hardly anything is left of the sign of cooling: then the new source never took over. */
const nothingLeft = 0.12;

/** The pauses of one stretch, in order; none while it has not begun to cool. */
export function coolingPauses(series: Series, stretch: Stretch): CoolingPause[] {
  if (!stretch.heated) return [];
  const phases = coolingPhases(series, stretch.from, stretch.to);
  const begun = phases.findIndex((phase) => phase.isCooling);
  if (begun < 0) return [];
  const { cabinet, evaporator } = series.columns;
  const level = cabinet?.some(Number.isFinite) ? cabinet : (evaporator ?? new Float64Array(series.unixMs.length));
  const { unixMs } = series;
  const levelAt = (row: number) => medianBetween(unixMs, level, unixMs[row] - levelMs, unixMs[row] + levelMs, row);
  const highestIn = ({ from, to }: CoolingPhase) => {
    let highest = levelAt(from);
    for (let row = from + 1; row < stretch.to && unixMs[row] <= unixMs[to - 1] + turnsMs; row++)
      if (!(levelAt(row) <= highest)) highest = levelAt(row);
    return highest;
  };
  const hasWarmed = (phase: CoolingPhase) =>
    unixMs[phase.to - 1] - unixMs[phase.from] < justBegunMs ||
    !(levelAt(phase.to - 1) - levelAt(phase.from) < leastWarming);
  const isOldSource = (phase: CoolingPhase) =>
    stretch.startState === "switched-while-cold" &&
    unixMs[phase.from] - stretch.startMs < dyingAwayMs &&
    phase.farthest > nothingLeft * phase.before;
  return phases
    .slice(begun)
    .filter((phase) => !phase.isCooling && hasWarmed(phase) && !isOldSource(phase))
    .map((phase) => ({
      from: phase.from,
      to: phase.to,
      hasResumed: phase.to < stretch.to,
      signBefore: phase.before,
      signLeast: phase.farthest,
      levelAtStop: levelAt(phase.from),
      levelHighest: highestIn(phase),
      levelLast: medianBetween(unixMs, level, unixMs[phase.to - 1] - 2 * levelMs, unixMs[phase.to - 1], phase.to - 1),
    }));
}
