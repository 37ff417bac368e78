// The public face of the report floor: results in, text, pages and JSON out.
export { analysisDocument } from "./analysis-document.ts";
export { analysisPage, type FridgePage } from "./analysis-page.ts";
export { analysisText } from "./analysis-text.ts";
export type { ReportContext, ReportInput } from "./context.ts";
export type { Hand } from "./hand.ts";
export { program } from "./program.ts";
export { handOf, type Language, languageCodes, say, words } from "./words/index.ts";
