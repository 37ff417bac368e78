// The published JSON Schemas, made from the same schemas that validate: `coldfall schema NAME` prints them.

import { z } from "zod";
import { baselineFileSchema } from "../shapes/baseline-file.ts";
import { logMappingSchema } from "../shapes/log-mapping.ts";
import { runSheetSchema } from "../shapes/run-sheet.ts";
import { analysisDocumentSchema } from "./analysis-document.ts";
import { comparisonDocumentSchema } from "./comparison-document.ts";
import { hotDayDocumentSchema } from "./hot-day-document.ts";
import { importDocumentSchema, understandingDocumentSchema } from "./import-documents.ts";
import { keptListSchemas } from "./kept-records.ts";
import { planDocumentSchema } from "./plan-document.ts";
import { probeCheckSchemas } from "./probe-checks.ts";

const publishedSchemas = {
  analysis: analysisDocumentSchema,
  baseline: baselineFileSchema,
  comparison: comparisonDocumentSchema,
  "hot-day": hotDayDocumentSchema,
  import: importDocumentSchema,
  ...keptListSchemas,
  "log-mapping": logMappingSchema,
  "log-understanding": understandingDocumentSchema,
  plan: planDocumentSchema,
  ...probeCheckSchemas,
  "run-sheet": runSheetSchema,
} as const;

/** The outside shapes that have a published schema. */
export type PublishedShape = keyof typeof publishedSchemas;
export const publishedShapes = Object.keys(publishedSchemas) as readonly PublishedShape[];

/** The JSON Schema (draft 2020-12) of one outside shape. */
export const jsonSchemaOf = (shape: PublishedShape): object =>
  z.toJSONSchema(publishedSchemas[shape], { target: "draft-2020-12" });
