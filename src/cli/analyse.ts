// `coldfall analyse`: read, analyse, show.

import { writeWholeFile } from "../ingest/index.ts";
import { analysisDocument, analysisPage, analysisText, type ReportContext, words } from "../report/index.ts";
import { type Analysis, analyse, usualMargin } from "../science/index.ts";
import { type GivenLogs, readGivenLogs } from "./logs.ts";
import { Progress } from "./progress.ts";
import type { Terminal } from "./terminal.ts";

const { cli, report } = words("en");

/** What is to be analysed, and how. */
export interface AnalyseGiven extends GivenLogs {
  /** The known-good logs are of another fridge of the same kind. */
  readonly ofKind?: boolean;
  /** Allowed loss of cooling strength, a share; `usualMargin` unless stated. */
  readonly margin?: number;
}

export interface Analysed {
  readonly analysis: Analysis;
  readonly context: ReportContext;
  /** What to tell besides the results, a sentence each. */
  readonly remarks: readonly string[];
}

/** What `coldfall analyse` may be told besides. */
export interface AnalyseOptions extends Omit<AnalyseGiven, "logs"> {
  readonly json?: boolean;
  readonly html?: string;
}

/** @throws BadInput before anything is printed or written. */
export function runAnalyse(logs: readonly string[], options: AnalyseOptions, terminal: Terminal): void {
  const { json, html, ...given } = options;
  const { analysis, context, remarks } = analyseGiven({ ...given, logs }, terminal);
  let messages = remarks;
  if (html !== undefined) {
    const title = report.reportOn(report.list(logNames(context)));
    writeWholeFile(html, analysisPage({ title, analysis, context }));
    messages = [...remarks, cli.wrote(html)];
  }
  for (const message of messages) terminal.tell(`${message}\n`);
  terminal.print(
    json
      ? `${JSON.stringify(analysisDocument(analysis, context), null, 2)}\n`
      : analysisText(analysis, context, { colour: terminal.hasColour, width: terminal.width }),
  );
}

const logNames = ({ inputs }: ReportContext) => inputs.filter(({ role }) => role === "log").map(({ name }) => name);

/** Reads what was given and analyses it. @throws BadInput when a file cannot be used. */
export function analyseGiven(given: AnalyseGiven, terminal: Terminal): Analysed {
  const { ofKind, margin = usualMargin, sourceAt = [] } = given;
  using progress = new Progress(terminal);
  const { logs, knownGood, baselineKind, inputs, remarks } = readGivenLogs(given, progress);
  progress.step(cli.analysing);
  return {
    analysis: analyse(logs, { knownGood, baselineKind: ofKind ? "kind" : (baselineKind ?? "own"), margin }),
    context: { language: "en", inputs, utcOffsetMinutes: logs[0].utcOffsetMinutes, sourceMarks: sourceAt },
    remarks,
  };
}
