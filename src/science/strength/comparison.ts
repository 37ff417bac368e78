// A stretch against one known-good stretch, both cut to equal length from the onset, both referred to the same
// conditions: the two witnesses of cooling (fin difference F and initial slope S) as logarithms of their ratios.

import { isElectric } from "../../schema/index.ts";
import { ambientOfFins, finDifference } from "../evidence/fin-difference.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import type { PullDownNumbers } from "../findings.ts";
import { type Estimate, isKnown } from "../numbers/estimate.ts";
import { type CabinetFit, fitCabinet } from "../pull-down/cabinet-fit.ts";
import { judgedFit, noNumbers, slopeHours } from "../pull-down/pull-down-numbers.ts";
import type { ReasonSaying } from "../sayings.ts";
import { referAmbient, referStart } from "./condition-references.ts";
import { gasHeatRatio } from "./gas-heat.ts";
import { heatAtVoltage, logCooling, logCoolingError, ratedVoltsOf, slopeAtRated } from "./heat-law.ts";
import { referSheets, type SheetReference } from "./sheet-conditions.ts";

/**
 * Cooling goes as F to this power: fins in free convection give 1.25 (Nusselt number as Rayleigh to the quarter), and a
 * colder evaporator limits itself: 1.36 ± 0.08 on this project's simulated fridges.
 */
export const finExponent = 1.36;
/** Standard error of `finExponent`. */
export const finExponentError = 0.08;

/** One number of a cut, and the variance of its logarithm. */
export interface Logged {
  readonly value: number;
  readonly log: number;
  readonly variance: number;
}

/** ln(cooling here over there) by one witness, and what either side's readings leave open of it. */
export interface LogRatio {
  readonly log: number;
  readonly hereVariance: number;
  readonly thereVariance: number;
}

/** What a cut of a stretch gives; null where it does not hold. */
export interface Cut {
  readonly hours: number;
  readonly slope: Logged | null;
  /** How fast the fall slows down, 1/h: too open to be told of one stretch, its ratio between cuts of equal length holds. */
  readonly rate: Logged | null;
  readonly fin: Logged | null;
  /** null where only the fins were read. */
  readonly fit: CabinetFit | null;
  readonly numbers: PullDownNumbers;
}

/** Test over known-good, cut to equal length. Logarithms of cooling: of the fins already times their exponent. */
export interface Comparison {
  readonly knownGood: StretchEvidence;
  readonly hours: number;
  readonly here: Cut;
  readonly there: Cut;
  readonly logByFins: LogRatio | null;
  readonly logBySlope: LogRatio | null;
  /** ln(rate constant here over there): no witness of cooling, but goods and leaks raise it. */
  readonly logRate: LogRatio | null;
  /** Variance that both witnesses share: how well the conditions could be referred. */
  readonly conditionVariance: number;
  readonly reasons: readonly ReasonSaying[];
}

/** A stretch without a pull-down can still be judged by its fins, once they have had this long, h. */
export const finsAloneHours = 3;
/** F barely depends on the length of a cut; this is left open of it where the lengths differ. */
const unequalLengthError = 0.04;

/** @returns null when either has neither a pull-down of 2 h nor settled fins, or their run sheets forbid to compare them. */
export function compareWith(
  test: StretchEvidence,
  knownGood: StretchEvidence,
  refer: typeof referSheets = referSheets,
): Comparison | null {
  const warmest = Math.max(test.ambient, knownGood.ambient);
  const sheets = refer(test.run.recording.sheet, knownGood.run.recording.sheet, warmest);
  if ("why" in sheets) return null;
  if ("why" in test.fitted || "why" in knownGood.fitted) return compareFins(test, knownGood, sheets);
  const shorter = Math.min(test.fitted.cabinetFit.hoursAfterOnset, knownGood.fitted.cabinetFit.hoursAfterOnset);
  const hours = Math.floor(shorter * 30) / 30; // to two minutes, so that runs of nearly one length share a cut
  if (hours < slopeHours) return null;
  const here = cutTo(test, hours);
  const there = cutTo(knownGood, hours);
  if (here === null || there === null) return null;
  const heat = referHeat(test, knownGood);
  const ambient = referAmbient(test, knownGood, {
    here: ambientOfCut(test, here),
    there: ambientOfCut(knownGood, there),
  });
  const start = referStart(test, knownGood, hours);
  return {
    knownGood,
    hours,
    here,
    there,
    logBySlope: ratioOf(
      here.slope,
      there.slope,
      1,
      0,
      heat.shift + ambient.slope.shift + start.shift,
      sheets.slope === null ? null : ambient.slope.variance + start.variance + sheets.slope,
    ),
    logByFins: ratioOf(
      here.fin,
      there.fin,
      finExponent,
      finExponentError,
      heat.shift + ambient.fins.shift,
      sheets.fins === null ? null : ambient.fins.variance + sheets.fins,
    ),
    logRate: ratioOf(here.rate, there.rate, 1, 0, 0, 0),
    conditionVariance: heat.variance,
    reasons: [...ambient.reasons, ...start.reasons, ...heat.reasons, ...sheets.reasons],
  };
}

/** Where either shows no curve to fit (it started cold, or barely cools), the fins alone are compared. */
function compareFins(test: StretchEvidence, knownGood: StretchEvidence, sheets: SheetReference): Comparison | null {
  const here = finsCut(test);
  const there = finsCut(knownGood);
  if (here === null || there === null) return null;
  const heat = referHeat(test, knownGood);
  const ambient = referAmbient(test, knownGood);
  return {
    knownGood,
    hours: "why" in test.fitted ? here.hours : there.hours,
    here,
    there,
    logBySlope: null,
    logRate: null,
    logByFins: ratioOf(
      here.fin,
      there.fin,
      finExponent,
      finExponentError,
      heat.shift + ambient.fins.shift,
      sheets.fins === null ? null : ambient.fins.variance + sheets.fins + unequalLengthError ** 2,
    ),
    conditionVariance: heat.variance,
    reasons: [...ambient.reasons, ...heat.reasons, ...sheets.reasons],
  };
}

/** The fins of the whole pull-down, or where there is none, of the whole stretch. */
function finsCut(evidence: StretchEvidence): Cut | null {
  if (!("why" in evidence.fitted)) {
    const { hoursAfterOnset } = evidence.fitted.cabinetFit;
    return hoursAfterOnset < slopeHours ? null : cutTo(evidence, Math.floor(hoursAfterOnset * 30) / 30);
  }
  const hours = evidence.view.endHours;
  const fin = hours < finsAloneHours ? null : finsOf(evidence, hours, false);
  return fin === null
    ? null
    : { hours, fin, slope: null, rate: null, fit: null, numbers: noNumbers({ code: "no-onset" }) };
}

/** While the fins of a cut were read, °C. */
const ambientOfCut = ({ view }: StretchEvidence, { fit, hours }: Cut) =>
  ambientOfFins(view, fit === null ? hours : fit.onsetHours + hours);

/**
 * @param hasCooled the cabinet's own curve shows it: fins no colder than the air they cooled are then a probe that fell off, and
 *   count as hardly colder. Without that they tell nothing.
 */
function finsOf(evidence: StretchEvidence, until: number, hasCooled: boolean): Logged | null {
  const fin = finDifference(evidence.view, evidence.offset, until);
  if (!isKnown(fin) || (!hasCooled && fin.value <= leastFins)) return null;
  return { ...logged(Math.max(leastFins, fin.value), errorOf(fin)), value: fin.value };
}

/** Under this the fins tell nothing of how much they cool, K. */
const leastFins = 0.3;

/** Cuts are asked for again and again: per known-good run, per source, for the drawing. Each is fitted once. */
const cutsOf = new WeakMap<StretchEvidence, Map<number, Cut | null>>();

/** A cut that leaves so much of the whole is the whole: a slope of its own would differ by 0.4 % at most, nights do by several. */
const equalLength = 0.99;

/** A stretch cut to `hours` after its onset, fitted anew. */
function cutTo(evidence: StretchEvidence, hours: number): Cut | null {
  const cuts = cutsOf.get(evidence) ?? new Map<number, Cut | null>();
  cutsOf.set(evidence, cuts);
  const known = cuts.get(hours);
  if (known !== undefined) return known;
  const cut = fittedCut(evidence, hours);
  cuts.set(hours, cut);
  return cut;
}

function fittedCut(evidence: StretchEvidence, hours: number): Cut | null {
  if ("why" in evidence.fitted) return null;
  const { cabinetFit: whole, judged } = evidence.fitted;
  const until = whole.onsetHours + hours;
  const isWhole = hours > equalLength * whole.hoursAfterOnset;
  const fit = isWhole ? whole : fitCabinet(evidence.view, evidence.warmingRate, until, { whole });
  if ("why" in fit) return null;
  const { rate, depth } = fit.fit.pullDown;
  const slope = rate * depth;
  const errors = fit.fit.standardErrors;
  const grown = Math.sqrt(fit.fit.inflation);
  return {
    hours,
    numbers: (isWhole ? judged : judgedFit(fit)).numbers,
    // The slope is rate times depth, and the depth hangs on the ambient.
    slope: loggedIfSeen(slope, Math.hypot(errors.initialSlope * grown, rate * evidence.ambientError)),
    rate: loggedIfSeen(rate, errors.rate * grown),
    fin: finsOf(evidence, until, true),
    fit,
  };
}

const logged = (value: number, error: number): Logged => ({
  value,
  log: Math.log(value),
  variance: (error / value) ** 2,
});

const loggedIfSeen = (value: number, error: number): Logged | null =>
  value > 0 && Number.isFinite(error) ? logged(value, error) : null;

const errorOf = (estimate: Estimate) => estimate.standardError ?? 0;

function ratioOf(
  here: Logged | null,
  there: Logged | null,
  power: number,
  powerError: number,
  shift: number,
  /** What the references leave open of this witness; null where it may not speak. */
  extra: number | null,
): LogRatio | null {
  if (here === null || there === null || extra === null) return null;
  const plain = here.log - there.log;
  return {
    log: power * plain + shift,
    hereVariance: power ** 2 * here.variance + (powerError * plain) ** 2 + extra,
    thereVariance: power ** 2 * there.variance,
  };
}

/** What to add to ln(cooling here over there), what that leaves open, and what to say of it. */
interface Referred {
  readonly shift: number;
  readonly variance: number;
  readonly reasons: readonly ReasonSaying[];
}

/** Of a standard deviation, 95 %. */
const reach = 2;
/** Volts that one side does not state leave this much of ln(cooling) open: ±4 % of voltage, squared, to the power of `slopeAtRated`. */
const unknownSupplyError = 0.1;

function referHeat(test: StretchEvidence, knownGood: StretchEvidence): Referred {
  const nothing = { shift: 0, variance: 0, reasons: [] };
  const { source } = test;
  if (source !== knownGood.source) return referEachToRated(test, knownGood);
  if (source === "gas") return referGas(test, knownGood);
  if (!isElectric(source)) return nothing;
  const rated = ratedVoltsOf(source, test.run.recording.sheet);
  if (test.supplyVolts === null && knownGood.supplyVolts === null) return nothing;
  const [volts, baselineVolts] = [test.supplyVolts ?? rated, knownGood.supplyVolts ?? rated];
  const here = heatAtVoltage(volts, rated);
  const there = heatAtVoltage(baselineVolts, rated);
  const shift = logCooling(there) - logCooling(here);
  const variance = logCoolingError(here, there) ** 2;
  if (test.supplyVolts === null || knownGood.supplyVolts === null) {
    // The silent side had the stated volts, as a poor cable gives them every night, or the rated ones: half-way, both in reach.
    const open = unknownSupplyError ** 2 + (shift / 2) ** 2;
    const share = reach * Math.sqrt(open);
    const reasons: ReasonSaying[] = [{ code: "condition-one-sided", condition: "supply", share }];
    return { shift: shift / 2, variance: variance + open, reasons };
  }
  const reasons: ReasonSaying[] =
    Math.abs(shift) < 0.02 ? [] : [{ code: "supply-referred", volts, baselineVolts, factor: Math.exp(shift) }];
  return { shift, variance, reasons };
}

/** Two sources of one fridge: each is referred to its own rated volts; what gas gives is the other file's concern. */
function referEachToRated(test: StretchEvidence, other: StretchEvidence): Referred {
  const isSaid = test.supplyVolts !== null || other.supplyVolts !== null;
  const here = fromRatedVolts(test, isSaid);
  const there = fromRatedVolts(other, isSaid);
  return { shift: there.log - here.log, variance: here.variance + there.variance, reasons: [] };
}

/** ln(cooling over that at rated volts), and what is left open of it; volts that neither source states are taken as rated. */
function fromRatedVolts({ source, supplyVolts, run }: StretchEvidence, isSaid: boolean) {
  if (!isElectric(source)) return { log: 0, variance: 0 };
  if (supplyVolts === null) return { log: 0, variance: isSaid ? unknownSupplyError ** 2 : 0 };
  const heat = heatAtVoltage(supplyVolts, ratedVoltsOf(source, run.recording.sheet));
  return { log: logCooling(heat), variance: logCoolingError(heat, 1) ** 2 };
}

function referGas(test: StretchEvidence, knownGood: StretchEvidence): Referred {
  const heat = gasHeatRatio(test.run.recording.sheet, knownGood.run.recording.sheet);
  const here = Math.exp(heat.logRatio);
  const shift = -logCooling(here);
  const variance = slopeAtRated ** 2 * heat.variance + logCoolingError(here, 1) ** 2;
  const reasons: ReasonSaying[] = heat.unknown.map(({ condition, error }) => ({
    code: "condition-one-sided",
    condition,
    share: reach * slopeAtRated * error,
  }));
  if (Math.abs(shift) >= 0.02)
    reasons.push({ code: "gas-referred", heat: here, factor: Math.exp(shift), share: reach * Math.sqrt(variance) });
  return { shift, variance, reasons };
}
