// What the store keeps, in its outside shape: the lists that `--json` prints. Instants are RFC 3339 in UTC.

import { z } from "zod";
import { heatSources, positions } from "../recording.ts";
import { probeCurveSchema } from "../shapes/probe-curve.ts";
import { runSheetSchema } from "../shapes/run-sheet.ts";

const instant = z.iso.datetime();
const id = z.string().min(1);

const fridge = z.strictObject({
  id,
  name: z.string(),
  kind: z.string().nullable(),
  ratedWatts: z.partialRecord(z.enum(heatSources), z.number().positive()),
  cabinetLitres: z.number().positive().nullable(),
  notes: z.string().nullable(),
  added: instant,
  removed: instant.nullable(),
});

const run = z.strictObject({
  id,
  name: z.string(),
  fridge: z.string().describe("the fridge's name"),
  fridgeId: id,
  purpose: z.enum(["test", "known-good", "before-service", "after-service"]),
  origin: z.enum(["board", "network", "file", "hand", "replay"]),
  start: instant,
  end: instant.nullable().describe("null: still recording"),
  utcOffsetMinutes: z.number(),
  sheet: runSheetSchema.nullable(),
  notes: z.string().nullable(),
  deleted: instant.nullable(),
});

const probe = z.strictObject({
  id,
  label: z.string().nullable(),
  kind: z.string().nullable(),
  curve: probeCurveSchema.nullable().describe("what its ohms or millivolts mean"),
  notes: z.string().nullable(),
  roles: z.array(
    z.strictObject({
      fridge: z.string(),
      fridgeId: id,
      board: z.string(),
      position: z.enum(positions),
      since: instant,
    }),
  ),
  calibrations: z.array(
    z.strictObject({
      id,
      made: instant,
      due: instant.nullable(),
      method: z.string(),
      coefficients: z.array(z.number()).describe("corrected = c0 + c1·raw + c2·raw² …, °C"),
      standardUncertaintyKelvin: z.number().nonnegative(),
    }),
  ),
});

const board = z.strictObject({
  id,
  label: z.string().nullable(),
  fridge: z.string().nullable().describe("the fridge that it was last used on"),
  firstSeen: instant,
  lastSeen: instant,
  firmware: z.string().nullable(),
  intervalSeconds: z.number().nullable(),
  hasToken: z.boolean().describe("whether it may send readings over the network"),
});

const port = z.strictObject({ path: z.string(), description: z.string() });

const baseline = z.strictObject({
  id,
  fridge: z.string(),
  fridgeId: id,
  kind: z.enum(["own", "kind"]),
  made: instant,
  runs: z.array(id).describe("empty for a baseline file"),
  inUse: z.boolean(),
  notes: z.string().nullable(),
});

const result = z.strictObject({
  id,
  fridge: z.string(),
  fridgeId: id,
  runs: z.array(id),
  kind: z.enum(["analysis", "comparison", "hot-day"]),
  method: z.string(),
  made: instant,
});

const alarm = z.strictObject({
  id,
  run: id,
  fridge: z.string(),
  fridgeId: id,
  kind: z.string(),
  position: z.enum(positions).nullable(),
  raised: instant,
  cleared: instant.nullable().describe("null while its cause lasts"),
  acknowledged: instant.nullable(),
  acknowledgedBy: z.string().nullable(),
  text: z.string().describe("what happened, on the run's own clock, with its cautions in full"),
});

/** "coldfall-fridges-1" and its sisters. */
export const keptListSchemas = {
  // "coldfall-alarms-1" is what a recorder remembers of a run's alarms.
  alarms: z.strictObject({ format: z.literal("coldfall-alarm-list-1"), alarms: z.array(alarm) }),
  fridges: z.strictObject({ format: z.literal("coldfall-fridges-1"), fridges: z.array(fridge) }),
  runs: z.strictObject({ format: z.literal("coldfall-runs-1"), runs: z.array(run) }),
  probes: z.strictObject({ format: z.literal("coldfall-probes-1"), probes: z.array(probe) }),
  boards: z.strictObject({ format: z.literal("coldfall-boards-1"), ports: z.array(port), boards: z.array(board) }),
  baselines: z.strictObject({ format: z.literal("coldfall-baselines-1"), baselines: z.array(baseline) }),
  results: z.strictObject({ format: z.literal("coldfall-results-1"), results: z.array(result) }),
} as const;

/** The lists by name, as they are printed. */
export type KeptLists = { readonly [List in keyof typeof keptListSchemas]: z.infer<(typeof keptListSchemas)[List]> };
