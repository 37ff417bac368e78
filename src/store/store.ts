// The one small interface that everything kept goes through. A store is opened by open-store.ts; records.ts says what it
// keeps. Every promise that says "done" means durable: a power cut after it loses nothing of it.
//
// Input that cannot be used is thrown as BadInput: codes "no-such-record", "name-taken" and those that begin with "store-".

import type { FridgePiece } from "../schema/documents/index.ts";
import type { Position, RawUnit, Recording } from "../schema/index.ts";
import type {
  Alarm,
  Baseline,
  Board,
  Calibration,
  Claim,
  Compaction,
  EditEntry,
  EditStep,
  ExportPiece,
  Fridge,
  FridgeChanges,
  FridgeDetails,
  FridgeTakenIn,
  Json,
  KeptEvent,
  Message,
  NewAlarm,
  NewBaseline,
  NewCalibration,
  NewMessage,
  NewReading,
  NewResult,
  NewRun,
  Probe,
  ProbeRole,
  ReadingChunk,
  Received,
  Result,
  ResultDocument,
  Run,
  RunChanges,
  RunEdits,
  RunEvent,
  RunFile,
  RunList,
  RunQuery,
  Series,
  SeriesExtent,
  SeriesPart,
  StoreCheck,
} from "./records.ts";

/** Fridges, runs, readings and all that belongs to them. Name only the shelf you need: `Pick<Store, "readings">`. */
export interface Store extends AsyncDisposable {
  readonly fridges: Fridges;
  readonly runs: Runs;
  readonly readings: Readings;
  readonly edits: Edits;
  readonly events: Events;
  readonly results: Results;
  readonly baselines: Baselines;
  readonly probes: Probes;
  readonly boards: Boards;
  readonly alarms: Alarms;
  readonly outbox: Outbox;
  readonly settings: Settings;
  readonly care: Care;
  /** Finishes what is under way and lets go of the file. What was acknowledged is safe without it. */
  close(): Promise<void>;
}

/** The workshop's fridges. */
export interface Fridges {
  /** @throws BadInput "name-taken" */
  add(details: FridgeDetails): Promise<Fridge>;
  /** Changes what is given and leaves the rest; null takes away. @throws BadInput "name-taken", "no-such-record" */
  edit(id: string, changes: FridgeChanges): Promise<Fridge>;
  /** By name; removed ones instead of the others when asked for. */
  list(options?: { readonly areRemoved?: boolean }): Promise<readonly Fridge[]>;
  /** @throws BadInput "no-such-record" */
  get(id: string): Promise<Fridge>;
  /** The fridge in use of that name, upper and lower case alike. @throws BadInput "no-such-record", which lists the names there are */
  named(name: string): Promise<Fridge>;
  /** Takes the fridge with its runs out of sight; `restore` brings it back until the store is compacted. */
  remove(id: string): Promise<void>;
  /** @throws BadInput "name-taken" when another fridge has got its name meanwhile */
  restore(id: string): Promise<Fridge>;
  /**
   * Everything about one fridge, piece by piece, as an owner may ask for it: to be written as JSON, a line each. Tokens
   * are not in it.
   */
  export(id: string): AsyncIterable<ExportPiece>;
  /**
   * Takes in what `export` of another store gave, under the same ids; all of it or nothing. What is here already stays as it
   * is, so that the same export twice changes nothing. A fridge that was removed here is in use again.
   *
   * @param pieces the fridge first
   * @throws BadInput "name-taken" when another fridge has its name
   */
  takeIn(pieces: readonly [Extract<FridgePiece, { kind: "fridge" }>, ...FridgePiece[]]): Promise<FridgeTakenIn>;
}

/** Runs, newest first. */
export interface Runs {
  open(run: NewRun): Promise<Run>;
  edit(id: string, changes: RunChanges): Promise<Run>;
  /** Ends the run and seals its readings. */
  close(id: string, endedUnixMs: number): Promise<Run>;
  list(query?: RunQuery): Promise<RunList>;
  /**
   * By id or by the beginning of one that only one run has; deleted runs are not found.
   *
   * @throws BadInput "no-such-record", "not-one-record"
   */
  get(id: string): Promise<Run>;
  /** The run of exactly that id; null when there is none or it was deleted. Whatever else goes wrong is thrown. */
  find(id: string): Promise<Run | null>;
  /** What each position holds, in the order of `positions`; empty when nothing was recorded yet. */
  extents(id: string): Promise<readonly SeriesExtent[]>;
  /** Files whose readings are in the run, in the order brought in. */
  files(id: string): Promise<readonly RunFile[]>;
  /** Runs not deleted that hold the file with this SHA-256. */
  withFile(sha256: string): Promise<readonly Run[]>;
  /** Takes the run out of sight; `restore` brings it back until the store is compacted. */
  delete(id: string): Promise<void>;
  restore(id: string): Promise<Run>;
}

/** Readings of runs, in and out. */
export interface Readings {
  /**
   * Adds readings as they arrive; durable when it returns. Batches handed in at the same time share one commit, none waiting
   * longer than the store's `groupWaitMs`; do not await one before handing in the next where many arrive.
   * A reading already there is counted as repeated; one that says otherwise is reported and not taken.
   *
   * @throws BadInput "no-such-record"; "store-disk-full": nothing of the batch is kept, what was kept before stays.
   *   RangeError for an instant or value that is not finite.
   */
  append(runId: string, batch: readonly NewReading[]): Promise<Received>;
  /** Begins to bring in many readings at once; nothing of them shows before `finish`. `file` is kept as the run's. */
  import(runId: string, options?: ImportOptions): ReadingImport;
  /**
   * The run as one log, as `analyse` takes it: corrected by the calibrations, sources as marked, excluded readings left out. Its
   * sheet names the fridge and its rated watts where the run's own does not. `sha256` is there when all readings came from one
   * file. A mark holds over a file's own sources until these change.
   *
   * @param options an export wants "raw" values, exclusions "kept", sources "in-rows"
   * @throws BadInput "store-damaged" when a block is not as it was written
   */
  recording(runId: string, options?: ReadOptions): Promise<Recording>;
  /** One position from an instant (included) up to another (excluded); empty when it holds nothing. */
  series(
    runId: string,
    position: Position,
    options?: ReadOptions & { readonly fromUnixMs?: number; readonly toUnixMs?: number },
  ): Promise<Series>;
  /** All that is kept of the readings, raw, part by part. */
  parts(runId: string): AsyncIterable<SeriesPart>;
}

/** What goes with an import. */
export interface ImportOptions {
  readonly file?: RunFile;
  readonly probeIds?: { readonly [P in Position]?: string };
  /** Of positions whose values are neither °C nor, for `supply`, V. */
  readonly units?: { readonly [P in Position]?: RawUnit };
  /** 0 unless stated. */
  readonly sameWithin?: SameWithin;
}

/**
 * How far a reading may lie from the one kept and still be the same one.
 *
 * @param kept raw readings kept together with that one
 */
export type SameWithin = (position: Position, kept: Float64Array) => number;

export interface ReadOptions {
  /** "raw": without calibrations; ohms and millivolts are °C by their curve all the same. */
  readonly values?: "corrected" | "raw";
  readonly exclusions?: "left-out" | "kept";
  /**
   * "in-rows" writes the marked sources into the rows, as a log file has them; "as-marked" leaves them as marks where
   * no file told any.
   */
  readonly sources?: "as-marked" | "in-rows";
}

/** Readings on their way in. Rows may come in any order of time. */
export interface ReadingImport {
  /** @throws RangeError when the arrays differ in length */
  add(chunk: ReadingChunk): void;
  /** Keeps all of them at once, durably, or on failure none. Readings of one import that contradict each other: the first is kept. */
  finish(): Promise<Received>;
}

/** What people change about how a run is read, with its history. */
export interface Edits {
  /** @returns the edit's number; of several together the first one's. @throws BadInput "no-such-record" when it replaces or removes an edit that is not there. */
  make(runId: string, step: EditStep, made?: { readonly unixMs?: number; readonly by?: string }): Promise<number>;
  /** Takes back the last act not undone. False when there is none. */
  undo(runId: string): Promise<boolean>;
  /** Brings back the act undone last, unless another was made since. */
  redo(runId: string): Promise<boolean>;
  current(runId: string): Promise<RunEdits>;
  /** All of them, the oldest first. */
  history(runId: string): Promise<readonly EditEntry[]>;
}

/** What happened during runs. */
export interface Events {
  /** @returns its id */
  add(runId: string, event: RunEvent): Promise<string>;
  /** Says when an event that went on was over, or more about it. */
  edit(id: string, changes: Pick<RunEvent, "toUnixMs" | "details">): Promise<void>;
  /** In order of time. */
  list(runId: string): Promise<readonly KeptEvent[]>;
}

/** Results of analyses, never overwritten: a new method makes a new one. */
export interface Results {
  add(result: NewResult): Promise<Result>;
  /** The newest of a fridge, or of one run; null when there is none. Analyses unless stated. */
  newest(
    of: { readonly fridgeId: string } | { readonly runId: string },
    kind?: ResultDocument["kind"],
  ): Promise<Result | null>;
  /** Newest first; `limit` 50 unless stated. */
  list(of: { readonly fridgeId: string } | { readonly runId: string }, limit?: number): Promise<readonly Result[]>;
  get(id: string): Promise<Result>;
  remove(id: string): Promise<void>;
}

/** What fridges are compared with. */
export interface Baselines {
  add(baseline: NewBaseline): Promise<Baseline>;
  /** Newest first; the first is the one in use. */
  list(fridgeId: string): Promise<readonly Baseline[]>;
  remove(id: string): Promise<void>;
}

/** Probes, where they sit, and how far they are to be trusted. */
export interface Probes {
  /** Adds the probe, or changes what is given about it. */
  put(probe: Probe): Promise<Probe>;
  list(): Promise<readonly Probe[]>;
  /** Forgets the probe with its roles and calibrations. Refused while readings of it are kept: BadInput "record-in-use". */
  remove(id: string): Promise<void>;
  /** Says where a probe sits on a fridge from now on; another probe at that position of the fridge and board loses it. */
  assign(role: ProbeRole): Promise<void>;
  unassign(probeId: string, fridgeId: string): Promise<void>;
  /** Roles in force, of one fridge or all. */
  roles(fridgeId?: string): Promise<readonly ProbeRole[]>;
  calibrate(calibration: NewCalibration): Promise<Calibration>;
  /**
   * Newest first, of one probe or all. A reading is corrected by the newest made before its run began, failing that by
   * the first made after.
   */
  calibrations(probeId?: string): Promise<readonly Calibration[]>;
  removeCalibration(id: string): Promise<void>;
}

/** Boards and their right to send. */
export interface Boards {
  /** Notes that a board was seen, adding it the first time. What is left out stays as it was. */
  seen(id: string, at: { readonly unixMs: number; readonly fridgeId?: string; readonly hello?: Json }): Promise<Board>;
  edit(id: string, changes: { readonly label?: string | null; readonly fridgeId?: string | null }): Promise<Board>;
  list(): Promise<readonly Board[]>;
  remove(id: string): Promise<void>;
  /**
   * Gives the board a new token and forgets the old one. The token is returned this once; the store keeps its SHA-256.
   * Adds the board if need be.
   */
  issueToken(id: string): Promise<string>;
  /** The board whose token this is; null when it is nobody's. */
  withToken(token: string): Promise<Board | null>;
  /** Claims a name until an instant, or prolongs one's own claim. @returns the claim in force: refused when its holder is another. */
  claim(claim: Claim, nowUnixMs: number): Promise<Claim>;
  release(name: string, holder: string): Promise<void>;
  /** The claim in force on a name; null when nobody holds it. */
  claimOf(name: string, nowUnixMs: number): Promise<Claim | null>;
}

/** Alarms of runs. */
export interface Alarms {
  /**
   * Raises an alarm; the one of the same run, kind and subject that nobody acknowledged yet, when there is one: it lasts
   * again. Not so one that is over, where this is another event.
   */
  raise(alarm: NewAlarm): Promise<{ readonly alarm: Alarm; readonly isNew: boolean }>;
  /** Its cause is over; it stays until acknowledged. */
  clear(id: string, unixMs: number): Promise<void>;
  /** Somebody has seen it. @returns the alarm; who saw it first stays, whoever comes after. */
  acknowledge(id: string, unixMs: number, by?: string): Promise<Alarm>;
  /** Newest first; those of deleted runs only where the run is named. */
  list(query?: { readonly runId?: string; readonly isAcknowledged?: boolean }): Promise<readonly Alarm[]>;
}

/** Messages on their way out. */
export interface Outbox {
  add(message: NewMessage): Promise<Message>;
  /** Those whose time has come, the oldest first. */
  due(nowUnixMs: number, limit?: number): Promise<readonly Message[]>;
  /** Delivered or given up: forgotten. */
  settle(id: string): Promise<void>;
  /** Counts the attempt and puts the next one off. */
  postpone(id: string, nextUnixMs: number, error: string): Promise<void>;
}

/** Small named things: a fridge's log mapping, alarm limits, retention. `fridgeId` null is the whole workshop's. */
export interface Settings {
  get(name: string, fridgeId?: string | null): Promise<Json | undefined>;
  /** `undefined` forgets it. */
  set(name: string, value: Json | undefined, fridgeId?: string | null): Promise<void>;
}

/** Keeping the store whole. */
export interface Care {
  /** Reads everything and compares checksums. Damage is returned, not thrown. */
  check(): Promise<StoreCheck>;
  /** Writes a consistent copy while recording goes on. @throws BadInput "cannot-write"; an existing file is not overwritten. */
  backup(file: string): Promise<void>;
  /** Deletes for good what was deleted, joins small blocks of closed runs, gives the space back. Undoing ends here. */
  compact(): Promise<Compaction>;
  /**
   * Deletes (undoable until compacted) the closed runs that ended before an instant; known-good ones, and those that a
   * baseline rests on, only when told.
   *
   * @returns their ids
   */
  retire(endedBeforeUnixMs: number, options?: { readonly knownGoodToo?: boolean }): Promise<readonly string[]>;
}
