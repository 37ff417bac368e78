// Input that has to be refused: thrown by ingest and the faces, worded in src/report/words,
// turned into exit code 2 by the command line.

import type { Nothing, SayingOf } from "./sayings.ts";

/** What is wrong with one field of a JSON file. */
export interface ShapeProblems {
  missing: Nothing;
  "unknown-field": { field: string };
  "wrong-type": { expected: string };
  "not-one-of": { options: readonly string[] };
  "too-small": { least: number; exclusive: boolean };
  "too-big": { most: number; exclusive: boolean };
  "too-few": { least: number };
  "not-an-instant": Nothing;
  "unequal-lengths": { expected: number; found: number };
  /** Anything else a shape can demand; `rule` is the schema's own name for it. */
  "breaks-rule": { rule: string };
}
export type ShapeProblem = SayingOf<ShapeProblems>;

/** Every way an input can be refused, with where it was found. `line` counts from 1, the header being line 1. */
export interface BadInputSayings {
  "no-such-file": { file: string };
  /** `errorCode`: the operating system's, such as EACCES. */
  "unreadable-file": { file: string; errorCode: string };
  "empty-log": { file: string };
  "no-time-column": { file: string; header: string };
  "no-known-column": { file: string; header: string };
  "doubled-column": { file: string; column: string };
  "unknown-source": { file: string; line: number; value: string; mapped: boolean };
  "ambiguous-dates": { file: string; line: number; value: string };
  "time-without-offset": { file: string; line: number; value: string };
  "wrong-row-length": { file: string; line: number; cells: number; expected: number; rows: number };
  "nothing-readable": { file: string; line: number; column: string; value: string };
  "not-json": { file: string; line: number | null; column: number | null };
  "wrong-shape": { file: string; where: string; problem: ShapeProblem };
  "newer-format": { file: string; format: string; known: string };
  "mapping-column-missing": { file: string; column: string; header: string };
  "cannot-write": { file: string; errorCode: string };
  "bad-option": { option: string; value: string; expected: string };
  "no-samples": { folder: string };
  "nothing-cools": { files: readonly string[] };
  /** Two logs hold the same bytes: compared with itself, or counted twice, a run proves nothing. */
  "same-log-twice": { file: string; other: string };
  /** `hot-day` needs one of the two, and just one. */
  "ambient-or-forecast": Nothing;
  "forecast-column-missing": { file: string; column: string; header: string };
  "forecast-column-unknown": { file: string; column: string };
  "forecast-cell": { file: string; line: number; column: "time" | "ambient" | "sun" | "driving"; value: string };
  "forecast-order": { file: string; line: number; value: string; before: string };
  "forecast-too-short": { file: string; rows: number };
  "forecast-too-long": { file: string; line: number; value: string; mostDays: number };
}

export type BadInputSaying = SayingOf<BadInputSayings>;

/** An input that cannot be used. `saying` holds all a face needs to word it. */
export class BadInput extends Error {
  readonly code: BadInputSaying["code"];
  readonly saying: BadInputSaying;
  constructor(saying: BadInputSaying) {
    super(`${saying.code}: ${JSON.stringify(saying)}`);
    this.name = "BadInput";
    this.code = saying.code;
    this.saying = saying;
  }
}
