// Before and after a service.

import type { ComparisonContext } from "../report/comparison/index.ts";
import { compareRuns, type RunsCompared } from "../science/before-after/index.ts";
import { usualMargin } from "../science/index.ts";
import { type JudgeOptions, marksOf } from "./judge.ts";
import { type LogShelves, type LogsRead, readRuns } from "./logs-read.ts";

/** A comparison with what a report on it needs. */
export interface Comparison {
  readonly comparison: RunsCompared;
  readonly context: ComparisonContext;
}

/**
 * Compares logs.
 *
 * @param read the logs from before, then those from after, with what both are compared with
 * @param before how many of them are from before
 */
export function compareLogs(
  { logs, knownGood, inputs }: LogsRead,
  before: number,
  { margin = usualMargin, language = "en", degrees }: JudgeOptions = {},
): Comparison {
  const [then, now] = [logs.slice(0, before), logs.slice(before)];
  // Runs may share a name: their order tells them apart, as inputs come in the order of the logs.
  let met = 0;
  return {
    comparison: compareRuns(then, now, { knownGood, margin }),
    context: {
      language,
      degrees,
      inputs: inputs.map(({ role, ...input }) =>
        role === "log" ? { ...input, role: met++ < before ? "before" : "after" } : { ...input, role },
      ),
      utcOffsetMinutes: now[0].utcOffsetMinutes,
      sourceMarks: marksOf(logs),
    },
  };
}

/**
 * Compares runs of the store.
 *
 * @throws BadInput as `readRuns` does
 */
export async function compareKeptRuns(
  store: LogShelves,
  before: readonly string[],
  after: readonly string[],
  options: JudgeOptions = {},
): Promise<Comparison> {
  return compareLogs(await readRuns(store, [...before, ...after]), before.length, options);
}
