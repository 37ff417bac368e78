// The test report as a PDF, made without a browser: the sheets of test-report-layout.ts on the paper of pdf-paper.ts.

import { program } from "../program.ts";
import { words } from "../words/index.ts";
import { pdfPaper } from "./pdf-paper.ts";
import { drawSheets } from "./sheets.ts";
import { layOut } from "./test-report-layout.ts";
import type { TestReport } from "./test-report-matter.ts";
import { tellTestReport } from "./test-report-telling.ts";

/** The whole PDF: one or two pages of A4; equal reports give equal bytes. */
export async function testReportPdf(report: TestReport): Promise<Uint8Array> {
  const { language } = report.context;
  const own = words(language);
  const telling = tellTestReport(report);
  const paper = await pdfPaper({
    title: telling.documentTitle,
    language,
    program: `Coldfall ${program.version}`,
    madeMs: report.madeMs,
  });
  const sheets = layOut(telling, own, paper);
  drawSheets(paper, sheets, (page) => `${telling.documentTitle} · ${own.testReport.pageOf(page, sheets.length)}`);
  return paper.finish();
}
