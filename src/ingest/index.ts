// What other floors may import from ingest: logs and their companions, in and out of files.

export {
  baselineFileOf,
  baselineLogs,
  baselineText,
  type KnownGoodRun,
} from "./baseline-file.ts";
export { BoardClock, type ClockEvent, type PlacedLine } from "./board-clock.ts";
export { type BoardCommand, commandText, commandWords } from "./board-command.ts";
export type { TimeAnchor } from "./board-file.ts";
export { BoardLines, type HeardLine, type LineCounts } from "./board-lines.ts";
export { boardLinesOf, boardOfFile, readBoardLog } from "./board-log.ts";
export { isElapsed } from "./elapsed-time.ts";
export {
  type LogFile,
  type ReadLogFileOptions,
  readLogFile,
  readWholeFile,
  sha256,
  sheetOf,
  writeWholeFile,
} from "./files.ts";
export { readForecast } from "./forecast-file.ts";
export { hintsOfAnswer, withAnswer } from "./log-answer.ts";
export type { LogEnd, LogPiece } from "./log-columns.ts";
export {
  extentOf,
  type FoundWay,
  type ImportHints,
  type LogExtent,
  type LogWay,
  type LookedOver,
  lookOver,
  mappedWay,
  readLogFilePieces,
  wayToRead,
} from "./log-file.ts";
export type { LogHints } from "./log-findings.ts";
export { understandLog } from "./log-understanding.ts";
export { withSourceWords } from "./mapped-log.ts";
export { refuseToReplace } from "./output-file.ts";
export { findPorts, type ListenedPort, listenToPort, type PortHappening } from "./port-bytes.ts";
export type { ProbeLine } from "./probe-line.ts";
export { isToldOtherwise, readLog, refuseUnfitOrder } from "./read-log.ts";
export { inKeptUnit, resolveSenml } from "./senml.ts";
export { decimalOf, type Instant, instantOf } from "./text-log.ts";
export { showable } from "./unreadable-cells.ts";
export { nativeLogText, writeLogMapping } from "./write-log.ts";
