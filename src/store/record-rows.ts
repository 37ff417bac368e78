// Records as rows of the tables, where more than one way leads in: made here, or brought in from another store.

import { jsonText } from "./json-text.ts";
import type { Alarm, NewCalibration, RunEvent } from "./records.ts";
import type { AlarmRow, Tables } from "./tables.ts";

/** An event of a run. */
export const eventRow = (id: string, runId: string, event: RunEvent): Tables["events"] => ({
  id,
  run_id: runId,
  kind: event.kind,
  from_ms: event.fromUnixMs,
  to_ms: event.toUnixMs ?? null,
  position: event.position ?? null,
  board_id: event.boardId ?? null,
  details: jsonText(event.details),
});

/** An alarm of a run. */
export const alarmRow = (alarm: Alarm): AlarmRow => ({
  id: alarm.id,
  run_id: alarm.runId,
  kind: alarm.kind,
  position: alarm.position ?? null,
  raised_ms: alarm.raisedUnixMs,
  reason: JSON.stringify(alarm.reason),
  cleared_ms: alarm.clearedUnixMs,
  acknowledged_ms: alarm.acknowledgedUnixMs,
  acknowledged_by: alarm.acknowledgedBy,
});

/** The whole calibration is kept as it is; its probe and instant are what it is found by. */
export const calibrationRow = (id: string, calibration: NewCalibration): Tables["calibrations"] => ({
  id,
  probe_id: calibration.probeId,
  made_ms: calibration.madeUnixMs,
  details: JSON.stringify(calibration),
});
