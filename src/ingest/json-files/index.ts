// JSON files of ours, read and checked against their schemas. A door of its own: most logs come alone, and what checks
// shapes is not loaded for them.
export { parseBaseline, readBaseline, readLogMapping, readRunSheet } from "./companion-files.ts";
export { readFridgeExport } from "./fridge-export-file.ts";
