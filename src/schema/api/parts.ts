// Small shapes that several parts of the interface share.

import { z } from "zod";
import { energySources, positions } from "../recording.ts";

/** Milliseconds since 1970 in UTC, between 1970 and 2100: what lies beyond is a slip. */
export const instant = z.number().min(0).max(4_102_444_800_000).describe("milliseconds since 1970 in UTC");
export const instantInQuery = z.coerce
  .number<number>()
  .min(0)
  .max(4_102_444_800_000)
  .describe("milliseconds since 1970 in UTC");

export const id = z.string().min(1).max(128);
export const shortText = z.string().min(1).max(200);
export const longText = z.string().max(20_000);

export const position = z.enum(positions);
export const energySource = z.enum(energySources);

/** A reading: °C, or V for `supply`. Wide enough for a flue, too narrow for a slip of the decimal point. */
export const readingValue = z.number().min(-100).max(1500).describe("Cel, or V for supply");

/** What hurts, and how to be careful; null where nothing does. */
export const caution = z
  .strictObject({
    subjects: z.array(z.strictObject({ about: z.string(), text: z.string() })),
    close: z.string(),
  })
  .nullable()
  .describe("what stands with the sentence wherever it is shown");

/** Anything JSON can hold; its shape belongs to whoever wrote it. */
type Json = string | number | boolean | null | Json[] | { [key: string]: Json };

export const json: z.ZodType<Json> = z
  .lazy(() => z.union([z.string(), z.number(), z.boolean(), z.null(), z.array(json), z.record(z.string(), json)]))
  .meta({ id: "Json", description: "any JSON value" });
