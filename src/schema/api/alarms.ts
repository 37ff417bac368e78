// Alarms of runs.

import { z } from "zod";
import { caution, id, instant, json, position } from "./parts.ts";

export const alarmSchema = z
  .strictObject({
    id,
    runId: id,
    kind: z.string(),
    position: position.optional(),
    raisedUnixMs: instant,
    reason: json,
    clearedUnixMs: instant.nullable().describe("null while its cause lasts"),
    acknowledgedUnixMs: instant.nullable(),
    acknowledgedBy: z.string().nullable(),
  })
  .meta({ id: "Alarm" });

export const alarmListSchema = z
  .strictObject({
    alarms: z.array(
      alarmSchema
        .extend({ fridgeId: id, text: z.string(), state: z.string(), caution })
        .meta({ id: "ToldAlarm", description: "an alarm in sentences too; those of removed runs are not told" }),
    ),
    next: z.string().nullable().describe("cursor of the alarms that follow"),
  })
  .meta({ id: "AlarmList" });

export const alarmQuery = z.strictObject({
  runId: id.optional(),
  state: z.enum(["waiting", "acknowledged"]).optional().describe("both unless stated"),
  limit: z.coerce.number<number>().int().min(1).max(200).optional().describe("50 unless stated"),
  cursor: z.string().max(500).optional(),
});
