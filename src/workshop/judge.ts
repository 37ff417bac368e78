// Logs judged: the analysis, and what a report on it needs.

import { isDeepStrictEqual } from "node:util";
import { analysisDocument } from "../report/analysis/index.ts";
import type { Degrees, Language, ReportContext } from "../report/index.ts";
import { type Analysis, analyse, usualMargin } from "../science/index.ts";
import type { NewResult, Result, Store } from "../store/index.ts";
import { type LogShelves, type LogsRead, readRuns } from "./logs-read.ts";

/** An analysis with what a report on it needs. */
export interface Judgement {
  readonly analysis: Analysis;
  readonly context: ReportContext;
}

export interface JudgeOptions {
  /** Allowed loss of cooling strength, a share; `usualMargin` unless stated. */
  readonly margin?: number;
  /** English unless stated. */
  readonly language?: Language;
  /** °C unless stated. */
  readonly degrees?: Degrees;
}

/** Judges logs against what they came with. Times are shown with the first log's clock. */
export function judgeLogs(
  { logs, knownGood, baselineKind, inputs }: LogsRead,
  { margin = usualMargin, language = "en", degrees }: JudgeOptions = {},
): Judgement {
  return {
    analysis: analyse(logs, { knownGood, baselineKind, margin }),
    context: { language, degrees, inputs, utcOffsetMinutes: logs[0].utcOffsetMinutes, sourceMarks: marksOf(logs) },
  };
}

/** Energy sources told by hand, each once: marks typed on the command line go to every log. */
export const marksOf = (logs: LogsRead["logs"]) => [
  ...new Map(
    logs.flatMap(({ sourceMarks }) => sourceMarks.map((mark) => [`${mark.unixMs} ${mark.source}`, mark] as const)),
  ).values(),
];

/**
 * Judges runs of the store and keeps the result as their fridge's newest, as `keepJudgement` does.
 *
 * @param madeUnixMs now
 * @throws BadInput as `readRuns` does
 */
export async function judgeRuns(
  store: LogShelves & Pick<Store, "results">,
  ids: readonly string[],
  madeUnixMs: number,
  options: JudgeOptions = {},
): Promise<Judgement> {
  const read = await readRuns(store, ids);
  const judgement = judgeLogs(read, options);
  const runIds = read.runs.map(({ id }) => id);
  await keepJudgement(store, judgement, { fridgeId: read.runs[0].fridgeId, runIds, madeUnixMs });
  return judgement;
}

/**
 * Keeps a result as its fridge's newest, unless it says what was kept last of its first run: looking again is no new result.
 *
 * @returns the one that is kept
 */
export async function keepJudgement(
  store: Pick<Store, "results">,
  { analysis, context }: Judgement,
  of: Pick<NewResult, "fridgeId" | "runIds" | "madeUnixMs">,
): Promise<Result> {
  // Whoever looks, in whichever language: the same result is filed once.
  const document = analysisDocument(analysis, { ...context, language: "en", degrees: "C" });
  const result = { ...of, kind: "analysis", document, method: document.program.method } as const;
  const last = await store.results.newest({ runId: of.runIds[0] });
  return last !== null && saysTheSame(last, result) ? last : store.results.add(result);
}

/** The same runs, readings, sheets and options, by the same method, came to the same. */
function saysTheSame(one: NewResult, other: NewResult): boolean {
  // As it comes back from a file; which version of the program wrote it makes no other result.
  const told = ({ runIds, document: { program, ...document } }: NewResult) =>
    JSON.parse(JSON.stringify([runIds, program.method, document]));
  return isDeepStrictEqual(told(one), told(other));
}
