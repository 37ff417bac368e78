// What all results share: numbers with their intervals, which program made them, and from which files.

import { z } from "zod";
import { resultUnits } from "../units.ts";

export const sentence = z.string().min(1);

const estimateSchema = z
  .strictObject({
    value: z.number(),
    low: z.number().nullable().describe("null: open end"),
    high: z.number().nullable().describe("null: open end"),
    confidence: z.literal(0.95),
    unit: z.enum(resultUnits).describe("UCUM"),
    standardError: z.number().nonnegative().optional(),
    readings: z.number().int().nonnegative().optional(),
  })
  .meta({ id: "Estimate" });

export type EstimateDocument = z.infer<typeof estimateSchema>;

/** An estimate, or null with the sentence that says why there is none in `…Reason` beside it. */
export const estimates = <const Names extends readonly string[]>(...names: Names) => {
  const shape: Record<string, z.ZodType> = {};
  for (const name of names) {
    shape[name] = estimateSchema.nullable();
    shape[`${name}Reason`] = sentence.optional();
  }
  return shape as { [N in Names[number]]: z.ZodNullable<typeof estimateSchema> } & {
    [N in Names[number] as `${N}Reason`]: z.ZodOptional<z.ZodString>;
  };
};

export const programSchema = z.strictObject({
  name: z.literal("coldfall"),
  version: z.string(),
  method: z.string(),
});

/** The files that a result was made from, each with its part in it. */
export const inputsSchema = <const Roles extends readonly [string, ...string[]]>(...roles: Roles) =>
  z.array(z.strictObject({ name: z.string(), role: z.enum(roles), sha256: z.string() }));
