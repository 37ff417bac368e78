// What a test report is made from, gathered: findings, and what the workshop keeps of the fridge and its runs.

import type { ReportedFridge, ReportedRun, TestReport } from "../report/test-report/index.ts";
import type { Recording } from "../schema/index.ts";
import type { Run, Store } from "../store/index.ts";
import { type Comparison, compareLogs } from "./compare.ts";
import { type Judgement, type JudgeOptions, judgeLogs } from "./judge.ts";
import { type LogShelves, type LogsRead, readRuns } from "./logs-read.ts";

/** The part of a store that a test report is gathered from. */
export type TestReportShelves = LogShelves & Pick<Store, "fridges" | "edits">;

/** What a report is told besides its runs. */
export interface TestReportOrder {
  /** When it is written. */
  readonly madeMs: number;
  /** The workshop's own words at its head. */
  readonly letterhead?: string;
}

/**
 * The report of one run that was judged already.
 *
 * @throws BadInput "no-such-record"
 */
export async function runTestReport(
  store: TestReportShelves,
  id: string,
  { analysis, context }: Judgement,
  { madeMs, letterhead = "" }: TestReportOrder,
): Promise<TestReport> {
  const run = await store.runs.get(id);
  return {
    madeMs,
    letterhead: letterhead.trim() || null,
    fridge: await store.fridges.get(run.fridgeId),
    runs: [await reportedRun(store, run, "run")],
    analysis,
    context,
    service: null,
  };
}

/**
 * The report on runs of the store from before and after a service.
 *
 * @throws BadInput as `readRuns` does
 */
export async function serviceTestReport(
  store: TestReportShelves,
  before: readonly string[],
  after: readonly string[],
  order: TestReportOrder & JudgeOptions,
): Promise<TestReport> {
  const { runs, ...read } = await readRuns(store, [...before, ...after]);
  const comparison = compareLogs(read, before.length, order);
  return serviceReportOf({ read, before: before.length, runs, comparison }, order, store);
}

/** Logs from before and after a service, wherever they come from, compared. */
export interface ComparedLogs {
  /** The logs from before, then those from after. */
  readonly read: LogsRead;
  /** How many of them are from before. */
  readonly before: number;
  /** The store's run behind each log; null for a file. */
  readonly runs: readonly (Run | null)[];
  readonly comparison: Comparison;
}

/**
 * The report on compared logs, in the comparison's language and degrees and with its margin: both halves of it are on one
 * paper.
 *
 * @param store where their runs are kept; null when all logs are files
 */
export async function serviceReportOf(
  { read, before, runs, comparison: { comparison, context } }: ComparedLogs,
  { madeMs, letterhead = "" }: TestReportOrder,
  store: TestReportShelves | null,
): Promise<TestReport> {
  const { language, degrees } = context;
  const after = judgeLogs({ ...read, logs: read.logs.slice(before) }, { margin: comparison.margin, language, degrees });
  const kept = runs.find((run) => run !== null);
  return {
    madeMs,
    letterhead: letterhead.trim() || null,
    fridge: store !== null && kept ? await store.fridges.get(kept.fridgeId) : fridgeOnSheets(read.logs),
    runs: await Promise.all(
      read.logs.map((log, index) => {
        const when = index < before ? "before" : "after";
        const run = runs[index];
        return store !== null && run ? reportedRun(store, run, when) : reportedLog(log, when);
      }),
    ),
    analysis: after.analysis,
    context: after.context,
    service: { comparison, context },
  };
}

/** The one name that the run sheets give. */
function fridgeOnSheets(logs: readonly Recording[]): ReportedFridge | null {
  const names = new Set(logs.flatMap(({ sheet }) => sheet?.fridge ?? []));
  return names.size === 1 ? { name: [...names][0] } : null;
}

const reportedLog = ({ name, unixMs, sheet }: Recording, when: ReportedRun["when"]): ReportedRun => ({
  when,
  id: null,
  name,
  startMs: unixMs[0],
  endMs: unixMs[unixMs.length - 1],
  sheet,
  notes: null,
  remarks: [],
});

async function reportedRun(
  store: Pick<Store, "runs" | "edits">,
  { id, name, startedUnixMs, sheet, notes }: Run,
  when: ReportedRun["when"],
): Promise<ReportedRun> {
  const [extents, edits] = await Promise.all([store.runs.extents(id), store.edits.current(id)]);
  return {
    when,
    id,
    name,
    startMs: Math.min(startedUnixMs, ...extents.map(({ firstUnixMs }) => firstUnixMs)),
    endMs: Math.max(startedUnixMs, ...extents.map(({ lastUnixMs }) => lastUnixMs)),
    sheet,
    notes,
    remarks: edits.notes.map(({ unixMs, text }) => ({ unixMs, text })),
  };
}
