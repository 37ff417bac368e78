// `coldfall compare`: read before and after, compare, show.

import { writeWholeFile } from "../ingest/index.ts";
import { comparisonDocument, comparisonPage, comparisonText, words } from "../report/index.ts";
import { type Comparison, compareLogs } from "../workshop/index.ts";
import { type GivenLogs, readGivenLogs } from "./logs.ts";
import { Progress } from "./progress.ts";
import type { Terminal } from "./terminal.ts";

const { cli } = words("en");

/** Files as the user named them. */
export interface CompareGiven extends Pick<GivenLogs, "knownGood" | "baseline" | "map" | "sourceAt" | "store"> {
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
}

/** @throws BadInput before anything is printed or written. */
export async function runCompare(
  before: string,
  after: string,
  options: CompareOptions,
  terminal: Terminal,
): Promise<void> {
  const { alsoBefore = [], alsoAfter = [], json, html, ...given } = options;
  const { comparison, context, remarks } = await compareGiven(
    { ...given, before: [before, ...alsoBefore], after: [after, ...alsoAfter] },
    terminal,
  );
  let messages = remarks;
  if (html !== undefined) {
    writeWholeFile(html, comparisonPage({ title: cli.compare.title, comparison, context }));
    messages = [...remarks, cli.wrote(html)];
  }
  for (const message of messages) terminal.tell(`${message}\n`);
  terminal.print(
    json
      ? `${JSON.stringify(comparisonDocument(comparison, context), null, 2)}\n`
      : comparisonText(comparison, context, { colour: terminal.hasColour, width: terminal.width }),
  );
}

export interface ComparedLogs extends Comparison {
  /** What to tell besides the results, a sentence each. */
  readonly remarks: readonly string[];
}

/** Reads what was given and compares it. @throws BadInput when a log cannot be used. */
export async function compareGiven(given: CompareGiven, terminal: Terminal): Promise<ComparedLogs> {
  const { before, after, margin, ...others } = given;
  using progress = new Progress(terminal);
  const read = await readGivenLogs({ ...others, logs: [...before, ...after] }, progress);
  progress.step(cli.comparing);
  return { ...compareLogs(read, before.length, { margin }), remarks: read.remarks };
}
