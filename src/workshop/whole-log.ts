// A log read to its end and nothing of it kept: what no beginning shows is told before anything is stored.

import { type LogWay, type LookedOver, readLogFilePieces, showable } from "../ingest/index.ts";
import type { WholeLog } from "../report/import/index.ts";
import { type EnergySource, energySources } from "../schema/index.ts";

/**
 * @param areColumnsTold each column is told already, as of a log that was understood
 * @throws BadInput as reading it does
 */
export function wholeLogOf(log: LookedOver, way: LogWay, areColumnsTold: boolean): WholeLog {
  const sources = new Map<EnergySource, number>();
  let [rows, firstUnixMs, lastUnixMs] = [0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const { utcOffsetMinutes, unreadable, ignoredColumns } = readLogFilePieces(log, way, ({ unixMs, sourceCodes }) => {
    rows += unixMs.length;
    for (const instant of unixMs) {
      firstUnixMs = Math.min(firstUnixMs, instant);
      lastUnixMs = Math.max(lastUnixMs, instant);
    }
    for (const code of sourceCodes ?? []) {
      const source = energySources[code - 1];
      if (source !== undefined) sources.set(source, (sources.get(source) ?? 0) + 1);
    }
  });
  const notUsed = areColumnsTold ? [] : (ignoredColumns ?? []).filter((name) => name !== "").map(showable);
  return { rows, firstUnixMs, lastUnixMs, utcOffsetMinutes, sources, unreadable, notUsed };
}
