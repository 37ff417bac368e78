// Long work: started, watched, cancelled; and logs on their way in.

import { z } from "zod";
import { elapsedUnits, otherColumnMeanings } from "../log-understanding.ts";
import { energySources, positions } from "../recording.ts";
import { runSheetSchema } from "../shapes/run-sheet.ts";
import { isTimeZone } from "../time-zone.ts";
import { id, instant, position, shortText } from "./parts.ts";
import { problemSchema } from "./problem.ts";

export const jobSchema = z
  .strictObject({
    id,
    kind: z.enum(["import", "samples"]),
    state: z.enum(["running", "done", "failed", "cancelled"]),
    startedUnixMs: instant,
    progress: z.number().min(0).max(1).nullable().describe("share done, as far as it is known"),
    result: z
      .strictObject({
        runIds: z.array(id),
        stored: z.int(),
        repeated: z.int(),
        contradicted: z.int(),
      })
      .nullable(),
    problem: problemSchema.nullable(),
  })
  .meta({ id: "Job" });

export type JobDocument = z.infer<typeof jobSchema>;

export const jobListSchema = z.strictObject({ jobs: z.array(jobSchema) }).meta({ id: "JobList" });

// Logs brought in

const timeZone = z.string().max(60).refine(isTimeZone, "a UTC offset such as +02:00, or a zone such as Europe/Berlin");
const here = timeZone.optional().describe("the zone of whoever asks: offered as a reading, never assumed");

export const uploadQuery = z.strictObject({ name: shortText.describe("the log's file name, for people"), here });

const columnMeaning = z.enum([...otherColumnMeanings, ...positions]);

/** Answers to questions, and corrections of what was found. */
const hints = {
  separator: z.enum([",", ";", "\t"]).optional(),
  dateOrder: z.enum(["year-month-day", "day-month-year", "month-day-year"]).optional(),
  unit: z.enum(["Cel", "[degF]", "K"]).optional(),
  zone: timeZone.optional(),
  here,
  decimal: z.enum([".", ","]).optional().describe("the mark before decimals"),
  elapsedUnit: z.enum(elapsedUnits).optional().describe("what a column of elapsed time counts"),
  startsAt: z.iso.datetime({ offset: true }).optional().describe("when elapsed time was 0"),
  columns: z
    .record(shortText, columnMeaning)
    .optional()
    .describe("column, by header text or by number from 1, to what it holds"),
  sourceWords: z
    .record(shortText, z.enum(energySources))
    .optional()
    .describe("a word in the column of energy sources to the source it means"),
};

export const logHintsSchema = z.strictObject(hints).meta({ id: "LogHints" });

const understandingSchema = z
  .strictObject({
    isOwnFormat: z.boolean().describe("nothing had to be found out"),
    columns: z
      .array(z.strictObject({ column: z.string(), meaning: columnMeaning }))
      .describe("what each column is read as, by the name that hints call it by"),
    sure: z.array(z.string()).describe("what was found beyond doubt, a sentence each"),
    questions: z
      .array(
        z.strictObject({
          about: z.string(),
          sentence: z.string(),
          column: z.string().nullable().describe("the column asked about"),
          answers: z
            .array(z.strictObject({ answer: z.string(), text: z.string(), hints: logHintsSchema }))
            .describe("each with the hints that say it; none where only the user knows"),
        }),
      )
      .describe("what can be read in two ways or more; answered by hints"),
    firstRows: z
      .array(
        z.strictObject({
          line: z.int(),
          timeText: z.string(),
          unixMs: z.number().nullable(),
          values: z.partialRecord(position, z.number().nullable()).describe("Cel, or V for supply"),
        }),
      )
      .describe("rows near the top as they are understood"),
    firstUnixMs: instant.nullable(),
    lastUnixMs: instant.nullable(),
    whole: z
      .array(z.string())
      .nullable()
      .describe("what the file holds and what in it cannot be read, a sentence each; null while a question is open"),
  })
  .meta({ id: "Understanding", description: "how a log is understood, before anything is stored" });

export const uploadSchema = z
  .strictObject({
    id,
    name: z.string(),
    bytes: z.int(),
    sha256: z.string(),
    receivedUnixMs: instant,
    alreadyIn: z.array(id).describe("runs that hold this very file"),
    understanding: understandingSchema.nullable(),
    problem: problemSchema.nullable().describe("why it cannot be read as it is"),
  })
  .meta({ id: "Upload" });

export const importSchema = z
  .strictObject({
    fridgeId: id,
    purpose: z.enum(["test", "known-good", "before-service", "after-service"]),
    name: shortText.optional(),
    sheet: runSheetSchema.optional(),
    hints: logHintsSchema.optional(),
  })
  .meta({ id: "Import" });
