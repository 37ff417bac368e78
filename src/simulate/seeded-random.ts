// A small seeded generator, so that every invented night can be repeated. Not for secrets.
// Method: the 32-bit mixer known as mulberry32 (from memory), seeded by FNV-1a over seed and stream name;
// its mean, spread and independence are tested in tests/simulate/seeded-random.test.ts.

export interface SeededRandom {
  /** Even between 0 (included) and 1 (left out). */
  uniform(): number;
  /** Normal with mean 0 and standard deviation 1. */
  normal(): number;
}

/**
 * The random numbers of one stream.
 *
 * @param stream names what the numbers are for, so that one more draw for the probes leaves the weather alone.
 */
export function seededRandom(seed: number, stream: string): SeededRandom {
  let state = fnv1a(`${seed}/${stream}`);
  const uniform = () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  // Box and Muller (1958); 1 - u keeps the logarithm finite.
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, normal };
}

function fnv1a(text: string): number {
  let hash = 0x811c9dc5;
  for (const letter of text) hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193);
  return hash | 0;
}
