// From a cleaned log to the working series: means over at most one minute.

import {
  energySources,
  msPerMinute,
  type Position,
  positions,
  type Recording,
  type SourceMark,
} from "../../schema/index.ts";
import type { Series } from "./series.ts";

/**
 * Means over whole minutes of the clock; a log sampled every minute or slower stays as it is.
 *
 * The minutes are those of the clock, so that whole days added to all instants change nothing else. A row never mixes
 * two energy sources (told by column or mark), and being within one minute it never bridges a gap.
 *
 * @param cleaned rows strictly ascending in time.
 */
export function workingSeries(cleaned: Recording): Series {
  const { name, unixMs } = cleaned;
  const begins = rowBegins(cleaned);
  const count = begins.length - 1;
  const columns: { [P in Position]?: Float64Array } = {};
  for (const position of positions) {
    const column = cleaned.columns[position];
    if (column !== undefined) columns[position] = meansOf(column, begins);
  }
  const instants = new Float64Array(count);
  const counts = new Float64Array(count);
  for (let row = 0; row < count; row++) {
    const first = unixMs[begins[row]];
    let after = 0;
    for (let i = begins[row]; i < begins[row + 1]; i++) after += unixMs[i] - first;
    counts[row] = begins[row + 1] - begins[row];
    // Whole milliseconds: what days add must not show in the last digits.
    instants[row] = first + Math.round(after / counts[row]);
  }
  return { log: name, unixMs: instants, columns, counts, sourceCodes: codesOf(cleaned.sourceCodes, begins) };
}

/** First log row of each row of the series, and the end. */
function rowBegins({ unixMs, sourceCodes, sourceMarks }: Recording): Uint32Array {
  const n = unixMs.length;
  const begins = new Uint32Array(n + 1);
  const marks = sourceCodes === null ? markInstants(sourceMarks) : new Float64Array(0);
  let count = 0;
  let minute = Number.NaN;
  let code = 0;
  let mark = 0;
  for (let i = 0; i < n; i++) {
    const thisMinute = Math.floor(unixMs[i] / msPerMinute);
    const thisCode = sourceCodes === null ? 0 : knownCode(sourceCodes[i]);
    let isNew = thisMinute !== minute || (code !== 0 && thisCode !== 0 && thisCode !== code);
    while (mark < marks.length && marks[mark] <= unixMs[i]) {
      isNew = true;
      mark++;
    }
    if (isNew) {
      begins[count++] = i;
      minute = thisMinute;
      code = thisCode;
    } else if (thisCode !== 0) {
      code = thisCode;
    }
  }
  begins[count] = n;
  return begins.subarray(0, count + 1);
}

const markInstants = (marks: readonly SourceMark[]) => Float64Array.from(marks, (mark) => mark.unixMs).sort();

/** A code that is none of ours says nothing. */
const knownCode = (code: number) => (code <= energySources.length ? code : 0);

function meansOf(column: Float64Array, begins: Uint32Array): Float64Array {
  const means = new Float64Array(begins.length - 1);
  for (let row = 0; row < means.length; row++) {
    let sum = 0;
    let count = 0;
    for (let i = begins[row]; i < begins[row + 1]; i++) {
      const value = column[i];
      if (Number.isNaN(value)) continue;
      sum += value;
      count++;
    }
    means[row] = sum / count;
  }
  return means;
}

function codesOf(sourceCodes: Uint8Array | null, begins: Uint32Array): Uint8Array | null {
  if (sourceCodes === null) return null;
  const codes = new Uint8Array(begins.length - 1);
  for (let row = 0; row < codes.length; row++) {
    for (let i = begins[row]; i < begins[row + 1] && codes[row] === 0; i++) codes[row] = knownCode(sourceCodes[i]);
  }
  return codes;
}
