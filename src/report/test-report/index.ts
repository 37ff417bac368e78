// The test report: page and PDF from one matter.
export type { ReportedFridge, ReportedRun, TestReport } from "./test-report-matter.ts";
export { testReportPage } from "./test-report-page.ts";
export { testReportPdf } from "./test-report-pdf.ts";
