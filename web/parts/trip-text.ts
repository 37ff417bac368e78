// A trip typed or pasted in: a line for each change, "2026-07-18 09:00, 27, gas, parked, sun". Commas, semicolons or
// tabs between; the order of what follows the time does not matter, and words may be those of our forecast files.

import { type EnergySource, msPerDay, msPerMinute } from "../../src/schema/index.ts";

export interface TripRow {
  readonly unixMs: number;
  readonly ambient: number;
  readonly source: EnergySource;
  readonly sun: boolean;
  readonly driving: boolean;
}

export type TripProblem = "no-time" | "no-ambient" | "no-source" | "not-later" | "too-few" | "strange-word";

/** The rows, or what cannot be understood and in which line, counted from 1. */
export type TripRead =
  | { readonly rows: readonly TripRow[]; readonly utcOffsetMinutes: number }
  | { readonly problem: TripProblem; readonly line: number };

/**
 * @param offsetAt how far the clock that the times are written with is ahead of UTC at an instant, minutes; a time with an
 *   offset of its own needs none
 */
export function readTrip(text: string, degrees: "C" | "F", offsetAt: (unixMs: number) => number): TripRead {
  const rows: TripRow[] = [];
  let last: TripRow | null = null;
  let columns: readonly string[] = [];
  for (const [index, written] of text
    .replace(/^\ufeff/, "")
    .split(/\r?\n/)
    .entries()) {
    const line = index + 1;
    if (/^\s*"?time\b/i.test(written)) columns = cellsOf(written).map((name) => name.toLowerCase());
    if (written.trim() === "" || /^\s*("?time\b|#)/i.test(written)) continue;
    // Our own forecast files name their columns, and are in °C.
    const row = rowOf(
      cellsOf(written).map((cell, at) => spelledOut(cell, columns[at])),
      columns.length > 0 ? "C" : degrees,
      offsetAt,
      last,
    );
    if ("problem" in row) return { problem: row.problem, line };
    if (last !== null && row.unixMs <= last.unixMs) return { problem: "not-later", line };
    rows.push(row);
    last = row;
  }
  if (rows.length < 2) return { problem: "too-few", line: 1 };
  return { rows, utcOffsetMinutes: offsetAt(rows[0].unixMs) };
}

/** Cells between commas, or between semicolons or tabs where there are any. */
const cellsOf = (line: string): readonly string[] =>
  (/[\t;]/.test(line) ? line.split(/[\t;]/) : line.split(",")).map((cell) => cell.trim().replace(/^"(.*)"$/, "$1"));

/** A cell that only says yes or no takes the name of its column. */
const spelledOut = (cell: string, column: string | undefined): string =>
  column !== "sun" && column !== "driving"
    ? cell
    : /^(yes|1)$/i.test(cell)
      ? column
      : /^(no|0)$/i.test(cell)
        ? ""
        : cell;

function rowOf(
  [time, ...others]: readonly string[],
  degrees: "C" | "F",
  offsetAt: (unixMs: number) => number,
  last: TripRow | null,
): TripRow | { readonly problem: TripProblem } {
  const unixMs = instantOf(time, offsetAt, last);
  if (unixMs === null) return { problem: "no-time" };
  let ambient: number | null = null;
  let source: EnergySource | null = last?.source ?? null;
  let [sun, driving] = [false, false];
  for (const word of others.flatMap((part) => part.toLowerCase().split(/\s+(?=[a-z])/)).filter((part) => part !== "")) {
    const number = Number(
      word
        .replace(",", ".")
        .replace(/[\u2212]/, "-")
        .replace(/\s*°?[cf]?$/, ""),
    );
    if (Number.isFinite(number) && ambient === null) ambient = degrees === "F" ? (number - 32) / 1.8 : number;
    else if (sources[word] !== undefined) source = sources[word];
    else if (word === "sun") sun = true;
    else if (word === "driving") driving = true;
    else if (word !== "parked" && word !== "shade" && word !== "on") return { problem: "strange-word" };
  }
  if (ambient === null || ambient < -30 || ambient > 60) return { problem: "no-ambient" };
  if (source === null) return { problem: "no-source" };
  return { unixMs, ambient, source, sun, driving };
}

const sources: { readonly [word: string]: EnergySource | undefined } = {
  gas: "gas",
  mains: "mains",
  "12v": "dc12",
  dc12: "dc12",
  off: "off",
};

/** A day and a clock; a clock alone is on the day of the line before, or the next one where it went round. */
function instantOf(text: string, offsetAt: (unixMs: number) => number, last: TripRow | null): number | null {
  const whole = /^(\d{4}-\d\d-\d\d)[T ](\d\d:\d\d)(?::\d\d(?:\.\d+)?)?\s*(Z|[+-]\d\d:\d\d)?$/.exec(text);
  if (whole !== null) {
    const [, day, clock, zone] = whole;
    const unixMs = Date.parse(`${day}T${clock}:00${zone ?? "Z"}`);
    if (!Number.isFinite(unixMs)) return null;
    return zone === undefined ? unixMs - offsetAt(unixMs) * msPerMinute : unixMs;
  }
  const clock = /^(\d\d?):(\d\d)$/.exec(text);
  if (clock === null || last === null) return null;
  const shift = offsetAt(last.unixMs) * msPerMinute;
  const midnight = Math.floor((last.unixMs + shift) / msPerDay) * msPerDay - shift;
  const at = midnight + (Number(clock[1]) * 60 + Number(clock[2])) * msPerMinute;
  return at > last.unixMs ? at : at + msPerDay;
}
