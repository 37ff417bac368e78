// What the causes are weighed on, gathered from the judged stretches.

import { mean } from "simple-statistics";
import { type HeatSource, heatSources, isElectric } from "../../schema/index.ts";
import type { CabinetLift } from "../evidence/cabinet-lift.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import { lagBeyond } from "../evidence/slow-cabinet.ts";
import type { WarmingRatio } from "../evidence/warming-ratio.ts";
import type { SourceFinding } from "../findings.ts";
import { type Answer, type Estimate, isKnown } from "../numbers/estimate.ts";
import { lowSupplyShare, ratedVoltsOf } from "../strength/heat-law.ts";
import type { JudgedStretch } from "../verdict/judge-stretch.ts";
import type { Observations, Shown } from "./observed.ts";
import { strengthInHeat } from "./strength-in-heat.ts";

/**
 * @param judged every stretch of the runs
 * @param sources the headline verdicts on them
 * @param warming how each run warms back against the known-good runs
 * @param knownGood stretches by source, none where there are no such runs
 */
export function observationsOf(
  judged: readonly JudgedStretch[],
  sources: readonly SourceFinding[],
  warming: readonly WarmingRatio[],
  knownGood: ReadonlyMap<HeatSource, readonly StretchEvidence[]>,
): Observations {
  const ofSource = (source: HeatSource | null) =>
    judged.filter((one) => one.evidence.stretch.heated && one.evidence.source === source);
  const newestStop = Math.max(...judged.map(({ evidence: { stoppedMs } }) => stoppedMs ?? Number.NEGATIVE_INFINITY));
  const shown = judged.some(isSlowProbe) ? [] : warming.filter((ratio) => ratio !== null);
  return {
    sources: heatSources.flatMap((source) => {
      const finding = sources.find((one) => one.source === source);
      if (finding === undefined) return [];
      const against = againstWhich(ofSource(source));
      const told = strengthToExplain(finding, ofSource(source));
      const isStopped = hasStopped(ofSource(source));
      const known = isKnown(told) && !isStopped ? told : null;
      // The strongest source's own figure against the next one says nothing that the other's has not said.
      const isTold = against === null || known === null || known.value <= 1;
      // Wrong logs say nothing of the fridge.
      const strength =
        isTold && known !== null && !saysNothing(known) && !ofSource(source).some(isUnbelievable) ? known : null;
      return [
        {
          source,
          logStrength: strength === null ? null : Math.log(strength.value),
          standardError: strength === null ? 0 : (strength.standardError ?? 0) / strength.value,
          against,
          isDead: finding.verdict === "not-cooling" || isStopped,
          ranBeforeStop: !isStopped && ofSource(source).every(({ evidence }) => evidence.stretch.startMs < newestStop),
          isBySlopeAlone: ofSource(source).some(isBySlopeAlone),
          // From before it stopped.
          onsetShift: isStopped
            ? null
            : onsetShiftOf(ofSource(source).filter(isOwnCabinet), knownGood.get(source) ?? []),
          supplyShare: supplyShareOf(ofSource(source)),
          isSupplyReferred: (knownGood.get(source) ?? []).every(({ supplyVolts }) => supplyVolts !== null),
        },
      ];
    }),
    logWarming:
      shown.length === 0
        ? null
        : {
            value: shown.reduce((sum, ratio) => sum + Math.log(ratio.value), 0) / shown.length,
            standardError: (shown[0].standardError ?? 0) / shown[0].value / Math.sqrt(shown.length),
          },
    logApart: whileWarm(judged, apartOf),
    logRate: whileWarm(judged, rateOf),
    frost: frostOf(judged, [...knownGood.values()].flat()),
    lag: lagOf(judged, [...knownGood.values()].flat()),
    lift: liftOf(judged),
    inHeat: strengthInHeat(judged),
    lowSupply:
      judged.find((one) => one.finding.reasons.some((reason) => reason.code === "supply-low"))?.evidence.source ?? null,
  };
}

/**
 * How much later the cold began than in the known-good runs, in the mean of the stretches from a cold boiler. One too short
 * to be judged still shows when it began, or that it had not by its end.
 */
function onsetShiftOf(
  judged: readonly JudgedStretch[],
  knownGood: readonly StretchEvidence[],
): Observations["sources"][number]["onsetShift"] {
  const slower = slowerInCold(judged, knownGood);
  const known = judged.flatMap(({ finding: { deadTimeShift } }) =>
    isKnown(deadTimeShift) ? [deadTimeShift.value] : [],
  );
  if (known.length > 0) return { minutes: 60 * mean(known) - slower, atLeast: false };
  const dead = knownGood.flatMap(({ fitted, stretch }) =>
    "why" in fitted || stretch.startState !== "cold-boiler" ? [] : [fitted.cabinetFit.onsetHours],
  );
  const cold = judged.filter(({ evidence }) => evidence.stretch.startState === "cold-boiler");
  if (dead.length === 0 || cold.length === 0) return null;
  const begun = cold.flatMap(({ evidence: { fitted } }) => ("why" in fitted ? [] : [fitted.cabinetFit.onsetHours]));
  if (begun.length > 0) return { minutes: 60 * (mean(begun) - mean(dead)) - slower, atLeast: false };
  const waited = cold.flatMap(({ evidence: { fitted, view } }) =>
    "why" in fitted && fitted.why.code === "no-onset" ? [view.endHours - unseenFallHours] : [],
  );
  return waited.length === 0 ? null : { minutes: 60 * (Math.max(...waited) - mean(dead)) - slower, atLeast: true };
}

/** Cold that began so shortly before the end of a stretch cannot be seen in it, h. */
const unseenFallHours = 0.5;

/**
 * A boiler starts from the ambient: for each kelvin that it is colder, cold begins this much later, min. Simulated fridges in
 * order from 3 to 34 °C, straight within a minute.
 */
const minutesPerKelvin = 0.33;

/** How much later cold begins than in the known-good runs for the colder air alone, min; negative in warmer. */
function slowerInCold(judged: readonly JudgedStretch[], knownGood: readonly StretchEvidence[]): number {
  const here = judged.map(({ evidence }) => evidence.ambient).filter(Number.isFinite);
  const there = knownGood.map(({ ambient }) => ambient).filter(Number.isFinite);
  return here.length === 0 || there.length === 0 ? 0 : minutesPerKelvin * (mean(there) - mean(here));
}

/** Whether the newest stretch of a source, whose stretches these are, stopped cooling for good. */
const hasStopped = (judged: readonly JudgedStretch[]): boolean =>
  judged.toSorted((a, b) => b.evidence.stretch.startMs - a.evidence.stretch.startMs)[0]?.evidence.stoppedMs != null;

const isBySlopeAlone = ({ strength }: JudgedStretch): boolean =>
  !("why" in strength) && strength.reasons.some(({ code }) => code === "slope-alone");

/** With an end open, a strength is a bound: from above it tells of a weak source, from below of a good one, and else nothing. */
const saysNothing = ({ value, low, high }: Estimate): boolean =>
  low === null || low === 0 ? value >= 1 : high === null && value < 1;

/** Where the nights of a source disagree, something changed between them, and its cause is that of the newest. */
function strengthToExplain({ coolingStrength, reasons }: SourceFinding, judged: readonly JudgedStretch[]): Answer {
  if (!reasons.some(({ code }) => code === "stretches-disagree")) return coolingStrength;
  const newestFirst = judged.map(({ finding }) => finding).toSorted((a, b) => b.startMs - a.startMs);
  return newestFirst.map((finding) => finding.coolingStrength).find(isKnown) ?? coolingStrength;
}

const isSlowProbe = ({ finding: { reasons } }: JudgedStretch): boolean =>
  reasons.some(({ code }) => code === "cabinet-probe-slow");

const isUnbelievable = (judged: JudgedStretch): boolean =>
  isSlowProbe(judged) || judged.finding.reasons.some(({ code }) => code === "strength-unbelievable");

/** Fins that read warmer than the air they cool: the probes are exchanged, and the curve is that of the other one. */
const isFinsColder = ({ strength }: JudgedStretch): boolean =>
  !("why" in strength && strength.why.code === "fins-warmer-than-air");

/** Whether the curve is that of the cabinet's air, and tells when cold began and how fast it came. */
const isOwnCabinet = (judged: JudgedStretch): boolean => isFinsColder(judged) && !isSlowProbe(judged);

/** Frost that melts in the known-good runs as well explains no difference. */
function frostOf(judged: readonly JudgedStretch[], knownGood: readonly StretchEvidence[]): boolean | null {
  const shown = judged.flatMap(({ evidence: { frostMelted } }) => frostMelted ?? []);
  return shown.length === 0 || knownGood.some(({ frostMelted }) => frostMelted) ? null : shown.includes(true);
}

/** Of the run that shows most of it: one probe in the wrong place is enough to look after. */
function lagOf(judged: readonly JudgedStretch[], knownGood: readonly StretchEvidence[]): Shown | null {
  if (knownGood.length === 0 || !judged.every(isFinsColder)) return null;
  const known = knownGood.map(({ finsAbove }) => finsAbove);
  const shown = judged.map(({ evidence: { finsAbove } }) => finsAbove).filter((own) => own !== null);
  const lags = shown.map((own) => lagBeyond(own, known));
  return lags.length === 0 ? null : lags.reduce((most, lag) => (lag.value > most.value ? lag : most));
}

/** Sources whose volts at the fridge are known, and not low. */
export const sourcesSuppliedWell = ({ sources }: Observations): ReadonlySet<HeatSource> =>
  new Set(sources.flatMap(({ source, supplyShare }) => ((supplyShare ?? 0) >= lowSupplyShare ? [source] : [])));

/** @param judged the heated stretches of one source. */
function supplyShareOf(judged: readonly JudgedStretch[]): number | null {
  const shares = judged.map(({ evidence: { source, supplyVolts, run } }) =>
    isElectric(source) && supplyVolts !== null ? supplyVolts / ratedVoltsOf(source, run.recording.sheet) : null,
  );
  const told = shares.filter((share) => share !== null);
  return told.length === 0 || told.length < shares.length ? null : Math.min(...told);
}

/** The source that these stretches were told against, where no known-good run stands behind them. */
function againstWhich(judged: readonly JudgedStretch[]): HeatSource | null {
  const told = judged.flatMap(({ strength }) =>
    "why" in strength || strength.baseline !== "other-sources"
      ? []
      : strength.reasons.flatMap((reason) => (reason.code === "compared-with-source" ? [reason.other] : [])),
  );
  return told[0] ?? null;
}

/** Of all runs, how far above ambient their cabinets would settle when off: a lamp burns in every one of them. */
function liftOf(judged: readonly JudgedStretch[]): CabinetLift | null {
  const lifts = [...new Set(judged.flatMap(({ evidence: { lift } }) => (lift === null ? [] : [lift])))];
  if (lifts.length === 0) return null;
  const least = lifts.flatMap((lift) => (lift.least === null ? [] : [lift.least]));
  return {
    least: least.length < lifts.length ? null : Math.min(...least),
    value: lifts.reduce((sum, lift) => sum + lift.value, 0) / lifts.length,
    // The probes' own difference does not average out.
    standardError: Math.max(...lifts.map((lift) => lift.standardError)),
  };
}

/** What is seen in each stretch, apart for the first heated one of each run: goods that went in warm are warm in that one only. */
function whileWarm(
  judged: readonly JudgedStretch[],
  seenIn: (one: JudgedStretch) => Shown | null,
): Observations["logApart"] {
  const heated = judged.filter(({ evidence }) => evidence.stretch.heated);
  const firsts = new Set(new Map(heated.toReversed().map((one) => [one.evidence.run.recording, one])).values());
  const over = (some: readonly JudgedStretch[]) => pooled(some.map(seenIn).filter((seen) => seen !== null));
  return {
    first: over(heated.filter((one) => firsts.has(one))),
    later: over(heated.filter((one) => !firsts.has(one))),
  };
}

/** How far the witnesses lie apart. */
const apartOf = ({ strength }: JudgedStretch): Shown | null => ("why" in strength ? null : strength.apart);

/** The rate constant over that of the known-good runs, as a logarithm. */
function rateOf(judged: JudgedStretch): Shown | null {
  const { strength } = judged;
  if ("why" in strength || strength.baseline === "other-sources" || strength.isOverSwitch || !isOwnCabinet(judged))
    return null;
  const ratios = strength.comparisons.map(({ logRate }) => logRate).filter((ratio) => ratio !== null);
  if (ratios.length === 0) return null;
  const variance = mean(ratios.map((one) => one.hereVariance)) + mean(ratios.map((one) => one.thereVariance));
  return { value: mean(ratios.map(({ log }) => log)), standardError: Math.sqrt(variance) };
}

/** Mean by weight; the one stretch where it is largest is too often chance. */
function pooled(shown: readonly Shown[]): Shown | null {
  if (shown.length === 0) return null;
  const weights = shown.map(({ standardError }) => 1 / standardError ** 2);
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const value = shown.reduce((total, one, i) => total + weights[i] * one.value, 0) / sum;
  // The known-good runs stand behind every one of them, so a second stretch does not halve the variance.
  return { value, standardError: Math.sqrt(1 / sum + 1 / Math.max(...weights)) / Math.SQRT2 };
}
