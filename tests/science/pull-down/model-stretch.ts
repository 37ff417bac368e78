// Stretches made from the fitted model itself, with seeded noise: for properties, coverage and timing. They test the
// fit's arithmetic and its intervals, never whether the model is true.

import { cabinetTemperature } from "../../../src/science/pull-down/pull-down.ts";
import type { StretchReadings } from "../../../src/science/pull-down/pull-down-readings.ts";

/** What a probe may add to the truth. */
export type Noise = "none" | "white" | "AR(1) 0.6" | "AR(1) 0.9" | "white + 10 min wander" | "0.0625 K steps";

export interface ModelStretch {
  readonly hours: number;
  /** Sampling step, min. */
  readonly stepMinutes: number;
  readonly rate: number;
  readonly depth: number;
  readonly onset: number;
  readonly start: number;
  readonly ambient: "constant" | "drifting";
  readonly noise: Noise;
  /** Standard deviation of the noise, K. */
  readonly noiseKelvin: number;
  readonly warmingRate: number;
}

/** A usual night: 12 h by the minute, 27 K below ambient in the end, cold after 40 min. */
export const usualStretch: ModelStretch = {
  hours: 12,
  stepMinutes: 1,
  rate: 0.25,
  depth: 27,
  onset: 0.67,
  start: 24,
  ambient: "drifting",
  noise: "white",
  noiseKelvin: 0.1,
  warmingRate: 0.12,
};

/** Readings of `usualStretch` with some of it changed; the same seed gives the same readings. */
export function modelStretch(changes: Partial<ModelStretch> = {}, seed = 1): StretchReadings {
  const {
    hours: duration,
    stepMinutes,
    ambient,
    noise,
    noiseKelvin,
    warmingRate,
    ...rest
  } = {
    ...usualStretch,
    ...changes,
  };
  const n = Math.round((60 * duration) / stepMinutes) + 1;
  const hours = Float64Array.from({ length: n }, (_, i) => (i * stepMinutes) / 60);
  const ambientCelsius = hours.map((hour) => (ambient === "constant" ? 25 : 24 + 3 * Math.cos((hour - 1) / 3.5)));
  const truth = cabinetTemperature({ hours, ambientCelsius }, { ...rest, jumps: [] }, { warmingRate });
  const random = normalRandom(seed);
  const added = noiseCourse(noise, noiseKelvin, stepMinutes, n, random);
  const cabinetCelsius = truth.map((value, i) => {
    const read = value + added[i];
    return noise === "0.0625 K steps" ? Math.round(read / 0.0625) * 0.0625 : read;
  });
  return { hours, cabinetCelsius, ambientCelsius };
}

function noiseCourse(noise: Noise, kelvin: number, stepMinutes: number, n: number, random: () => number): Float64Array {
  switch (noise) {
    case "none":
      return new Float64Array(n);
    case "white":
      return Float64Array.from({ length: n }, () => kelvin * random());
    case "AR(1) 0.6":
      return remembering(0.6, kelvin, n, random);
    case "AR(1) 0.9":
      return remembering(0.9, kelvin, n, random);
    case "white + 10 min wander": {
      const wander = remembering(Math.exp(-stepMinutes / 10), kelvin / 2, n, random);
      return wander.map((value) => value + kelvin * random());
    }
    case "0.0625 K steps":
      // Quiet enough for the steps to show.
      return Float64Array.from({ length: n }, () => 0.03 * random());
  }
}

/** Noise of which each value keeps `memory` of the one before. */
function remembering(memory: number, kelvin: number, n: number, random: () => number): Float64Array {
  const fresh = kelvin * Math.sqrt(1 - memory * memory);
  let value = kelvin * random();
  return Float64Array.from({ length: n }, () => {
    const now = value;
    value = memory * value + fresh * random();
    return now;
  });
}

/** Standard normal numbers from a seed: mulberry32 and the Box-Muller transform. */
export function normalRandom(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let x = Math.imul(state ^ (state >>> 15), state | 1);
    x ^= x + Math.imul(x ^ (x >>> 7), x | 61);
    return ((x ^ (x >>> 14)) >>> 0) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}
