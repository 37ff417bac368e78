// Drawings as files.
export { drawingFile } from "./drawing-file.ts";
