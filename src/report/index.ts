// The public face of the report floor: results in, text, pages and JSON out.
export { alarmText, type ToldAlarm, tellAlarm } from "./alarm-telling.ts";
export { analysisDocument } from "./analysis-document.ts";
export { analysisLetter, analysisPage } from "./analysis-page.ts";
export { analysisBrief, analysisText } from "./analysis-text.ts";
export type { ComparisonContext } from "./comparison-context.ts";
export { comparisonDocument } from "./comparison-document.ts";
export { comparisonLetter, comparisonPage } from "./comparison-page.ts";
export { comparisonText } from "./comparison-text.ts";
export type { Reader, ReportContext, ReportInput } from "./context.ts";
export { drawingFile } from "./drawing-file.ts";
export type { Degrees, Hand } from "./hand.ts";
export type { HotDayContext } from "./hot-day-context.ts";
export { hotDayDocument } from "./hot-day-document.ts";
export { hotDayLetter, hotDayPage } from "./hot-day-page.ts";
export { hotDayText } from "./hot-day-text.ts";
export {
  finiteValues,
  importDocument,
  toldFindings,
  understandingDocument,
} from "./import-document.ts";
export { understandingText, understoodRemark } from "./import-text.ts";
export { tellLive } from "./live-telling.ts";
export { type LiveContext, liveLine, liveText } from "./live-text.ts";
export { morningPage } from "./morning-page.ts";
export type { Night } from "./morning-telling.ts";
export { morningText } from "./morning-text.ts";
export { lettersPage } from "./page-parts.ts";
export { planDocument } from "./plan-document.ts";
export { planPage } from "./plan-page.ts";
export { tellPlanRefusal } from "./plan-telling.ts";
export { planText } from "./plan-text.ts";
export { program } from "./program.ts";
export type { ReportedFridge, ReportedRun, TestReport } from "./test-report-matter.ts";
export { testReportPage } from "./test-report-page.ts";
export { testReportPdf } from "./test-report-pdf.ts";
export { plain } from "./text-layout.ts";
export { handOf, type Language, languageCodes, say, type Words, words } from "./words/index.ts";
