// Questions to the workshop's judgement. The answers are the published documents.

import { z } from "zod";
import { askedAmbient } from "../asked-ambient.ts";
import { forecastAmbient } from "../forecast.ts";
import { energySources, heatSources } from "../recording.ts";
import { id, instant, shortText } from "./parts.ts";

export const verdictQuery = z.strictObject({
  margin: z.coerce
    .number<number>()
    .gt(0)
    .lt(1)
    .optional()
    .describe("allowed loss of cooling strength, a share; that of the command line unless stated"),
});

export const reportQuery = z.strictObject({
  ...verdictQuery.shape,
  letterhead: shortText.optional().describe("the workshop's own words at its head"),
});

export const drawingQuery = z.strictObject({
  stretch: z.coerce
    .number<number>()
    .int()
    .min(0)
    .max(10_000)
    .optional()
    .describe("one stretch, as the verdict counts them from 0; the whole run unless stated"),
  width: z.coerce.number<number>().int().min(320).max(2000).optional().describe("px; 720 unless stated"),
});

/** Several ids in one value, with commas between. */
const ids = z.string().min(1).max(2000).describe("ids of runs, with commas between");

export const comparisonQuery = z.strictObject({ before: ids, after: ids, ...verdictQuery.shape });
export const comparisonReportQuery = z.strictObject({ before: ids, after: ids, ...reportQuery.shape });

const celsius = (least: number, most: number) => z.number().min(least).max(most).describe("Cel");

export const hotDayQuery = z.strictObject({
  ambient: z.coerce.number<number>().min(askedAmbient.least).max(askedAmbient.most).describe("Cel"),
  source: z.enum(heatSources).optional().describe("that of the newest stretch unless stated"),
});

export const tripSchema = z
  .strictObject({
    name: shortText.optional(),
    utcOffsetMinutes: z.int().min(-840).max(840),
    rows: z
      .array(
        z.strictObject({
          unixMs: instant,
          ambient: celsius(forecastAmbient.least, forecastAmbient.most),
          source: z.enum(energySources),
          sun: z.boolean(),
          driving: z.boolean(),
        }),
      )
      .min(2)
      .max(2000)
      .describe("in order of time; the last one ends the trip"),
    source: z.enum(heatSources).optional(),
    begin: celsius(-30, 60).optional().describe("cabinet as the trip begins, Cel"),
    load: z.strictObject({ kilograms: z.number().positive().max(200), celsius: celsius(-30, 60) }).optional(),
  })
  .meta({ id: "Trip" });

export const newestVerdictSchema = z
  .strictObject({
    verdict: z
      .strictObject({
        resultId: id,
        runIds: z.array(id),
        madeUnixMs: instant,
        sources: z.array(
          z.strictObject({
            source: z.enum(heatSources).nullable(),
            verdict: z.string(),
            reasons: z.array(z.string()),
          }),
        ),
      })
      .nullable()
      .describe("of its newest run that is over and no known-good one, judged now if need be; null: it has none"),
  })
  .meta({ id: "NewestVerdict" });

export const planQuery = z.strictObject({
  start: z.coerce.number<number>().min(0).max(4_102_444_800_000).describe("when logging begins, ms since 1970 in UTC"),
  sources: z.string().min(1).max(30).describe("in the wished order, with commas between"),
  utcOffsetMinutes: z.coerce.number<number>().int().min(-840).max(840),
  isSwitchedWhileCold: z.stringbool().optional().describe("without pauses: quicker, and proves less"),
});
