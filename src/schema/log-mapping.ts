// The column mapping of another logger's CSV, stated or confirmed by the user.

import { z } from "zod";
import { positions } from "./recording.ts";

/** "coldfall-log-mapping-1": which column means what. Column names are the file's own header texts. */
export const logMappingSchema = z
  .strictObject({
    format: z.literal("coldfall-log-mapping-1"),
    time: z.string().describe("header of the column of instants, or of times of day where `date` is given"),
    date: z.string().describe("header of the column of dates, where date and time stand apart").optional(),
    timeZone: z
      .string()
      .regex(/^(Z|[+-]\d\d:\d\d)$/)
      .describe("UTC offset of times written without one")
      .optional(),
    dateOrder: z.enum(["year-month-day", "day-month-year", "month-day-year"]).optional(),
    separator: z
      .enum([",", ";", "\t"])
      .describe("a comma unless stated; a semicolon where the decimal is a comma")
      .optional(),
    decimal: z.enum([".", ","]).describe("a point unless stated").optional(),
    unit: z.enum(["Cel", "[degF]", "K"]).describe("UCUM code of the temperatures; Cel unless stated").optional(),
    positions: z
      .partialRecord(z.enum(positions), z.string())
      .refine((columns) => Object.keys(columns).length > 0, { params: { atLeast: 1 } })
      .meta({ description: "position to column header, at least one", minProperties: 1 }),
    source: z.string().describe("header of the column of energy sources").optional(),
    sourceNames: z
      .record(z.string(), z.enum(["gas", "mains", "dc12", "off"]))
      .describe("the file's word to ours")
      .optional(),
  })
  .meta({ id: "LogMapping", title: "Coldfall log mapping" });

export type LogMapping = z.infer<typeof logMappingSchema>;
