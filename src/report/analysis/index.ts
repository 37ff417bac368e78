// Verdicts told as text and as JSON; as page and letter by analysis-page.ts, a door of its own.
export { analysisDocument } from "./analysis-document.ts";
export { analysisBrief, analysisText } from "./analysis-text.ts";
