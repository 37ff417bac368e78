// A fridge that another store has exported, read back: a JSON object a line, the fridge first.

import { type FridgePiece, fridgeExportFormat, fridgePieceSchema } from "../../schema/documents/index.ts";
import { BadInput } from "../../schema/index.ts";
import { readShape } from "./json-shapes.ts";

/** The fridge, and all that was exported with it. */
export type FridgePieces = readonly [Extract<FridgePiece, { kind: "fridge" }>, ...FridgePiece[]];

/** @throws BadInput "empty-log", or "not-json", "wrong-shape" and "newer-format" with the line at fault */
export function readFridgeExport(bytes: Uint8Array, file: string): FridgePieces {
  const lines = new TextDecoder().decode(bytes).split(/\r?\n/);
  const pieces = lines.flatMap((line, i) => (line.trim() === "" ? [] : [pieceOf(line, file, i + 1)]));
  const [first, ...rest] = pieces;
  if (first === undefined) throw new BadInput({ code: "empty-log", file });
  if (first.kind !== "fridge") {
    const problem = { code: "not-one-of", options: ["fridge"] } as const;
    throw new BadInput({ code: "wrong-shape", file: `${file}, line 1`, where: "kind", problem });
  }
  return [first, ...rest];
}

const encoder = new TextEncoder();

function pieceOf(line: string, file: string, number: number): FridgePiece {
  try {
    return readShape(encoder.encode(line), `${file}, line ${number}`, fridgePieceSchema, fridgeExportFormat);
  } catch (error) {
    if (!(error instanceof BadInput) || error.saying.code !== "not-json") throw error;
    // The first line already: it is another file altogether.
    if (number === 1) throw new BadInput({ code: "not-json", file, line: null, column: null });
    throw new BadInput({ code: "not-json", file, line: number, column: error.saying.column ?? 1 });
  }
}
