// The pull-down fit of one stretch: which readings take part, what door openings leave behind, and how much of the
// curve is used. The fit itself is in pull-down-fit.ts.

import { varianceInflation } from "../numbers/effective-readings.ts";
import type { Unknown } from "../numbers/estimate.ts";
import { doorCutHours, meanAmbient, picked, type StretchView } from "../readings/stretch-view.ts";
import { ambientForSteadyCooling } from "./cooling-in-heat.ts";
import { type FittedPullDown, fitPullDown } from "./pull-down-fit.ts";
import { fewestReadings } from "./pull-down-readings.ts";
import { secondMode, type TwoModes } from "./two-modes.ts";

/** A fit of one probe of a stretch. Its hour 0 is `shiftHours` after the stretch began: a door before the onset starts it anew. */
export interface CurveFit {
  readonly fit: FittedPullDown;
  /** As the fit was given it, °C, per row of the view: warmer where a hot day takes of the cooling (cooling-in-heat.ts). */
  readonly ambient: Float64Array;
  readonly shiftHours: number;
  /** Hours since the stretch began. */
  readonly onsetHours: number;
  /** How long the readings go on after the onset, h. */
  readonly hoursAfterOnset: number;
}

/** The cabinet's fit, its noise taken without what a second mode explains. */
export interface CabinetFit extends CurveFit {
  /** Where one exponential leaves structure in the residuals: the two that fit. */
  readonly twoModes: TwoModes | null;
}

export interface CabinetFitOptions {
  /** The fit of the whole stretch, when this is a cut of it: the noise is the same, and better seen in the whole. */
  readonly whole?: CabinetFit;
}

/** The least fall that counts as cold, K. */
export const leastFall = 1;

/**
 * @param warmingRate how the cabinet relaxes before the onset, 1/h.
 * @param untilHours leaves later readings out, h since the stretch began.
 */
export function fitCabinet(
  view: StretchView,
  warmingRate: number,
  untilHours = view.endHours,
  { whole }: CabinetFitOptions = {},
): CabinetFit | Unknown {
  const curve = fitCurve(view, view.cabinet, warmingRate, untilHours);
  if ("why" in curve) return curve;
  const twoModes = whole === undefined ? secondMode(curve.fit) : whole.twoModes;
  return { ...curve, twoModes, fit: twoModes === null ? curve.fit : withNoiseOf(twoModes, curve.fit) };
}

/** The evaporator's own fit, for the picture. */
export function fitEvaporator(view: StretchView, warmingRate: number): CurveFit | Unknown {
  return fitCurve(view, view.evaporator, warmingRate, view.endHours);
}

function fitCurve(
  view: StretchView,
  values: Float64Array,
  warmingRate: number,
  untilHours: number,
): CurveFit | Unknown {
  if (view.ambient === null) return { why: { code: "no-ambient" } };
  const until = Math.min(untilHours, view.endHours);
  const fitWith = (from: number, jumps: readonly number[], cut = view.doorHours) =>
    fitBetween(view, values, warmingRate, from, until, jumps, cut);
  // Only to see which doors opened before the onset: to this fit, those after it are noise.
  const rough = fitWith(0, []);
  if ("why" in rough) return rough;
  const withOnset = rough.onsetHours + besideOnsetHours;
  const before = view.doorHours.filter((hours) => hours <= withOnset);
  const after = view.doorHours.filter((hours) => hours > withOnset && hours < until);
  const jumps = after.filter((hours, i) => !isOpenedAgain(hours, after[i + 1]));
  // A door before the onset warms nothing yet, but starts the curve anew; one after it leaves a jump that decays.
  const startHours = before.length === 0 ? 0 : Math.max(...before) + doorCutHours;
  if (startHours < rough.onsetHours)
    return ifCooled(jumps.length === 0 && startHours === 0 ? rough : fitWith(startHours, jumps));
  // Opened so close to the onset that none would be left to see: what it let in tells less than the onset does.
  return ifCooled(fitWith(0, jumps, after));
}

/** A door this soon after the onset hides it, h. */
const besideOnsetHours = 0.1;

const noOnset: Unknown = { why: { code: "no-onset" } };

const ifCooled = (curve: CurveFit | Unknown): CurveFit | Unknown =>
  "why" in curve || hasCooled(curve.fit) ? curve : noOnset;

/** Opened again before a reading counts: both leave one jump, and nothing would tell two of them apart. */
const isOpenedAgain = (door: number, next: number | undefined): boolean =>
  next !== undefined && next < door + doorCutHours;

function fitBetween(
  view: StretchView,
  values: Float64Array,
  warmingRate: number,
  from: number,
  until: number,
  doors: readonly number[],
  cut: readonly number[],
): CurveFit | Unknown {
  const rows: number[] = [];
  for (let i = 0; i < view.hours.length; i++) {
    const hours = view.hours[i];
    if (hours < from || hours > until || !Number.isFinite(values[i])) continue;
    if (cut.some((door) => hours >= door && hours < door + doorCutHours)) continue;
    rows.push(i);
  }
  if (rows.length < 2 * fewestReadings) {
    return { why: { code: "too-few-readings", readings: rows.length, needed: 2 * fewestReadings } };
  }
  const hours = picked(view.hours, rows).map((since) => since - from);
  const cabinetCelsius = picked(values, rows);
  const options = { warmingRate, doorHours: doors.map((door) => door - from), robust: true };
  const fitIn = (ambient: Float64Array) =>
    fitPullDown({ hours, cabinetCelsius, ambientCelsius: picked(ambient, rows) }, options);
  const measured = view.ambient as Float64Array;
  const mean = meanAmbient(view, 0, view.endHours);
  let ambient = measured;
  let fit = fitIn(ambient);
  // How deep it would settle decides how much warmer a loss of cooling is: twice is enough.
  for (let round = 0; round < 2 && fit.outcome === "fitted" && hasCooled(fit); round++) {
    const steady = ambientForSteadyCooling(measured, mean, fit.pullDown.depth);
    if (steady === null) break;
    ambient = steady;
    fit = fitIn(ambient);
  }
  if (fit.outcome === "not fitted") return noOnset;
  const onsetHours = from + fit.pullDown.onset;
  return {
    fit,
    ambient,
    shiftHours: from,
    onsetHours,
    hoursAfterOnset: view.hours[rows[rows.length - 1]] - onsetHours,
  };
}

/**
 * The structure that contents leave behind one mode is the same in every equally long stretch of the fridge: it is no
 * noise. The intervals of k, D and S then rest on what two modes leave.
 */
function withNoiseOf({ fit: two }: TwoModes, fit: FittedPullDown): FittedPullDown {
  const rows = two.residual.length;
  const perRow = fit.count / rows;
  const variance = Math.min(fit.variance, (two.rss / Math.max(1, rows - 5)) * perRow);
  const inflation = varianceInflation(two.residual, null, 5);
  const shrink = Math.sqrt(variance / fit.variance);
  const errors = fit.standardErrors;
  return {
    ...fit,
    variance,
    inflation,
    standardErrors: {
      rate: errors.rate * shrink,
      onset: errors.onset * shrink,
      depth: errors.depth * shrink,
      start: errors.start * shrink,
      initialSlope: errors.initialSlope * shrink,
    },
  };
}

/** Whether the fitted cooling stands out: a fall of a kelvin, and well above its own error. */
function hasCooled(fit: FittedPullDown): boolean {
  const { rate, depth, onset } = fit.pullDown;
  const last = fit.readings.hours[fit.readings.hours.length - 1];
  const fall = depth * -Math.expm1(-rate * (last - onset));
  const error = fit.standardErrors.initialSlope * Math.sqrt(fit.inflation);
  return fall >= leastFall && rate * depth > 3 * error;
}
