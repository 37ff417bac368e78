// The logs that a command was given, read in order, with what the report needs to know of their files.

import { basename } from "node:path";
import {
  type LogFile,
  readBaseline,
  readLogFile,
  readLogMapping,
  readWholeFile,
  sha256,
  showable,
} from "../ingest/index.ts";
import { type ReportInput, words } from "../report/index.ts";
import { BadInput, type BaselineFile, type Recording, type SourceMark } from "../schema/index.ts";
import type { Progress } from "./progress.ts";

const { cli } = words("en");

/** Files as the user named them. */
export interface GivenLogs {
  readonly logs: readonly string[];
  readonly knownGood?: readonly string[];
  readonly baseline?: string;
  readonly sheet?: string;
  readonly map?: string;
  /** Energy sources told by hand, for `logs`. */
  readonly sourceAt?: readonly SourceMark[];
}

export interface LogsRead {
  readonly logs: readonly Recording[];
  readonly knownGood: readonly Recording[];
  /** Of the baseline file; undefined without one. */
  readonly baselineKind: BaselineFile["kind"] | undefined;
  readonly inputs: readonly ReportInput[];
  /** What to tell besides the results, a sentence each. */
  readonly remarks: readonly string[];
}

/**
 * Reads everything that was given.
 *
 * @throws BadInput when a file cannot be used, or when two logs are the same.
 */
export function readGivenLogs(given: GivenLogs, progress: Progress): LogsRead {
  const { logs, knownGood = [], baseline, sheet, map, sourceAt = [] } = given;
  const mapping = map === undefined ? undefined : readLogMapping(readWholeFile(map), map);
  const files = [...logs, ...knownGood];
  const logFiles = files.map((file, index) => {
    progress.step(cli.reading(file, index + 1, files.length));
    const ofThisLog = index < logs.length ? { sheetFile: sheet, sourceMarks: sourceAt } : {};
    return readLogFile(file, { name: nameAmong(files, file), mapping, ...ofThisLog });
  });
  const stored = baseline === undefined ? undefined : readStoredBaseline(baseline);
  const recordings = logFiles.map(({ recording }) => recording);
  refuseSameTwice([
    ...recordings,
    ...(stored?.runs ?? []).map((run) => ({ ...run, name: `${baseline}: ${run.name}` })),
  ]);
  return {
    logs: recordings.slice(0, logs.length),
    knownGood: [...recordings.slice(logs.length), ...(stored?.runs ?? [])],
    baselineKind: stored?.kind,
    inputs: oncePerFile([
      ...logFiles.flatMap((logFile, index) => inputsOf(logFile, index < logs.length ? "log" : "known-good")),
      ...(stored ? [stored.input] : []),
    ]),
    remarks: recordings.flatMap(ignoredColumnsRemark),
  };
}

const inputsOf = ({ recording, sheet }: LogFile, role: "log" | "known-good"): ReportInput[] => [
  { name: recording.name, role, sha256: recording.sha256 ?? "" },
  ...(sheet ? [{ name: basename(sheet.file), role: "sheet" as const, sha256: sheet.sha256 }] : []),
];

function ignoredColumnsRemark({ name, ignoredColumns = [] }: Recording): string[] {
  const named = ignoredColumns.filter((column) => column.trim() !== "").map(showable);
  return named.length === 0 ? [] : [cli.ignoredColumns(name, named.slice(0, mostColumnsNamed), named.length)];
}

const mostColumnsNamed = 6;

function readStoredBaseline(file: string) {
  const bytes = readWholeFile(file);
  const input: ReportInput = { name: basename(file), role: "baseline", sha256: sha256(bytes) };
  return { ...readBaseline(bytes, file), input };
}

/** The file's name without its folder, or the path as given where two files have the same name. */
function nameAmong(files: readonly string[], file: string): string {
  const hasNamesake = files.some((other) => other !== file && basename(other) === basename(file));
  return hasNamesake ? file : basename(file);
}

function refuseSameTwice(logs: readonly Pick<Recording, "name" | "sha256">[]): void {
  const nameByHash = new Map<string, string>();
  for (const { name, sha256: hash } of logs) {
    if (hash === undefined) continue;
    const other = nameByHash.get(hash);
    if (other !== undefined) throw new BadInput({ code: "same-log-twice", file: name, other });
    nameByHash.set(hash, name);
  }
}

/** One sheet may serve several logs. */
const oncePerFile = (inputs: readonly ReportInput[]) =>
  inputs.filter(
    ({ role, sha256: hash }, index) =>
      inputs.findIndex((input) => input.role === role && input.sha256 === hash) === index,
  );
