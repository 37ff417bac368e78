// A trip's forecast from its CSV file: time,ambient,source and, if wanted, sun and driving. People write it by hand, so
// every cell that cannot be read is refused with its line: a guessed hour would look like a forecast.

import { basename } from "node:path";
import Papa from "papaparse";
import {
  BadInput,
  type Forecast,
  type ForecastColumn,
  type ForecastRow,
  forecastAmbient,
  forecastColumns,
  forecastMark,
  forecastSource,
  mostForecastDays,
  msPerDay,
} from "../schema/index.ts";
import { sha256 } from "./files.ts";
import { decimalOf, instantOf } from "./text-log.ts";
import { showable } from "./unreadable-cells.ts";

const needed = ["time", "ambient", "source"] as const;

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
function columnsOf(header: readonly string[], file: string): ReadonlyMap<ForecastColumn, number> {
  const found = new Map<ForecastColumn, number>();
  for (const [index, text] of header.entries()) {
    const column = forecastColumns.find((name) => name === text.toLowerCase());
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

function rowOf(cell: (column: ForecastColumn) => string | undefined, file: string, line: number): ForecastRow {
  const refuse = (column: Exclude<ForecastColumn, "source">) =>
    new BadInput({ code: "forecast-cell", file, line, column, value: showable(cell(column) ?? "") });
  const { unixMs } = instantOf(cell("time") ?? "");
  if (Number.isNaN(unixMs)) throw refuse("time");
  const ambient = decimalOf(cell("ambient") ?? "");
  if (!(ambient >= forecastAmbient.least && ambient <= forecastAmbient.most)) throw refuse("ambient");
  const source = forecastSource(cell("source") ?? "");
  if (source === undefined) {
    throw new BadInput({ code: "unknown-source", file, line, value: showable(cell("source") ?? ""), in: "forecast" });
  }
  const sun = forecastMark("sun", cell("sun") ?? "");
  if (sun === undefined) throw refuse("sun");
  const driving = forecastMark("driving", cell("driving") ?? "");
  if (driving === undefined) throw refuse("driving");
  return { unixMs, ambient, source, sun, driving };
}

function refuseDisorder(rows: readonly (ForecastRow & { readonly line: number })[], file: string): void {
  const written = (unixMs: number) => new Date(unixMs).toISOString().replace(".000Z", "Z");
  rows.forEach(({ unixMs, line }, i) => {
    if (i > 0 && !(unixMs > rows[i - 1].unixMs)) {
      const before = written(rows[i - 1].unixMs);
      throw new BadInput({ code: "forecast-order", file, line, value: written(unixMs), before });
    }
    if (unixMs - rows[0].unixMs > mostForecastDays * msPerDay) {
      throw new BadInput({ code: "forecast-too-long", file, line, value: written(unixMs), mostDays: mostForecastDays });
    }
  });
}
