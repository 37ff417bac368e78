// A warmer day and a colder start change what fins and slope show without any fault. Both witnesses are referred to the
// same ambient, the slope to the same start.
//
// The coefficients come from this project's simulated fridges (eight random sound ones, ambient 15 to 35 °C, off times of
// 1 to 8 h); an earlier study on simulated fridges found 0.5 % per kelvin on average. No published source was found,
// so each keeps a wide error.

import { ambientOfFins } from "../evidence/fin-difference.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import { type HeatLoss, logCoolingAt } from "../pull-down/cooling-in-heat.ts";
import type { ReasonSaying } from "../sayings.ts";

/** A shift of a logarithm, and its variance. */
interface Shift {
  readonly shift: number;
  readonly variance: number;
}

/** The slope also feels the walls, warmer all around: it falls more per kelvin than the cooling alone. */
const slopeWitness: HeatLoss = { perKelvin: -0.0037, perSquareAbove: -0.001 };
const finWitness: HeatLoss = { perKelvin: -0.0014, perSquareAbove: -0.0009 };
/** Share of an ambient shift that is not known. */
const ambientDoubt = 0.45;

/** An ambient here and there, °C. */
interface Ambients {
  readonly here: number;
  readonly there: number;
}

/**
 * What to add to both witnesses so that both runs speak of the same ambient: the slope of the whole stretch's, the fins of
 * that in which they are read.
 */
export function referAmbient(
  test: StretchEvidence,
  knownGood: StretchEvidence,
  ofFins: Ambients = { here: ambientOfFins(test.view), there: ambientOfFins(knownGood.view) },
): { readonly slope: Shift; readonly fins: Shift; readonly reasons: readonly ReasonSaying[] } {
  const { ambient } = test;
  const other = knownGood.ambient;
  if (!Number.isFinite(ambient) || !Number.isFinite(other)) {
    return { slope: { shift: 0, variance: 0 }, fins: { shift: 0, variance: 0 }, reasons: [] };
  }
  const shiftOf = (witness: HeatLoss, { here, there }: Ambients): Shift => {
    const shift = logCoolingAt(there, witness) - logCoolingAt(here, witness);
    // Two ambients on either side of the bend can cancel in the shift and still be far apart.
    const doubt = ambientDoubt * Math.max(Math.abs(shift), 0.002 * Math.abs(here - there));
    return { shift, variance: doubt ** 2 };
  };
  const slope = shiftOf(slopeWitness, { here: ambient, there: other });
  const fins = shiftOf(finWitness, ofFins);
  const factor = Math.exp((slope.shift + fins.shift) / 2);
  const reasons: ReasonSaying[] =
    Math.abs(ambient - other) < 3 ? [] : [{ code: "ambient-referred", ambient, baselineAmbient: other, factor }];
  return { slope, fins, reasons };
}

/**
 * A cabinet that starts cold falls faster at first than one mode believes: its air is cold, its walls and shelves help
 * on. The error fades with the length of the cut.
 */
const startPerKelvinHour = 0.054;
const startDoubt = 0.4;

/** What to add to the slope witness so that both runs speak of the same start. */
export function referStart(
  test: StretchEvidence,
  knownGood: StretchEvidence,
  hours: number,
): Shift & { readonly reasons: readonly ReasonSaying[] } {
  const colder = test.startBelowAmbient - knownGood.startBelowAmbient;
  const shift = -(startPerKelvinHour / hours) * colder;
  const reasons: ReasonSaying[] =
    Math.abs(shift) < 0.02
      ? []
      : [
          {
            code: "start-referred",
            belowAmbient: test.startBelowAmbient,
            baselineBelowAmbient: knownGood.startBelowAmbient,
            factor: Math.exp(shift),
          },
        ];
  return { shift, variance: (startDoubt * shift) ** 2, reasons };
}
