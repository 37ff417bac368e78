// Verdicts told: text, page, letter, JSON.
export { analysisDocument } from "./analysis-document.ts";
export { analysisLetter, analysisPage } from "./analysis-page.ts";
export { analysisBrief, analysisText } from "./analysis-text.ts";
