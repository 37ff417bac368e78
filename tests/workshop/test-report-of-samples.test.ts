// The test reports of the sample logs: the paper that customers of the stories would take home.

import { readdirSync } from "node:fs";
import path from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readLogFile } from "../../src/ingest/index.ts";
import { languageCodes } from "../../src/report/index.ts";
import { type TestReport, testReportPage, testReportPdf } from "../../src/report/test-report/index.ts";
import { tellTestReport } from "../../src/report/test-report/test-report-telling.ts";
import { judgeLogs } from "../../src/workshop/judge.ts";
import type { LogsRead } from "../../src/workshop/logs-read.ts";
import { launchBrowser } from "../browser/browser.ts";
import { a4, printed } from "../report/page-seen.ts";

const samples = path.join(import.meta.dirname, "../../sample-logs");
const stories = [
  ["bay-2", "before-the-season"],
  ["bay-3", "butter-soft"],
  ["bay-5", "after-the-winter"],
  ["bay-7", "bought-used"],
  ["bay-8", "switched-in-the-morning"],
] as const;

const read = new Map<string, LogsRead>();
beforeAll(async () => {
  const log = async (bay: string, name: string) => (await readLogFile(path.join(samples, bay, name))).recording;
  for (const [bay, name] of stories) {
    const good = readdirSync(path.join(samples, bay)).filter((file) => /^known-good-.*\.csv$/.test(file));
    const knownGood = await Promise.all(good.map((file) => log(bay, file)));
    read.set(bay, { logs: [await log(bay, `${name}.csv`)], knownGood, baselineKind: "own", inputs: [] });
  }
});

function reportOf(bay: string, language: TestReport["context"]["language"]): TestReport {
  const { analysis, context } = judgeLogs(read.get(bay) as LogsRead, { language });
  const [{ name, unixMs, sheet }] = (read.get(bay) as LogsRead).logs;
  const times = { startMs: unixMs[0], endMs: unixMs[unixMs.length - 1] };
  return {
    madeMs: Date.UTC(2026, 6, 1),
    letterhead: "Bench two",
    fridge: { name: bay },
    runs: [{ when: "run", id: "2026-06-22-2y1j66", name, ...times, sheet, notes: null, remarks: [] }],
    analysis,
    context,
    service: null,
  };
}

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
}, 120_000);
afterAll(() => browser.close());

for (const language of languageCodes) {
  for (const [bay] of stories) {
    test(`in ${language} the page of ${bay} prints on two sheets, every drawing on it`, async () => {
      const page = testReportPage(reportOf(bay, language));
      expect(await printed(browser, page)).toEqual({ ...a4, sheets: 2 });
      expect(page).not.toContain(`class="in-print-only"`);
    });

    test(`in ${language} the report of ${bay} has room for every drawing on two pages`, async () => {
      const report = reportOf(bay, language);
      const pdf = Buffer.from(await testReportPdf(report)).toString("latin1");
      const drawings = tellTestReport(report).sections.flatMap(({ parts }) =>
        parts.flatMap((part) => (part.kind === "drawings" ? part.drawings : [])),
      );
      expect(drawings.length).toBeGreaterThanOrEqual(3);
      expect(pdf.match(/\/S \/Figure/g)).toHaveLength(drawings.length);
      expect(pdf.match(/\/Type \/Page\b/g)).toHaveLength(2);
    });
  }

  test(`in ${language} a source that cannot be called yet is told its strength once`, () => {
    const verdicts = tellTestReport(reportOf("bay-7", language)).sections.flatMap(({ parts }) =>
      parts.flatMap((part) => (part.kind === "verdicts" ? part.verdicts : [])),
    );
    const open = verdicts.filter(({ state }) => state === "undecided");
    expect(open).toHaveLength(2);
    for (const { detail, why } of open) expect(`${detail} ${why}`.match(/\d+\u00a0%/g)).toHaveLength(1);
  });
}
