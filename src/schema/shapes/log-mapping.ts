// The column mapping of another logger's CSV, stated or confirmed by the user.

import { z } from "zod";
import { positions } from "../recording.ts";
import { isTimeZone } from "../time-zone.ts";

const column = z.union([z.string(), z.int().min(1)]);
const unit = z.enum(["Cel", "[degF]", "K"]);
const timeZone = z.string().refine(isTimeZone, "a UTC offset such as +02:00, Z, or a zone such as Europe/Berlin");

/**
 * "coldfall-log-mapping-1" and "-2": which column means what. A column is named by its header text; format 2 may
 * also give its number, counted from 1. Everything a file of format 1 can say means the same in format 2.
 */
export const logMappingSchema = z
  .strictObject({
    format: z.enum(["coldfall-log-mapping-1", "coldfall-log-mapping-2"]),
    time: column.describe("column of instants, or of times of day where `date` is given"),
    date: column.describe("column of dates, where date and time stand apart").optional(),
    timeForm: z
      .enum([
        "unix-seconds",
        "unix-milliseconds",
        "spreadsheet-days",
        "elapsed-milliseconds",
        "elapsed-seconds",
        "elapsed-minutes",
        "elapsed-hours",
        "elapsed-clock",
      ])
      .describe(
        "how times are counted, where they are no calendar times (format 2); elapsed: since the log's start, which is said with each log; elapsed-clock: as h:mm:ss",
      )
      .optional(),
    timeZone: timeZone.describe("UTC offset, or (format 2) the zone, of times written without one").optional(),
    zone: column.describe("column of zones, where they stand apart from the times (format 2)").optional(),
    zoneNames: z
      .record(z.string(), timeZone)
      .describe("what letters behind a time, such as CET, mean where they can mean several zones (format 2)")
      .optional(),
    dateOrder: z.enum(["year-month-day", "day-month-year", "month-day-year"]).optional(),
    separator: z
      .enum([",", ";", "\t"])
      .describe("a comma unless stated; a semicolon where the decimal is a comma")
      .optional(),
    decimal: z.enum([".", ","]).describe("a point unless stated").optional(),
    thousands: z
      .enum([",", ".", " ", "'"])
      .describe("mark between thousands; none unless stated (format 2)")
      .optional(),
    unit: unit.describe("UCUM code of the temperatures; Cel unless stated").optional(),
    units: z
      .partialRecord(z.enum(positions), unit)
      .describe("units of single positions, where they differ from `unit` (format 2)")
      .optional(),
    supplyUnit: z.enum(["V", "mV"]).describe("unit of the supply; V unless stated (format 2)").optional(),
    positions: z
      .partialRecord(z.enum(positions), column)
      .refine((columns) => Object.keys(columns).length > 0, { params: { atLeast: 1 } })
      .meta({ description: "position to column, at least one", minProperties: 1 }),
    source: column.describe("column of energy sources").optional(),
    sourceNames: z
      .record(z.string(), z.enum(["gas", "mains", "dc12", "off"]))
      .describe("the file's word to ours")
      .optional(),
  })
  .meta({ id: "LogMapping", title: "Coldfall log mapping" });

export type LogMapping = z.infer<typeof logMappingSchema>;
