// Runs: what was recorded on a fridge, how it is read, and what happened meanwhile.

import { z } from "zod";
import { runSheetSchema } from "../shapes/run-sheet.ts";
import {
  caution,
  energySource,
  id,
  instant,
  instantInQuery,
  json,
  longText,
  position,
  readingValue,
  shortText,
} from "./parts.ts";

const purpose = z.enum(["test", "known-good", "before-service", "after-service"]);
const origin = z.enum(["board", "network", "file", "hand", "replay"]);
const utcOffsetMinutes = z
  .int()
  .min(-14 * 60)
  .max(14 * 60);

export const newRunSchema = z
  .strictObject({
    fridgeId: id,
    purpose,
    startedUnixMs: instant.optional().describe("now unless stated"),
    utcOffsetMinutes: utcOffsetMinutes.describe("of the clock that screens show the run's times with"),
    name: shortText.optional(),
    sheet: runSheetSchema.optional(),
    plan: json.optional(),
    notes: longText.optional(),
  })
  .meta({ id: "NewRun", description: "a run with readings typed in by hand, or sent by a board" });

export const runChangesSchema = z
  .strictObject({
    name: shortText.optional(),
    purpose: purpose.optional(),
    utcOffsetMinutes: utcOffsetMinutes.optional(),
    sheet: runSheetSchema.optional(),
    plan: json.optional(),
    notes: longText.optional(),
    endedUnixMs: instant.nullable().optional().describe("null takes the run up again"),
  })
  .meta({ id: "RunChanges" });

const runParts = {
  id,
  fridgeId: id,
  name: z.string(),
  purpose,
  origin,
  startedUnixMs: instant,
  endedUnixMs: instant.nullable().describe("null while it goes on"),
  utcOffsetMinutes: z.int(),
  sheet: runSheetSchema.nullable(),
  plan: json,
  notes: z.string().nullable(),
  deletedUnixMs: instant.nullable(),
};

export const runSchema = z.strictObject(runParts).meta({ id: "Run" });

export const runListSchema = z
  .strictObject({ runs: z.array(runSchema), next: z.string().nullable().describe("cursor of the runs that follow") })
  .meta({ id: "RunList" });

export const runQuery = z.strictObject({
  fridgeId: id.optional(),
  purpose: purpose.optional(),
  state: z.enum(["open", "closed", "deleted"]).optional().describe("all but deleted ones unless stated"),
  limit: z.coerce.number<number>().int().min(1).max(200).optional().describe("50 unless stated"),
  cursor: z.string().max(500).optional(),
});

export const runWithExtentsSchema = z
  .strictObject({
    ...runParts,
    extents: z
      .array(z.strictObject({ position, readings: z.int(), firstUnixMs: instant, lastUnixMs: instant }))
      .describe("what each position holds"),
    files: z.array(z.strictObject({ name: z.string(), sha256: z.string() })),
  })
  .meta({ id: "RunWithExtents" });

// Edits

const source = z.strictObject({
  kind: z.literal("source"),
  unixMs: instant,
  source: energySource,
  how: z.enum(["told", "later", "found"]).optional(),
});
const exclusion = z.strictObject({
  kind: z.literal("exclusion"),
  fromUnixMs: instant,
  toUnixMs: instant,
  position: position.optional(),
  reason: z.string().max(500).optional(),
});
const note = z.strictObject({ kind: z.literal("note"), unixMs: instant, text: z.string().min(1).max(2000) });
const number = z.int().positive();

const editSchema = z.discriminatedUnion("kind", [source, exclusion, note]).meta({ id: "Edit" });

export const editStepSchema = z
  .discriminatedUnion("kind", [
    source,
    exclusion,
    note,
    z.strictObject({ kind: z.literal("together"), edits: z.array(editSchema).min(1).max(1000) }),
    z.strictObject({ kind: z.literal("replace"), number, by: editSchema }),
    z.strictObject({ kind: z.literal("remove"), number }),
  ])
  .meta({
    id: "EditStep",
    description: "a change to how the run is read, several edits together if need be; the last one can be undone",
  });

export const runEditsSchema = z
  .strictObject({
    sourceMarks: z.array(
      z.strictObject({
        unixMs: instant,
        source: energySource,
        number,
        how: z.enum(["told", "later", "found"]),
      }),
    ),
    exclusions: z.array(exclusion.extend({ number })),
    notes: z.array(note.extend({ number })),
    canUndo: z.boolean(),
    canRedo: z.boolean(),
  })
  .meta({ id: "RunEdits" });

export const nowOnSchema = z
  .strictObject({
    source: energySource,
    unixMs: instant.optional().describe("now unless stated"),
    runId: id.optional().describe("the run being recorded unless stated"),
  })
  .meta({ id: "NowOn", description: "from this instant on the fridge runs on this source" });

export const notedSourceSchema = runSchema
  .extend({ caution })
  .meta({ id: "NotedSource", description: "the run it was noted in, and what is to be heeded on that source" });

// Events and readings

export const runEventListSchema = z
  .strictObject({
    events: z.array(
      z.strictObject({
        id,
        runId: id,
        kind: z.string(),
        fromUnixMs: instant,
        toUnixMs: instant.optional(),
        position: position.optional(),
        boardId: id.optional(),
        details: json.optional(),
      }),
    ),
  })
  .meta({ id: "RunEventList" });

export const handReadingsSchema = z
  .strictObject({
    values: z.partialRecord(position, readingValue),
    unixMs: instant.optional().describe("now unless stated"),
    utcOffsetMinutes: utcOffsetMinutes.describe("for a run that begins with them"),
  })
  .meta({ id: "HandReadings", description: "readings taken by hand at one instant" });

export const receivedSchema = z
  .strictObject({
    runId: id,
    stored: z.int(),
    repeated: z.int(),
    contradicted: z.int(),
    contradictions: z.array(
      z.strictObject({
        position: z.union([position, z.literal("source")]),
        unixMs: instant,
        kept: z.number(),
        refused: z.number(),
      }),
    ),
  })
  .meta({ id: "Received" });

export const curveQuery = z.strictObject({
  position,
  from: instantInQuery.optional(),
  to: instantInQuery.optional(),
  points: z.coerce
    .number<number>()
    .int()
    .min(10)
    .max(20_000)
    .optional()
    .describe("about so many at most; 2000 unless stated"),
});

export const curveSchema = z
  .strictObject({
    runId: id,
    position,
    readings: z.int().describe("believed readings in the asked span"),
    isReduced: z.boolean().describe("of each short span only the first, lowest, highest and last reading are here"),
    unixMs: z.array(z.number()),
    values: z.array(z.number()).describe("Cel, or V for supply"),
    gaps: z
      .array(z.strictObject({ fromUnixMs: z.number(), toUnixMs: z.number() }))
      .describe("last reading before and first after a gap: no line is to be drawn between them"),
    rejected: z
      .strictObject({
        readings: z.int().describe("in the asked span"),
        unixMs: z.array(z.number()),
        values: z.array(z.number()),
      })
      .describe("readings that the analysis sets aside; where many lie together only first, lowest, highest and last"),
  })
  .meta({ id: "Curve" });
