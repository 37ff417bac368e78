// Probes with their calibrations and places, and the boards that send their readings.

import { z } from "zod";
import { probeCurveSchema } from "../shapes/probe-curve.ts";
import { id, instant, json, longText, position, shortText } from "./parts.ts";

export const probeDetailsSchema = z
  .strictObject({
    label: shortText.optional().describe("what is written on its cable"),
    kind: shortText.optional(),
    curve: probeCurveSchema.nullable().optional().describe("what its ohms or millivolts mean; null takes it away"),
    resolutionKelvin: z.number().positive().max(10).optional(),
    notes: longText.optional(),
  })
  .meta({ id: "ProbeDetails" });

export const probeSchema = z.strictObject({ id, ...probeDetailsSchema.shape }).meta({ id: "Probe" });

const roleSchema = z
  .strictObject({ probeId: id, fridgeId: id, boardId: id, position, sinceUnixMs: instant })
  .meta({ id: "ProbeRole", description: "where a probe sits on a fridge" });

const calibrationParts = {
  madeUnixMs: instant,
  dueUnixMs: instant.optional().describe("when to repeat it"),
  method: z.enum(["ice-point", "boiling-point", "reference-probe", "several-points", "stated"]),
  coefficients: z
    .array(z.number())
    .min(1)
    .max(6)
    .describe("corrected = c0 + c1 raw + c2 raw^2 ..., Cel; [0, 1] changes nothing"),
  standardUncertaintyKelvin: z.number().nonnegative().max(50),
  details: json.optional(),
  madeBy: shortText.optional(),
};

export const newCalibrationSchema = z.strictObject(calibrationParts).meta({ id: "NewCalibration" });
export const calibrationSchema = z
  .strictObject({
    id,
    probeId: id,
    ...calibrationParts,
    curve: probeCurveSchema.optional().describe("the probe's curve then; with another one the correction is not used"),
  })
  .meta({ id: "Calibration" });

export const probeListSchema = z
  .strictObject({
    probes: z.array(probeSchema),
    roles: z.array(roleSchema),
    calibrations: z.array(calibrationSchema).describe("newest first"),
  })
  .meta({ id: "ProbeList" });

export const newRoleSchema = z.strictObject({ boardId: id, position }).meta({ id: "NewRole" });

// Boards

export const boardSchema = z
  .strictObject({
    id,
    label: z.string().nullable(),
    fridgeId: id.nullable(),
    hello: json,
    firstSeenUnixMs: instant,
    lastSeenUnixMs: instant,
    hasToken: z.boolean(),
  })
  .meta({ id: "Board" });

export const boardListSchema = z.strictObject({ boards: z.array(boardSchema) }).meta({ id: "BoardList" });

export const boardChangesSchema = z
  .strictObject({ label: shortText.nullable().optional(), fridgeId: id.nullable().optional() })
  .meta({ id: "BoardChanges" });

export const boardTokenSchema = z
  .strictObject({ token: z.string().describe("shown this once; the store keeps only its hash") })
  .meta({ id: "BoardToken" });

/**
 * RFC 8428, sections 4.2 and 4.3; fields for other kinds of value are left out, and an unknown field is passed over as
 * the RFC asks.
 */
const senmlRecordSchema = z
  .object({
    bn: z.string().max(200).optional().describe("base name"),
    bt: z.number().optional().describe("base time, s"),
    bu: z.string().max(20).optional().describe("base unit"),
    bv: z.number().optional().describe("base value"),
    bver: z.int().optional().describe("version"),
    n: z.string().max(200).optional().describe("name: the probe's id"),
    u: z
      .string()
      .max(20)
      .optional()
      .describe("unit: Cel or K, V for the supply; Ohm, mV or V of a probe whose curve is known or will be told"),
    v: z.number().optional().describe("value"),
    vs: z.string().max(200).optional(),
    t: z.number().optional().describe("time, s; below 2^28 it counts from now"),
  })
  .meta({ id: "SenmlRecord" });

export const senmlPackSchema = z
  .array(senmlRecordSchema)
  .min(1)
  .max(5000)
  .meta({ id: "SenmlPack", description: "SenML (RFC 8428) in JSON" });

/** Why a board's record was not taken. */
export const refusals = [
  "no-name",
  "no-value",
  "wrong-unit",
  "unbelievable",
  "in-the-future",
  "too-old",
  "unknown-probe",
] as const;
export type Refusal = (typeof refusals)[number];

export const takenSchema = z
  .strictObject({
    runId: id.nullable(),
    stored: z.int().describe("durable now"),
    repeated: z.int(),
    contradicted: z.int(),
    refused: z.partialRecord(z.enum(refusals), z.int()).describe("how many, by reason"),
  })
  .meta({ id: "Taken" });
