// The curve of a probe that sends no °C: what its ohms or millivolts mean. Kept with the probe; the arithmetic is the science's.

import { z } from "zod";

const positive = z.number().positive();

/** One kind of sensor each. */
export const probeCurveSchema = z
  .discriminatedUnion("kind", [
    z.strictObject({
      kind: z.literal("thermistor-b"),
      curve: z.strictObject({
        ohmsAt25: positive.describe("resistance at 25 Cel, Ohm"),
        b: positive.describe("B parameter, K"),
      }),
    }),
    z.strictObject({
      kind: z.literal("thermistor-steinhart-hart"),
      curve: z
        .strictObject({ a: z.number(), b: z.number(), c: z.number() })
        .describe("1/T = a + b ln R + c (ln R)^3, T in K, R in Ohm"),
    }),
    z.strictObject({ kind: z.literal("pt100"), toleranceClass: z.enum(["AA", "A", "B", "C"]).describe("IEC 60751") }),
    z.strictObject({
      kind: z.literal("type-k"),
      toleranceClass: z.literal([1, 2]).describe("IEC 60584-1"),
      coldJunction: z
        .strictObject({ celsius: z.number().min(-40).max(85), standardUncertainty: z.number().nonnegative() })
        .describe("where the couple's wires end; 0 Cel where the front end refers its voltage to that"),
    }),
  ])
  .meta({ id: "ProbeCurve" });

export type ProbeCurve = Readonly<z.infer<typeof probeCurveSchema>>;
