// Heat that reaches the boiler on each source: what the sources of one fridge can be compared by when no known-good run
// exists. Of electric watts all arrive, of gas 60 to 75 % (common practice, no source).

import type { HeatSource, RunSheet } from "../../schema/index.ts";

/** Useful watts and the standard error of their logarithm. */
export interface UsefulHeat {
  readonly watts: number;
  readonly logError: number;
}

const gasEfficiency = 0.675;
const gasEfficiencyLogError = 0.065;
/** Rated plates against measured watts: elements within 10 % of rated ohms (absorption.json, read in a quoting text). */
const plateLogError = 0.04;

/**
 * Usual rated heat where the sheet says nothing, W: mains 120-140, 12 V 110-170 (mostly near the mains element's),
 * gas 150-250 gross. Common practice, no source. Makers match the sources, so the error of their ratio is smaller.
 */
const usual: { readonly [S in HeatSource]: UsefulHeat } = {
  mains: { watts: 125, logError: 0.06 },
  dc12: { watts: 122, logError: 0.07 },
  gas: { watts: 126, logError: 0.09 },
};

/** What a source's heater or burner brings into the boiler: by its plate where the run sheet has it, else as usual. */
export function usefulHeat(source: HeatSource, sheet: RunSheet | null): UsefulHeat {
  const rated = sheet?.ratedWatts?.[source];
  if (rated === undefined) return usual[source];
  if (source !== "gas") return { watts: rated, logError: plateLogError };
  return { watts: rated * gasEfficiency, logError: Math.hypot(plateLogError, gasEfficiencyLogError) };
}
