// The public face of the report floor: results in, text, pages and JSON out.
export type { Reader, ReportContext, ReportInput } from "./context.ts";
export type { Degrees, Hand } from "./hand.ts";
export { program } from "./program.ts";
export { plain, wrap } from "./terminal/text-layout.ts";
export { handOf, type Language, languageCodes, say, type Words, words } from "./words/index.ts";
