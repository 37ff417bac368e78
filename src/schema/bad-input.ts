// Input that has to be refused: thrown by ingest and the faces, worded in src/report/words,
// turned into exit code 2 by the command line.

import type { DateOrder, LogQuestion, TemperatureUnit } from "./log-understanding.ts";
import type { Position } from "./recording.ts";
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

/** Kinds of records that the store keeps under an id. */
export type StoreRecord =
  | "fridge"
  | "run"
  | "edit"
  | "event"
  | "result"
  | "baseline"
  | "probe"
  | "calibration"
  | "board"
  | "alarm"
  | "message";

/** What is wrong with a SenML file (RFC 8428). */
export type SenmlProblem =
  | "no-pack"
  | "no-record"
  | "must-understand"
  | "wrong-type"
  | "several-values"
  | "no-value"
  | "no-name"
  | "newer-version"
  | "relative-time"
  | "no-reading";

/** What was handed over where a log was meant. */
export type NoLog =
  | "store"
  | "page"
  | "baseline"
  | "mapping"
  | "run-sheet"
  | "fridge-export"
  | "result"
  | "json"
  | "no-text";

/** Every way an input can be refused, with where it was found. `line` counts from 1, the header being line 1. */
export interface BadInputSayings {
  "no-such-file": { file: string };
  /** `errorCode`: the operating system's, such as EACCES. */
  "unreadable-file": { file: string; errorCode: string };
  /** A spreadsheet program's own file. */
  "is-spreadsheet": { file: string };
  "is-no-log": { file: string; is: NoLog };
  /** Told, but in it hardly any date of the log is one. */
  "date-order-unfit": { file: string; line: number; text: string; told: DateOrder; fits: readonly DateOrder[] };
  "empty-log": { file: string };
  "no-time-column": { file: string; header: string };
  "no-known-column": { file: string; header: string };
  "doubled-column": { file: string; column: string };
  "unknown-source": { file: string; line: number; value: string; in: "own-format" | "mapped" | "forecast" };
  "ambiguous-dates": { file: string; line: number; value: string };
  "time-without-offset": { file: string; line: number; value: string };
  /** `record` counts from 1; 0 speaks of the whole file. */
  "not-senml": { file: string; record: number; problem: SenmlProblem; text: string };
  /** What a board recorded alone: nothing says when, its lines are of several boards, or it holds no temperature. */
  "board-file": {
    file: string;
    problem: "no-anchor" | "several-boards" | "no-reading";
    boards: readonly string[];
  };
  /** The log can be read in two ways or more, and nobody said which; `others`: what else is open. */
  "two-readings": { file: string; question: LogQuestion; others?: readonly LogQuestion[] };
  "wrong-row-length": { file: string; line: number; cells: number; expected: number; rows: number };
  "nothing-readable": { file: string; line: number; column: string; value: string };
  "not-json": { file: string; line: number | null; column: number | null };
  "wrong-shape": { file: string; where: string; problem: ShapeProblem };
  "newer-format": { file: string; format: string; known: string };
  /** `text`: one of the values that are no temperature. */
  "looks-like-ohms": { file: string; column: string; text: string };
  /** A row per probe and instant. */
  "probe-per-row": { file: string; column: string; probes: readonly string[] };
  "mapping-column-missing": { file: string; column: string; header: string };
  /** Somebody said what it means. */
  "no-such-column": { column: string; columns: readonly string[]; file?: string };
  "cannot-write": { file: string; errorCode: string };
  /** `why`: the planner's own sentence, with the clock of the place. */
  "no-plan": { why: string };
  /** Several fridges, or none, and nobody named one. */
  "no-fridge-named": { known: readonly string[] };
  "bad-option": { option: string; value: string; expected: string };
  /** It says something about one of the others, and none of them is given. */
  "option-alone": { option: string; needed: readonly string[] };
  /** It says something about a kind of input, and none of that kind is given. */
  "option-unfit": {
    option: string;
    needs:
      | "file"
      | "board-file"
      | "counted-times"
      | "relative-senml"
      | "mapped-log"
      | "zoneless-times"
      | "day-and-month"
      | "other-logger"
      | "untold-sources";
  };
  /** In none of its columns. */
  "unit-stated": { file: string; told: TemperatureUnit; stated: readonly TemperatureUnit[] };
  /** Something is to be changed or kept, and nobody said what. */
  "nothing-said": { options: readonly string[] };
  "no-samples": { folder: string };
  "nothing-cools": { files: readonly string[] };
  /** Two logs hold the same bytes: compared with itself, or counted twice, a run proves nothing. */
  "same-log-twice": { file: string; other: string };
  /** The file is in the store already, under another fridge or run, or read otherwise than is said now. `files`: of that run. */
  "kept-otherwise": {
    file: string;
    run: string;
    fridge: string;
    differs: "place" | "readings" | "source";
    files: number;
  };
  /** Runs taken together have to be of one fridge. */
  "different-fridges": { run: string; other: string };
  /** Logs taken together whose run sheets, or the store, name different fridges; `isKnownGood`: the other is a known-good one. */
  "fridges-differ": { log: string; fridge: string; other: string; otherFridge: string; isKnownGood: boolean };
  /** A baseline file that is to be a fridge's own holds a run of another one. */
  "baseline-of-other-fridge": { log: string; fridge: string; otherFridge: string };
  /** Neither a file nor a run of the store. */
  "no-such-log": { name: string; store: string; isStoreMissing?: boolean };
  /** A command that is divided into parts. */
  "no-such-part": { command: string; part: string; parts: readonly string[] };
  /** `record` needs a board or a log. */
  "nothing-to-record": Nothing;
  /** No run of the fridge is open. */
  "nothing-recorded": { fridge: string };
  /** Something said of an instant at which the run was not; all three RFC 3339. */
  "outside-run": { run: string; at: string; from: string; to: string };
  /** Outside of what a probe at the position can see, °C (V for the supply). */
  "unbelievable-reading": { position: Position; value: number; low: number; high: number };
  /** Something else is kept of that instant, °C (V for the supply); `at` RFC 3339. */
  "reading-kept": { position: Position; kept: number; given: number; run: string; at: string };
  /** Nobody said where the board's probes sit. */
  "no-probe-placed": { board: string; fridge: string; probes: readonly string[] };
  /** Probes that send ohms or millivolts, nobody said what these mean, and no other probe gives a temperature. */
  "no-probe-curve": { board: string; probes: readonly string[] };
  /** One recorder per board. */
  "already-recorded": { name: string; holder: string };
  /** `hot-day` needs one of the two, and just one. */
  "ambient-or-forecast": Nothing;
  /** Cells parted by semicolons or tabs. */
  "forecast-separator": { file: string };
  "forecast-column-missing": { file: string; column: string; header: string };
  "forecast-column-unknown": { file: string; column: string };
  "forecast-cell": { file: string; line: number; column: "time" | "ambient" | "sun" | "driving"; value: string };
  "forecast-order": { file: string; line: number; value: string; before: string };
  "forecast-too-short": { file: string; rows: number };
  "forecast-too-long": { file: string; line: number; value: string; mostDays: number };
  /** `known`: names that would have been found, for a fridge. */
  /** `isRemoved`: looked for among what was removed. */
  "no-such-record": { kind: StoreRecord; id: string; known?: readonly string[]; isRemoved?: true };
  /** Several records begin so. */
  "not-one-record": { kind: StoreRecord; id: string; known: readonly string[] };
  "name-taken": { kind: StoreRecord; name: string };
  "record-in-use": { kind: StoreRecord; id: string; runs: number };
  /** `version` wrote the store, `known` is the newest that this program knows. */
  "store-newer": { file: string; version: number; known: number };
  "no-such-store": { file: string };
  "not-a-store": { file: string };
  "store-busy": { file: string };
  "store-disk-full": { file: string };
  /** `reason`: the database's own words. */
  "store-unusable": { file: string; reason: string };
  /** Readings whose checksum is wrong; both instants RFC 3339. */
  "store-damaged": { file: string; run: string; position: string; from: string; to: string };
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
