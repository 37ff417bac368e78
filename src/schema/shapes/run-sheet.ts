// The run sheet: conditions of a run, kept beside the log. Everything in it is optional.

import { z } from "zod";
import { sheetLimits } from "../sheet-limits.ts";

const { tiltSidewaysDegrees, tiltLengthwaysDegrees, gasPressureMbar, altitudeMetres, supplyVolts } = sheetLimits;
const between = ({ least, most }: { readonly least: number; readonly most: number }) => z.number().min(least).max(most);

/** "coldfall-run-sheet-1". Field by field: what was so while the log was recorded. */
export const runSheetSchema = z
  .strictObject({
    format: z.literal("coldfall-run-sheet-1").optional(),
    fridge: z.string().describe("the fridge's own name in the workshop").optional(),
    setting: z.enum(["bench", "vehicle-indoors", "vehicle-outdoors", "driving"]).optional(),
    tiltSidewaysDegrees: between(tiltSidewaysDegrees).describe("roll, measured at the cooling unit").optional(),
    tiltLengthwaysDegrees: between(tiltLengthwaysDegrees).describe("pitch, measured at the cooling unit").optional(),
    dial: z.string().describe("position of the dial, or the mode shown").optional(),
    load: z.enum(["empty", "part", "full"]).optional(),
    vents: z.enum(["open", "part-covered", "covered"]).optional(),
    fanInside: z.boolean().optional(),
    fanAtRear: z.boolean().optional(),
    gasKind: z.enum(["propane", "butane", "mixed"]).optional(),
    gasPressureMbar: z.number().gt(gasPressureMbar.above).max(gasPressureMbar.most).optional(),
    altitudeMetres: between(altitudeMetres).optional(),
    ratedWatts: z
      .strictObject({
        gas: z.number().positive().optional(),
        mains: z.number().positive().optional(),
        dc12: z.number().positive().optional(),
      })
      .optional(),
    supplyVolts: z
      .strictObject({
        mains: z.number().gt(supplyVolts.above).optional(),
        dc12: z.number().gt(supplyVolts.above).optional(),
      })
      .describe("typed in from an approved plug-in meter or the vehicle's instrument")
      .optional(),
    measuredWatts: z
      .strictObject({ mains: z.number().positive().optional(), dc12: z.number().positive().optional() })
      .describe("what the element took: from an approved plug-in meter, or volts times amperes at the fridge")
      .optional(),
    ratedVolts: z
      .strictObject({ mains: z.number().positive().optional(), dc12: z.number().positive().optional() })
      .optional(),
    untouchedSources: z
      .array(z.enum(["gas", "mains", "dc12"]))
      .describe("sources no service touched")
      .optional(),
    uprightSince: z.iso
      .datetime({ offset: true, local: true })
      .describe("since when the fridge has stood upright: after lying it must stand before it is heated")
      .optional(),
    sourceChosenByHand: z.boolean().describe("the fridge was kept from choosing its own energy source").optional(),
    ventCovers: z.enum(["off", "on"]).describe("winter covers over the vents").optional(),
    flueCap: z.enum(["clear", "blocked", "missing"]).optional(),
    fins: z.enum(["clear", "frosted"]).describe("the fins inside, as the run began").optional(),
    sealPaperTest: z.enum(["drags", "slips"]).describe("a strip of paper in the door seal, all round").optional(),
    lampGoesOut: z.boolean().describe("the lamp goes out with the door").optional(),
    gasChecked: z
      .boolean()
      .describe("flame, flue, leaks and carbon monoxide were checked before the gas stretch")
      .optional(),
    checkedBy: z.string().optional(),
    notes: z.string().optional(),
  })
  .meta({ id: "RunSheet", title: "Coldfall run sheet" });

export type RunSheet = z.infer<typeof runSheetSchema>;
