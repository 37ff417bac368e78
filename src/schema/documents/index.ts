// The documents that we write, and the JSON Schemas of all shapes. A second door: what reads logs needs none of them.
export * from "./analysis-document.ts";
export * from "./comparison-document.ts";
export * from "./fridge-export.ts";
export * from "./hot-day-document.ts";
export * from "./import-documents.ts";
export * from "./json-schema.ts";
export type { KeptLists } from "./kept-records.ts";
export * from "./plan-document.ts";
export type { ProbeChecks } from "./probe-checks.ts";
