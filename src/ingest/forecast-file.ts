// A trip's forecast from its CSV file: time,ambient,source and, if wanted, sun and driving. People write it by hand, so
// every cell that cannot be read is refused with its line: a guessed hour would look like a forecast.

import { basename } from "node:path";
import Papa from "papaparse";
import { BadInput, energySources, type Forecast, type ForecastRow, msPerHour } from "../schema/index.ts";
import { sha256 } from "./files.ts";
import { decimalOf, instantOf } from "./text-log.ts";
import { showable } from "./unreadable-cells.ts";

const needed = ["time", "ambient", "source"] as const;
const columns = [...needed, "sun", "driving"] as const;
type Column = (typeof columns)[number];

/** °C. Outside nobody camps. */
const [coldest, hottest] = [-30, 60];
const mostDays = 31;

/**
 * Reads a forecast.
 *
 * @param bytes the file: UTF-8, RFC 4180.
 * @throws BadInput at the first thing that cannot be used.
 */
export function readForecast(bytes: Uint8Array, file: string): Forecast {
  const text = new TextDecoder("utf-8").decode(bytes).replaceAll(/\r\n?/g, "\n");
  const { data } = Papa.parse<string[]>(text, { delimiter: ",", newline: "\n" });
  const lines = data.map((cells, index) => ({ cells: cells.map((cell) => cell.trim()), line: index + 1 }));
  const filled = lines.filter(({ cells }) => cells.some((cell) => cell !== ""));
  const [header, ...rest] = filled;
  if (header === undefined) throw new BadInput({ code: "forecast-too-short", file, rows: 0 });
  if (header.cells.length === 1 && /[;\t]/.test(header.cells[0]))
    throw new BadInput({ code: "forecast-separator", file });
  const at = columnsOf(header.cells, file);
  const rows = rest.map(({ cells, line }) => {
    if (cells.length !== header.cells.length) {
      throw new BadInput({
        code: "wrong-row-length",
        file,
        line,
        cells: cells.length,
        expected: header.cells.length,
        rows: 1,
      });
    }
    return { ...rowOf((column) => cells[at.get(column) ?? -1], file, line), line };
  });
  refuseDisorder(rows, file);
  if (rows.length < 2) throw new BadInput({ code: "forecast-too-short", file, rows: rows.length });
  return {
    name: basename(file),
    sha256: sha256(bytes),
    utcOffsetMinutes: instantOf(rest[0].cells[at.get("time") ?? 0]).utcOffsetMinutes,
    rows: rows.map(({ unixMs, ambient, source, sun, driving }) => ({ unixMs, ambient, source, sun, driving })),
  };
}

/** Where each column stands. Letters in either case. */
function columnsOf(header: readonly string[], file: string): ReadonlyMap<Column, number> {
  const found = new Map<Column, number>();
  for (const [index, text] of header.entries()) {
    const column = columns.find((name) => name === text.toLowerCase());
    if (column === undefined) throw new BadInput({ code: "forecast-column-unknown", file, column: showable(text) });
    if (found.has(column)) throw new BadInput({ code: "doubled-column", file, column });
    found.set(column, index);
  }
  const missing = needed.find((name) => !found.has(name));
  if (missing !== undefined) {
    throw new BadInput({ code: "forecast-column-missing", file, column: missing, header: showable(header.join(",")) });
  }
  return found;
}

function rowOf(cell: (column: Column) => string | undefined, file: string, line: number): ForecastRow {
  const refuse = (column: Exclude<Column, "source">) =>
    new BadInput({ code: "forecast-cell", file, line, column, value: showable(cell(column) ?? "") });
  const { unixMs } = instantOf(cell("time") ?? "");
  if (Number.isNaN(unixMs)) throw refuse("time");
  const ambient = decimalOf(cell("ambient") ?? "");
  if (!(ambient >= coldest && ambient <= hottest)) throw refuse("ambient");
  const source = energySources.find((name) => name === cell("source")?.toLowerCase());
  if (source === undefined) {
    throw new BadInput({ code: "unknown-source", file, line, value: showable(cell("source") ?? ""), in: "forecast" });
  }
  const sun = meaningOf(cell("sun"), { sun: true, shade: false });
  if (sun === undefined) throw refuse("sun");
  const driving = meaningOf(cell("driving"), { driving: true, parked: false });
  if (driving === undefined) throw refuse("driving");
  return { unixMs, ambient, source, sun, driving };
}

/** Yes, no or a word of the column's own; an empty or absent cell is no. */
function meaningOf(text: string | undefined, own: { readonly [word: string]: boolean }): boolean | undefined {
  const words: { readonly [word: string]: boolean } = { "": false, yes: true, no: false, ...own };
  const word = text?.toLowerCase() ?? "";
  return Object.hasOwn(words, word) ? words[word] : undefined;
}

function refuseDisorder(rows: readonly (ForecastRow & { readonly line: number })[], file: string): void {
  const written = (unixMs: number) => new Date(unixMs).toISOString().replace(".000Z", "Z");
  rows.forEach(({ unixMs, line }, i) => {
    if (i > 0 && !(unixMs > rows[i - 1].unixMs)) {
      const before = written(rows[i - 1].unixMs);
      throw new BadInput({ code: "forecast-order", file, line, value: written(unixMs), before });
    }
    if (unixMs - rows[0].unixMs > mostDays * 24 * msPerHour) {
      throw new BadInput({ code: "forecast-too-long", file, line, value: written(unixMs), mostDays });
    }
  });
}
