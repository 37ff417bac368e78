// A fridge that another store has exported, read back: a JSON object a line, the fridge first.

import { type FridgePiece, fridgeExportFormat, fridgePieceSchema } from "../../schema/documents/index.ts";
import { BadInput } from "../../schema/index.ts";
import { readShape } from "./json-shapes.ts";

/** The fridge, and all that was exported with it. */
export type FridgePieces = readonly [Extract<FridgePiece, { kind: "fridge" }>, ...FridgePiece[]];

/** @throws BadInput "empty-log", or "not-json", "wrong-shape" and "newer-format" with the line at fault */
export function readFridgeExport(bytes: Uint8Array, file: string): FridgePieces {
  const lines = new TextDecoder().decode(bytes).split(/\r?\n/);
  const pieces = lines.flatMap((line, i) => (line.trim() === "" ? [] : [pieceOf(line, `${file}, line ${i + 1}`)]));
  const [first, ...rest] = pieces;
  if (first === undefined) throw new BadInput({ code: "empty-log", file });
  if (first.kind !== "fridge") {
    const problem = { code: "not-one-of", options: ["fridge"] } as const;
    throw new BadInput({ code: "wrong-shape", file: `${file}, line 1`, where: "kind", problem });
  }
  return [first, ...rest];
}

const encoder = new TextEncoder();

const pieceOf = (line: string, where: string): FridgePiece =>
  readShape(encoder.encode(line), where, fridgePieceSchema, fridgeExportFormat);
