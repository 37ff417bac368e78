// Fridges, and what they are compared with.

import { z } from "zod";
import { baselineFileSchema } from "../shapes/baseline-file.ts";
import { id, instant, longText, shortText } from "./parts.ts";

const fridgeParts = {
  name: shortText.describe("the workshop's own name for it"),
  kind: shortText.optional().describe("fridges of one kind may share a baseline"),
  ratedWatts: z
    .strictObject({
      gas: z.number().positive().optional(),
      mains: z.number().positive().optional(),
      dc12: z.number().positive().optional(),
    })
    .optional()
    .describe("rated heat input, W"),
  cabinetLitres: z.number().positive().optional(),
  notes: longText.optional(),
};

export const fridgeDetailsSchema = z.strictObject(fridgeParts).meta({ id: "FridgeDetails" });
export const fridgeChangesSchema = z
  .strictObject({
    name: fridgeParts.name.optional(),
    kind: fridgeParts.kind.nullable(),
    ratedWatts: fridgeParts.ratedWatts.nullable(),
    cabinetLitres: fridgeParts.cabinetLitres.nullable(),
    notes: fridgeParts.notes.nullable(),
  })
  .meta({ id: "FridgeChanges", description: "what is left out stays as it was; null takes it away" });

export const fridgeSchema = z
  .strictObject({ id, ...fridgeParts, addedUnixMs: instant, removedUnixMs: instant.nullable() })
  .meta({ id: "Fridge" });

export const fridgeListSchema = z.strictObject({ fridges: z.array(fridgeSchema) }).meta({ id: "FridgeList" });

const baselineParts = {
  kind: z.enum(["own", "kind"]).describe("runs of this very fridge, or of others of its kind"),
  notes: longText.optional(),
};

export const newBaselineSchema = z
  .union([
    z.strictObject({ ...baselineParts, runIds: z.array(id).min(1).max(50) }),
    z.strictObject({ ...baselineParts, file: baselineFileSchema }),
  ])
  .meta({ id: "NewBaseline" });

export const baselineSchema = z
  .strictObject({
    id,
    fridgeId: id,
    ...baselineParts,
    madeUnixMs: instant,
    runIds: z.array(id).nullable().describe("null: it stands on a baseline file"),
  })
  .meta({ id: "Baseline" });

export const baselineListSchema = z
  .strictObject({
    baselines: z.array(baselineSchema).describe("newest first; the first is the one in use"),
  })
  .meta({ id: "BaselineList" });
