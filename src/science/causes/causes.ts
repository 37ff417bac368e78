// First causes: what would have to be wrong for the observations to come out as they did. One cause at a time is
// assumed; each is weighed by how well it explains strength, onset and warming back of every source together.

import { type HeatSource, heatSources } from "../../schema/index.ts";
import { isLamp } from "../evidence/cabinet-lift.ts";
import { isSlow } from "../evidence/slow-cabinet.ts";
import type { CauseFinding } from "../findings.ts";
import { lowSupplyShare } from "../strength/heat-law.ts";
import { type Candidate, candidates } from "./candidates.ts";
import {
  apartDensity,
  coolingPower,
  deadLog,
  delayOf,
  frostShare,
  inHeatDensity,
  lagDensity,
  liftDensity,
  onsetDensity,
  onsetScatter,
  rateDensity,
  strengthDensity,
  warmingDensity,
  warmingScatter,
} from "./densities.ts";
import type { Observations, SourceObservation } from "./observed.ts";

/** `other` is never ruled out. */
const otherShare = 0.04;

/** ln(strength) a fault leaves: from hardly noticed to dead. */
const losses = Array.from({ length: 24 }, (_, i) => Math.log(0.92) + ((deadLog - Math.log(0.92)) * i) / 23);
/**
 * @returns causes with probabilities that add to 1, likeliest first; only those of sources that were seen. None at all where
 * nothing was seen that points anywhere: the shares would be those from before anything was seen.
 */
export function weighCauses(observations: Observations): readonly CauseFinding[] {
  if (!speaks(observations)) return [];
  const seen = new Set(observations.sources.map((source) => source.source));
  const possible = candidates.filter((candidate) => candidate.source === null || seen.has(candidate.source));
  const weights = possible.map((candidate) => candidate.prior * likelihood(candidate, observations));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const share = sum > 0 ? (1 - otherShare) / sum : 0;
  const found = possible.map(({ cause, source }, i) => ({ cause, source, probability: weights[i] * share }));
  const other = { cause: "other" as const, source: null, probability: sum > 0 ? otherShare : 1 };
  return [...found, other].sort((a, b) => b.probability - a.probability || order(a.source) - order(b.source));
}

/** An onset and a warming back as usual and no lamp are good to know beside a strength; alone they point nowhere. */
function speaks({ sources, logWarming, logApart, lag, lift, inHeat, lowSupply }: Observations): boolean {
  const ofSources = sources.some(
    ({ logStrength, isDead, onsetShift }) =>
      logStrength !== null || isDead || Math.abs(onsetShift?.minutes ?? 0) > 2 * onsetScatter,
  );
  const warmsOddly =
    logWarming !== null && Math.abs(logWarming.value) > 2 * Math.hypot(logWarming.standardError, warmingScatter);
  return (
    ofSources ||
    warmsOddly ||
    (lag !== null && isSlow(lag)) ||
    isLamp(lift) ||
    [logApart.first, logApart.later, inHeat, lowSupply].some((seen) => seen !== null)
  );
}

const order = (source: HeatSource | null) => (source === null ? -1 : heatSources.indexOf(source));

function likelihood(candidate: Candidate, observations: Observations): number {
  const { sources, logWarming, logApart, logRate, frost, lag, lift, inHeat, lowSupply } = observations;
  // A shared cause takes the same share of every source it hits, and delays each by as much.
  const sourcesAt = (loss: number) =>
    sources.reduce(
      (product, one) =>
        product *
        strengthDensity(one, expectedLog(one, candidate, loss)) *
        onsetDensity(one, candidate.hits(one.source) && candidate.delaysOnset ? delayOf(loss) : 0),
      1,
    );
  const possible = possibleLosses(candidate, sources);
  const overLosses = possible.reduce((sum, loss) => sum + sourcesAt(loss), 0) / possible.length;
  const supply =
    lowSupply === null ? 1 : candidate.cause === "supply-voltage" && candidate.source === lowSupply ? 4 : 0.5;
  return (
    overLosses *
    rateDensity(candidate, logRate) *
    warmingDensity(candidate.warming, logWarming) *
    apartDensity(candidate, logApart) *
    frostShare(candidate.melts, frost) *
    lagDensity(candidate.lags, lag) *
    liftDensity(candidate.lifts, lift) *
    inHeatDensity(candidate.inHeat, inHeat) *
    supply
  );
}

/**
 * What a fault may leave of the cooling: anything. But volts that were told and are not low take what they take and no more, and
 * of low ones that were allowed for nothing is left.
 */
function possibleLosses({ cause, source }: Candidate, sources: readonly SourceObservation[]): readonly number[] {
  const { supplyShare: share, isSupplyReferred } = sources.find((one) => one.source === source) ?? {
    supplyShare: null,
  };
  if (cause !== "supply-voltage" || share === null) return losses;
  if (share < lowSupplyShare) return isSupplyReferred ? [0] : losses;
  return [2 * coolingPower * Math.log(Math.min(1, share))];
}

/** A warm load takes no more of an initial fall than this, in the logarithm: as much as the fridge's own heat capacity. */
const heaviestLoad = Math.log(0.6);

/** Told against another source, a loss that both take cannot be seen; by its fall alone, a load looks like one. */
function expectedLog(
  { source, against, isBySlopeAlone, ranBeforeStop }: SourceObservation,
  { hits, slowsFall, source: ofSource }: Candidate,
  loss: number,
): number {
  if (slowsFall && isBySlopeAlone) return Math.max(heaviestLoad, loss);
  if (ranBeforeStop && ofSource === null) return 0;
  return (hits(source) ? loss : 0) - (against !== null && hits(against) ? loss : 0);
}
