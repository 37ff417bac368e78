// What the live stream tells, one event after the other (server-sent events).

import { z } from "zod";
import { alarmSchema } from "./alarms.ts";
import { jobSchema } from "./jobs.ts";
import type { Frozen } from "./operation.ts";
import { caution, energySource, id, instant, position } from "./parts.ts";
import { runSchema } from "./runs.ts";

/** Every event by its name in the stream; `data` is JSON of this shape. */
export const liveEvents = {
  /** New readings of an open run, in order of time. */
  readings: z.strictObject({
    runId: id,
    position,
    unixMs: z.array(z.number()),
    values: z.array(z.number()),
  }),
  /** A run was opened, changed or closed. */
  run: z.strictObject({ run: runSchema }),
  /** Readings came in between earlier ones, or edits changed how the run is read: fetch it anew. */
  "run-reread": z.strictObject({ runId: id }),
  source: z.strictObject({ runId: id, unixMs: instant, source: energySource }),
  alarm: z.strictObject({ alarm: alarmSchema }),
  job: z.strictObject({ job: jobSchema }),
  /** Events between the last one received and the next one are gone: fetch what is shown anew. */
  missed: z.strictObject({ reason: z.enum(["too-long-ago", "service-restarted"]) }),
} as const;

export type LiveEventKind = keyof typeof liveEvents;

export type LiveEvent = {
  [K in LiveEventKind]: { readonly kind: K; readonly data: Frozen<z.infer<(typeof liveEvents)[K]>> };
}[LiveEventKind];

export const liveQuery = z.strictObject({
  after: z
    .string()
    .max(80)
    .optional()
    .describe("id of the last event received; the Last-Event-ID header, where it is sent, counts instead"),
});

/** A run while it goes on, in sentences and numbers. */
export const runNowSchema = z
  .strictObject({
    runId: id,
    asOfUnixMs: instant,
    sinceUnixMs: instant.describe("since when it runs on this source"),
    source: energySource.nullable().describe("null: nobody said"),
    since: z.string(),
    headline: z.string(),
    caution,
    proofs: z.array(
      z.strictObject({ name: z.string(), state: z.enum(["proven", "expected", "not-coming"]), text: z.string() }),
    ),
    numbers: z.array(z.strictObject({ name: z.string(), text: z.string() })),
    until: z.string().nullable().describe("how long it should go on, and for what"),
    onsetUnixMs: instant.nullable().describe("when cold began; null: still awaited"),
    ahead: z
      .strictObject({
        unixMs: z.array(z.number()),
        middle: z.array(z.number()),
        low: z.array(z.number()),
        high: z.array(z.number()),
      })
      .nullable()
      .describe("where the cabinet goes from here, Cel"),
    alarms: z
      .array(z.strictObject({ id, isWaiting: z.boolean(), text: z.string(), state: z.string(), caution }))
      .describe("newest first"),
  })
  .meta({ id: "RunNow" });
