// How long one test report takes, from findings to the bytes of the PDF. `npm run bench test-report-speed`.

import { fileURLToPath } from "node:url";
import { readLogFile } from "../../src/ingest/index.ts";
import { type TestReport, testReportPage, testReportPdf } from "../../src/report/test-report/index.ts";
import { judgeLogs } from "../../src/workshop/judge.ts";
import { printMachine, printTable } from "./print.ts";

const rounds = 15;
const log = async (name: string) =>
  (await readLogFile(fileURLToPath(new URL(`../../sample-logs/bay-5/${name}.csv`, import.meta.url)))).recording;

const run = await log("after-the-winter");
const knownGood = await Promise.all([1, 2, 3].map((number) => log(`known-good-${number}`)));
const { analysis, context } = judgeLogs({ logs: [run], knownGood, baselineKind: "own", inputs: [] });
const report: TestReport = {
  madeMs: Date.UTC(2026, 5, 5),
  letterhead: null,
  fridge: { name: "bay-5" },
  runs: [
    {
      when: "run",
      id: null,
      name: run.name,
      startMs: run.unixMs[0],
      endMs: run.unixMs[run.unixMs.length - 1],
      sheet: run.sheet,
      notes: null,
      remarks: [],
    },
  ],
  analysis,
  context,
  service: null,
};

const first = await timed(() => testReportPdf(report));
const pdfs: number[] = [];
const pages: number[] = [];
let bytes = 0;
for (let round = 0; round < rounds; round++) {
  pdfs.push(
    await timed(async () => {
      bytes = (await testReportPdf(report)).length;
    }),
  );
  pages.push(await timed(async () => testReportPage(report)));
}
printTable(
  ["test report of a 21 h run", "ms"],
  [
    ["first PDF, its library loaded for it", first.toFixed(0)],
    [`a further PDF of ${(bytes / 1000).toFixed(0)} kB, median of ${rounds}`, median(pdfs).toFixed(0)],
    [`the page to print, median of ${rounds}`, median(pages).toFixed(0)],
  ],
);
printMachine();

async function timed(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1];
}
