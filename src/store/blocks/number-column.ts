// One column of numbers in as few bytes as it takes to give exactly the same numbers back. reading-block.ts puts
// columns together and compresses them.
//
// Probes speak in steps (1/16 K, 0.01 °C) and clocks in milliseconds. So a column is written as whole numbers of the coarsest
// step that loses nothing, as differences from one reading to the next, less their mean (a steady clock then costs nothing).
// Numbers without such a step stay 64-bit floating point.

/** Steps per unit to be tried, coarse to fine. 16 is that of one-wire probes of 12 bits. */
const scales = [1, 16, 10, 100, 1000, 10_000, 100_000, 1_000_000];

/** Bytes of one difference; 0: all differences alike; 8: no differences but the numbers themselves. */
type Width = 0 | 1 | 2 | 4 | 8;

/** width (1 byte), scale, first, step (8 bytes each) */
const headBytes = 25;
const largestOf = { 0: 0, 1: 0x7f, 2: 0x7fff, 4: 0x7fff_ffff } as const;

/** For differences while a column is packed; used again, since a long import packs thousands of columns. */
let room = new Int32Array(4096);

/** @param values one at least */
export function packColumn(values: Float64Array): Uint8Array {
  if (room.length < values.length) room = new Int32Array(values.length);
  for (const scale of scales) {
    const differences = differencesOf(values, scale, room.subarray(0, values.length - 1));
    if (differences !== null) return packDifferences(differences);
  }
  const bytes = withHead(8, 1, 0, 0, values.byteLength);
  bytes.set(bytesOf(values), headBytes);
  return bytes;
}

/**
 * The column at the beginning of `bytes`, and how many bytes it took.
 *
 * @param count as many as were packed
 */
export function unpackColumn(
  bytes: Uint8Array,
  count: number,
): { readonly values: Float64Array; readonly bytes: number } {
  const head = new DataView(bytes.buffer, bytes.byteOffset, headBytes);
  const width = head.getUint8(0) as Width;
  const scale = head.getFloat64(1, true);
  const first = head.getFloat64(9, true);
  const step = head.getFloat64(17, true);
  const dataBytes = width === 8 ? 8 * count : width * (count - 1);
  // A copy, since typed arrays must begin at a multiple of their element's size.
  const data = bytes.slice(headBytes, headBytes + dataBytes).buffer;
  const values =
    width === 8 ? new Float64Array(data) : fromDifferences(differencesIn(data, width, count), first, step, scale);
  return { values, bytes: headBytes + dataBytes };
}

interface Differences {
  readonly scale: number;
  /** In steps, as are the two below. */
  readonly first: number;
  readonly step: number;
  /** From each reading to the next, less `step`. */
  readonly differences: Int32Array;
  readonly largest: number;
}

/**
 * Null when the values are not whole steps of 1 / scale, or lie too far apart: then they would not come back the same.
 *
 * @param differences is written into: one shorter than the values
 */
function differencesOf(values: Float64Array, scale: number, differences: Int32Array): Differences | null {
  const last = values.length - 1;
  const first = Math.round(values[0] * scale);
  const step = last === 0 ? 0 : Math.round((values[last] * scale - first) / last);
  let largest = 0;
  let before = first - step;
  for (let i = 0; i <= last; i++) {
    const value = values[i];
    const steps = Math.round(value * scale);
    // Written so that NaN fails.
    if (!(steps / scale === value && Math.abs(steps) <= Number.MAX_SAFE_INTEGER)) return null;
    // As whole numbers -0 would come back as 0.
    if (steps === 0 && Object.is(value, -0)) return null;
    const difference = steps - before - step;
    const size = Math.abs(difference);
    if (size > largest) largest = size;
    if (i > 0) differences[i - 1] = difference;
    before = steps;
  }
  return largest > largestOf[4] ? null : { scale, first, step, differences, largest };
}

function packDifferences({ scale, first, step, differences, largest }: Differences): Uint8Array {
  const width = ([0, 1, 2, 4] as const).find((bytes) => largest <= largestOf[bytes]) ?? 4;
  const bytes = withHead(width, scale, first, step, width * differences.length);
  if (width === 4) bytes.set(bytesOf(differences), headBytes);
  else if (width !== 0) bytes.set(bytesOf(new narrow[width](differences)), headBytes);
  return bytes;
}

const narrow = { 1: Int8Array, 2: Int16Array } as const;

/** As they lie in memory: every platform that Node runs on is little-endian. */
const bytesOf = ({ buffer, byteOffset, byteLength }: ArrayBufferView) => new Uint8Array(buffer, byteOffset, byteLength);

function withHead(
  width: Width,
  scale: number,
  first: number,
  step: number,
  dataBytes: number,
): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(headBytes + dataBytes);
  const head = new DataView(bytes.buffer);
  head.setUint8(0, width);
  head.setFloat64(1, scale, true);
  head.setFloat64(9, first, true);
  head.setFloat64(17, step, true);
  return bytes;
}

/** Always four bytes wide, so that the loop over them meets one kind of array and stays fast. */
function differencesIn(data: ArrayBuffer, width: Exclude<Width, 8>, count: number): Int32Array {
  if (width === 0) return new Int32Array(count - 1);
  return width === 4 ? new Int32Array(data) : new Int32Array(new narrow[width](data));
}

function fromDifferences(differences: Int32Array, first: number, step: number, scale: number): Float64Array {
  const values = new Float64Array(differences.length + 1);
  let steps = first;
  values[0] = steps / scale;
  for (let i = 0; i < differences.length; i++) {
    steps += differences[i] + step;
    values[i + 1] = steps / scale;
  }
  return values;
}
