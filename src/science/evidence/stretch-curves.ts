// The series behind the drawing of one stretch: readings, fitted curve, its band, residuals.

import type { StretchCurves } from "../findings.ts";
import { fitEvaporator } from "../pull-down/cabinet-fit.ts";
import { cabinetTemperature } from "../pull-down/pull-down.ts";
import { buildUpHours, type TwoModes } from "../pull-down/two-modes.ts";
import type { Comparison } from "../strength/comparison.ts";
import type { StretchEvidence } from "./run-evidence.ts";

/** Everything to draw, and whether one mode leaves structure behind. */
export function stretchCurves(
  evidence: StretchEvidence,
  comparisons: readonly Comparison[],
): { curves: StretchCurves; modes: 1 | 2 } {
  const { view, fitted } = evidence;
  const n = view.hours.length;
  const nothing = () => new Float64Array(n).fill(Number.NaN);
  const bare = {
    hours: view.hours,
    evaporator: view.evaporator,
    cabinet: view.cabinet,
    ambient: view.ambient ?? nothing(),
    fitted: nothing(),
    bandLow: nothing(),
    bandHigh: nothing(),
    residual: nothing(),
    evaporatorFitted: nothing(),
    knownGood: null,
  };
  if ("why" in fitted || view.ambient === null) return { curves: bare, modes: 1 };
  const { cabinetFit, judged } = fitted;
  const { shiftHours } = cabinetFit;
  // The fit's own time, from its own start to where its readings end.
  const from = view.hours.findIndex((hours) => hours >= shiftHours);
  const to = view.hours.findLastIndex((hours) => hours <= view.endHours) + 1;
  const course = {
    hours: view.hours.slice(from, to).map((hours) => hours - shiftHours),
    ambientCelsius: cabinetFit.ambient.slice(from, to),
  };
  const setting = { warmingRate: cabinetFit.fit.warmingRate };
  const place = (values: Float64Array) => {
    const whole = nothing();
    whole.set(values, from);
    return whole;
  };
  const two = cabinetFit.twoModes;
  const curve = withSecondMode(
    cabinetTemperature(course, cabinetFit.fit.pullDown, setting),
    course.hours,
    cabinetFit.fit.pullDown,
    two,
  );
  const low = Float64Array.from(curve);
  const high = Float64Array.from(curve);
  for (const { pullDown, depthReach } of judged.intervals.possible) {
    for (const reach of [-depthReach, depthReach]) {
      const possible = withSecondMode(
        cabinetTemperature(course, { ...pullDown, depth: pullDown.depth + reach }, setting),
        course.hours,
        cabinetFit.fit.pullDown,
        two,
      );
      for (let i = 0; i < possible.length; i++) {
        low[i] = Math.min(low[i], possible[i]);
        high[i] = Math.max(high[i], possible[i]);
      }
    }
  }
  const evaporatorFit = fitEvaporator(view, evidence.warmingRate);
  return {
    modes: two === null ? 1 : 2,
    curves: {
      ...bare,
      fitted: place(curve),
      bandLow: place(low),
      bandHigh: place(high),
      residual: place(curve.map((value, i) => view.cabinet[from + i] - value)),
      evaporatorFitted:
        "why" in evaporatorFit || evaporatorFit.shiftHours !== shiftHours
          ? nothing()
          : place(
              cabinetTemperature(
                { ...course, ambientCelsius: evaporatorFit.ambient.slice(from, to) },
                evaporatorFit.fit.pullDown,
                setting,
              ),
            ),
      knownGood: knownGoodCurve(comparisons),
    },
  };
}

/** Puts what two modes add over one on top of the one-mode curve, from the onset on. */
function withSecondMode(
  curve: Float64Array,
  hours: Float64Array,
  one: { onset: number; rate: number },
  two: TwoModes | null,
): Float64Array {
  if (two === null) return curve;
  const { rates, amplitudes, constant } = two.fit;
  return curve.map((value, i) => {
    const since = hours[i] - one.onset;
    if (since < 0) return value;
    const sum = rates.reduce((total, rate, j) => total + amplitudes[j] * Math.exp(-rate * since), constant);
    // Two modes are fitted from the end of the build-up on; until then the curve goes over to them.
    const share = Math.min(1, since / buildUpHours);
    return value + share * (sum - two.amplitude * Math.exp(-one.rate * since));
  });
}

/** Mean of the known-good fits, as kelvin below ambient against hours since the onset, from ambient. */
function knownGoodCurve(comparisons: readonly Comparison[]): StretchCurves["knownGood"] {
  if (comparisons.length === 0) return null;
  const longest = Math.max(...comparisons.map((comparison) => comparison.hours));
  const hoursSinceOnset = Float64Array.from({ length: 61 }, (_, i) => (i * longest) / 60);
  const fits = comparisons.flatMap(({ there }) => (there.fit === null ? [] : [there.fit.fit.pullDown]));
  if (fits.length === 0) return null;
  const belowAmbient = hoursSinceOnset.map(
    (hours) => fits.reduce((sum, { depth, rate }) => sum - depth * Math.expm1(-rate * hours), 0) / fits.length,
  );
  return { hoursSinceOnset, belowAmbient };
}
