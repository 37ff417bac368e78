// Where the names of neighbouring spans stand along a drawing, so that none covers another: what was heated is named first,
// and what was off where room is left.

/** A span of a drawing that has a name; all in px across. */
export interface NamedSpan {
  readonly from: number;
  readonly to: number;
  /** Half the width of its name. */
  readonly half: number;
  readonly isOff: boolean;
}

/**
 * @param spans from left to right
 * @param gap kept free between two names
 * @returns the middle of each span's name, within left and right; null where there is no room for it
 */
export function namePlaces(spans: readonly NamedSpan[], left: number, right: number, gap: number): (number | null)[] {
  const places: (number | null)[] = spans.map(() => null);
  // The longest span has the best claim: its name is the likeliest to stand over it.
  const byClaim = [...spans.keys()].sort(
    (a, b) => Number(spans[a].isOff) - Number(spans[b].isOff) || lengthOf(spans[b]) - lengthOf(spans[a]),
  );
  for (const index of byClaim) {
    const { from, to, half } = spans[index];
    const middle = Math.min(Math.max((from + to) / 2, left + half), right - half);
    const isFree = places.every((other, i) => other === null || Math.abs(other - middle) >= half + spans[i].half + gap);
    if (isFree) places[index] = middle;
  }
  return places;
}

const lengthOf = ({ from, to }: NamedSpan) => to - from;
