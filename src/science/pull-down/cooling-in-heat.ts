// What a hot day does to the cooling: it falls with the ambient, slowly on ordinary days and faster above, where condensing gets
// harder. A stretch whose ambient climbs so cools less at its end than at its beginning; one exponential would take that for
// a faster curve to a warmer end, and so for a steeper fall.
//
// The coefficients come from this project's simulated fridges (eight random sound ones, ambient 15 to 35 °C, off times of 1 to
// 8 h); an earlier study on simulated fridges found 0.5 % per kelvin on average. No published source was found.

/** Cooling is told relative to this ambient, °C. */
const referenceAmbient = 25;

/** How ln(cooling), as one witness shows it, falls per K of ambient, and per K² above the reference. */
export interface HeatLoss {
  readonly perKelvin: number;
  readonly perSquareAbove: number;
}

/**
 * What the cooling itself loses within a stretch: the witnesses of whole stretches (condition-references.ts) feel warm walls, too.
 * Held against mornings that grow hot in tests/bench/hot-morning-study.ts.
 */
const heatLossOfCurve: HeatLoss = { perKelvin: -0.0014, perSquareAbove: -0.001 };

/** ln(cooling) at an ambient, °C, over that at the reference. */
export function logCoolingAt(ambient: number, { perKelvin, perSquareAbove }: HeatLoss): number {
  const above = ambient - referenceAmbient;
  return perKelvin * above + perSquareAbove * Math.max(0, above) ** 2;
}

/** A change of the cooling within a stretch by less than this share is not worth another fit. */
const leastChange = 0.01;

/**
 * The ambient under which a unit that always cools as at `mean` would give the same cabinet: warmer where it cools less.
 *
 * @param ambient °C, per row.
 * @param depth how far below ambient it would settle at `mean`, K.
 * @returns null where the cooling hardly changes.
 */
export function ambientForSteadyCooling(ambient: Float64Array, mean: number, depth: number): Float64Array | null {
  const atMean = logCoolingAt(mean, heatLossOfCurve);
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const steady = ambient.map((celsius) => {
    const lost = -Math.expm1(logCoolingAt(celsius, heatLossOfCurve) - atMean);
    least = Math.min(least, lost);
    most = Math.max(most, lost);
    return celsius + depth * lost;
  });
  return most - least < leastChange ? null : steady;
}
