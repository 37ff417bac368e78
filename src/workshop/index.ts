// What the faces may import: the workshop's jobs, on files and on the store alike.
export { boardAnchors } from "./board-files.ts";
export {
  type CalibrationGiven,
  type CalibrationResult,
  type CalibrationTold,
  calibrate,
  calibrationStandingOn,
  overdueProbes,
  rangeOfUse,
} from "./calibrating.ts";
export { handWarmings, slushFindings } from "./check-probes.ts";
export { type Comparison, compareKeptRuns, compareLogs } from "./compare.ts";
export { fridgeBaseline } from "./fridge-baseline.ts";
export { type Imported, importLog } from "./import-log.ts";
export { type Judgement, judgeLogs, keepJudgement } from "./judge.ts";
export { baselineList, boardList, fridgeList, probeList, resultList, runList } from "./kept-lists.ts";
export { type LogsRead, readRuns, refuseMixed } from "./logs-read.ts";
export { morningOf, toldAlarm } from "./morning.ts";
export { type HotDayQuestion, type Prediction, predictFromLogs } from "./predict.ts";
export { keptCurves, withoutCurve } from "./probe-curves.ts";
export { type ProbesRead, probesOfFile, probesOfRun } from "./probe-readings.ts";
export type { Arrival } from "./recording/arrival.ts";
export { boardArrivals } from "./recording/board-arrivals.ts";
export { type MemoryAnswer, type MemoryCommand, tellMemory } from "./recording/board-memory.ts";
export { boardRoles } from "./recording/board-roles.ts";
export { noteReadings, openRunOf, sayNowOn } from "./recording/by-hand.ts";
export { claimed } from "./recording/claim.ts";
export { firstHello } from "./recording/first-hello.ts";
export { lastLineOf } from "./recording/last-line.ts";
export { liveEstimateOf } from "./recording/live-estimate.ts";
export { NightWatch } from "./recording/night-watch.ts";
export { type RecordingCounts, recordRun } from "./recording/record-run.ts";
export { replay } from "./recording/replay.ts";
export { runToRecord, runToReplay } from "./recording/run-to-record.ts";
export { type BoardAnswer, tellBoard } from "./recording/tell-board.ts";
export { ticking } from "./recording/ticking.ts";
export { enqueue, sendDue, type Webhook } from "./recording/webhook.ts";
export { inputOf, runLog } from "./run-log.ts";
export { runTestReport, serviceReportOf, serviceTestReport } from "./test-report.ts";
