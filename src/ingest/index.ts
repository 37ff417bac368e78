// What other floors may import from ingest: logs and their companions, in and out of files.
export { baselineFileOf, baselineText, type KnownGoodRun, readBaseline } from "./baseline-file.ts";
export {
  type LogFile,
  readLogFile,
  readWholeFile,
  sha256,
  writeWholeFile,
} from "./files.ts";
export { readForecast } from "./forecast-file.ts";
export { readLogMapping, readRunSheet } from "./json-shapes.ts";
export { readLog } from "./read-log.ts";
export { decimalOf, type Instant, instantOf } from "./text-log.ts";
export { showable } from "./unreadable-cells.ts";
export { nativeLogText } from "./write-log.ts";
