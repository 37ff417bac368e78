// What is left to chance in the studies' random fridges: draws from a seed, probes that are off a little, nights that differ.

import { seededRandom } from "../../../src/simulate/index.ts";

/** How much heat, voltage and cooling change from run to run. */
export const scatters = {
  calm: { heat: 0.015, volts: 0, cooling: 0.015 },
  scattered: { heat: 0.05, volts: 0.035, cooling: 0.03 },
} as const;
export type Scatter = keyof typeof scatters;

/** Draws, one after the other: the same seed and stream give the same. */
export interface Luck {
  readonly between: (low: number, high: number) => number;
  readonly pick: <T>(values: readonly T[]) => T;
  readonly normal: () => number;
}

export function luckOf(seed: number, stream: string): Luck {
  const random = seededRandom(seed, stream);
  return {
    between: (low, high) => low + (high - low) * random.uniform(),
    pick: (values) => values[Math.floor(random.uniform() * values.length)],
    normal: () => random.normal(),
  };
}

/** Three probes, each 0.2 K off in one standard deviation. */
export function usualProbes({ normal }: Luck) {
  const probe = (noiseKelvin: number) => ({ offsetKelvin: 0.2 * normal(), noiseKelvin });
  return { evaporator: probe(0.05), cabinet: probe(0.05), ambient: probe(0.1) };
}
