// A log file brought into the store: into the run it belongs to, or a new one; all of it or nothing.

import { basename } from "node:path";
import {
  extentOf,
  type LogEnd,
  type LogExtent,
  type LogPiece,
  type LogWay,
  type LookedOver,
  readBoardLog,
  readLogFilePieces,
  readWholeFile,
} from "../ingest/index.ts";
import { BadInput, type Position, type RunSheet, type SourceMark } from "../schema/index.ts";
import type { Fridge, Received, Run, RunPurpose, Store } from "../store/index.ts";
import { keepBoardFile } from "./board-files.ts";
import { everyRun } from "./every-run.ts";
import { isKeptOtherwise } from "./kept-otherwise.ts";
import { halfStepKept, LogResolution } from "./log-resolution.ts";
import { keptCurves } from "./probe-curves.ts";

type BoardHints = Extract<LogWay, { format: "board" }>["hints"];

/** The part of a store that an import needs. */
export interface ImportShelves extends Pick<Store, "fridges" | "runs" | "events" | "edits" | "probes" | "settings"> {
  readonly readings: Pick<Store["readings"], "import" | "parts">;
}

export interface ImportOrder {
  readonly fridge: Fridge;
  /** The run to bring it into; found, or made, when left out. */
  readonly runId?: string;
  /** Energy sources told by hand. */
  readonly sourceMarks?: readonly SourceMark[];
  /** False where nobody said how to read the log: then a file that is there already is not looked at again. */
  readonly isTold?: boolean;
  /** Of a run that is made: the file's name and "test" when left out. */
  readonly name?: string;
  readonly purpose?: RunPurpose;
  readonly sheet?: RunSheet | null;
}

/** What became of a file. */
export type Imported =
  | { readonly outcome: "known"; readonly run: Run }
  | {
      readonly outcome: "brought-in";
      readonly run: Run;
      readonly isNewRun: boolean;
      readonly received: Received;
      readonly rows: number;
      readonly end: LogEnd;
      /** Probes of a board whose ohms or millivolts are kept, and are no temperatures until somebody says what they mean. */
      readonly withoutCurve: readonly string[];
    };

/**
 * Brings a log into the store. The same file twice changes nothing, and is refused where it is kept
 * otherwise than is said now; one that overlaps a run of the fridge in time
 * goes into that run, which keeps what it has and takes what is new.
 *
 * @throws BadInput as `readLog` and the store do, and "kept-otherwise"; nothing is kept then
 */
export async function importLog(
  store: ImportShelves,
  log: LookedOver,
  way: LogWay,
  order: ImportOrder,
): Promise<Imported> {
  const holding = await store.runs.withFile(log.sha256);
  const known = holding.find((run) => isWanted(run, order)) ?? holding[0];
  if (known !== undefined) {
    await refuseOtherwise(store, known, log, way, order);
    return { outcome: "known", run: known };
  }
  const extent = extentOf(log, way);
  const told = order.runId === undefined ? undefined : await store.runs.get(order.runId);
  const met = told ?? (await runAt(store, order.fridge.id, extent, runName(log, order)));
  const run = met ?? (await openRun(store, log, extent, order));
  try {
    const brought = await bringInto(store, run, log, way);
    const marks = (order.sourceMarks ?? []).map((mark) => ({ kind: "source", ...mark, how: "later" }) as const);
    if (marks.length > 0) await store.edits.make(run.id, { kind: "together", edits: marks });
    return { outcome: "brought-in", isNewRun: met === null, ...brought };
  } catch (error) {
    if (met === null) await store.runs.delete(run.id);
    throw error;
  }
}

const isWanted = (run: Run, { fridge, runId }: ImportOrder) =>
  run.fridgeId === fridge.id && (runId === undefined || run.id.startsWith(runId));

/** @throws BadInput "kept-otherwise" */
async function refuseOtherwise(
  store: ImportShelves,
  run: Run,
  log: LookedOver,
  way: LogWay,
  order: ImportOrder,
): Promise<void> {
  const refuse = async (differs: "place" | "readings" | "source") => {
    const { name: fridge } = await store.fridges.get(run.fridgeId);
    const { length: files } = await store.runs.files(run.id);
    throw new BadInput({ code: "kept-otherwise", file: log.file, run: run.id, fridge, differs, files });
  };
  if (!isWanted(run, order)) await refuse("place");
  // A board's readings are kept raw, and what they mean is told of its probes.
  const isAnswered = order.isTold !== false && way.format !== "board";
  if (isAnswered && (await isKeptOtherwise(store, run, log, way))) await refuse("readings");
  const { sourceMarks } = await store.edits.current(run.id);
  const isMarked = ({ unixMs, source }: SourceMark) =>
    sourceMarks.some((mark) => mark.unixMs === unixMs && mark.source === source);
  if (!(order.sourceMarks ?? []).every(isMarked)) await refuse("source");
}

/** The run of the fridge that overlaps in time; or one of that name left empty by an import that was cut off. */
async function runAt(
  store: Pick<Store, "runs">,
  fridgeId: string,
  { firstUnixMs, lastUnixMs }: LogExtent,
  name: string,
): Promise<Run | null> {
  for await (const run of everyRun(store, { fridgeId })) {
    if (run.startedUnixMs > lastUnixMs || (run.endedUnixMs ?? Number.POSITIVE_INFINITY) < firstUnixMs) continue;
    const extents = await store.runs.extents(run.id);
    const isLeftEmpty = extents.length === 0 && run.origin === "file" && run.name === name;
    const overlaps = extents.some((held) => held.firstUnixMs <= lastUnixMs && held.lastUnixMs >= firstUnixMs);
    if (isLeftEmpty || overlaps) return run;
  }
  return null;
}

const runName = ({ file }: LookedOver, { name }: ImportOrder) => name ?? basename(file);

const openRun = (store: Pick<Store, "runs">, log: LookedOver, extent: LogExtent, order: ImportOrder): Promise<Run> =>
  store.runs.open({
    fridgeId: order.fridge.id,
    startedUnixMs: extent.firstUnixMs,
    purpose: order.purpose ?? "test",
    origin: "file",
    utcOffsetMinutes: extent.utcOffsetMinutes,
    name: runName(log, order),
    ...(order.sheet ? { sheet: order.sheet } : {}),
  });

async function bringInto(store: ImportShelves, run: Run, log: LookedOver, way: LogWay) {
  const file = { name: basename(log.file), sha256: log.sha256 };
  const board = way.format === "board" ? await readBoard(store, log, way.hints) : null;
  // Known by its number, a probe's curve and calibration hold for what it measured alone, too.
  const probes = board === null ? {} : { probeIds: board.probeIds, units: board.raw.units };
  const resolution = new LogResolution(way);
  const sameWithin = (position: Position, kept: Float64Array) =>
    Math.max(resolution.halfStep(position), halfStepKept(kept));
  const into = store.readings.import(run.id, { file, ...probes, sameWithin });
  let [rows, first, last] = [0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const end = readLogFilePieces(log, way, (piece: LogPiece) => {
    resolution.see(piece);
    into.add(board === null ? piece : { ...piece, columns: board.raw.columns });
    rows += piece.unixMs.length;
    for (const unixMs of piece.unixMs) {
      if (unixMs < first) first = unixMs;
      if (unixMs > last) last = unixMs;
    }
  });
  // The file is known from `finish` on, and would not be looked at again: whatever else belongs to it is kept before.
  if (way.format === "board") await keepBoardFile(store, run, log.file, way.hints);
  const reaching = await settled(store, run, first, last);
  const received = await into.finish();
  const withoutCurve = (board?.understanding.sure ?? []).flatMap((found) =>
    found.code === "probe-without-curve" ? [found.probe] : [],
  );
  return { run: reaching, received, rows, end, withoutCurve };
}

/** With the curves that the store knows: what is kept is raw all the same. */
async function readBoard({ probes }: ImportShelves, { file }: LookedOver, hints: BoardHints) {
  return readBoardLog(readWholeFile(file), file, { ...hints, curves: await keptCurves(probes) });
}

/** The run reaches as far as its readings do. One that a board still records into stays open. */
async function settled(store: Pick<Store, "runs">, run: Run, first: number, last: number): Promise<Run> {
  const startedUnixMs = Math.min(run.startedUnixMs, first);
  const begun = startedUnixMs < run.startedUnixMs ? await store.runs.edit(run.id, { startedUnixMs }) : run;
  if (run.endedUnixMs === null && run.origin !== "file") return begun;
  return store.runs.close(run.id, Math.max(run.endedUnixMs ?? last, last));
}
