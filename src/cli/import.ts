// `coldfall import`: a log into the store, after it is clear how it is to be read.

import { once } from "node:events";
import { createInterface } from "node:readline/promises";
import {
  boardOfFile,
  extentOf,
  type FoundWay,
  hintsOfAnswer,
  type ImportHints,
  type Instant,
  type LogWay,
  type LookedOver,
  lookOver,
  mappedWay,
  readWholeFile,
  refuseToReplace,
  refuseUnfitOrder,
  sheetOf,
  wayToRead,
  withAnswer,
  withSourceWords,
  writeLogMapping,
  writeWholeFile,
} from "../ingest/index.ts";
import { readLogMapping } from "../ingest/json-files/index.ts";
import { importDocument, understandingDocument, understandingText, wholeLogText } from "../report/import/index.ts";
import { handOf, type Words } from "../report/index.ts";
import {
  BadInput,
  energySources,
  isTimeZone,
  type LogMapping,
  type LogQuestion,
  type LogUnderstanding,
  msPerMinute,
} from "../schema/index.ts";
import { logMappingSchema } from "../schema/shapes/index.ts";
import { type Fridge, openStore, type RunPurpose, type Store } from "../store/index.ts";
import { boardAnchors } from "../workshop/board-files.ts";
import { type Imported, importLog } from "../workshop/import-log.ts";
import { keptCurves } from "../workshop/probe-curves.ts";
import { wholeLogOf } from "../workshop/whole-log.ts";
import { readOutOf } from "./import-options.ts";
import { type LanguageOptions, wordsFor } from "./language-option.ts";
import { typedInstant } from "./option-values.ts";
import { tellWhatRunKeeps } from "./run-keeps.ts";
import { storeFileOf } from "./store-option.ts";
import type { Terminal } from "./terminal.ts";
import { hintsOf, refuseUnfit, type ToldOfLogs } from "./told-of-logs.ts";

export interface ImportOptions extends Pick<LanguageOptions, "language">, ToldOfLogs {
  readonly preview?: boolean;
  readonly store?: string;
  readonly fridge?: string;
  readonly run?: string;
  readonly name?: string;
  readonly purpose?: RunPurpose;
  readonly sheet?: string;
  readonly saveMap?: string;
  readonly json?: boolean;
}

/** Asks someone who is there; null when nobody is. */
export type Ask = ((text: string) => Promise<string>) | null;

/** @throws BadInput before anything is stored */
export async function runImport(
  file: string,
  options: ImportOptions,
  terminal: Terminal,
  ask: Ask = askerAtTerminal(),
): Promise<void> {
  refuseToReplace({ mapping: options.saveMap }, [file, options.map, options.sheet]);
  const log = lookOver(file);
  if (options.preview) return preview(log, options, terminal);
  await using store = await openStore(storeFileOf(options.store));
  const fridge = await fridgeFor(store, options.fridge);
  const { way, understanding, isTold } = await settledWay(log, options, { store, fridge, terminal, ask });
  refuseIdle(options, log, { way, understanding });
  const { run, name, purpose } = options;
  const imported = await importLog(store, log, way, {
    fridge,
    sheet: await sheetOf(file, options.sheet),
    sourceMarks: options.sourceAt ?? [],
    isTold: isTold || options.startsAt !== undefined,
    ...(run === undefined ? {} : { runId: run }),
    ...(name === undefined ? {} : { name }),
    ...(purpose === undefined ? {} : { purpose }),
  });
  if (imported.outcome === "brought-in") {
    if (!imported.isNewRun) tellWhatRunKeeps(imported.run, options, terminal);
    if (isTold && way.format === "mapped") await store.settings.set(mappingSetting, way.mapping, fridge.id);
  }
  saveMapping(way, options, terminal);
  terminal.print(
    options.json
      ? json(importDocument({ ...toldOf(imported), log: lookedAt(log, way, understanding), fridge }, options.language))
      : importedText(file, fridge, imported, options),
  );
}

const json = (document: object) => `${JSON.stringify(document, null, 2)}\n`;

const lookedAt = <Way extends LogWay | null>(
  { file, sha256 }: LookedOver,
  way: Way,
  understanding: LogUnderstanding | null,
) => ({
  file,
  sha256,
  way: (way === null ? null : way.format) as Way extends LogWay ? LogWay["format"] : null,
  mapping: way?.format === "mapped" ? way.mapping : null,
  understanding,
});

const toldOf = (imported: Imported) => ({
  runId: imported.run.id,
  broughtIn: imported.outcome === "known" ? null : imported,
});

function preview(log: LookedOver, options: ImportOptions, terminal: Terminal): void {
  const { language } = options;
  const { importWords } = wordsFor(options);
  const { way, understanding } = options.map === undefined ? wayFitting(log, hintsOf(options)) : statedWay(options);
  if (way !== null) refuseIdle(options, log, { way, understanding });
  // Tried out, so that a mapping that does not fit is refused here too.
  const extent = way === null ? null : extentOf(log, way);
  const text = () => {
    if (understanding !== null) return understandingText(log.file, understanding, language);
    return `${options.map === undefined ? importWords.native(log.file) : importWords.mapped(log.file, options.map)}\n`;
  };
  // Read to its end, so that what no beginning shows is told before anything is stored.
  const whole = way === null ? null : wholeLogOf(log, way, understanding !== null);
  if (options.json)
    terminal.print(json(understandingDocument(lookedAt(log, way, understanding), extent, whole, language)));
  else terminal.print(text() + (whole === null ? "" : wholeLogText(whole, language)));
  if (way !== null) saveMapping(way, options, terminal);
}

/** @throws BadInput "option-unfit", "unit-stated" */
function refuseIdle(
  { saveMap, ...told }: ImportOptions,
  { file }: LookedOver,
  { way, understanding }: FoundWay & { readonly way: LogWay },
): void {
  const mapping = way.format === "mapped" ? way.mapping : undefined;
  // In a run, what is told of the source goes before what the log says.
  refuseUnfit(told, [{ file, mapping, understanding, takesSources: true }]);
  if (saveMap !== undefined && mapping === undefined)
    throw new BadInput({ code: "option-unfit", option: "--save-map", needs: "mapped-log" });
}

function saveMapping(way: LogWay, { saveMap, ...options }: ImportOptions, terminal: Terminal): void {
  if (saveMap === undefined || way.format !== "mapped") return;
  writeWholeFile(saveMap, writeLogMapping(way.mapping), "mapping");
  terminal.tell(`${wordsFor(options).importWords.command.understood(saveMap)}\n`);
}

/** As a mapping file says. */
function statedWay({ map = "", startsAt, sourceWord }: ImportOptions): FoundWay & { readonly way: LogWay } {
  const mapping = withSourceWords(readLogMapping(readWholeFile(map), map), sourceWord && new Map(sourceWord));
  return { way: mappedWay(mapping, startsAt), understanding: null };
}

/** The fridge named, or the only one there is. */
async function fridgeFor(store: Pick<Store, "fridges">, name: string | undefined): Promise<Fridge> {
  if (name !== undefined) return store.fridges.named(name);
  const fridges = await store.fridges.list();
  if (fridges.length === 1) return fridges[0];
  throw new BadInput({ code: "no-fridge-named", known: fridges.map(({ name: known }) => known) });
}

/** Whom a question goes to, and its words. */
interface Asker {
  readonly ask: Ask;
  readonly terminal: Terminal;
  readonly text: Words["importWords"];
}

interface Settling {
  readonly store: Pick<Store, "settings" | "runs" | "readings" | "probes">;
  readonly fridge: Fridge;
  readonly terminal: Terminal;
  readonly ask: Ask;
}

/** The name under which a fridge's mapping is kept: what was told once need not be told for its next log. */
const mappingSetting = "log-mapping";

/**
 * How the log is to be read: as a mapping says, as it is understood, as the fridge's last log was, or as someone
 * answers.
 *
 * @throws BadInput "two-readings" when a question stays open
 */
async function settledWay(
  log: LookedOver,
  options: ImportOptions,
  { store, fridge, terminal, ask }: Settling,
): Promise<FoundWay & { readonly way: LogWay; readonly isTold: boolean }> {
  const asker: Asker = { ask, terminal, text: wordsFor(options).importWords };
  if (options.map !== undefined) return { ...statedWay(options), isTold: true };
  let hints = hintsOf(options);
  const isTold = Object.keys(hints).some((hint) => hint !== "here" && hint !== "startsAt");
  const boardId = boardOfFile(log.head);
  if (boardId !== null) hints = await boardHints(log, hints, boardId, { store, fridge, asker });
  let found = wayFitting(log, hints);
  if (found.way !== null) return { ...found, way: found.way, isTold };
  const kept = await keptMapping(log, store, fridge);
  if (kept !== null && !isTold) {
    terminal.tell(`${wordsFor(options).importWords.keptMapping(fridge.name)}\n`);
    const startsAt = options.startsAt ?? (await startOfCount(log, kept, asker));
    return { way: mappedWay(kept, startsAt), understanding: null, isTold: false };
  }
  while (found.way === null) {
    const [question, ...others] = found.understanding?.questions ?? [];
    if (question === undefined) throw new BadInput({ code: "empty-log", file: log.file });
    const answered = await answeredBy(asker, question, hints);
    if (answered === null) throw new BadInput({ code: "two-readings", file: log.file, question, others });
    hints = answered;
    found = wayToRead(log, hints);
  }
  return { ...found, way: found.way, isTold: true };
}

/** @throws BadInput "date-order-unfit" */
function wayFitting(log: LookedOver, hints: ImportHints): FoundWay {
  const found = wayToRead(log, hints);
  if (found.understanding !== null) refuseUnfitOrder(found.understanding, log.file, hints);
  return found;
}

/** What the store knows of a board's file; who is there is asked when nothing places it in time. */
async function boardHints(
  log: LookedOver,
  hints: ImportHints,
  boardId: string,
  { store, fridge, asker }: Pick<Settling, "store" | "fridge"> & { readonly asker: Asker },
): Promise<ImportHints> {
  const roles = await store.probes.roles(fridge.id);
  const known: ImportHints = {
    ...hints,
    anchors: await boardAnchors(store, fridge.id, boardId),
    places: new Map(roles.map(({ probeId, position }) => [probeId, position])),
    curves: await keptCurves(store.probes),
    utcOffsetMinutes: -new Date().getTimezoneOffset(),
  };
  try {
    wayToRead(log, known);
    return known;
  } catch (error) {
    const isUndated =
      error instanceof BadInput && error.saying.code === "board-file" && error.saying.problem === "no-anchor";
    if (!isUndated || asker.ask === null) throw error;
    const typed = (await asker.ask(asker.text.askReadOut)).trim();
    if (typed === "") throw error;
    return { ...known, readOut: readOutOf(typed) };
  }
}

/** The mapping kept with the fridge, where the log has the columns it names. */
async function keptMapping(
  log: LookedOver,
  store: Pick<Store, "settings">,
  fridge: Fridge,
): Promise<LogMapping | null> {
  const kept = logMappingSchema.safeParse(await store.settings.get(mappingSetting, fridge.id));
  if (!kept.success) return null;
  try {
    // Whether it fits does not hang on when a count began.
    extentOf(log, mappedWay(kept.data, { unixMs: 0, utcOffsetMinutes: 0 }));
    return kept.data;
  } catch (error) {
    if (error instanceof BadInput) return null;
    throw error;
  }
}

/** When a log's count began, asked for; undefined where the log has a calendar. @throws BadInput when nobody says it */
async function startOfCount(
  { file }: LookedOver,
  { timeForm, time }: LogMapping,
  asker: Asker,
): Promise<Instant | undefined> {
  if (timeForm?.startsWith("elapsed-") !== true) return undefined;
  const question: LogQuestion = { about: "starts-at", line: 1, column: `${time}`, readings: [] };
  const answered = await answeredBy(asker, question, {});
  if (answered === null) throw new BadInput({ code: "two-readings", file, question });
  return answered.startsAt;
}

/** Someone who types this often what is no answer wants to stop. */
const mostTries = 5;

/** The hints with the answer among them; null when nobody is there, or the person stops. */
async function answeredBy(
  { ask, terminal, text }: Asker,
  question: LogQuestion,
  hints: ImportHints,
): Promise<ImportHints | null> {
  if (ask === null || question.about === "half-of-day") return null;
  const readings = text.readings(question);
  const lines = readings.map((reading, index) => `  ${index + 1}  ${reading.text}\n`);
  terminal.tell(`${text.ask(question)}\n${lines.join("")}`);
  for (let tries = 0; tries < mostTries; tries++) {
    const isStart = question.about === "starts-at";
    const asked = isStart ? text.askStart : text.choose(readings.length, question.about === "zone");
    const typed = (await ask(asked)).trim();
    if (typed === "") return null;
    const chosen = Number(typed) - 1;
    if (Number.isInteger(chosen) && chosen >= 0 && chosen < readings.length)
      return withAnswer(hints, hintsOfAnswer(question, chosen));
    if (question.about === "zone" && isTimeZone(typed)) return { ...hints, zone: typed };
    const startsAt = typedInstant(typed);
    if (isStart && !Number.isNaN(startsAt.unixMs)) return { ...hints, startsAt };
  }
  return null;
}

function askerAtTerminal(): Ask {
  if (process.stdin.isTTY !== true) return null;
  return async (text) => {
    const asking = createInterface({ input: process.stdin, output: process.stderr });
    try {
      // Ctrl-D closes the input without an answer.
      return await Promise.race([asking.question(text), once(asking, "close").then(() => "")]);
    } finally {
      asking.close();
    }
  };
}

/** Contradictions shown by name; the rest is counted. */
const shownContradictions = 10;

function importedText(file: string, fridge: Fridge, imported: Imported, options: ImportOptions): string {
  const { importWords, names, probes } = wordsFor(options);
  if (imported.outcome === "known") return `${importWords.known(file, imported.run.id, fridge.name)}\n`;
  const { run, isNewRun, received, rows, end, withoutCurve } = imported;
  const hand = handOf(options.language ?? "en", run.utcOffsetMinutes);
  const { stored, repeated, contradicted, contradictions } = received;
  const shown = contradictions.slice(0, shownContradictions);
  const valueText = (position: string, value: number, decimals: number) =>
    position === "source" ? names.bareSource(energySources[value - 1] ?? null) : hand.number(value, decimals);
  const unreadable = end.unreadable.reduce((sum, { readings }) => sum + readings, 0);
  const [first] = end.unreadable;
  return [
    importWords.broughtIn({ file, fridge: fridge.name, run: run.id, isNewRun, rows, stored, repeated }, hand),
    ...(contradicted === 0 ? [] : [importWords.contradicted(contradicted, shown.length)]),
    ...shown.map(({ position, unixMs, kept, refused }) =>
      importWords.contradiction(
        `${localTime(unixMs, run.utcOffsetMinutes)} ${hand.offset()}`,
        names.positionNames[position],
        valueText(position, kept, decimalsApart(kept, refused)),
        valueText(position, refused, decimalsApart(kept, refused)),
      ),
    ),
    ...(first === undefined ? [] : [importWords.unreadable(unreadable, first.firstLine, first.firstText)]),
    ...(withoutCurve.length === 0 ? [] : [probes.curve.lacking(withoutCurve)]),
    "",
  ].join("\n");
}

/** Decimals with which two readings that contradict each other no longer look the same: 4.312 and 4.313 need three. */
function decimalsApart(one: number, other: number): number {
  const apart = [2, 3, 4, 5].find((decimals) => one.toFixed(decimals) !== other.toFixed(decimals));
  return apart ?? 6;
}

/** "2026-06-04 23:59:40", with milliseconds only where the instant has some: "2026-06-04 23:59:40.250". */
const localTime = (unixMs: number, offsetMinutes: number) =>
  new Date(unixMs + offsetMinutes * msPerMinute)
    .toISOString()
    .replace("T", " ")
    .replace(/(\.000)?Z$/, "");
