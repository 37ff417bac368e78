// The baseline file: known-good runs as readings, so that they can be cut to any length next year.

import {
  BadInput,
  type BaselineFile,
  energySources,
  type Position,
  positions,
  type Recording,
  sourceUnsaid,
} from "../schema/index.ts";

/** A known-good run: the log, and its cleaned means over up to a minute, which the science makes. */
export interface KnownGoodRun {
  readonly recording: Pick<Recording, "name" | "sha256" | "utcOffsetMinutes" | "sheet" | "sourceMarks">;
  readonly series: Pick<Recording, "unixMs" | "columns" | "sourceCodes">;
}

/**
 * The file's content. Cleaned means go in, not raw readings: a mean over a probe's power-on value could
 * never be told from a reading again.
 *
 * @param kind "own": runs of this very fridge; "kind": of others of its kind.
 */
export function baselineFileOf(
  runs: readonly KnownGoodRun[],
  kind: BaselineFile["kind"],
  program: BaselineFile["program"],
): BaselineFile {
  return { format: "coldfall-baseline-1", program, kind, runs: runs.map(storedRun) };
}

/** One line per run, so that two versions of the file can be compared. */
export function baselineText({ runs, ...head }: BaselineFile): string {
  const opening = JSON.stringify(head).slice(0, -1);
  return `${opening},"runs":[\n${runs.map((run) => JSON.stringify(run)).join(",\n")}\n]}\n`;
}

/**
 * A baseline file's runs as recordings.
 *
 * @param file what messages call it
 * @throws BadInput "wrong-shape" when columns of a run differ in length
 */
export const baselineLogs = (
  { kind, runs }: BaselineFile,
  file: string,
): { readonly kind: BaselineFile["kind"]; readonly runs: readonly Recording[] } => ({
  kind,
  runs: runs.map((run, index) => recordingOf(run, file, `runs[${index}]`)),
});

type StoredRun = BaselineFile["runs"][number];

function storedRun({ recording, series }: KnownGoodRun): StoredRun {
  const { name, sha256, utcOffsetMinutes, sheet } = recording;
  const startMs = series.unixMs[0] ?? 0;
  const columns: StoredRun["columns"] = {};
  for (const position of positions) {
    const values = series.columns[position];
    if (values) columns[position] = Array.from(values, storedReading);
  }
  return {
    name,
    ...(sha256 === undefined ? {} : { sha256 }),
    utcOffsetMinutes,
    start: new Date(startMs).toISOString(),
    secondsSinceStart: Array.from(series.unixMs, (unixMs) => Math.round(unixMs - startMs) / 1000),
    columns,
    sources: toldSources(series, recording.sourceMarks),
    sheet,
  };
}

/** Per row what the log says, or where it says nothing the user's last mark; null when nobody said anything. */
function toldSources(
  { unixMs, sourceCodes }: KnownGoodRun["series"],
  marks: Recording["sourceMarks"],
): StoredRun["sources"] {
  if (sourceCodes === null && marks.length === 0) return null;
  const inOrder = marks.toSorted((a, b) => a.unixMs - b.unixMs);
  return Array.from(unixMs, (instant, row) => {
    const said = energySources[(sourceCodes?.[row] ?? sourceUnsaid) - 1];
    return said ?? inOrder.findLast((mark) => mark.unixMs <= instant)?.source ?? null;
  });
}

/** To 0.0001 °C, finer than any probe, so that the file stays small; null where there is no reading. */
const storedReading = (value: number): number | null =>
  Number.isFinite(value) ? Math.round(value * 10_000) / 10_000 : null;

function recordingOf(run: StoredRun, file: string, where: string): Recording {
  const { name, sha256, utcOffsetMinutes, secondsSinceStart, sources, sheet } = run;
  const length = secondsSinceStart.length;
  const startMs = Date.parse(run.start);
  const columns: { [P in Position]?: Float64Array } = {};
  for (const position of positions) {
    const stored = run.columns[position];
    if (stored === undefined) continue;
    requireLength(stored, length, file, `${where}.columns.${position}`);
    columns[position] = Float64Array.from(stored, (value) => value ?? Number.NaN);
  }
  if (sources) requireLength(sources, length, file, `${where}.sources`);
  return {
    name,
    ...(sha256 === undefined ? {} : { sha256 }),
    unixMs: Float64Array.from(secondsSinceStart, (seconds) => startMs + Math.round(seconds * 1000)),
    utcOffsetMinutes,
    columns,
    sourceCodes: sources && Uint8Array.from(sources, (source) => (source ? energySources.indexOf(source) + 1 : 0)),
    sourceMarks: [],
    sheet,
    unreadable: [],
  };
}

function requireLength(column: readonly unknown[], expected: number, file: string, where: string): void {
  if (column.length === expected) return;
  const problem = { code: "unequal-lengths", expected, found: column.length } as const;
  throw new BadInput({ code: "wrong-shape", file, where, problem });
}
