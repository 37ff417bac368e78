// The logs that a command was given, files or runs of the store, read in order, with what the report needs to know of them.

import { existsSync } from "node:fs";
import { basename } from "node:path";
import { type Instant, type LogFile, readLogFile, readWholeFile, sha256, showable } from "../ingest/index.ts";
import { understoodRemark } from "../report/import/index.ts";
import type { Language, ReportInput } from "../report/index.ts";
import {
  BadInput,
  type EnergySource,
  type LogUnderstanding,
  type Recording,
  type SourceMark,
} from "../schema/index.ts";
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
import { zoneHere } from "./zone-here.ts";

/** Logs as the user named them: files, or runs of the store. */
export interface GivenLogs extends LanguageOptions {
  readonly logs: readonly string[];
  readonly knownGood?: readonly string[];
  readonly baseline?: string;
  readonly sheet?: string;
  readonly map?: string;
  /** What words for energy sources in the files mean. */
  readonly sourceWord?: readonly (readonly [string, EnergySource])[];
  /** Energy sources told by hand, for `logs`. */
  readonly sourceAt?: readonly SourceMark[];
  /** When the last line of a board's own file was read, for `logs`. */
  readonly readOut?: Instant;
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
  const {
    logs,
    knownGood = [],
    baseline,
    sheet,
    map,
    sourceWord,
    sourceAt = [],
    readOut,
    language = "en",
    ofOneFridge = "all",
  } = given;
  const mapping = map === undefined ? undefined : await mappingIn(map);
  const ofEveryLog = {
    here: zoneHere,
    ...(mapping === undefined ? {} : { mapping }),
    ...(sourceWord === undefined ? {} : { sourceWords: new Map(sourceWord) }),
  };
  const names = [...logs, ...knownGood];
  await using store = await storeFor(names, given.store);
  const areFiles = names.map((name) => store === null || existsSync(name));
  refuseForRuns({ "--map": map, "--source-word": sourceWord }, areFiles);
  refuseForRuns(
    { "--sheet": sheet, "--source-at": given.sourceAt, "--read-out": readOut },
    areFiles.slice(0, logs.length),
  );
  const read: ReadLog[] = [];
  for (const [index, name] of names.entries()) {
    progress.step(wordsFor(given).cli.reading(name, index + 1, names.length));
    const isJudged = index < logs.length;
    const ofThisLog = isJudged ? { sheetFile: sheet, sourceMarks: sourceAt, readOut } : {};
    const role = isJudged ? "log" : "known-good";
    read.push(
      store === null || areFiles[index]
        ? ofFile(await readLogFile(name, { name: nameAmong(names, name), ...ofEveryLog, ...ofThisLog }), role)
        : await ofRun(store, await runNamed(store, name, storeFileOf(given.store)), role),
    );
  }
  if (readOut !== undefined) refuseReadOutOf(read.slice(0, logs.length), readOut, language);
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

/** @throws BadInput "no-such-log": a mistyped file is looked for among the runs, too */
async function runNamed(store: Store, name: string, file: string): Promise<RunLog> {
  try {
    return await runLog(store, name);
  } catch (error) {
    if (error instanceof BadInput && error.code === "no-such-record") {
      throw new BadInput({ code: "no-such-log", name, store: file });
    }
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
  return null;
}

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

/** What checks a mapping or a baseline is loaded where one is given. */
const jsonFiles = () => import("../ingest/json-files/index.ts");

const mappingIn = async (file: string) => (await jsonFiles()).readLogMapping(readWholeFile(file), file);

async function readStoredBaseline(file: string) {
  const { readBaseline } = await jsonFiles();
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

/** Runs of the store keep what was said of them. @throws BadInput "option-unfit" */
function refuseForRuns(options: { readonly [option: string]: unknown }, areFiles: readonly boolean[]): void {
  if (areFiles.includes(true)) return;
  const [option] = Object.keys(options).filter((name) => options[name] !== undefined);
  if (option !== undefined) throw new BadInput({ code: "option-unfit", option, needs: "file" });
}

/** Two files were hardly read out at one moment: it would lay one of them where it never was. */
function refuseReadOutOf(judged: readonly ReadLog[], { unixMs }: Instant, language: Language): void {
  const ofBoards = judged.filter(({ understanding }) => understanding?.sure[0]?.code === "board-file");
  if (ofBoards.length === 0) throw new BadInput({ code: "option-unfit", option: "--read-out", needs: "board-file" });
  if (ofBoards.length === 1) return;
  const names = ofBoards.map(({ recording }) => recording.name);
  const expected = wordsFor({ language }).importWords.oneReadOut(names);
  throw new BadInput({ code: "bad-option", option: "--read-out", value: new Date(unixMs).toISOString(), expected });
}

/** One sheet may serve several logs. */
const oncePerFile = (inputs: readonly ReportInput[]) =>
  inputs.filter(
    ({ role, sha256: hash }, index) =>
      inputs.findIndex((input) => input.role === role && input.sha256 === hash) === index,
  );
