// "coldfall-plan-1": the plan of a run, as `coldfall plan --json` prints it and a run of the store keeps it.

import { z } from "zod";
import { heatSources } from "../recording.ts";
import { programSchema, sentence } from "../shapes/result-shapes.ts";

const instant = z.iso.datetime();
const source = z.enum(heatSources);
const caution = sentence.nullable().describe("stands wherever the item stands");

export const planDocumentSchema = z
  .strictObject({
    format: z.literal("coldfall-plan-1"),
    program: programSchema,
    start: instant,
    end: instant,
    utcOffsetMinutes: z.number().describe("of the clock that the plan was made for"),
    attended: z.strictObject({ fromHour: z.number(), toHour: z.number() }).describe("hours of the day on that clock"),
    switchedWhileCold: z.boolean(),
    sources: z.array(source),
    reasons: z.array(sentence),
    steps: z.array(
      z.strictObject({
        kind: z.enum(["settling", "stretch", "warming-back"]),
        source: source.nullable(),
        start: instant,
        end: instant,
        attended: z.boolean(),
        overnight: z.boolean(),
        proofs: z.array(z.strictObject({ proof: sentence, says: sentence, from: instant, by: instant })),
        reasons: z.array(sentence),
        caution,
      }),
    ),
    checklist: z.array(
      z.strictObject({
        item: sentence,
        title: sentence,
        text: z.string(),
        fields: z.array(sentence).describe("of the run sheet"),
        caution,
      }),
    ),
  })
  .meta({ id: "Plan", title: "Coldfall plan of a run" });

export type PlanDocument = z.infer<typeof planDocumentSchema>;
