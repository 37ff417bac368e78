// Logs judged: the analysis, and what a report on it needs.

import { analysisDocument, type Language, type ReportContext } from "../report/index.ts";
import type { AnalysisDocument } from "../schema/index.ts";
import { type Analysis, analyse, usualMargin } from "../science/index.ts";
import type { Store } from "../store/index.ts";
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
}

/** Judges logs against what they came with. Times are shown with the first log's clock. */
export function judgeLogs(
  { logs, knownGood, baselineKind, inputs }: LogsRead,
  { margin = usualMargin, language = "en" }: JudgeOptions = {},
): Judgement {
  return {
    analysis: analyse(logs, { knownGood, baselineKind, margin }),
    context: { language, inputs, utcOffsetMinutes: logs[0].utcOffsetMinutes, sourceMarks: marksOf(logs) },
  };
}

/** Energy sources told by hand, each once: marks typed on the command line go to every log. */
export const marksOf = (logs: LogsRead["logs"]) => [
  ...new Map(
    logs.flatMap(({ sourceMarks }) => sourceMarks.map((mark) => [`${mark.unixMs} ${mark.source}`, mark] as const)),
  ).values(),
];

/**
 * Judges runs of the store and keeps the result as their fridge's newest.
 *
 * @param madeUnixMs now
 * @throws BadInput as `readRuns` does
 */
export async function judgeRuns(
  store: LogShelves & Pick<Store, "results">,
  ids: readonly string[],
  madeUnixMs: number,
  options: JudgeOptions = {},
): Promise<Judgement & { readonly document: AnalysisDocument }> {
  const read = await readRuns(store, ids);
  const judgement = judgeLogs(read, options);
  const document = analysisDocument(judgement.analysis, judgement.context);
  const runIds = read.runs.map(({ id }) => id);
  const { method } = document.program;
  await store.results.add({
    kind: "analysis",
    document,
    fridgeId: read.runs[0].fridgeId,
    runIds,
    method,
    madeUnixMs,
  });
  return { ...judgement, document };
}
