// Curves that grow while a run goes on: new readings at the end, and thinner again when they become many.

export const drawnPositions = ["cabinet", "evaporator", "ambient"] as const;
export type DrawnPosition = (typeof drawnPositions)[number];

export interface GrowingCurve {
  readonly unixMs: readonly number[];
  readonly values: readonly number[];
}

export type Growth = { readonly [P in DrawnPosition]?: GrowingCurve };

/** More than this are thinned. */
const most = 6000;

/** With readings added at the end; such as lie before it are there already. */
export function growing(
  growth: Growth,
  position: DrawnPosition,
  unixMs: readonly number[],
  values: readonly number[],
): Growth {
  const before = growth[position] ?? { unixMs: [], values: [] };
  const last = before.unixMs.at(-1) ?? Number.NEGATIVE_INFINITY;
  const first = unixMs.findIndex((at) => at > last);
  if (first < 0) return growth;
  const grown = {
    unixMs: [...before.unixMs, ...unixMs.slice(first)],
    values: [...before.values, ...values.slice(first)],
  };
  return { ...growth, [position]: grown.unixMs.length > most ? thinner(grown) : grown };
}

/** Of every four readings the lowest and the highest, in order of time: extremes stay. */
function thinner({ unixMs, values }: GrowingCurve): GrowingCurve {
  const kept: number[] = [];
  for (let i = 0; i < values.length; i += 4) {
    let [low, high] = [i, i];
    for (let j = i + 1; j < Math.min(i + 4, values.length); j++) {
      if (values[j] < values[low]) low = j;
      if (values[j] > values[high]) high = j;
    }
    kept.push(...(low === high ? [low] : [Math.min(low, high), Math.max(low, high)]));
  }
  // The newest one stays too: what comes next is told from what is there by it.
  if (kept.at(-1) !== values.length - 1) kept.push(values.length - 1);
  return { unixMs: kept.map((i) => unixMs[i]), values: kept.map((i) => values[i]) };
}
