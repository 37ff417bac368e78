// `coldfall record`: a board, or a log replayed, into a run of the store.

import { setTimeout as sleep } from "node:timers/promises";
import { listenToPort, readWholeFile } from "../../ingest/index.ts";
import { readRunSheet } from "../../ingest/json-files/index.ts";
import { handOf, plain } from "../../report/index.ts";
import { BadInput, type Position } from "../../schema/index.ts";
import { cleanRecording } from "../../science/index.ts";
import { type Fridge, nameKey, type Run, type RunPurpose, type Store } from "../../store/index.ts";
import { overdueProbes } from "../../workshop/calibrating.ts";
import { keptCurves, withoutCurve } from "../../workshop/probe-curves.ts";
import {
  type Arrival,
  boardArrivals,
  boardClaimName,
  boardRoles,
  claimed,
  firstHello,
  lastLineOf,
  type RecordingCounts,
  recordRun,
  replay,
  runToRecord,
  runToReplay,
  ticking,
} from "../../workshop/recording/index.ts";
import { dayText } from "../keeping/calibrate.ts";
import { type StoreOptions, withNewStore } from "../keeping/with-store.ts";
import { wordsFor } from "../language-option.ts";
import { tellWhatRunKeeps } from "../run-keeps.ts";
import { structuredTerminal, type Terminal } from "../terminal.ts";
import { readToldLog, type ToldOfLogs } from "../told-of-logs.ts";
import { Night, type NightOptions } from "./night.ts";

export interface RecordOptions extends StoreOptions, NightOptions, ToldOfLogs {
  readonly fridge: string;
  readonly port?: string;
  readonly replay?: string;
  readonly speed: number;
  /** "test" unless stated. */
  readonly purpose?: RunPurpose;
  readonly sheet?: string;
  /** Messages as JSON, one object a line. */
  readonly structured?: boolean;
}

/** Records until the log or the person ends it. @throws BadInput when it cannot begin or cannot go on */
export const runRecord = (options: RecordOptions, shown: Terminal) =>
  withNewStore(options, async (store) => {
    if ((options.port === undefined) === (options.replay === undefined)) {
      throw new BadInput({ code: "nothing-to-record" });
    }
    using stop = stopOnSignal();
    const terminal = options.structured ? structuredTerminal(shown) : shown;
    if (options.replay !== undefined) await replayLog(store, options, options.replay, terminal, stop.signal);
    if (options.port !== undefined) await recordBoard(store, options, options.port, terminal, stop.signal);
  });

/** The fridge of that name, added when the store does not know it: said, as the name may be mistyped. */
async function fridgeNamed(
  store: Store,
  { fridge: name, ...options }: RecordOptions,
  terminal: Terminal,
): Promise<Fridge> {
  const fridges = await store.fridges.list();
  const known = fridges.find((fridge) => nameKey(fridge.name) === nameKey(name));
  if (known !== undefined) return known;
  const added = await store.fridges.add({ name });
  const others = fridges.map((fridge) => fridge.name);
  terminal.tell(`${wordsFor(options).recording.record.newFridge(added.name, others)}\n`);
  return added;
}

/** Ctrl-C and a service manager's SIGTERM end recording; what has come is kept first. */
function stopOnSignal(): Disposable & { readonly signal: AbortSignal } {
  const stop = new AbortController();
  const stopNow = () => stop.abort();
  process.on("SIGINT", stopNow).on("SIGTERM", stopNow);
  return {
    signal: stop.signal,
    [Symbol.dispose]: () => void process.off("SIGINT", stopNow).off("SIGTERM", stopNow),
  };
}

async function replayLog(
  store: Store,
  options: RecordOptions,
  file: string,
  terminal: Terminal,
  signal: AbortSignal,
): Promise<void> {
  const { recording: log } = await readToldLog(file, options);
  const { recording: ordered } = cleanRecording(log);
  const fridge = await fridgeNamed(store, options, terminal);
  await using _claim = await claimed(store.boards, `replay of ${log.name} into ${fridge.name}`, terminal.nowUnixMs);
  const wanted = {
    fridgeId: fridge.id,
    origin: "replay" as const,
    purpose: options.purpose ?? "test",
    startedUnixMs: ordered.unixMs[0],
    utcOffsetMinutes: log.utcOffsetMinutes,
    name: log.name,
    sheet: sheetOf(options) ?? log.sheet ?? undefined,
  };
  const { run, lastUnixMs } = await runToReplay(store, wanted, ordered, log.sha256 ?? "");
  tellBeginning(run, fridge, lastUnixMs, options, terminal);
  // A wait ends early when recording is to stop.
  const wait = (ms: number) => sleep(ms, undefined, { signal }).catch(() => {});
  const clock = { now: terminal.now, wait };
  const after = lastUnixMs === null ? {} : { afterUnixMs: lastUnixMs };
  const arrivals = replay(ordered, { speed: options.speed, ...after, clock, signal });
  const cameToMs = lastUnixMs ?? Number.NEGATIVE_INFINITY;
  const counts = await record(arrivals, { store, run, fridge, cameToMs, options, terminal });
  if (!signal.aborted) await store.runs.close(run.id, ordered.unixMs[ordered.unixMs.length - 1]);
  terminal.print(`${closing(counts, run.id, signal.aborted, options)}\n`);
}

async function recordBoard(
  store: Store,
  options: RecordOptions,
  path: string,
  terminal: Terminal,
  signal: AbortSignal,
): Promise<void> {
  const text = wordsFor(options).recording.record;
  const over = new AbortController();
  const port = await listenToPort(path, { signal: AbortSignal.any([signal, over.signal]) });
  terminal.tell(`${text.listening(path)}\n`);
  const greeted = await firstHello(port, (why) => {
    terminal.tell(
      `${isMissing(why) ? text.noPort(path) : isTaken(why) ? text.taken(path) : text.cannotOpen(path, why)}\n`,
    );
  });
  if (greeted === null) return;
  const fridge = await fridgeNamed(store, options, terminal);
  const { hello, happenings } = greeted;
  await using _claim = await claimed(store.boards, boardClaimName(hello.boardId), terminal.nowUnixMs);
  const roles = await boardRoles(store, hello, fridge, terminal.nowUnixMs());
  tellPlacedOtherwise(hello.probes, roles, options, terminal);
  await remindOfCalibrations(store, [...roles.keys()], options, terminal);
  const placed = hello.probes.filter(({ probeId }) => roles.has(probeId));
  const lacking = withoutCurve(placed, await keptCurves(store.probes));
  if (lacking.length > 0) terminal.tell(`${wordsFor(options).probes.curve.lacking(lacking)}\n`);
  const now = terminal.nowUnixMs();
  const wanted = {
    fridgeId: fridge.id,
    origin: "board" as const,
    purpose: options.purpose ?? "test",
    startedUnixMs: now,
    utcOffsetMinutes: -new Date(now).getTimezoneOffset(),
    ...(options.sheet === undefined ? {} : { sheet: sheetOf(options) }),
  };
  const { run, lastUnixMs } = await runToRecord(store, wanted, now);
  const last = lastUnixMs === null ? null : await lastLineOf(store.readings, run.id, hello.boardId);
  tellBeginning(run, fridge, lastUnixMs, options, terminal);
  const arrivals = boardArrivals(happenings, { roles, last, say: port.say });
  const withQuiet = ticking(arrivals, quietMs, terminal.nowUnixMs);
  const ofBoard = { ...options, boardId: hello.boardId };
  const whenOver = () => over.abort();
  const counts = await record(withQuiet, { store, run, fridge, cameToMs: now, options: ofBoard, terminal, whenOver });
  const isOver = over.signal.aborted && !signal.aborted;
  terminal.print(
    `${isOver ? `${text.over(run.id)} ` : ""}${closing(counts, run.id, !isOver, options)} ${text.lines(arrivals.counts)}\n`,
  );
}

/** As the systems say that there is no such port. */
const isMissing = (why: string) => /no such file|file not found/i.test(why);

/** As the systems say that another program has the port; Windows says the same of a port one may not open. */
const isTaken = (why: string) => /cannot lock port|resource busy/i.test(why);

/** What the workshop said of a probe counts; a board that says otherwise may mean that two were exchanged. */
function tellPlacedOtherwise(
  probes: readonly { readonly probeId: string; readonly role: Position | null }[],
  roles: ReadonlyMap<string, Position>,
  options: RecordOptions,
  terminal: Terminal,
): void {
  const { recording, names } = wordsFor(options);
  for (const { probeId, role } of probes) {
    const kept = roles.get(probeId);
    if (role === null || kept === undefined || kept === role) continue;
    const [said, counts] = [names.positionNames[role], names.positionNames[kept]];
    terminal.tell(`${recording.record.placedOtherwise(probeId, said, counts)}\n`);
  }
}

/** An overdue probe is recorded all the same, but not without a word. */
async function remindOfCalibrations(
  store: Store,
  probeIds: readonly string[],
  options: RecordOptions,
  terminal: Terminal,
): Promise<void> {
  const overdue = await overdueProbes(store, probeIds, terminal.nowUnixMs());
  if (overdue.length === 0) return;
  const told = overdue.map(({ probeId, dueUnixMs }) => ({ probe: probeId, day: dayText(dueUnixMs) }));
  terminal.tell(`${wordsFor(options).probes.overdue(told)}\n`);
}

/** How long nothing has to arrive from a board before time is looked at, ms. */
const quietMs = 15_000;

interface Recorded {
  readonly store: Store;
  readonly run: Run;
  readonly fridge: Fridge;
  /** The run's own now, ms: this clock's, or the instant that a replay has come to. */
  readonly cameToMs: number;
  readonly options: RecordOptions;
  readonly terminal: Terminal;
  /** Told when somebody ended or removed the run elsewhere. */
  whenOver?(): void;
}

/** Whether the run goes on is looked up at most this often, ms. */
const lookEveryMs = 5000;

async function record(arrivals: AsyncIterable<Arrival>, recorded: Recorded): Promise<RecordingCounts> {
  const { store, run, fridge, cameToMs, options, terminal, whenOver } = recorded;
  const night = await Night.begin(store, run, fridge, cameToMs, options, terminal);
  let lookedMs = terminal.now();
  const lookWhetherOver = async () => {
    if (whenOver === undefined || terminal.now() - lookedMs < lookEveryMs) return;
    lookedMs = terminal.now();
    const kept = await store.runs.find(run.id);
    if (kept === null || kept.endedUnixMs !== null || kept.deletedUnixMs !== null) whenOver();
  };
  try {
    return await recordRun(arrivals, store, run.id, async (arrival) => {
      await night.see(arrival);
      await lookWhetherOver();
    });
  } finally {
    await night.end();
  }
}

const sheetOf = ({ sheet }: RecordOptions) =>
  sheet === undefined ? undefined : readRunSheet(readWholeFile(sheet), sheet);

function tellBeginning(
  run: Run,
  fridge: Fridge,
  lastUnixMs: number | null,
  options: RecordOptions,
  terminal: Terminal,
): void {
  const { language = "en" } = options;
  const text = wordsFor(options).recording.record;
  const since = lastUnixMs === null ? null : handOf(language, run.utcOffsetMinutes).moment(lastUnixMs);
  const sentence = since === null ? text.begins(run.id, fridge.name) : text.goesOn(run.id, fridge.name, since);
  terminal.tell(`${plain(sentence)}\n`);
  if (lastUnixMs === null) return;
  tellWhatRunKeeps(run, options, terminal);
}

function closing(
  { stored, repeated, contradicted }: RecordingCounts,
  run: string,
  isStopped: boolean,
  options: RecordOptions,
): string {
  const text = wordsFor(options).recording.record;
  return [
    isStopped ? text.stopped(stored) : text.ended(stored, run),
    ...(repeated > 0 ? [text.repeated(repeated)] : []),
    ...(contradicted > 0 ? [text.contradicted(contradicted)] : []),
  ].join(" ");
}
