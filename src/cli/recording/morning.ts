// `coldfall report` and `coldfall alarms`: the morning after.

import { refuseToReplace, writeWholeFile } from "../../ingest/index.ts";
import { analysisDocument } from "../../report/analysis/index.ts";
import { handOf, plain } from "../../report/index.ts";
import { morningPage, morningText } from "../../report/recording/index.ts";
import { testReportPdf } from "../../report/test-report/index.ts";
import { alarmList } from "../../workshop/alarm-list.ts";
import { morningOf } from "../../workshop/morning.ts";
import { runTestReport } from "../../workshop/test-report.ts";
import { table } from "../keeping/table.ts";
import { type StoreOptions, withStore } from "../keeping/with-store.ts";
import { type LanguageOptions, tellingOf, wordsFor } from "../language-option.ts";
import type { Terminal } from "../terminal.ts";

interface ReportOptions extends StoreOptions, LanguageOptions {
  readonly html?: string;
  /** The test report. */
  readonly pdf?: string;
  readonly letterhead?: string;
}

/** The night on one page, and the test report. @throws BadInput "no-such-record" before anything is printed */
export const reportRun = (id: string, { html, pdf, letterhead, ...options }: ReportOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    refuseToReplace({ page: html, pdf });
    const { analysis, context, night } = await morningOf(store, id, terminal.nowUnixMs(), tellingOf(options));
    const { cli } = wordsFor(options);
    if (html !== undefined) {
      writeWholeFile(html, morningPage({ analysis, context, night }), "page");
      terminal.tell(`${cli.wrote(html)}\n`);
    }
    if (pdf !== undefined) {
      const order = { madeMs: terminal.nowUnixMs(), letterhead };
      writeWholeFile(pdf, await testReportPdf(await runTestReport(store, id, { analysis, context }, order)), "pdf");
      terminal.tell(`${cli.wrote(pdf)}\n`);
    }
    const { hasColour: colour, width } = terminal;
    terminal.print(
      options.json
        ? `${JSON.stringify(analysisDocument(analysis, context), null, 2)}\n`
        : morningText(analysis, context, night, { colour, width }),
    );
  });

/** Alarms, the newest first; with their reasons and cautions in full. */
export const listAlarms = (options: StoreOptions & { readonly run?: string }, terminal: Terminal) =>
  withStore(options, async (store) => {
    const list = await alarmList(store, { runId: options.run, ...tellingOf(options) });
    if (options.json) return terminal.print(`${JSON.stringify(list, null, 2)}\n`);
    const { alarms: text } = wordsFor(options).recording;
    const rows = list.alarms.map(({ id, run, acknowledged, cleared, text: told }) => [
      id,
      run,
      text.state(cleared !== null, acknowledged !== null),
      told,
    ]);
    terminal.print(table(text.headings, rows, text.none, terminal.width));
  });

export const acknowledgeAlarm = (
  id: string,
  { by, ...options }: StoreOptions & { readonly by?: string },
  terminal: Terminal,
) =>
  withStore(options, async (store) => {
    const { alarms: text } = wordsFor(options).recording;
    const now = terminal.nowUnixMs();
    const { acknowledgedUnixMs, acknowledgedBy, runId } = await store.alarms.acknowledge(id, now, by);
    const seenMs = acknowledgedUnixMs ?? now;
    const { utcOffsetMinutes = 0 } = (await store.runs.find(runId)) ?? {};
    terminal.print(
      `${
        seenMs === now
          ? text.acknowledged(id)
          : text.acknowledgedBefore(
              id,
              plain(handOf(options.language ?? "en", utcOffsetMinutes).moment(seenMs)),
              acknowledgedBy,
            )
      }\n`,
    );
  });
