// Standard normal numbers that are the same on every machine and for every run: a band by draws, without chance.

import { normalQuantile } from "./distributions.ts";

/**
 * `count` draws of `dimensions` numbers each. In every dimension the draws are the middles of `count` equally likely
 * parts, in an order of its own (Latin hypercube; McKay, Beckman & Conover, Technometrics 21, 1979, from memory), so few
 * draws already hold the tails evenly.
 */
export function normalDraws(dimensions: number, count: number, seed: number): readonly (readonly number[])[] {
  const next = generator(seed);
  const middles = Array.from({ length: count }, (_, i) => normalQuantile((i + 0.5) / count));
  const columns = Array.from({ length: dimensions }, () => shuffled(middles, next));
  return middles.map((_, draw) => columns.map((column) => column[draw]));
}

function shuffled(values: readonly number[], next: () => number): readonly number[] {
  const result = [...values];
  for (let last = result.length - 1; last > 0; last--) {
    const other = Math.floor(next() * (last + 1));
    [result[last], result[other]] = [result[other], result[last]];
  }
  return result;
}

/** Even numbers from 0 up to 1: x' = 16807 x mod (2^31 - 1) (Park & Miller, CACM 31, 1988; from memory). */
function generator(seed: number): () => number {
  const modulus = 2_147_483_647;
  let state = (Math.abs(Math.floor(seed)) % (modulus - 1)) + 1;
  return () => {
    state = (16_807 * state) % modulus;
    return state / modulus;
  };
}
