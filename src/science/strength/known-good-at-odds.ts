// Known-good runs that contradict each other: one of them was not good, or something differed that nobody told.

import type { HeatSource } from "../../schema/index.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import { isUntold } from "./night-spread.ts";
import type { Strength } from "./strength.ts";
import { finWeight, joinedNight, priorSpread, witnessLogs } from "./witness-spread.ts";

/** Two known-good logs of one source, and ln(cooling) of either over the mean of all. */
export interface AtOdds {
  readonly source: HeatSource;
  readonly stronger: { readonly log: string; readonly overMean: number };
  readonly weaker: { readonly log: string; readonly overMean: number };
}

/**
 * Nights of a fridge in order lie within a third of each other, where nobody tells the volts within two fifths: of 500 simulated
 * fridges, half of them with heat that varies by 5 % and volts by 3.5 %, none passes that.
 */
const leastApart = { told: Math.log(3 / 2), untold: Math.log(5 / 3) };
/** Times the standard deviation of what readings and references leave open. */
const beyondReadings = 3;

/** The strongest and the weakest known-good run of each source where nights do not explain what lies between them. */
export function knownGoodAtOdds(knownGood: ReadonlyMap<HeatSource, readonly StretchEvidence[]>): readonly AtOdds[] {
  return [...knownGood].flatMap(([source, [first, ...others]]) => {
    const weight = finWeight(priorSpread);
    const compared = others.flatMap((other) => {
      const logs = witnessLogs(other, first);
      return logs === null ? [] : [{ name: other.run.log, ...joinedNight(logs, weight) }];
    });
    const all = [{ name: first.run.log, log: 0, open: 0 }, ...compared].sort((a, b) => a.log - b.log);
    const [weakest, strongest] = [all[0], all[all.length - 1]];
    const apart = strongest.log - weakest.log;
    const mean = all.reduce((sum, { log }) => sum + log, 0) / all.length;
    const overMean = ({ name, log }: (typeof all)[number]) => ({ log: name, overMean: log - mean });
    const least = [first, ...others].every(isUntold) ? leastApart.untold : leastApart.told;
    const isApart = apart > Math.max(least, beyondReadings * Math.sqrt(strongest.open + weakest.open));
    return isApart ? [{ source, stronger: overMean(strongest), weaker: overMean(weakest) }] : [];
  });
}

/** Held against either of them, where it is not known which was good. */
export const againstEither = (strength: Strength, { stronger, weaker }: AtOdds): Strength => ({
  ...strength,
  below: strength.below + stronger.overMean,
  above: strength.above - weaker.overMean,
});
