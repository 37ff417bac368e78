// The public face of the report floor: results in, text, pages and JSON out.
export { analysisDocument } from "./analysis-document.ts";
export { analysisLetter, analysisPage } from "./analysis-page.ts";
export { analysisText } from "./analysis-text.ts";
export type { ComparisonContext } from "./comparison-context.ts";
export { comparisonDocument } from "./comparison-document.ts";
export { comparisonLetter, comparisonPage } from "./comparison-page.ts";
export { comparisonText } from "./comparison-text.ts";
export type { ReportContext, ReportInput } from "./context.ts";
export type { Hand } from "./hand.ts";
export type { HotDayContext } from "./hot-day-context.ts";
export { hotDayDocument } from "./hot-day-document.ts";
export { hotDayLetter, hotDayPage } from "./hot-day-page.ts";
export { hotDayText } from "./hot-day-text.ts";
export { lettersPage } from "./page-parts.ts";
export { program } from "./program.ts";
export { handOf, type Language, languageCodes, say, words } from "./words/index.ts";
