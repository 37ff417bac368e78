// What an import prints as JSON: how a log is understood before anything is stored, and what became of it.

import { z } from "zod";
import { energySources, positions } from "../recording.ts";
import { logMappingSchema } from "../shapes/log-mapping.ts";
import { sentence } from "../shapes/result-shapes.ts";

const instant = z.iso.datetime();

const read = {
  file: z.string().describe("as it was named"),
  sha256: z.string(),
};

/** How the file was read: our own format, another logger's through a mapping, SenML, or what a board recorded alone. */
const way = z.enum(["native", "mapped", "senml", "board"]);
const mapping = logMappingSchema.nullable().describe("null unless another logger's CSV is read through one");
const sure = z
  .array(z.strictObject({ code: z.string(), sentence }))
  .describe("what was found beyond doubt; empty for our own format");

const question = z.strictObject({
  about: z.enum([
    "date-order",
    "zone",
    "unit",
    "column",
    "which-column",
    "source-word",
    "decimal",
    "elapsed-unit",
    "starts-at",
    "half-of-day",
  ]),
  line: z.int().min(1),
  column: z.string().nullable(),
  text: z.string().nullable().describe("the cell that can be read in several ways"),
  sentence,
  option: z.string().nullable().describe("the option of coldfall import that answers it; null: none does"),
  answers: z
    .array(z.strictObject({ value: z.string().describe("what the option takes"), text: z.string() }))
    .describe("empty where only the user knows"),
});

const unreadable = z.array(
  z.strictObject({
    column: z.string().describe("position, source, or time for a whole row"),
    reason: z.string(),
    cells: z.int().positive(),
    firstLine: z.int().min(1),
    firstText: z.string(),
  }),
);

/** "coldfall-log-understanding-1". */
export const understandingDocumentSchema = z
  .strictObject({
    format: z.literal("coldfall-log-understanding-1"),
    ...read,
    way: way.nullable().describe("null: a question is open"),
    mapping,
    sure,
    questions: z.array(question),
    firstRows: z
      .array(
        z.strictObject({
          line: z.int().min(1),
          timeText: z.string(),
          time: instant.nullable().describe("null: not settled, or not readable"),
          values: z.partialRecord(z.enum(positions), z.number().nullable()).describe("Cel, or V for supply"),
        }),
      )
      .describe("rows near the top as they are understood; empty for our own format"),
    from: instant.nullable(),
    to: instant.nullable().describe("as the file's beginning and end tell"),
    whole: z
      .strictObject({
        rows: z.int().min(0),
        sources: z.partialRecord(z.enum(energySources), z.int()).describe("rows that name each source"),
        unreadable,
        ignoredColumns: z.array(z.string()),
      })
      .nullable()
      .optional()
      .describe("what the file holds, read to its end; null: a question is open"),
  })
  .meta({ id: "LogUnderstanding", title: "Coldfall log understanding" });

export type UnderstandingDocument = z.infer<typeof understandingDocumentSchema>;

const into = { fridge: z.string().describe("the fridge's name"), fridgeId: z.string(), run: z.string() };
const energySource = z.enum(energySources);

/** "coldfall-import-1". */
export const importDocumentSchema = z
  .discriminatedUnion("outcome", [
    z.strictObject({
      format: z.literal("coldfall-import-1"),
      outcome: z.literal("known").describe("this very file is in the run already; nothing was changed"),
      ...read,
      ...into,
    }),
    z.strictObject({
      format: z.literal("coldfall-import-1"),
      outcome: z.literal("brought-in"),
      ...read,
      ...into,
      isNewRun: z.boolean().describe("false: into a run that it overlaps, or that was named"),
      way,
      mapping,
      sure,
      rows: z.int().nonnegative(),
      stored: z.int().nonnegative().describe("readings that are new"),
      repeated: z.int().nonnegative().describe("readings that were there already"),
      contradicted: z.int().nonnegative().describe("readings of which another value was there; that one stays"),
      contradictions: z
        .array(
          z.discriminatedUnion("position", [
            z.strictObject({
              position: z.enum(positions),
              time: instant,
              kept: z.number(),
              refused: z.number(),
            }),
            z.strictObject({
              position: z.literal("source"),
              time: instant,
              kept: energySource.nullable(),
              refused: energySource.nullable(),
            }),
          ]),
        )
        .describe("the first hundred"),
      unreadable,
      ignoredColumns: z.array(z.string()),
    }),
  ])
  .meta({ id: "Import", title: "Coldfall import" });

export type ImportDocument = z.infer<typeof importDocumentSchema>;
