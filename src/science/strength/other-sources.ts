// Without any known-good run the sources of one fridge are held against each other, by the heat each gets. This finds a
// weak source among sound ones; what all share (level, cooling unit, ventilation) stays unseen, and is said to be.

import type { StretchEvidence } from "../evidence/run-evidence.ts";
import { compareWith } from "./comparison.ts";
import { logCooling, slopeAtRated } from "./heat-law.ts";
import { narrower, type Strength } from "./strength.ts";
import { strengthAcrossSwitch } from "./strength-over-switch.ts";
import { usefulHeat } from "./useful-heat.ts";
import { expectedVariance, type WitnessSpread, witnessWeight } from "./witness-spread.ts";
import { disagreement, witnessesApart } from "./witnesses.ts";

/**
 * Strength of a stretch over the strongest of the other sources' stretches.
 *
 * @param others stretches of the same fridge, from the same or another of the given runs, in order of time.
 * @returns null when no other source has a pull-down to compare with.
 */
export function strengthAmongSources(
  test: StretchEvidence,
  others: readonly StretchEvidence[],
  spread: WitnessSpread,
): Strength | null {
  const found = others
    .filter((other) => other.source !== null && other.source !== test.source)
    .map((other) => narrower(strengthOver(test, other, spread), strengthAcrossSwitch(test, other, others)))
    .filter((strength) => strength !== null);
  // The strongest other source makes this one look weakest: it is the one least likely to be faulty itself.
  return found.reduce<Strength | null>((least, one) => (least === null || one.log < least.log ? one : least), null);
}

function strengthOver(test: StretchEvidence, other: StretchEvidence, spread: WitnessSpread): Strength | null {
  if (test.source === null || other.source === null) return null;
  const comparison = compareWith(test, other);
  if (comparison === null) return null;
  const { logByFins, logBySlope } = comparison;
  const weight = witnessWeight(spread, logByFins, logBySlope);
  const here = usefulHeat(test.source, test.run.recording.sheet);
  const there = usefulHeat(other.source, other.run.recording.sheet);
  // Each source's cooling is expected by its own heat; both are near rated, where the heat law is nearly straight.
  const expected = logCooling(here.watts / there.watts);
  const heatError = Math.hypot(here.logError, there.logError);
  const witness = (pick: "log" | "hereVariance" | "thereVariance") =>
    pick === "log"
      ? weight * (logByFins?.log ?? 0) + (1 - weight) * (logBySlope?.log ?? 0)
      : weight ** 2 * (logByFins?.[pick] ?? 0) + (1 - weight) ** 2 * (logBySlope?.[pick] ?? 0);
  const log = witness("log");
  const apart = witnessesApart(logByFins, logBySlope, spread);
  // Nothing tells which of them is right: the truth may lie at either.
  const disagree =
    apart !== null &&
    logByFins !== null &&
    logBySlope !== null &&
    Math.abs(apart.value) > disagreement * apart.standardError
      ? ([logByFins.log, logBySlope.log] as const)
      : null;
  // In one run both sources have the night's own cooling, about a third of what nights differ by; their heats are their own.
  const isSameNight = test.run.recording === other.run.recording;
  const ofNights = expectedVariance(spread, weight) - (isSameNight ? spread.both / 3 : 0);
  return {
    baseline: "other-sources",
    log: log - expected,
    nightVariance: witness("hereVariance") + comparison.conditionVariance + ofNights,
    spreadVariance: 0,
    baselineVariance: witness("thereVariance") + ofNights + (slopeAtRated * heatError) ** 2,
    freedom: 30, // the widths of usual heats are stated, not learnt from these runs
    below: disagree === null ? 0 : log - Math.min(...disagree),
    above: disagree === null ? 0 : Math.max(...disagree) - log,
    // Where they agree, that is no news: goods and probes were the same for both.
    apart: disagree === null ? null : apart,
    comparisons: [comparison],
    reasons: [
      { code: "compared-with-source", other: other.source },
      ...(disagree === null
        ? []
        : [
            {
              code: "witnesses-apart-among-sources",
              other: other.source,
              finRatio: Math.exp(disagree[0]),
              slopeRatio: Math.exp(disagree[1]),
            } as const,
          ]),
    ],
  };
}
