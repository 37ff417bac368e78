// A trip typed or pasted in: a line for each change, "2026-07-18 09:00, 27, gas, parked, sun". Commas, semicolons or
// tabs between; the order of what follows the time does not matter, and words may be those of our forecast files.

import {
  type EnergySource,
  type ForecastColumn,
  type ForecastRow,
  forecastAmbient,
  forecastColumns,
  forecastMark,
  forecastSource,
  mostForecastDays,
  msPerDay,
  msPerMinute,
} from "../../src/schema/index.ts";

export type TripProblem =
  | "no-time"
  | "no-ambient"
  | "no-source"
  | "not-later"
  | "too-long"
  | "too-few"
  | "strange-word";

/** The rows, or what cannot be understood and in which line, counted from 1. */
export type TripRead =
  | { readonly rows: readonly ForecastRow[]; readonly utcOffsetMinutes: number }
  | { readonly problem: TripProblem; readonly line: number };

/**
 * @param offsetAt how far the clock that the times are written with is ahead of UTC at an instant, minutes; a time with an
 *   offset of its own needs none
 */
export function readTrip(text: string, degrees: "C" | "F", offsetAt: (unixMs: number) => number): TripRead {
  const rows: ForecastRow[] = [];
  let last: ForecastRow | null = null;
  let columns: readonly ForecastColumn[] | null = null;
  for (const [index, written] of text
    .replace(/^\ufeff/, "")
    .split(/\r?\n/)
    .entries()) {
    const line = index + 1;
    if (written.trim() === "" || /^\s*#/.test(written)) continue;
    const cells = cellsOf(written);
    const named = columnsIn(cells);
    if (named !== null) {
      columns = named;
      continue;
    }
    // A table's head in words of its own: its columns are read as typed lines are.
    if (/^time\b/i.test(cells[0])) continue;
    // Our own forecast files name their columns, and are in °C.
    const row: ForecastRow | { readonly problem: TripProblem } =
      columns === null ? rowOf(cells, degrees, offsetAt, last) : rowOf(inOrder(cells, columns), "C", offsetAt, last);
    if ("problem" in row) return { problem: row.problem, line };
    if (last !== null && row.unixMs <= last.unixMs) return { problem: "not-later", line };
    if (rows.length > 0 && row.unixMs - rows[0].unixMs > mostForecastDays * msPerDay)
      return { problem: "too-long", line };
    rows.push(row);
    last = row;
  }
  if (rows.length < 2) return { problem: "too-few", line: 1 };
  return { rows, utcOffsetMinutes: offsetAt(rows[0].unixMs) };
}

/** Cells between commas, or between semicolons or tabs where there are any. */
const cellsOf = (line: string): readonly string[] =>
  (/[\t;]/.test(line) ? line.split(/[\t;]/) : line.split(",")).map((cell) => cell.trim().replace(/^"(.*)"$/, "$1"));

/** The columns that a line names; null where it is none of names alone. */
function columnsIn(cells: readonly string[]): readonly ForecastColumn[] | null {
  const names = cells.map((cell) => forecastColumns.find((name) => name === cell.toLowerCase()));
  return names.includes("time") && names.every((name) => name !== undefined) ? names : null;
}

/** The time first; a cell that only says yes or no takes the name of its column. */
function inOrder(cells: readonly string[], columns: readonly ForecastColumn[]): readonly string[] {
  const said = columns.map((column, at) => {
    const cell = cells[at] ?? "";
    if (column !== "sun" && column !== "driving") return { column, cell };
    const mark = forecastMark(column, cell);
    return { column, cell: mark === undefined ? cell : mark ? column : "" };
  });
  const isTime = ({ column }: { readonly column: ForecastColumn }) => column === "time";
  return [...said.filter(isTime), ...said.filter((one) => !isTime(one))].map(({ cell }) => cell);
}

function rowOf(
  [time, ...others]: readonly string[],
  degrees: "C" | "F",
  offsetAt: (unixMs: number) => number,
  last: ForecastRow | null,
): ForecastRow | { readonly problem: TripProblem } {
  const unixMs = instantOf(time, offsetAt, last);
  if (unixMs === null) return { problem: "no-time" };
  let ambient: number | null = null;
  let source: EnergySource | null = last?.source ?? null;
  let [sun, driving] = [false, false];
  for (const word of others.flatMap((part) => part.toLowerCase().split(/\s+(?=[a-z])/)).filter((part) => part !== "")) {
    const typed = temperatureOf(word, degrees);
    const named = forecastSource(word);
    if (typed !== null && ambient === null) ambient = typed;
    else if (named !== undefined) source = named;
    else if (ownWord("sun", word)) sun = forecastMark("sun", word) ?? sun;
    else if (ownWord("driving", word)) driving = forecastMark("driving", word) ?? driving;
    else if (word !== "on") return { problem: "strange-word" };
  }
  if (ambient === null || ambient < forecastAmbient.least || ambient > forecastAmbient.most)
    return { problem: "no-ambient" };
  if (source === null) return { problem: "no-source" };
  return { unixMs, ambient, source, sun, driving };
}

/** °C; null where it is no temperature. Degrees named beside it count, whatever the reader has chosen. */
function temperatureOf(word: string, degrees: "C" | "F"): number | null {
  const [, figure, own] = /^(.*?)\s*(?:°?\s*([cf]))?$/.exec(word.replace(",", ".").replace("\u2212", "-")) ?? [];
  const value = figure === undefined || figure === "" ? Number.NaN : Number(figure);
  if (!Number.isFinite(value)) return null;
  return (own?.toUpperCase() ?? degrees) === "F" ? (value - 32) / 1.8 : value;
}

/** "yes" and "no" are words of no column. */
const ownWord = (column: "sun" | "driving", word: string) =>
  word !== "yes" && word !== "no" && forecastMark(column, word) !== undefined;

/** A day and a clock; a clock alone is on the day of the line before, or the next one where it went round. */
function instantOf(text: string, offsetAt: (unixMs: number) => number, last: ForecastRow | null): number | null {
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
