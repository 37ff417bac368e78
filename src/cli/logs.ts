// The logs that a command was given, files or runs of the store, read in order, with what the report needs to know of them.

import { existsSync } from "node:fs";
import { basename } from "node:path";
import { isToldOtherwise, type LogFile, readLogFile, readWholeFile, sha256, showable } from "../ingest/index.ts";
import { understoodRemark } from "../report/import/index.ts";
import type { Language, ReportInput } from "../report/index.ts";
import { BadInput, type LogUnderstanding, type Recording } from "../schema/index.ts";
import { openStore, type Run, type Store } from "../store/index.ts";
import { fridgeBaseline } from "../workshop/fridge-baseline.ts";
import {
  fridgeOnSheet,
  type LogOfFridge,
  type LogsRead,
  refuseMixed,
  refuseOtherFridge,
} from "../workshop/logs-read.ts";
import { inputOf, type RunLog, runLog } from "../workshop/run-log.ts";
import { type LanguageOptions, wordsFor } from "./language-option.ts";
import type { Progress } from "./progress.ts";
import { storeFileOf } from "./store-option.ts";
import {
  hintsOf,
  ofEveryLog,
  ofJudgedLogs,
  refuseForRuns,
  refuseOneMoment,
  refuseUnfit,
  saysSources,
  type ToldOfLogs,
  toldMapping,
  toldOptions,
} from "./told-of-logs.ts";

/** Logs as the user named them: files, or runs of the store. */
export interface GivenLogs extends LanguageOptions, ToldOfLogs {
  readonly logs: readonly string[];
  readonly knownGood?: readonly string[];
  readonly baseline?: string;
  readonly sheet?: string;
  /** Which of them must not be known to be of different fridges; "all" unless stated. */
  readonly ofOneFridge?: "all" | "logs" | "none";
  /** The store's file; the usual one unless stated. */
  readonly store?: string;
}

/** Logs with what to tell besides the results, a sentence each. */
export interface GivenLogsRead extends LogsRead {
  readonly remarks: readonly string[];
  /** The store's run behind each of `logs`; null for a file. */
  readonly runs: readonly (Run | null)[];
}

/**
 * Reads everything that was given. Runs of one fridge bring its own baseline, unless another was given.
 *
 * @throws BadInput when a log cannot be used, when two are the same, or when they are of different fridges.
 */
export async function readGivenLogs(given: GivenLogs, progress: Progress): Promise<GivenLogsRead> {
  const { logs, knownGood = [], baseline, sheet, language = "en", ofOneFridge = "all" } = given;
  const names = [...logs, ...knownGood];
  await using store = await storeFor(names, given.store);
  const areFiles = names.map((name) => store === null || existsSync(name));
  refuseForRuns(toldOptions(given, ofEveryLog), areFiles);
  const ofJudged = [...(sheet === undefined ? [] : ["--sheet"]), ...toldOptions(given, ofJudgedLogs)];
  refuseForRuns(ofJudged, areFiles.slice(0, logs.length));
  const mapping = await toldMapping(given);
  const readAll = async (isOwnFormatKept: boolean) => {
    const read: ReadLog[] = [];
    for (const [index, name] of names.entries()) {
      progress.step(wordsFor(given).cli.reading(name, index + 1, names.length));
      const isJudged = index < logs.length;
      const { readOut, ...hints } = hintsOf(given);
      const ofThisLog = isJudged ? { sheetFile: sheet, sourceMarks: given.sourceAt ?? [], readOut } : {};
      const role = isJudged ? "log" : "known-good";
      const options = { name: nameAmong(names, name), mapping, ...hints, isOwnFormatKept, ...ofThisLog };
      read.push(
        store === null || areFiles[index]
          ? ofFile(await readLogFile(name, options), role)
          : await ofRun(store, await runNamed(store, name, storeFileOf(given.store)), role),
      );
    }
    return read;
  };
  // What is told of columns and unit is meant for the logs that need it; where all are in our own format, it is meant for them.
  let read = await readAll(true);
  if (read.every(({ understanding = null }) => understanding === null) && isToldOtherwise(hintsOf(given)))
    read = await readAll(false);
  const asRead = read.flatMap(({ recording, understanding }, index) => {
    const takesSources = index < logs.length && !saysSources(recording);
    return understanding === undefined ? [] : [{ file: names[index], mapping, understanding, takesSources }];
  });
  refuseUnfit(given, asRead);
  refuseOneMoment(
    given,
    asRead.map((log) => ({ ...log, file: nameAmong(names, log.file) })),
    given,
  );
  const runs = read.flatMap(({ run }) => run ?? []);
  refuseMixed(runs);
  const stored = baseline === undefined ? undefined : await readStoredBaseline(baseline);
  if (ofOneFridge !== "none") refuseOtherFridge(read.slice(0, logs.length).map(fridgeOf));
  if (ofOneFridge === "all") {
    const kept = stored?.kind === "own" ? stored.runs.map(fridgeOnSheet) : [];
    refuseOtherFridge(read.slice(0, logs.length).map(fridgeOf), [...read.slice(logs.length).map(fridgeOf), ...kept]);
  }
  const own =
    store === null || runs.length === 0 || knownGood.length > 0 || stored
      ? undefined
      : await fridgeBaseline(
          store,
          runs[0].fridgeId,
          runs.map(({ id }) => id),
        );
  const recordings = read.map(({ recording }) => recording);
  refuseSameTwice([
    ...recordings,
    ...(stored?.runs ?? []).map((run) => ({ ...run, name: `${baseline}: ${run.name}` })),
  ]);
  return {
    logs: recordings.slice(0, logs.length),
    knownGood: [...recordings.slice(logs.length), ...(stored?.runs ?? []), ...(own?.knownGood ?? [])],
    baselineKind: stored?.kind ?? own?.baselineKind ?? "own",
    inputs: oncePerFile([
      ...read.flatMap(({ inputs }) => inputs),
      ...(stored ? [stored.input] : []),
      ...(own?.inputs ?? []),
    ]),
    runs: read.slice(0, logs.length).map(({ run }) => run ?? null),
    remarks: read.flatMap(({ recording, understanding }) =>
      understanding
        ? understoodRemark(recording.name, understanding, language)
        : ignoredColumnsRemark(recording, language),
    ),
  };
}

/** One log, wherever it came from. */
interface ReadLog {
  readonly recording: Recording;
  readonly inputs: readonly ReportInput[];
  /** For another logger's file that nobody mapped. */
  readonly understanding?: LogUnderstanding | null;
  /** For a run of the store. */
  readonly run?: Run;
  /** The fridge of that run, as the store names it. */
  readonly fridge?: string;
}

const ofFile = (file: LogFile, role: "log" | "known-good"): ReadLog => ({
  recording: file.recording,
  inputs: inputsOf(file, role),
  understanding: file.understanding,
});

const ofRun = async (store: Store, log: RunLog, role: "log" | "known-good"): Promise<ReadLog> => ({
  recording: log.recording,
  inputs: [inputOf(log, role)],
  run: log.run,
  fridge: (await store.fridges.get(log.run.fridgeId)).name,
});

const runNamed = (store: Store, name: string, file: string): Promise<RunLog> =>
  asLog(name, file, () => runLog(store, name));

/** Looks for a run under a name that is no file's. @throws BadInput "no-such-log" */
export async function asLog<Found>(name: string, file: string, look: () => Promise<Found>): Promise<Found> {
  try {
    return await look();
  } catch (error) {
    if (error instanceof BadInput && error.code === "no-such-record")
      throw new BadInput({ code: "no-such-log", name, store: file });
    throw error;
  }
}

function fridgeOf({ recording, fridge }: ReadLog): LogOfFridge {
  const { log, fridges } = fridgeOnSheet(recording);
  return { log, fridges: fridge === undefined ? fridges : [fridge, ...fridges] };
}

/**
 * The store, opened only when something named is no file; null when all are, or when there is no store.
 *
 * @throws BadInput "no-such-store" for a stated one
 */
async function storeFor(names: readonly string[], file: string | undefined): Promise<Store | null> {
  if (names.every((name) => existsSync(name))) return null;
  const path = storeFileOf(file);
  if (existsSync(path)) return openStore(path);
  if (file !== undefined) throw new BadInput({ code: "no-such-store", file });
  const name = names.find((one) => !existsSync(one) && isNoFileName(one));
  if (name !== undefined) throw new BadInput({ code: "no-such-log", name, store: path, isStoreMissing: true });
  return null;
}

/** A run's id, or an option with a dash that is none. */
const isNoFileName = (name: string) => /^(\d{4}-\d\d-\d\d-\w+|[\u2012-\u2015\u2212].*)$/.test(name);

const inputsOf = ({ recording, sheet }: LogFile, role: "log" | "known-good"): ReportInput[] => [
  { name: recording.name, role, sha256: recording.sha256 ?? "" },
  ...(sheet ? [{ name: basename(sheet.file), role: "sheet" as const, sha256: sheet.sha256 }] : []),
];

function ignoredColumnsRemark({ name, ignoredColumns = [] }: Recording, language: Language): string[] {
  const named = ignoredColumns.filter((column) => column.trim() !== "").map(showable);
  return named.length === 0
    ? []
    : [wordsFor({ language }).cli.ignoredColumns(name, named.slice(0, mostColumnsNamed), named.length)];
}

const mostColumnsNamed = 6;

async function readStoredBaseline(file: string) {
  // What checks it is loaded where one is given.
  const { readBaseline } = await import("../ingest/json-files/index.ts");
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
