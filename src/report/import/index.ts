// What was understood of another logger's log, told: text and JSON.
export {
  finiteValues,
  importDocument,
  toldFindings,
  understandingDocument,
} from "./import-document.ts";
export { understandingText, understoodRemark } from "./import-text.ts";
export { type WholeLog, wholeLogSentences, wholeLogText } from "./whole-log-text.ts";
