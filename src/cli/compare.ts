// `coldfall compare`: read before and after, compare, show.

import { refuseToReplace, writeWholeFile } from "../ingest/index.ts";
import { comparisonDocument, comparisonPage, comparisonText } from "../report/comparison/index.ts";
import { testReportPdf } from "../report/test-report/index.ts";
import { openStore } from "../store/index.ts";
import { type Comparison, compareLogs } from "../workshop/compare.ts";
import { serviceReportOf } from "../workshop/test-report.ts";
import { tellingOf, wordsFor } from "./language-option.ts";
import { type GivenLogs, type GivenLogsRead, readGivenLogs } from "./logs.ts";
import { Progress } from "./progress.ts";
import { storeFileOf } from "./store-option.ts";
import type { Terminal } from "./terminal.ts";
import type { ToldOfLogs } from "./told-of-logs.ts";

/** Files as the user named them. */
export interface CompareGiven
  extends Pick<GivenLogs, "knownGood" | "baseline" | "store" | "language" | "fahrenheit">,
    ToldOfLogs {
  readonly before: readonly string[];
  readonly after: readonly string[];
  /** A share; `usualMargin` unless stated. */
  readonly margin?: number;
}

/** What `coldfall compare` may be told besides its two logs. */
export interface CompareOptions extends Omit<CompareGiven, "before" | "after"> {
  readonly alsoBefore?: readonly string[];
  readonly alsoAfter?: readonly string[];
  readonly json?: boolean;
  readonly html?: string;
  readonly pdf?: string;
  readonly letterhead?: string;
}

/** @throws BadInput before anything is printed or written. */
export async function runCompare(
  before: string,
  after: string,
  options: CompareOptions,
  terminal: Terminal,
): Promise<void> {
  const { alsoBefore = [], alsoAfter = [], json, html, pdf, letterhead, ...given } = options;
  const { cli } = wordsFor(given);
  refuseToReplace({ page: html, pdf });
  const logs = { before: [before, ...alsoBefore], after: [after, ...alsoAfter] };
  const { comparison, context, read } = await compareGiven({ ...given, ...logs }, terminal);
  const messages = [...read.remarks];
  if (html !== undefined) {
    writeWholeFile(html, comparisonPage({ title: cli.compare.title, comparison, context }), "page");
    messages.push(cli.wrote(html));
  }
  if (pdf !== undefined) {
    const isKept = read.runs.some((run) => run !== null);
    await using store = isKept ? await openStore(storeFileOf(given.store)) : null;
    const compared = { read, before: logs.before.length, runs: read.runs, comparison: { comparison, context } };
    const order = { madeMs: terminal.nowUnixMs(), letterhead };
    writeWholeFile(pdf, await testReportPdf(await serviceReportOf(compared, order, store)), "pdf");
    messages.push(cli.wrote(pdf));
  }
  for (const message of messages) terminal.tell(`${message}\n`);
  terminal.print(
    json
      ? `${JSON.stringify(comparisonDocument(comparison, context), null, 2)}\n`
      : comparisonText(comparison, context, { colour: terminal.hasColour, width: terminal.width }),
  );
}

export interface ComparedLogs extends Comparison {
  /** What was read, with what to tell besides the results. */
  readonly read: GivenLogsRead;
}

/** Reads what was given and compares it. @throws BadInput when a log cannot be used. */
export async function compareGiven(given: CompareGiven, terminal: Terminal): Promise<ComparedLogs> {
  const { before, after, margin, ...others } = given;
  using progress = new Progress(terminal);
  // That the run sheets name different fridges is among the differences that a comparison lists.
  const read = await readGivenLogs({ ...others, logs: [...before, ...after], ofOneFridge: "none" }, progress);
  progress.step(wordsFor(given).cli.comparing);
  return { ...compareLogs(read, before.length, { margin, ...tellingOf(given) }), read };
}
