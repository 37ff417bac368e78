// A number as a hand types it: with a comma or a point, with either minus sign. Nothing of the browser is needed here.

/** What a field takes; no limit where none is named. */
export interface NumberLimits {
  readonly least?: number;
  /** More than this, where the least itself is not taken. */
  readonly above?: number;
  readonly most?: number;
}

/** null where nothing was typed; NaN where that is no number, or lies outside the limits. */
export function typedNumber(text: string, limits: NumberLimits = {}): number | null {
  const { least = -Infinity, above = -Infinity, most = Infinity } = limits;
  const typed = text.trim().replace("\u2212", "-").replace(",", ".");
  if (typed === "") return null;
  const value = /^[+-]?(\d+\.?\d*|\.\d+)$/.test(typed) ? Number(typed) : Number.NaN;
  return value >= least && value > above && value <= most ? value : Number.NaN;
}
