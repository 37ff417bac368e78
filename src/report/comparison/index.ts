// Before and after told: text, page, letter, JSON.
export type { ComparisonContext } from "./comparison-context.ts";
export { comparisonDocument } from "./comparison-document.ts";
export { comparisonLetter, comparisonPage } from "./comparison-page.ts";
export { comparisonText } from "./comparison-text.ts";
