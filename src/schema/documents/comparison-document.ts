// "coldfall-comparison-1": what `coldfall compare --json` prints. The published JSON Schema, the types
// and the tests' validation all derive from here.

import { z } from "zod";
import { energySources, heatSources } from "../recording.ts";
import { estimates, inputsSchema, programSchema, sentence } from "../shapes/result-shapes.ts";

/** How the cooling on a source changed from before to after. */
export const changes = ["better", "same", "worse", "undecided"] as const;
export type Change = (typeof changes)[number];

export const comparisonDocumentSchema = z
  .strictObject({
    format: z.literal("coldfall-comparison-1"),
    program: programSchema,
    options: z.strictObject({
      margin: z.number(),
      sourceMarks: z.array(z.strictObject({ at: z.iso.datetime(), source: z.enum(energySources) })),
    }),
    inputs: inputsSchema("before", "after", "known-good", "baseline", "sheet"),
    sources: z.array(
      z.strictObject({
        source: z.enum(heatSources),
        change: z.enum(changes),
        ...estimates("coolingStrength", "overControl"),
        reasons: z.array(sentence),
      }),
    ),
    differences: z.array(sentence).describe("conditions that differ between the run sheets"),
    sentence: sentence.describe("the whole comparison in one sentence"),
    warnings: z.array(sentence),
  })
  .meta({
    id: "Comparison",
    title: "Coldfall comparison",
    description:
      "coolingStrength is that after over that before; overControl the same over that of a source that nobody touched",
  });

export type ComparisonDocument = z.infer<typeof comparisonDocumentSchema>;
