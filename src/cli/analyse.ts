// `coldfall analyse`: read, analyse, show.

import { refuseToReplace, writeWholeFile } from "../ingest/index.ts";
import { analysisDocument, analysisText } from "../report/analysis/index.ts";
import type { ReportContext } from "../report/index.ts";
import { type Judgement, judgeLogs } from "../workshop/judge.ts";
import { tellingOf, wordsFor } from "./language-option.ts";
import { type GivenLogs, readGivenLogs } from "./logs.ts";
import { Progress } from "./progress.ts";
import type { Terminal } from "./terminal.ts";

/** What is to be analysed, and how. */
export interface AnalyseGiven extends GivenLogs {
  /** The known-good logs are of another fridge of the same kind. */
  readonly ofKind?: boolean;
  /** Allowed loss of cooling strength, a share; `usualMargin` unless stated. */
  readonly margin?: number;
}

export interface Analysed extends Judgement {
  /** What to tell besides the results, a sentence each. */
  readonly remarks: readonly string[];
}

/** What `coldfall analyse` may be told besides. */
export interface AnalyseOptions extends Omit<AnalyseGiven, "logs"> {
  readonly json?: boolean;
  readonly html?: string;
}

/** @throws BadInput before anything is printed or written. */
export async function runAnalyse(logs: readonly string[], options: AnalyseOptions, terminal: Terminal): Promise<void> {
  const { json, html, ...given } = options;
  const { cli, report } = wordsFor(given);
  refuseToReplace({ page: html });
  const { analysis, context, remarks } = await analyseGiven({ ...given, logs }, terminal);
  let messages = remarks;
  if (html !== undefined) {
    const title = report.reportOn(report.list(logNames(context)));
    // Drawings and page are a tenth of all modules: only who asks for them waits for them.
    const { analysisPage } = await import("../report/analysis/analysis-page.ts");
    writeWholeFile(html, analysisPage({ title, analysis, context }), "page");
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

/** Reads what was given and analyses it. @throws BadInput when a log cannot be used. */
export async function analyseGiven(given: AnalyseGiven, terminal: Terminal): Promise<Analysed> {
  const { ofKind, margin } = given;
  using progress = new Progress(terminal);
  const read = await readGivenLogs({ ...given, ofOneFridge: ofKind ? "logs" : "all" }, progress);
  progress.step(wordsFor(given).cli.analysing);
  const baselineKind = ofKind ? "kind" : read.baselineKind;
  return { ...judgeLogs({ ...read, baselineKind }, { margin, ...tellingOf(given) }), remarks: read.remarks };
}
