// A baseline file holds the known-good readings themselves, as 1 min means with their run sheets,
// because equal-length cuts need readings, not only fitted numbers.

import { z } from "zod";
import { energySources, positions } from "../recording.ts";
import { programSchema } from "./result-shapes.ts";
import { runSheetSchema } from "./run-sheet.ts";

const column = z.array(z.number().nullable());

/** One known-good run: equally long columns, an instant each; null is a missing reading. */
const knownGoodRunSchema = z
  .strictObject({
    name: z.string(),
    sha256: z.string().optional(),
    utcOffsetMinutes: z.number().int(),
    start: z.iso.datetime({ offset: true }),
    secondsSinceStart: z.array(z.number()),
    columns: z.partialRecord(z.enum(positions), column),
    sources: z.array(z.enum(energySources).nullable()).nullable(),
    sheet: runSheetSchema.nullable(),
  })
  .meta({ id: "KnownGoodRun" });

export const baselineFileSchema = z
  .strictObject({
    format: z.literal("coldfall-baseline-1"),
    program: programSchema,
    kind: z.enum(["own", "kind"]).describe("runs of this very fridge, or of others of its kind"),
    runs: z.array(knownGoodRunSchema).min(1),
  })
  .meta({ id: "BaselineFile", title: "Coldfall baseline" });

export type BaselineFile = z.infer<typeof baselineFileSchema>;
