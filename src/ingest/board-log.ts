// A file that a board recorded alone, as a log like any other: recognised by its lines, placed in time (board-file.ts), its
// probes at their positions (board-recording.ts).

import {
  BadInput,
  type ColumnMeaning,
  type LogFound,
  type LogQuestion,
  type LogUnderstanding,
  type Position,
  type ProbeCurve,
  type RawUnit,
  rawUnits,
} from "../schema/index.ts";
import { sensorCelsius, sensorUnits } from "../science/sensors/index.ts";
import { type BoardFile, type PlacedReading, readBoardFile, type TimeAnchor } from "./board-file.ts";
import { BoardLines } from "./board-lines.ts";
import { type BoardRecordingOptions, boardRecording } from "./board-recording.ts";
import { isPosition, type LogColumns } from "./log-columns.ts";
import { type LineUnit, longestLine, type ProbeLine, parseProbeLine } from "./probe-line.ts";
import type { Instant } from "./text-log.ts";
import { refuseUnknownColumns } from "./told-columns.ts";

/** What is known of a board's file besides what it holds. */
export interface BoardHints {
  /** When its last line was read, or written; the zone it is told in is the log's. */
  readonly readOut?: Instant;
  /** What the board's starts are known by already. A start with one is not placed by `readOut`. */
  readonly anchors?: readonly TimeAnchor[];
  /** Where probes sit; what is not here the board's hello says. */
  readonly places?: ReadonlyMap<string, Position>;
  /** What the ohms and millivolts of probes mean, by the probe's id. */
  readonly curves?: ReadonlyMap<string, ProbeCurve>;
  /** Told by hand, by the probe's id; they come before `places`. */
  readonly columns?: ReadonlyMap<string, ColumnMeaning>;
  /** Of the log where nobody told `readOut`; UTC unless stated. */
  readonly utcOffsetMinutes?: number;
}

/** A board's file as a log; `columns` is null while a question is open. */
export interface BoardLog {
  readonly columns: LogColumns | null;
  /** The same values as the probes sent them, with what each column is in where it is neither °C nor, of the supply, V. */
  readonly raw: { readonly columns: LogColumns["columns"]; readonly units: { readonly [P in Position]?: RawUnit } };
  readonly understanding: LogUnderstanding;
  readonly file: BoardFile;
  /** The probe behind each column. */
  readonly probeIds: { readonly [P in Position]?: string };
  /** By what each start was placed: given again, they place the same lines at the same instants. */
  readonly anchors: readonly TimeAnchor[];
}

/** So much of the beginning must hold a whole line of a board. */
const lookedAtBytes = 64 * 1024;

/** The board whose lines a file begins with; null for any other file. A checksum in each line makes this sure. */
export function boardOfFile(head: Uint8Array): string | null {
  const text = new TextDecoder("latin1").decode(head.subarray(0, lookedAtBytes));
  for (const line of text.split(/\r?\n/)) {
    // Cheap first: a log of another kind has thousands of lines.
    if (line.length >= longestLine || !/^[a-z-]+ \S+ \d+ \d+ \d+ .*[0-9A-F]{4}$/.test(line)) continue;
    const parsed = parseProbeLine(line);
    if (parsed.outcome === "good") return parsed.line.boardId;
  }
  return null;
}

/** The good lines of a file in their order, each once; none where it is no board's file. */
export function boardLinesOf(bytes: Uint8Array): readonly ProbeLine[] {
  if (boardOfFile(bytes) === null) return [];
  const reader = new BoardLines();
  return [...reader.push(bytes), ...reader.end()].flatMap((line) =>
    line.outcome === "good" && !line.isRepeat ? [line.line] : [],
  );
}

/**
 * Reads a board's file as a log.
 *
 * @throws BadInput "board-file": lines of several boards, no reading, or nothing that places it in time; "no-probe-curve"
 */
export function readBoardLog(bytes: Uint8Array, file: string, hints: BoardHints = {}): BoardLog {
  const lines = boardLinesOf(bytes);
  const anchors = anchorsOf(lines, hints);
  const read = readBoardFile(bytes, anchors);
  if (read.outcome === "several-boards") {
    throw new BadInput({ code: "board-file", file, problem: "several-boards", boards: read.boardIds });
  }
  if (read.outcome !== "placed") {
    const boards = [...new Set(lines.map(({ boardId }) => boardId))];
    throw new BadInput({ code: "board-file", file, problem: "no-anchor", boards });
  }
  const board = read.file;
  checkTemperatures(board, hints, file);
  const { places, questions, sure } = placesOf(board, hints, bytes);
  const utcOffsetMinutes = hints.readOut?.utcOffsetMinutes ?? hints.utcOffsetMinutes ?? 0;
  const asked = { name: file, utcOffsetMinutes, places };
  const celsiusOf = (reading: PlacedReading) => celsiusBy(hints.curves?.get(reading.probeId), reading);
  const { unixMs, columns, ignoredColumns } = boardRecording(board, { ...asked, celsiusOf });
  const probeIds = Object.fromEntries([...places].map(([probeId, position]) => [position, probeId]));
  return {
    columns:
      questions.length > 0
        ? null
        : { unixMs, columns, ignoredColumns, utcOffsetMinutes, sourceCodes: null, unreadable: [] },
    raw: rawColumns(board, asked),
    understanding: { mapping: null, sure, questions, firstRows: [] },
    file: board,
    probeIds,
    anchors: board.starts.flatMap(({ boot, placedBy, lastUptimeMs, lastUnixMs }) =>
      placedBy === "anchored"
        ? anchors.filter((anchor) => anchor.boot === boot)
        : [{ boot, uptimeMs: lastUptimeMs, unixMs: lastUnixMs }],
    ),
  };
}

/** @throws BadInput "board-file" or "no-probe-curve" where no reading is a temperature */
function checkTemperatures({ boardId, readings }: BoardFile, { curves }: BoardHints, file: string): void {
  const isKnown = (reading: PlacedReading) =>
    reading.unit === "Cel" || !Number.isNaN(celsiusBy(curves?.get(reading.probeId), reading));
  if (readings.some(isKnown)) return;
  const probes = [...new Set(readings.flatMap(({ probeId, unit }) => (isRaw(unit) ? [probeId] : [])))];
  if (probes.length > 0) throw new BadInput({ code: "no-probe-curve", board: boardId, probes });
  throw new BadInput({ code: "board-file", file, problem: "no-reading", boards: [boardId] });
}

const isRaw = (unit: LineUnit): unit is RawUnit => (rawUnits as readonly string[]).includes(unit);

/** NaN without the curve, or where no such sensor gives that value. */
const celsiusBy = (curve: ProbeCurve | undefined, { value, unit }: PlacedReading): number =>
  curve !== undefined && sensorUnits[curve.kind] === unit
    ? (sensorCelsius(curve, value)?.celsius ?? Number.NaN)
    : Number.NaN;

/** Of each probe only the readings in the unit of its first: two units are not one column. */
function rawColumns(board: BoardFile, asked: Omit<BoardRecordingOptions, "celsiusOf">): BoardLog["raw"] {
  const unitOf = new Map<string, LineUnit>();
  for (const { probeId, unit } of board.readings) if (!unitOf.has(probeId)) unitOf.set(probeId, unit);
  const readings = board.readings.filter(({ probeId, unit }) => unitOf.get(probeId) === unit);
  const { columns } = boardRecording({ ...board, readings }, { ...asked, celsiusOf: ({ value }) => value });
  const units: { [P in Position]?: RawUnit } = {};
  for (const [probeId, position] of asked.places) {
    const unit = unitOf.get(probeId);
    if (unit !== undefined && isRaw(unit) && position !== "supply") units[position] = unit;
  }
  return { columns, units };
}

/** What was told of the last line counts for its start, unless that start is known better. */
function anchorsOf(lines: readonly ProbeLine[], { readOut, anchors = [] }: BoardHints): readonly TimeAnchor[] {
  if (readOut === undefined || lines.length === 0) return anchors;
  const boot = lines.reduce((newest, line) => Math.max(newest, line.boot), 0);
  if (anchors.some((anchor) => anchor.boot === boot)) return anchors;
  const uptimeMs = lines.reduce((last, line) => (line.boot === boot ? Math.max(last, line.uptimeMs) : last), 0);
  return [...anchors, { boot, uptimeMs, unixMs: readOut.unixMs }];
}

/** Where each probe sits: as told, as the store remembers, as the board says; else it is asked when nothing is known at all. */
function placesOf(board: BoardFile, hints: BoardHints, bytes: Uint8Array) {
  const { places = new Map(), columns = new Map() } = hints;
  const taken = new Map<Position, string>();
  const unplaced: string[] = [];
  const sure: LogFound[] = [boardFound(board), ...oddities(board)];
  const probeIds = [...new Set([...board.probes, ...board.readings].map(({ probeId }) => probeId))];
  refuseUnknownColumns(hints.columns, probeIds);
  const listed = new Map(board.probes.map((probe) => [probe.probeId, probe]));
  for (const probeId of probeIds) {
    const told = columns.get(probeId);
    const own = places.get(probeId) ?? listed.get(probeId)?.role ?? supplyOf(board, probeId);
    const position = told === undefined ? own : told !== "none" && isPosition(told) ? told : null;
    if (position === null || taken.has(position)) {
      if (told === undefined) unplaced.push(probeId);
      sure.push({ code: "column-left-out", column: probeId });
      continue;
    }
    taken.set(position, probeId);
    sure.push({ code: "column", column: probeId, meaning: position, told: told !== undefined });
    sure.push(...curveMissing(board, hints, probeId));
  }
  const isAnyKnown = [...taken.values()].some((probeId) => !columns.has(probeId) && supplyOf(board, probeId) === null);
  return {
    places: new Map([...taken].map(([position, probeId]) => [probeId, position])),
    questions: isAnyKnown ? [] : unplaced.flatMap((probeId) => questionOf(board, hints, probeId, bytes)),
    sure,
  };
}

/** An input in volts can only be the supply's. */
function supplyOf(board: BoardFile, probeId: string): "supply" | null {
  return board.readings.find((reading) => reading.probeId === probeId)?.unit === "V" ? "supply" : null;
}

/** Said where a probe has a place and its ohms or millivolts no meaning. */
function curveMissing(board: BoardFile, { curves }: BoardHints, probeId: string): LogFound[] {
  const own = board.readings.filter((reading) => reading.probeId === probeId);
  const [first] = own;
  if (first === undefined || !isRaw(first.unit)) return [];
  const isKnown = own.some((reading) => !Number.isNaN(celsiusBy(curves?.get(probeId), reading)));
  return isKnown ? [] : [{ code: "probe-without-curve", probe: probeId, unit: first.unit }];
}

function questionOf(board: BoardFile, { curves }: BoardHints, probeId: string, bytes: Uint8Array): LogQuestion[] {
  const first = board.readings.find((reading) => reading.probeId === probeId);
  if (first === undefined || !(first.unit === "Cel" || (isRaw(first.unit) && curves?.has(probeId)))) return [];
  const readings = (["evaporator", "cabinet", "ambient", "none"] as const).map((answer) => ({ answer }));
  const lines = new TextDecoder("latin1").decode(bytes).split("\n");
  const line = lines.findIndex((text) => text.startsWith("reading ") && text.includes(` ${probeId} `)) + 1;
  return [{ about: "column", line, column: probeId, text: `${first.value} ${first.unit}`, readings }];
}

const boardFound = ({ boardId, starts, counts }: BoardFile): LogFound => ({
  code: "board-file",
  board: boardId,
  starts: starts.length,
  damaged: counts.damaged,
});

/** Starts that are placed by their neighbours, with how far off they can be. */
const oddities = ({ starts }: BoardFile): readonly LogFound[] =>
  starts.flatMap(({ boot, placedBy, slackMs }) =>
    placedBy === "anchored"
      ? []
      : [
          {
            code: "board-start",
            start: boot,
            isBeforeNext: placedBy === "before-next",
            slackMinutes: slackMs === null ? null : Math.max(0, Math.round(slackMs / 60_000)),
          } as const,
        ],
  );
