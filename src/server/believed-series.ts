// A run as its curves are drawn: of each position the readings that the analysis believes, and beside them those it sets aside.

import type { Position, Recording } from "../schema/index.ts";
import { cleanRecording } from "../science/index.ts";
import type { Series } from "../store/index.ts";

export interface BelievedSeries {
  /** Empty for a position the run does not hold. */
  readonly of: (position: Position) => Series & { readonly rejected: Series };
  readonly bytes: number;
}

/** Cleans a run as the analysis does. */
export function believedSeries(run: Recording): BelievedSeries {
  const { recording, rejections } = cleanRecording(run);
  const made = new Map<Position, Series & { readonly rejected: Series }>();
  return {
    bytes: recording.unixMs.byteLength * 2 * Object.keys(recording.columns).length,
    of: (position) => {
      const known = made.get(position);
      if (known !== undefined) return known;
      const own = rejections.filter((rejection) => rejection.position === position);
      const series = {
        ...withoutBlanks(recording.unixMs, recording.columns[position]),
        rejected: inOrderOfTime(own.flatMap(({ unixMs, values }) => Array.from(unixMs, (at, i) => [at, values[i]]))),
      };
      made.set(position, series);
      return series;
    },
  };
}

/** A loop each, and no copy of a column without blanks: a run may hold a million readings. */
function withoutBlanks(unixMs: Float64Array, column: Float64Array = new Float64Array(0)): Series {
  let readings = 0;
  for (const value of column) if (Number.isFinite(value)) readings++;
  if (readings === unixMs.length) return { unixMs, values: column };
  const kept = { unixMs: new Float64Array(readings), values: new Float64Array(readings) };
  let next = 0;
  for (let row = 0; row < column.length; row++) {
    if (!Number.isFinite(column[row])) continue;
    kept.unixMs[next] = unixMs[row];
    kept.values[next++] = column[row];
  }
  return kept;
}

function inOrderOfTime(readings: number[][]): Series {
  readings.sort(([a], [b]) => a - b);
  return {
    unixMs: Float64Array.from(readings, ([at]) => at),
    values: Float64Array.from(readings, ([, value]) => value),
  };
}
