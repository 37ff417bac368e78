// A fridge as it leaves one store and comes into another: a JSON object a line, the fridge itself first (coldfall-fridge-1).

import { z } from "zod";
import { alarmSchema } from "../api/alarms.ts";
import { fridgeSchema } from "../api/fridges.ts";
import { id, instant, json, position } from "../api/parts.ts";
import { calibrationSchema, probeSchema } from "../api/probes.ts";
import { editStepSchema, runEventListSchema, runSchema } from "../api/runs.ts";
import { positions } from "../recording.ts";
import { baselineFileSchema } from "../shapes/baseline-file.ts";
import { rawUnits } from "../units.ts";

/** The format that the first line names. */
export const fridgeExportFormat = "coldfall-fridge-1";

const baselineParts = {
  id,
  fridgeId: id,
  kind: z.enum(["own", "kind"]),
  madeUnixMs: instant,
  notes: z.string().optional(),
};
const baseline = z.union([
  z.strictObject({ ...baselineParts, runIds: z.array(id) }),
  z.strictObject({ ...baselineParts, file: baselineFileSchema }),
]);
const run = runSchema.extend({ files: z.array(z.strictObject({ name: z.string(), sha256: z.string() })) });
const edit = z.strictObject({
  runId: id,
  number: z.int().positive(),
  madeUnixMs: instant,
  madeBy: z.string().nullable(),
  step: editStepSchema,
  isUndone: z.boolean(),
});
const result = z.strictObject({
  id,
  fridgeId: id,
  runIds: z.array(id),
  kind: z.enum(["analysis", "comparison", "hot-day"]),
  method: z.string(),
  madeUnixMs: instant,
  document: json,
});
const column = z.array(z.number());
/** Null where a reading has none. */
const optionalColumn = z.array(z.number().nullable()).nullable();
const readings = z
  .strictObject({
    runId: id,
    position: z.enum([...positions, "source"]),
    probeId: z.string().nullable(),
    unit: z.enum(rawUnits).nullable().default(null),
    boardId: z.string().nullable(),
    boot: z.number(),
    unixMs: column.min(1),
    raw: column,
    sequence: optionalColumn,
    uptimeMs: optionalColumn,
    hostUnixMs: optionalColumn,
  })
  .refine(
    ({ unixMs, raw, sequence, uptimeMs, hostUnixMs }) =>
      [raw, sequence, uptimeMs, hostUnixMs].every((one) => one === null || one.length === unixMs.length) &&
      unixMs.every((at, i) => i === 0 || at > unixMs[i - 1]),
    "columns equally long, in order of time",
  );
const role = z.strictObject({
  probeId: id,
  fridgeId: id,
  boardId: z.string(),
  position,
  sinceUnixMs: instant,
});

const piece = <Kind extends string, Schema extends z.ZodType>(kind: Kind, record: Schema) =>
  z.strictObject({ kind: z.literal(kind), record });

/** One line. */
export const fridgePieceSchema = z.discriminatedUnion("kind", [
  z.strictObject({ format: z.literal(fridgeExportFormat), kind: z.literal("fridge"), record: fridgeSchema }),
  piece("baseline", baseline),
  piece("run", run),
  piece("edit", edit),
  piece("event", runEventListSchema.shape.events.element),
  piece("alarm", alarmSchema),
  piece("result", result),
  piece("readings", readings),
  piece("probe-role", role),
  piece("probe", probeSchema),
  piece("calibration", calibrationSchema),
]);

export type FridgePiece = z.infer<typeof fridgePieceSchema>;
