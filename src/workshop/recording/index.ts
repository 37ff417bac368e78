// What the faces may import of recording: arrivals, boards, the watch over the night.
export type { Arrival } from "./arrival.ts";
export { boardArrivals } from "./board-arrivals.ts";
export { type MemoryAnswer, type MemoryCommand, tellMemory } from "./board-memory.ts";
export { boardRoles } from "./board-roles.ts";
export { noteReadings, nowOf, runSpokenOf, sayNowOn } from "./by-hand.ts";
export { claimed } from "./claim.ts";
export { firstHello } from "./first-hello.ts";
export { lastLineOf } from "./last-line.ts";
export { liveEstimateOf } from "./live-estimate.ts";
export { NightWatch, wasWatched } from "./night-watch.ts";
export { type RecordingCounts, recordRun } from "./record-run.ts";
export { replay } from "./replay.ts";
export { runToRecord, runToReplay } from "./run-to-record.ts";
export { type BoardAnswer, tellBoard } from "./tell-board.ts";
export { ticking } from "./ticking.ts";
export { enqueue, sendDue, type Webhook } from "./webhook.ts";
