// What checks of probes print as JSON: the ice-slush test, and which probe was warmed in a hand.

import { z } from "zod";

const slushFinding = z.strictObject({
  probeId: z.string().min(1),
  finding: z.enum([
    "good",
    "far-off",
    "wet-or-loose",
    "not-settled",
    "not-in-slush",
    "in-slush-unasked",
    "outside",
    "silent",
  ]),
  offsetKelvin: z.number().optional().describe("what it reads at 0 °C"),
  scatterKelvin: z.number().nonnegative().optional(),
  faults: z.int().nonnegative().optional(),
  kelvinPerMinute: z.number().optional(),
  instead: z.string().nullable().optional().describe("the probe that reads the slush in its place"),
});

const warming = z.strictObject({
  outcome: z.enum(["found", "several"]),
  probes: z.array(z.string().min(1)).min(1),
  roseKelvin: z.number().positive().nullable(),
  from: z.iso.datetime().nullable().describe("null: nobody knows when the board was started"),
  to: z.iso.datetime().nullable(),
  fromMs: z.number().describe("ms since 1970, or since the board's start where `from` is null"),
  toMs: z.number(),
});

/** "coldfall-slush-1" and "coldfall-warmed-1". */
export const probeCheckSchemas = {
  slush: z.strictObject({ format: z.literal("coldfall-slush-1"), probes: z.array(slushFinding) }),
  warmed: z.strictObject({ format: z.literal("coldfall-warmed-1"), warmings: z.array(warming) }),
} as const;

/** The documents by name, as they are printed. */
export type ProbeChecks = {
  readonly [Check in keyof typeof probeCheckSchemas]: z.infer<(typeof probeCheckSchemas)[Check]>;
};
