// One probe's reading per row, with a column that names the probe: such a log read as columns would be all probes in one.

import { BadInput, type LogUnderstanding } from "../schema/index.ts";
import { headerSays } from "./column-meaning.ts";
import type { Column, TimeColumns } from "./log-findings.ts";
import { showable } from "./unreadable-cells.ts";

/** The first column whose cells name the probes of the rows in turn. */
export function probePerRow(
  columns: readonly Column[],
  { time, date }: Pick<TimeColumns, "time" | "date">,
): LogUnderstanding["probePerRow"] {
  const instants = time.cells.map((cell, row) => `${date?.cells[row] ?? ""} ${cell}`);
  const column = columns.find(({ cells }) => {
    const names = [...new Set(cells)];
    const arePlaces = names.filter((name) => headerSays(name).kind === "meaning").length > 1;
    return isRoundRobin(cells, names.length) && (arePlaces || areRepeated(instants, names.length));
  });
  return column && { column: showable(column.name), probes: [...new Set(column.cells)].map(showable) };
}

/** A switch that goes on and off does not do so row by row, and no measure comes back that exactly. */
function isRoundRobin(cells: readonly string[], names: number): boolean {
  if (names < 2 || names > mostProbes || cells.length < 2 * names || cells.includes("")) return false;
  const again = cells.filter((cell, row) => row >= names && cell === cells[row - names]).length;
  const still = cells.filter((cell, row) => row > 0 && cell === cells[row - 1]).length;
  return again >= mostly * (cells.length - names) && still <= (1 - mostly) * cells.length;
}

/** Whether as many rows have one instant as there are probes. */
const areRepeated = (instants: readonly string[], probes: number) =>
  new Set(instants).size <= (instants.length / probes) * (2 - mostly) + 1;

const mostProbes = 30;
/** A reading here and there is lost. */
const mostly = 0.8;

/** @throws BadInput "probe-per-row" */
export function refuseProbePerRow({ probePerRow: found }: LogUnderstanding, file: string): void {
  if (found !== undefined) throw new BadInput({ code: "probe-per-row", file, ...found });
}
