// "coldfall-hot-day-1": what `coldfall hot-day --json` prints. The published JSON Schema, the types
// and the tests' validation all derive from here.

import { z } from "zod";
import { energySources, heatSources } from "../recording.ts";
import { estimates, inputsSchema, programSchema, sentence } from "../shapes/result-shapes.ts";

const instant = z.iso.datetime();
const celsius = z.number().describe("Cel");

/** What the trip's first temperature was taken from. */
const tripStarts = ["stated", "last-reading", "settled", "ambient"] as const;

const hotDaySourceSchema = z
  .strictObject({
    source: z.enum(heatSources).nullable(),
    ...estimates("settled", "belowAmbient", "warmestAmbientFor8"),
    ...estimates("hoursUntil8", "slope"),
    slopeFrom: z.enum(["own-runs", "default"]),
    extrapolated: z.boolean(),
    runs: z
      .array(
        z.strictObject({
          log: z.string(),
          start: instant,
          ambient: celsius,
          belowAmbient: z.number().describe("K, under full cooling"),
          standardError: z.number().nonnegative(),
          from: z.enum(["fit", "settled", "duty"]),
        }),
      )
      .describe("the points of the law"),
    climateClasses: z
      .array(
        z.strictObject({
          class: z.enum(["SN", "N", "ST", "T"]),
          coolest: celsius,
          warmest: celsius,
          ...estimates("settled"),
          holds8: z.enum(["yes", "no", "undecided"]).describe("whether the cabinet is at 8 Cel or below there"),
        }),
      )
      .describe("to compare, not to claim: mobile appliances lie outside the regulation"),
    reasons: z.array(sentence),
  })
  .meta({ id: "HotDaySource" });

export const hotDayDocumentSchema = z
  .strictObject({
    format: z.literal("coldfall-hot-day-1"),
    program: programSchema,
    options: z.strictObject({
      ambient: celsius.nullable(),
      forecast: z.string().nullable(),
      source: z.enum(heatSources).nullable(),
      load: z.strictObject({ kilograms: z.number(), celsius }).nullable(),
      begin: celsius.nullable(),
      sourceMarks: z.array(z.strictObject({ at: instant, source: z.enum(energySources) })),
    }),
    inputs: inputsSchema("log", "sheet", "forecast"),
    sentence: sentence.describe("the answer in one sentence"),
    ambient: celsius.describe("Cel; of a trip its warmest unless stated"),
    source: z.enum(heatSources).nullable(),
    ...estimates("settled"),
    start: z
      .strictObject({ cabinet: celsius, from: z.enum(tripStarts) })
      .nullable()
      .describe("null without a forecast"),
    hours: z.array(
      z.strictObject({
        time: instant,
        source: z.enum(energySources),
        ambient: celsius,
        sun: z.boolean(),
        driving: z.boolean(),
        ...estimates("cabinet"),
        extrapolated: z.boolean(),
      }),
    ),
    extrapolated: z.boolean().describe("the answer, or an hour of the trip, lies beyond what the runs saw"),
    ...estimates("hoursAbove5", "hoursAbove8"),
    ...estimates("hoursUntil8"),
    ...estimates("warmestAmbientFor8", "topShelfWarmer"),
    sources: z.array(hotDaySourceSchema).describe("the answer's source first"),
    reasons: z.array(sentence),
    limits: z.array(sentence),
    advice: z.array(z.strictObject({ advice: sentence, caution: sentence })),
    warnings: z.array(sentence),
  })
  .meta({
    id: "HotDay",
    title: "Coldfall hot day",
    description:
      "settled is as the fridge ran in the given logs: at the dial's set point where cycling was seen, else under full cooling. " +
      "hoursUntil8 at the top counts from the trip's start until 8 Cel is first crossed, whichever way; in sources, and at the top " +
      "without a forecast, from switching on with everything at ambient. hoursAbove5 and hoursAbove8 need a forecast.",
  });

export type HotDayDocument = z.infer<typeof hotDayDocumentSchema>;
