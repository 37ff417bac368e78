// What the store keeps, record by record: plain data, as handed in and handed back. What can be done with it is in store.ts.
//
// Ids are short texts made by the store. Instants are `unixMs`: milliseconds since 1970 in UTC, fractions allowed.

import type { AnalysisDocument, ComparisonDocument, HotDayDocument } from "../schema/documents/index.ts";
import type {
  BaselineFile,
  EnergySource,
  HeatSource,
  Position,
  ProbeCurve,
  RawUnit,
  RunSheet,
  SourceMark,
} from "../schema/index.ts";

/** A value that JSON can hold, for details whose shape belongs to whoever wrote them. */
export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

// Fridges

/** A fridge as the workshop describes it. */
export interface FridgeDetails {
  /** The workshop's own name for it; unique among the fridges that are not removed. */
  readonly name: string;
  /** The kind of fridge, in the workshop's words; fridges of one kind may share a baseline. */
  readonly kind?: string;
  /** Rated heat input per source, W. */
  readonly ratedWatts?: { readonly [S in HeatSource]?: number };
  readonly cabinetLitres?: number;
  readonly notes?: string;
}

/** What can be changed about a fridge: what is left out stays as it was, null takes it away. */
export type FridgeChanges = Partial<{
  readonly [D in keyof FridgeDetails]: FridgeDetails[D] | (D extends "name" ? never : null);
}>;

export interface Fridge extends FridgeDetails {
  readonly id: string;
  readonly addedUnixMs: number;
  /** When it was removed; null for a fridge in use. */
  readonly removedUnixMs: number | null;
}

// Runs

/** Why a run was recorded. `known-good` runs make the fridge's baseline. */
export const runPurposes = ["test", "known-good", "before-service", "after-service"] as const;
export type RunPurpose = (typeof runPurposes)[number];

/** Where a run's readings come from. */
export const runOrigins = ["board", "network", "file", "hand", "replay"] as const;
export type RunOrigin = (typeof runOrigins)[number];

/** A run as it is opened. */
export interface NewRun {
  readonly fridgeId: string;
  readonly startedUnixMs: number;
  readonly purpose: RunPurpose;
  readonly origin: RunOrigin;
  /** UTC offset that screens show the run's times with, minutes. */
  readonly utcOffsetMinutes: number;
  /** What people call it, such as the log's file name; the run's id when left out. */
  readonly name?: string;
  readonly sheet?: RunSheet;
  /** The plan that the run follows, with its ticked checklist; its shape belongs to the planner. */
  readonly plan?: Json;
  readonly notes?: string;
}

/** What can be changed about a run afterwards. `endedUnixMs: null` takes a run up again. */
export type RunChanges = Partial<Omit<NewRun, "fridgeId" | "origin">> & { readonly endedUnixMs?: number | null };

export interface Run {
  readonly id: string;
  readonly fridgeId: string;
  readonly name: string;
  readonly purpose: RunPurpose;
  readonly origin: RunOrigin;
  readonly startedUnixMs: number;
  /** When the run was closed; null while it goes on. */
  readonly endedUnixMs: number | null;
  readonly utcOffsetMinutes: number;
  readonly sheet: RunSheet | null;
  readonly plan: Json;
  readonly notes: string | null;
  /** When it was deleted; null for a run that is there. */
  readonly deletedUnixMs: number | null;
}

/** Which runs to list, newest start first. */
export interface RunQuery {
  readonly fridgeId?: string;
  readonly purpose?: RunPurpose;
  /** Only runs that are still going on, or only closed ones. */
  readonly isOpen?: boolean;
  /** Deleted runs instead of the others. */
  readonly areDeleted?: boolean;
  /** At most so many; 50 unless stated. */
  readonly limit?: number;
  /** `next` of the list before. */
  readonly cursor?: string;
}

export interface RunList {
  readonly runs: readonly Run[];
  /** Gives the runs that follow, as `cursor`; null at the end. */
  readonly next: string | null;
}

/** A file whose readings went into a run. */
export interface RunFile {
  readonly name: string;
  /** SHA-256 of its bytes, lower-case hex. */
  readonly sha256: string;
}

/** What a run holds of one position. */
export interface SeriesExtent {
  readonly position: Position;
  readonly readings: number;
  readonly firstUnixMs: number;
  readonly lastUnixMs: number;
}

// Readings

/** One reading as it arrives. What a probe did not say is left out. */
export interface NewReading {
  readonly position: Position;
  /**
   * The instant on the run's own time axis, made from board uptime and host clock by whoever records. Readings taken
   * together carry the same one.
   */
  readonly unixMs: number;
  /** The value as the probe gave it, before any curve and calibration. Finite. */
  readonly raw: number;
  /** What `raw` is in where it is neither °C nor, for `supply`, V. Its probe's curve makes it °C on reading back. */
  readonly unit?: RawUnit;
  readonly probeId?: string;
  readonly boardId?: string;
  /** Tells one start of the board from the next, since uptime and sequence begin anew; 0 unless stated. */
  readonly boot?: number;
  /** The board's number for the line. Together with board, boot and position it knows a line sent twice. */
  readonly sequence?: number;
  /** Board uptime, ms. */
  readonly uptimeMs?: number;
  /** The host's clock when the line arrived. */
  readonly hostUnixMs?: number;
}

/** A reading that says something else than the one kept for the same position and instant (or the same line of the board). */
export interface Contradiction {
  readonly position: Position | "source";
  readonly unixMs: number;
  /** Raw value in the store, which stays. */
  readonly kept: number;
  /** Raw value that was not taken. For `source` both are codes as in `Recording.sourceCodes`. */
  readonly refused: number;
}

/** What became of readings handed to the store. */
export interface Received {
  /** New and durable. */
  readonly stored: number;
  /** There already, the same or as near as it had to be; harmless. */
  readonly repeated: number;
  /** How many contradicted what is kept. */
  readonly contradicted: number;
  /** The first of these, 100 at most, in order of time. */
  readonly contradictions: readonly Contradiction[];
}

/** Rows of a log, equally long; NaN is a missing reading, source code 0 an unsaid source. The arrays are copied. */
export interface ReadingChunk {
  readonly unixMs: Float64Array;
  readonly columns: { readonly [P in Position]?: Float64Array };
  readonly sourceCodes?: Uint8Array | null;
}

/** One position of a run over time, strictly ascending. */
export interface Series {
  readonly unixMs: Float64Array;
  /** °C, V for `supply`: by the probe's curve where it sent neither, and corrected where a calibration of it is known. */
  readonly values: Float64Array;
}

/** A part of one position's readings that came from one probe, in one unit, at one start of one board, all that is kept of it. */
export interface SeriesPart {
  readonly position: Position | "source";
  readonly probeId: string | null;
  /** Of `raw`; null: °C, V for `supply`. */
  readonly unit: RawUnit | null;
  readonly boardId: string | null;
  readonly boot: number;
  readonly unixMs: Float64Array;
  readonly raw: Float64Array;
  /** NaN where a reading has none; null when none has. So with the two below. */
  readonly sequence: Float64Array | null;
  readonly uptimeMs: Float64Array | null;
  readonly hostUnixMs: Float64Array | null;
}

// Edits

/**
 * One change that a person made to how a run is read. Edits are numbered and never overwritten: a later edit replaces or
 * removes an earlier one, and undoing takes back the last act.
 */
export type Edit =
  /**
   * "From this instant on, on gas": an edge between two stretches. `how`: said at the time, typed in later, or found
   * from the curves and accepted.
   */
  | {
      readonly kind: "source";
      readonly unixMs: number;
      readonly source: EnergySource;
      readonly how?: "told" | "later" | "found";
    }
  /** Readings from one instant up to another are left out of the analysis; of all positions, or of one. */
  | {
      readonly kind: "exclusion";
      readonly fromUnixMs: number;
      readonly toUnixMs: number;
      readonly position?: Position;
      readonly reason?: string;
    }
  | { readonly kind: "note"; readonly unixMs: number; readonly text: string };

/** An act of a person: an edit, several made together, or what is done to an earlier one. Undone as a whole. */
export type EditStep =
  | Edit
  | { readonly kind: "together"; readonly edits: readonly Edit[] }
  | { readonly kind: "replace"; readonly number: number; readonly by: Edit }
  | { readonly kind: "remove"; readonly number: number };

export interface EditEntry {
  /** From 1, in the order made, within the run. Edits made together take a number each; this is the first one's. */
  readonly number: number;
  readonly madeUnixMs: number;
  readonly madeBy: string | null;
  readonly step: EditStep;
  readonly isUndone: boolean;
}

/** How the edits stand when all are applied; `number` is the one to replace or remove. Each list in order of time. */
export interface RunEdits {
  readonly sourceMarks: readonly (SourceMark & { readonly number: number; readonly how: "told" | "later" | "found" })[];
  readonly exclusions: readonly (Extract<Edit, { kind: "exclusion" }> & { readonly number: number })[];
  readonly notes: readonly (Extract<Edit, { kind: "note" }> & { readonly number: number })[];
  readonly canUndo: boolean;
  readonly canRedo: boolean;
}

// Events, results, baselines

/** Something that happened during a run and is no reading: a board restarted, lines missed, the host's clock jumped. */
export interface RunEvent {
  readonly kind: string;
  readonly fromUnixMs: number;
  /** Left out for an instant, or for what still goes on. */
  readonly toUnixMs?: number;
  readonly position?: Position;
  readonly boardId?: string;
  readonly details?: Json;
}

export interface KeptEvent extends RunEvent {
  readonly id: string;
  readonly runId: string;
}

/** A result document with the kind of work that made it. */
export type ResultDocument =
  | { readonly kind: "analysis"; readonly document: AnalysisDocument }
  | { readonly kind: "comparison"; readonly document: ComparisonDocument }
  | { readonly kind: "hot-day"; readonly document: HotDayDocument };

export type NewResult = ResultDocument & {
  readonly fridgeId: string;
  /** The runs it speaks of; the first is the one shown beside it. */
  readonly runIds: readonly string[];
  /** The method's version that made it, as the document says in `program.method`. */
  readonly method: string;
  readonly madeUnixMs: number;
};

export type Result = NewResult & { readonly id: string };

/** Known-good runs that a fridge is compared with: runs in the store, or a baseline file. */
export type NewBaseline = {
  readonly fridgeId: string;
  /** Of this very fridge, or of others of its kind. */
  readonly kind: "own" | "kind";
  readonly madeUnixMs: number;
  readonly notes?: string;
} & ({ readonly runIds: readonly string[] } | { readonly file: BaselineFile });

export type Baseline = NewBaseline & { readonly id: string };

// Probes and boards

export interface Probe {
  /** As the board names it, such as the number burnt into a one-wire probe. */
  readonly id: string;
  /** What is written on its cable. */
  readonly label?: string;
  /** How it measures, in words of the probe catalogue ("one-wire", "ntc", "pt100", "thermocouple"). */
  readonly kind?: string;
  /** What its ohms or millivolts mean; none for a probe that sends °C. Null takes one away. */
  readonly curve?: ProbeCurve | null;
  /** Smallest step, K. */
  readonly resolutionKelvin?: number;
  readonly notes?: string;
}

/** Where a probe sits when it is used on a fridge; remembered from one run to the next. */
export interface ProbeRole {
  readonly probeId: string;
  readonly fridgeId: string;
  readonly boardId: string;
  readonly position: Position;
  readonly sinceUnixMs: number;
}

export interface NewCalibration {
  readonly probeId: string;
  readonly madeUnixMs: number;
  /** When it should be repeated. */
  readonly dueUnixMs?: number;
  readonly method: "ice-point" | "boiling-point" | "reference-probe" | "several-points" | "stated";
  /** corrected = c[0] + c[1]·raw + c[2]·raw² …, °C; [0, 1] changes nothing. */
  readonly coefficients: readonly number[];
  /** Standard uncertainty of the corrected value, K. */
  readonly standardUncertaintyKelvin: number;
  /** The pairs it rests on, and what else is worth keeping. */
  readonly details?: Json;
  readonly madeBy?: string;
}

export interface Calibration extends NewCalibration {
  readonly id: string;
  /** The curve that the probe had then; with another one the correction means nothing, and is not used. */
  readonly curve?: ProbeCurve;
}

/** A probe board, or anything else that sends readings. */
export interface Board {
  readonly id: string;
  readonly label: string | null;
  /** The fridge that it was last used on. */
  readonly fridgeId: string | null;
  /** Its last hello, as read. */
  readonly hello: Json;
  readonly firstSeenUnixMs: number;
  readonly lastSeenUnixMs: number;
  /** Whether it has a token to send readings with. */
  readonly hasToken: boolean;
}

/** One recorder per board: a claim holds until it is released or runs out. */
export interface Claim {
  /** What is claimed, such as a board's id. */
  readonly name: string;
  /** Who holds it, in words a person understands: "coldfall record, process 4711 on bench-pc". */
  readonly holder: string;
  readonly untilUnixMs: number;
}

// Alarms and the outbox

/** An alarm as it is raised. */
export interface NewAlarm {
  readonly runId: string;
  readonly kind: string;
  readonly position?: Position;
  readonly raisedUnixMs: number;
  /** Why, as a saying: `{ code, ...values }`; its `subject` tells alarms of one kind apart (alarm-subject.ts). */
  readonly reason: Json;
  /** Another event than the last of its kind, once that is over, though nobody acknowledged it yet. */
  readonly isAnother?: boolean;
}

/** A raised alarm stays (latches) until it is acknowledged, also when its cause is over. */
export interface Alarm extends Omit<NewAlarm, "isAnother"> {
  readonly id: string;
  /** When its cause was over; null while it lasts. */
  readonly clearedUnixMs: number | null;
  readonly acknowledgedUnixMs: number | null;
  readonly acknowledgedBy: string | null;
}

/** A message that has to leave the house, kept over a restart until it is delivered or given up. */
export interface NewMessage {
  readonly target: string;
  readonly body: Json;
  readonly madeUnixMs: number;
}

export interface Message extends NewMessage {
  readonly id: string;
  readonly attempts: number;
  /** Not to be tried again before. */
  readonly nextUnixMs: number;
  readonly lastError: string | null;
}

// Care

/** What a check of the whole store found. */
export interface StoreCheck {
  readonly runs: number;
  readonly blocks: number;
  /** Sealed and single readings together. */
  readonly readings: number;
  /** Empty when all is well. */
  readonly damage: readonly StoreDamage[];
}

/** Something that is not as it was written. */
export type StoreDamage =
  /** A sealed block whose checksum, count or times do not agree. */
  | {
      readonly kind: "block";
      readonly runId: string;
      readonly position: string;
      readonly fromUnixMs: number;
      readonly toUnixMs: number;
      readonly readings: number;
    }
  /** What the database itself says. */
  | { readonly kind: "database"; readonly message: string };

/** What compacting took away for good and joined. */
export interface Compaction {
  readonly deletedRuns: number;
  readonly removedFridges: number;
  readonly blocksBefore: number;
  readonly blocksAfter: number;
}

/** A fridge that came in from another store. */
export interface FridgeTakenIn {
  readonly fridge: Fridge;
  readonly isNew: boolean;
  readonly newRuns: number;
  readonly received: Received;
}

/** One piece of what is kept about a fridge. */
export interface ExportPiece {
  /** On the first piece, which is the fridge itself. */
  readonly format?: "coldfall-fridge-1";
  readonly kind:
    | "fridge"
    | "baseline"
    | "run"
    | "edit"
    | "event"
    | "alarm"
    | "result"
    | "readings"
    | "probe-role"
    | "probe"
    | "calibration";
  /** As the interface hands it out; of readings a part, its columns as lists. What belongs to a run says `runId`. */
  readonly record: object;
}
