// A sealed block: a stretch of one position's readings from one probe at one start of one board, compressed, with a checksum.
// It keeps raw values and times; corrected values are computed. The bytes of a column are number-column.ts.

import { constants, crc32, deflateRawSync, inflateRawSync } from "node:zlib";
import { packColumn, unpackColumn } from "./number-column.ts";

/** Readings side by side, all arrays equally long; null where no reading has such a value, NaN where one has none. */
export interface ReadingColumns {
  readonly unixMs: Float64Array;
  readonly raw: Float64Array;
  readonly sequence: Float64Array | null;
  readonly uptimeMs: Float64Array | null;
  readonly hostUnixMs: Float64Array | null;
}

export interface PackedBlock {
  readonly payload: Uint8Array;
  /** CRC-32 of the payload. */
  readonly checksum: number;
}

/**
 * Optional columns in their order; each has a bit in the block's second byte. Clocks are written as what they differ
 * from the time axis.
 */
const optional = [
  { name: "sequence", bit: 1, isClock: false },
  { name: "uptimeMs", bit: 2, isClock: true },
  { name: "hostUnixMs", bit: 4, isClock: true },
] as const;
/** Beside a clock's bit: it is written plainly, because differences would not give it back exactly. */
const plainClock = 8;

const layout = 1;
/** layout, which columns, count (4 bytes) */
const headBytes = 6;

/** @param readings one at least */
export function packBlock(readings: ReadingColumns): PackedBlock {
  const { unixMs, raw } = readings;
  const columns = [packColumn(unixMs), packColumn(raw)];
  let bits = 0;
  for (const { name, bit, isClock } of optional) {
    const values = readings[name];
    if (values === null) continue;
    const relative = isClock ? differenceFrom(unixMs, values) : null;
    bits |= bit | (isClock && relative === null ? bit * plainClock : 0);
    columns.push(packColumn(relative ?? values));
  }
  const head = new Uint8Array(headBytes);
  head[0] = layout;
  head[1] = bits;
  new DataView(head.buffer).setUint32(2, unixMs.length, true);
  // A copy of its own size: what zlib gives is a view on a chunk of 16 KB, which a long import would keep alive per block.
  const payload = new Uint8Array(compressed(Buffer.concat([head, ...columns])));
  return { payload, checksum: crc32(payload) };
}

/** Room that each compression takes, and keeps until the whole heap is swept: little, since a long import makes thousands. */
const chunkBytes = 1024;

/**
 * Differences of noisy readings never repeat as strings do, and a search for repetitions takes ten times as long as all the
 * rest: codes of unequal length alone make them smaller. Steady readings give runs of one byte, and these are looked for.
 */
function compressed(bytes: Uint8Array): Uint8Array {
  let repeats = 0;
  for (let at = 1; at < bytes.length; at++) if (bytes[at] === bytes[at - 1]) repeats++;
  const strategy = repeats * 2 > bytes.length ? constants.Z_RLE : constants.Z_HUFFMAN_ONLY;
  return deflateRawSync(bytes, { strategy, chunkSize: chunkBytes });
}

/**
 * The readings of a block; null when it is damaged.
 *
 * @param areLinesWanted false leaves sequence and clocks out (null), which takes half the time
 */
export function unpackBlock({ payload, checksum }: PackedBlock, areLinesWanted = true): ReadingColumns | null {
  if (crc32(payload) !== checksum) return null;
  const inflated = inflateRawSync(payload);
  // Not as a Buffer, whose `slice` would not copy.
  const bytes = new Uint8Array(inflated.buffer, inflated.byteOffset, inflated.length);
  if (bytes[0] !== layout) return null;
  const bits = bytes[1];
  const count = inflated.readUInt32LE(2);
  let at = headBytes;
  const nextColumn = () => {
    const column = unpackColumn(bytes.subarray(at), count);
    at += column.bytes;
    return column.values;
  };
  const unixMs = nextColumn();
  const readings = { unixMs, raw: nextColumn(), sequence: null, uptimeMs: null, hostUnixMs: null };
  if (!areLinesWanted) return readings;
  const found: { [N in (typeof optional)[number]["name"]]?: Float64Array } = {};
  for (const { name, bit, isClock } of optional) {
    if ((bits & bit) === 0) continue;
    const values = nextColumn();
    found[name] = isClock && (bits & (bit * plainClock)) === 0 ? sum(unixMs, values) : values;
  }
  return { ...readings, ...found };
}

/** `clock - axis`, when adding it to the axis gives the very same clock; else null. */
function differenceFrom(axis: Float64Array, clock: Float64Array): Float64Array | null {
  const difference = clock.map((value, i) => value - axis[i]);
  return difference.every((value, i) => Object.is(axis[i] + value, clock[i])) ? difference : null;
}

const sum = (axis: Float64Array, difference: Float64Array) => difference.map((value, i) => axis[i] + value);
