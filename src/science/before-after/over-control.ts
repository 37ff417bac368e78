// The ratio of a serviced source over that of a source nobody touched. Both ran in the same logs, so whatever both felt
// is taken out, and may not be counted twice in what is left open.
//
//   ln(over control) = (ln serviced after - ln serviced before) - (ln control after - ln control before)
//
// What both sources of a run share drops out of the value: frost on the fins, how the probes sit and what they misread,
// the ambient, the load, level, ventilation, the cooling unit itself. Adding the variances of the two ratios would count
// all that twice although it is not there at all. So the variance is that of the difference, formed witness by witness:
// - readings: each stretch's own; of what the log shares (probes' offset, ambient, start, the fins' exponent) only what the
//   two sources feel differently is left, since F, ambient and start of the two are not quite the same;
// - nights: how much ln(one source over the other in one run) scatters from run to run. Known-good runs that hold both
//   sources show it; before they do, a prior made of what is each source's own (its heat above all) counts twice, and
//   what is the run's is left out.
// A control costs something too: its own heat scatters as well. It pays when what is shared is larger than that.

import type { StretchEvidence } from "../evidence/run-evidence.ts";
import type { Estimate } from "../numbers/estimate.ts";
import { logEstimate } from "../numbers/log-estimate.ts";
import { type Comparison, compareWith, finExponent, finExponentError, type LogRatio } from "../strength/comparison.ts";
import { referAmbient, referStart } from "../strength/condition-references.ts";
import { asTheyRan } from "../strength/sheet-conditions.ts";
import {
  combinedVariance,
  finWeight,
  pooledSpread,
  priorSpread,
  type WitnessLogs,
  type WitnessSpread,
} from "../strength/witness-spread.ts";

/**
 * How much of a night's variance is each source's own: its heat. On the simulated fridges 5 % of heat are 7 % of cooling
 * against 3 % of the unit's own on scattered nights (0.84), and less of either on calm ones (0.64). Of a witness's scatter
 * half: frost, the probes' seat and load are the run's, doors and what the fit makes of them the stretch's.
 */
const ownShareOfNight = 0.75;
const ownShareOfWitness = 0.5;

/** What one source's scatter lets one expect of the difference of two, before the known-good runs show it. */
function priorBesideControl({ fins, slope, both }: WitnessSpread): WitnessSpread {
  const night = ownShareOfNight * Math.max(0, both);
  const witness = (own: number) => ownShareOfWitness * Math.max(0, own - both);
  return { fins: 2 * (night + witness(fins)), slope: 2 * (night + witness(slope)), both: 2 * night, freedom: 3 };
}

/** Stretches of one source, and those of the other in the same logs. */
interface BothSources {
  readonly serviced: readonly StretchEvidence[];
  readonly control: readonly StretchEvidence[];
}

/**
 * The serviced source's ratio over the control's.
 *
 * @param after, before, knownGood usable stretches of both sources.
 * @param ofOneSource how much one source scatters from run to run.
 * @returns null when no log before and none after holds both.
 */
export function overControl(
  after: BothSources,
  before: BothSources,
  knownGood: BothSources,
  ofOneSource: WitnessSpread,
): Estimate | null {
  const [now, then] = [inTheSameLog(after), inTheSameLog(before)];
  const pairs = now.flatMap((here) =>
    then.flatMap((there) => {
      const serviced = changeBetween(there.serviced, here.serviced);
      const control = changeBetween(there.control, here.control);
      return serviced === null || control === null ? [] : [{ serviced, control }];
    }),
  );
  const byFins = meanOf(pairs.map(finsApart));
  const bySlope = meanOf(pairs.map(slopesApart));
  if (byFins === null && bySlope === null) return null;
  const spread = spreadBesideControl(knownGood, ofOneSource);
  // Too few runs hold both sources to learn a weight from: a wrong one costs more than the best one gains.
  const weight = byFins === null ? 0 : bySlope === null ? 1 : finWeight(priorSpread);
  const mix = (key: keyof LogRatio, power: 1 | 2) =>
    weight ** power * (byFins?.[key] ?? 0) + (1 - weight) ** power * (bySlope?.[key] ?? 0);
  const log = mix("log", 1);
  const variance =
    combinedVariance(spread, weight) * (1 / now.length + 1 / then.length) +
    mix("hereVariance", 2) / now.length +
    mix("thereVariance", 2) / then.length +
    Math.max(...pairs.map(conditionsApart));
  const [low, high] = reachOfWitnesses(log, byFins, bySlope, Math.sqrt(variance));
  return logEstimate(log, variance, spread.freedom, { below: log - low, above: high - log });
}

/** Frost, probes and load are gone from both witnesses; if they still disagree, nothing says which is right. */
function reachOfWitnesses(
  log: number,
  byFins: LogRatio | null,
  bySlope: LogRatio | null,
  error: number,
): readonly [number, number] {
  if (byFins === null || bySlope === null || Math.abs(byFins.log - bySlope.log) < 3 * error) return [log, log];
  return [Math.min(byFins.log, bySlope.log), Math.max(byFins.log, bySlope.log)];
}

/** From each log the first stretch of either source; logs without both are left out. */
function inTheSameLog({ serviced, control }: BothSources) {
  const logs = [...new Set(serviced.map((stretch) => stretch.run.recording))];
  return logs.flatMap((log) => {
    const one = serviced.find((stretch) => stretch.run.recording === log);
    const other = control.find((stretch) => stretch.run.recording === log);
    return one === undefined || other === undefined ? [] : [{ serviced: one, control: other }];
  });
}

/** One source's stretch after against its stretch before. */
interface ChangeOfOne {
  readonly before: StretchEvidence;
  readonly after: StretchEvidence;
  readonly comparison: Comparison;
}

function changeBetween(before: StretchEvidence, after: StretchEvidence): ChangeOfOne | null {
  const comparison = compareWith(after, before, asTheyRan);
  return comparison === null ? null : { before, after, comparison };
}

/** The changes of both sources between the same two logs. */
interface ChangeOfBoth {
  readonly serviced: ChangeOfOne;
  readonly control: ChangeOfOne;
}

/** How much one source over the other scatters from run to run, of both witnesses. */
export function spreadBesideControl(knownGood: BothSources, ofOneSource: WitnessSpread): WitnessSpread {
  const [first, ...others] = inTheSameLog(knownGood);
  const logs = others.flatMap((run): WitnessLogs[] => {
    const serviced = compareWith(run.serviced, first.serviced, asTheyRan);
    const control = compareWith(run.control, first.control, asTheyRan);
    if (!serviced?.logByFins || !serviced.logBySlope || !control?.logByFins || !control.logBySlope) return [];
    return [
      {
        fins: serviced.logByFins.log - control.logByFins.log,
        slope: serviced.logBySlope.log - control.logBySlope.log,
      },
    ];
  });
  return pooledSpread(priorBesideControl(ofOneSource), [[{ fins: 0, slope: 0 }, ...logs]]);
}

function slopesApart({ serviced, control }: ChangeOfBoth): LogRatio | null {
  const start = ({ before, after, comparison }: ChangeOfOne) => referStart(after, before, comparison.hours);
  const [one, other] = [start(serviced), start(control)];
  const sharedStart = sharedDoubt(one, other, one.shift * other.shift);
  return apart(serviced.comparison.logBySlope, control.comparison.logBySlope, {
    here: sharedByAmbient(serviced, control, "slope") + sharedStart,
    there: 0,
  });
}

const finsApart = ({ serviced, control }: ChangeOfBoth): LogRatio | null =>
  apart(serviced.comparison.logByFins, control.comparison.logByFins, {
    here:
      sharedByOffset(serviced, control, "after") +
      sharedByExponent(serviced, control) +
      sharedByAmbient(serviced, control, "fins"),
    there: sharedByOffset(serviced, control, "before"),
  });

/** Variance of a difference: both variances less twice what the two share. */
function apart(
  serviced: LogRatio | null,
  control: LogRatio | null,
  shared: { readonly here: number; readonly there: number },
): LogRatio | null {
  if (serviced === null || control === null) return null;
  return {
    log: serviced.log - control.log,
    hereVariance: Math.max(0, serviced.hereVariance + control.hereVariance - 2 * shared.here),
    thereVariance: Math.max(0, serviced.thereVariance + control.thereVariance - 2 * shared.there),
  };
}

/** One log has one offset of its probes: its error e moves ln F by e/F, of both sources the same way. */
function sharedByOffset(serviced: ChangeOfOne, control: ChangeOfOne, when: "before" | "after"): number {
  const finOf = ({ comparison }: ChangeOfOne) => (when === "after" ? comparison.here : comparison.there).fin;
  const [one, other] = [finOf(serviced), finOf(control)];
  if (one === null || other === null) return 0;
  return (finExponent * serviced[when].offset.standardError) ** 2 / (one.value * other.value);
}

/** The exponent is the fins', whatever heats the boiler. */
function sharedByExponent(serviced: ChangeOfOne, control: ChangeOfOne): number {
  const plain = ({ comparison: { here, there } }: ChangeOfOne) => (here.fin?.log ?? 0) - (there.fin?.log ?? 0);
  return finExponentError ** 2 * plain(serviced) * plain(control);
}

/** So is what a kelvin of ambient does to a witness. */
function sharedByAmbient(serviced: ChangeOfOne, control: ChangeOfOne, witness: "slope" | "fins"): number {
  const referred = ({ before, after }: ChangeOfOne) => referAmbient(after, before)[witness];
  const warmer = ({ before, after }: ChangeOfOne) => after.ambient - before.ambient;
  return sharedDoubt(referred(serviced), referred(control), warmer(serviced) * warmer(control));
}

/** Two shifts by one coefficient that is not well known: both are wrong together, the same way or opposite ways. */
function sharedDoubt(one: { readonly variance: number }, other: { readonly variance: number }, way: number): number {
  return Math.sign(way || 0) * Math.sqrt(one.variance * other.variance);
}

/** What referring to equal heat leaves open is each source's own. */
const conditionsApart = ({ serviced, control }: ChangeOfBoth): number =>
  serviced.comparison.conditionVariance + control.comparison.conditionVariance;

function meanOf(ratios: readonly (LogRatio | null)[]): LogRatio | null {
  const found = ratios.filter((ratio) => ratio !== null);
  if (found.length === 0) return null;
  const mean = (key: keyof LogRatio) => found.reduce((sum, ratio) => sum + ratio[key], 0) / found.length;
  return { log: mean("log"), hereVariance: mean("hereVariance"), thereVariance: mean("thereVariance") };
}
