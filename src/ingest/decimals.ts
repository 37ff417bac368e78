// Numbers from the bytes of a cell, without making a string: a million rows hold millions of them.

const zero = 0x30;
const plus = 0x2b;
const minus = 0x2d;
const point = 0x2e;

/** 10^0 to 10^15. A whole number below 2^53 over one of these is rounded once, hence correctly. */
const powersOfTen = Float64Array.from({ length: 16 }, (_, exponent) => 10 ** exponent);
const mostExactDigits = 15;

/**
 * The decimal number written in `bytes` from `from` up to, not including, `to`.
 *
 * @returns the nearest double, or NaN when the cell holds anything but one finite decimal number (an
 *   empty cell included; `Number("")` would make a believable 0 of it).
 */
export function decimalFrom(bytes: Uint8Array, from: number, to: number): number {
  const isNegative = bytes[from] === minus;
  let at = isNegative || bytes[from] === plus ? from + 1 : from;
  let whole = 0;
  let digits = 0;
  let decimals = 0;
  for (; at < to && isDigit(bytes[at]); at++, digits++) whole = whole * 10 + (bytes[at] - zero);
  if (at < to && bytes[at] === point) {
    for (at++; at < to && isDigit(bytes[at]); at++, digits++, decimals++) whole = whole * 10 + (bytes[at] - zero);
  }
  if (digits === 0) return Number.NaN;
  if (at < to || digits > mostExactDigits) return unusualDecimal(bytes, from, to);
  const size = whole / powersOfTen[decimals];
  return isNegative ? -size : size;
}

const isDigit = (byte: number) => byte >= zero && byte <= zero + 9;

const decimalPattern = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;

/** Exponents and long numbers, by way of a string; not a number otherwise. */
function unusualDecimal(bytes: Uint8Array, from: number, to: number): number {
  const text = String.fromCharCode(...bytes.subarray(from, Math.min(to, from + longestNumber + 1)));
  if (text.length > longestNumber || !decimalPattern.test(text)) return Number.NaN;
  const value = Number(text);
  return Number.isFinite(value) ? value : Number.NaN;
}

/** Characters; longer cells are no reading of a probe. */
const longestNumber = 400;
