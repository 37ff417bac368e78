// The text of a JSON file as a value, whatever its shape.

import { BadInput } from "../schema/index.ts";

/** @throws BadInput "not-json" */
export function parsedJson(text: string, file: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    // The engine's message is English prose, but tells the place: "... (line 3 column 5)".
    const place = /\(line (\d+) column (\d+)\)/.exec(error instanceof Error ? error.message : "");
    const at = place ? { line: Number(place[1]), column: Number(place[2]) } : { line: null, column: null };
    throw new BadInput({ code: "not-json", file, ...at });
  }
}
