// "coldfall-analysis-1": what `coldfall analyse --json` prints. The published JSON Schema, the types
// and the tests' validation all derive from here.

import { z } from "zod";
import { energySources, heatSources, positions } from "../recording.ts";
import { estimates, inputsSchema, programSchema, sentence } from "../shapes/result-shapes.ts";
import { resultUnits } from "../units.ts";

const instant = z.iso.datetime();

export const verdicts = ["sound", "weak", "not-cooling", "undecided"] as const;
export type Verdict = (typeof verdicts)[number];

export const baselineKinds = ["own", "kind", "other-sources", "generic", "none"] as const;
export type BaselineKind = (typeof baselineKinds)[number];

export const startStates = ["cold-boiler", "warm-boiler", "switched-while-cold"] as const;
export type StartState = (typeof startStates)[number];

export const eventKinds = [
  "door-opening",
  "cooling-stopped",
  "cycling",
  "gap",
  "probe-fault",
  "probe-moved",
  "sun-on-probe",
  "exhaust-on-probe",
  "clock-jump",
] as const;
export type EventKind = (typeof eventKinds)[number];

export const causes = [
  "burner",
  "flue",
  "gas-supply",
  "mains-element",
  "dc12-element",
  "supply-voltage",
  "thermostat",
  "boiler-insulation",
  "ventilation",
  "not-level",
  "cooling-unit",
  "door-seal",
  "warm-load",
  "frost",
  "lamp",
  "probe",
  "other",
  "none",
] as const;
export type Cause = (typeof causes)[number];

const proofs = [
  "tilt-measured",
  "heat-in-watts",
  "boiler-hot",
  "fan-at-rear-tried",
  "twelve-hours",
  "two-nights",
] as const;

const baseline = z.strictObject({ kind: z.enum(baselineKinds), runs: z.number().int().nonnegative() });
const fitNumbers = estimates("rateConstant", "depth", "initialSlope", "deadTime");

const stretchDocumentSchema = z
  .strictObject({
    log: z.string(),
    source: z.enum(energySources).nullable(),
    start: instant,
    end: instant,
    sourceFrom: z.enum(["told", "found"]),
    startState: z.enum(startStates).nullable(),
    verdict: z.enum(verdicts).nullable().describe("null for a stretch that warms back"),
    baseline,
    ...estimates("coolingStrength", "thisNight"),
    fit: z.strictObject({
      position: z.literal("cabinet"),
      modes: z.union([z.literal(1), z.literal(2)]).describe("2: one exponential leaves structure in the residuals"),
      ...fitNumbers,
    }),
    baselineFit: z
      .strictObject({ hours: z.number(), ...fitNumbers })
      .nullable()
      .describe("means over the known-good runs, cut to equal length from the onset"),
    ...estimates("finDifference", "belowAmbient", "warmingRate", "duty"),
    milestones: z.strictObject(estimates("to8", "to5", "to0", "fallFirstHour", "shareAbove5", "shareAbove8")),
    ratios: z.strictObject(estimates("rateConstant", "depth", "initialSlope", "finDifference")),
    ...estimates("deadTimeShift"),
    switchOver: z
      .strictObject({
        from: z.enum(heatSources),
        ...estimates("ratio"),
        drift: z
          .enum(["removed", "allowed-for"])
          .describe("removed: by a stretch on the first source once more; allowed-for: in the interval"),
      })
      .nullable()
      .describe("cooling over that of the source before, where it was switched over while cold"),
    reasons: z.array(sentence),
  })
  .meta({ id: "Stretch" });

const eventDocumentSchema = z
  .strictObject({
    log: z.string(),
    kind: z.enum(eventKinds),
    start: instant,
    end: instant,
    position: z.enum(positions).nullable(),
    size: z.number().nullable(),
    sizeUnit: z.enum(resultUnits).nullable(),
    reason: sentence,
  })
  .meta({ id: "Event" });

export const analysisDocumentSchema = z
  .strictObject({
    format: z.literal("coldfall-analysis-1"),
    program: programSchema,
    options: z.strictObject({
      margin: z.number(),
      sourceMarks: z.array(z.strictObject({ at: instant, source: z.enum(energySources) })),
    }),
    inputs: inputsSchema("log", "known-good", "baseline", "sheet"),
    sources: z.array(
      z.strictObject({
        source: z.enum(heatSources).nullable(),
        verdict: z.enum(verdicts),
        baseline: z.enum(baselineKinds).describe("what the strength stands on"),
        ...estimates("coolingStrength"),
        stretches: z.array(z.number().int().nonnegative()),
        reasons: z.array(sentence),
      }),
    ),
    stretches: z.array(stretchDocumentSchema),
    keepsUp: z.array(
      z.strictObject({
        source: z.enum(heatSources).nullable(),
        ...estimates("settledHere", "settledAt32"),
        baseline: z.enum(baselineKinds).describe("generic: held against what is usual for such fridges"),
        reasons: z.array(sentence),
      }),
    ),
    causes: z
      .array(
        z.strictObject({
          cause: z.enum(causes),
          source: z.enum(heatSources).nullable(),
          probability: z.number().min(0).max(1),
        }),
      )
      .describe("adds to 1; empty where nothing was seen yet that points to any"),
    nextChecks: z.array(
      z.strictObject({ check: sentence, separates: z.array(z.enum(causes)), caution: sentence.nullable() }),
    ),
    beforeCondemning: z
      .array(
        z.strictObject({
          proof: z.enum(proofs),
          state: z.enum(["shown", "not-shown"]),
          text: sentence,
          caution: sentence.nullable(),
        }),
      )
      .describe("what must be proven before a cooling unit is condemned; empty where it is not among the causes"),
    events: z.array(eventDocumentSchema),
    rejected: z.array(
      z.strictObject({
        log: z.string(),
        position: z.enum([...positions, "time", "source"]),
        reason: sentence,
        readings: z.number().int().positive(),
        parts: z
          .array(
            z.strictObject({
              start: instant,
              end: instant,
              readings: z.number().int().positive(),
              lowest: z.number().nullable().describe("Cel, or V for supply; null where whole rows were set aside"),
              highest: z.number().nullable(),
            }),
          )
          .describe("when; those near each other together, and none where their instants are not known"),
      }),
    ),
    warnings: z.array(sentence),
  })
  .meta({ id: "Analysis", title: "Coldfall analysis" });

export type AnalysisDocument = z.infer<typeof analysisDocumentSchema>;
