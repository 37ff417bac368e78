// `coldfall compare`: read before and after, compare, show.

import { writeWholeFile } from "../ingest/index.ts";
import { type ComparisonContext, comparisonDocument, comparisonPage, comparisonText, words } from "../report/index.ts";
import { compareRuns, type RunsCompared, usualMargin } from "../science/index.ts";
import { type GivenLogs, readGivenLogs } from "./logs.ts";
import { Progress } from "./progress.ts";
import type { Terminal } from "./terminal.ts";

const { cli } = words("en");

/** Files as the user named them. */
export interface CompareGiven extends Pick<GivenLogs, "knownGood" | "baseline" | "map" | "sourceAt"> {
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
export function runCompare(before: string, after: string, options: CompareOptions, terminal: Terminal): void {
  const { alsoBefore = [], alsoAfter = [], json, html, ...given } = options;
  const { comparison, context, remarks } = compareGiven(
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

export interface ComparedLogs {
  readonly comparison: RunsCompared;
  readonly context: ComparisonContext;
  /** What to tell besides the results, a sentence each. */
  readonly remarks: readonly string[];
}

/** Reads what was given and compares it. @throws BadInput when a file cannot be used. */
export function compareGiven(given: CompareGiven, terminal: Terminal): ComparedLogs {
  const { before, after, margin = usualMargin, ...others } = given;
  using progress = new Progress(terminal);
  const { logs, knownGood, inputs, remarks } = readGivenLogs({ ...others, logs: [...before, ...after] }, progress);
  progress.step(cli.comparing);
  const [then, now] = [logs.slice(0, before.length), logs.slice(before.length)];
  const isBefore = (name: string) => then.some((log) => log.name === name);
  return {
    comparison: compareRuns(then, now, { knownGood, margin }),
    context: {
      language: "en",
      inputs: inputs.map((input) =>
        input.role === "log"
          ? { ...input, role: isBefore(input.name) ? "before" : "after" }
          : { ...input, role: input.role },
      ),
      utcOffsetMinutes: now[0].utcOffsetMinutes,
      sourceMarks: others.sourceAt ?? [],
    },
    remarks,
  };
}
