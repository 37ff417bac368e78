// A curve whose pen is lifted over its gaps.

interface WithGaps {
  readonly unixMs: readonly number[];
  readonly values: readonly number[];
}

/** Puts a missing value into every gap; the gaps are in order of time. */
export function withGaps({
  unixMs,
  values,
  gaps,
}: WithGaps & { readonly gaps: readonly { readonly fromUnixMs: number; readonly toUnixMs: number }[] }): WithGaps {
  if (gaps.length === 0) return { unixMs, values };
  const instants: number[] = [];
  const shown: number[] = [];
  let next = 0;
  unixMs.forEach((at, i) => {
    while (next < gaps.length && gaps[next].toUnixMs <= at) {
      const { fromUnixMs, toUnixMs } = gaps[next++];
      instants.push((fromUnixMs + toUnixMs) / 2);
      shown.push(Number.NaN);
    }
    instants.push(at);
    shown.push(values[i]);
  });
  return { unixMs: instants, values: shown };
}
