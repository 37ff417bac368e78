// Readings that a board hands in over the network: put where its probes sit, and kept only when they can be true.

import { inKeptUnit, type resolveSenml } from "../ingest/index.ts";
import type { Refusal } from "../schema/api/index.ts";
import { BadInput, msPerMinute, type Position, positions } from "../schema/index.ts";
import type { Board, NewReading, ProbeRole, Received, Store } from "../store/index.ts";
import { type KeptPack, runToRecord } from "../workshop/recording/index.ts";
import { Problem } from "./problem.ts";

/** The part of a store that boards write to. */
export type IntakeShelves = Pick<Store, "runs" | "readings" | "boards" | "probes" | "settings">;

type SenmlRecord = ReturnType<typeof resolveSenml>[number];

/** What became of a pack. */
export interface Taken extends Pick<Received, "stored" | "repeated" | "contradicted"> {
  /** The run it went to; null when nothing of it could be kept. */
  readonly runId: string | null;
  readonly refused: { readonly [R in Refusal]?: number };
}

/** How far a board's clock may be off. `null`: as far as it likes. */
export type BelievableTimes = { readonly aheadMs: number; readonly behindMs: number } | null;

/** Takes in the packs of all boards. */
export class BoardIntake {
  readonly #store: IntakeShelves;
  readonly #times: BelievableTimes;
  readonly #whenKept: (pack: KeptPack) => void;
  /** Runs being opened, by fridge: two packs at once must not open two. */
  readonly #opening = new Map<string, Promise<string>>();
  /** By board. With hundreds of them, asking the store for each pack costs more than keeping its readings. */
  readonly #known = new Map<string, Known>();

  /** @param whenKept told of every pack once it is durable */
  constructor(store: IntakeShelves, times: BelievableTimes, whenKept: (pack: KeptPack) => void = () => {}) {
    this.#store = store;
    this.#times = times;
    this.#whenKept = whenKept;
  }

  /**
   * Keeps what can be kept of a pack. Durable when it returns.
   *
   * @throws Problem "not-now" for a board of which nobody said on which fridge it is
   */
  async take(board: Board, records: readonly SenmlRecord[], nowUnixMs: number): Promise<Taken> {
    const { fridgeId } = board;
    if (fridgeId === null) throw new Problem("not-now", (text) => text.boardWithoutFridge);
    const known = this.#known.get(board.id);
    const isFresh = known !== undefined && known.fridgeId === fridgeId && performance.now() < known.untilMs;
    const roles = isFresh ? known.roles : await this.#rolesOf(board.id, fridgeId);
    const refused: { [R in Refusal]?: number } = {};
    const readings: NewReading[] = [];
    for (const record of records) {
      const reading = readingOf(record, roles, nowUnixMs, this.#times);
      if (typeof reading === "string") refused[reading] = (refused[reading] ?? 0) + 1;
      else readings.push({ ...reading, boardId: board.id, hostUnixMs: nowUnixMs });
    }
    // A commit of its own for each pack would cost more than the readings.
    if (nowUnixMs - board.lastSeenUnixMs > seenEveryMs(board.id))
      await this.#store.boards.seen(board.id, { unixMs: nowUnixMs });
    if (readings.length === 0) return { runId: null, stored: 0, repeated: 0, contradicted: 0, refused };
    const startedUnixMs = Math.min(...readings.map(({ unixMs }) => unixMs));
    const open = () => this.#openRun(fridgeId, startedUnixMs, nowUnixMs);
    const before = isFresh ? known.runId : null;
    const kept = before === null ? null : await this.#appendIfThere(before, readings);
    const runId = kept === null ? await open() : (before as string);
    const { stored, repeated, contradicted } = kept ?? (await this.#store.readings.append(runId, readings));
    if (!isFresh || kept === null) {
      this.#known.set(board.id, { fridgeId, roles, runId, untilMs: performance.now() + lookAgainMs });
    }
    this.#whenKept({ runId, boardId: board.id, readings, stored, unixMs: nowUnixMs });
    return { runId, stored, repeated, contradicted, refused };
  }

  /** Something was changed: what is known is asked anew. */
  forget(): void {
    this.#known.clear();
  }

  async #rolesOf(board: string, fridgeId: string): Promise<readonly ProbeRole[]> {
    return (await this.#store.probes.roles(fridgeId)).filter(({ boardId }) => boardId === board);
  }

  /** Null when the run has been removed meanwhile. */
  async #appendIfThere(runId: string, readings: readonly NewReading[]): Promise<Received | null> {
    try {
      return await this.#store.readings.append(runId, readings);
    } catch (error) {
      if (error instanceof BadInput && error.code === "no-such-record") return null;
      throw error;
    }
  }

  /** The run that the fridge's network readings go into. */
  #openRun(fridgeId: string, startedUnixMs: number, nowUnixMs: number): Promise<string> {
    const utcOffsetMinutes = -new Date(startedUnixMs).getTimezoneOffset();
    const wanted = { fridgeId, origin: "network", purpose: "test", startedUnixMs, utcOffsetMinutes } as const;
    const opening =
      this.#opening.get(fridgeId) ??
      runToRecord(this.#store, wanted, nowUnixMs)
        .then(({ run }) => run.id)
        .finally(() => this.#opening.delete(fridgeId));
    this.#opening.set(fridgeId, opening);
    return opening;
  }
}

/** What packs of a board need to know. */
interface Known {
  readonly fridgeId: string;
  readonly roles: readonly ProbeRole[];
  readonly runId: string;
  /** On the monotonic clock. */
  readonly untilMs: number;
}

/** What another process changes is seen after this at the latest, ms; what this one changes, at once. */
const lookAgainMs = 2000;

/**
 * How exactly it is remembered when a board was seen last: a minute or two, each board at its own pace, or all that came
 * with the same power cut would cost a commit each in the same second.
 */
const seenEveryMs = (boardId: string) =>
  msPerMinute * (1 + [...boardId].reduce((sum, letter) => (sum * 31 + letter.charCodeAt(0)) % 997, 0) / 997);

/** The reading that a record says, or why it says none. */
function readingOf(
  { n, t, u, v }: SenmlRecord,
  roles: readonly ProbeRole[],
  nowUnixMs: number,
  times: BelievableTimes,
): NewReading | Refusal {
  const unixMs = Math.round(t * 1000);
  if (times !== null && unixMs > nowUnixMs + times.aheadMs) return "in-the-future";
  if (times !== null && unixMs < nowUnixMs - times.behindMs) return "too-old";
  if (v === undefined) return "no-value";
  const role = roles.find(({ probeId }) => probeId === n);
  const position = role?.position ?? namedPosition(n);
  if (position === undefined) return "unknown-probe";
  const meant = inKeptUnit(position, u ?? ownUnit(position), v);
  // Ohms and millivolts are kept as they came; the curve of their probe, if it is one, makes them °C whenever they are read.
  if (meant === undefined || (meant.unit !== undefined && role === undefined)) return "wrong-unit";
  const [least, most] = believable[meant.unit ?? "Cel"];
  if (!(meant.raw >= least && meant.raw <= most)) return "unbelievable";
  return { position, unixMs, ...meant, ...(role === undefined ? {} : { probeId: n }) };
}

/** A board may name positions itself: "cabinet", or "bench:cabinet". */
const namedPosition = (name: string): Position | undefined =>
  positions.find((position) => position === name.split(/[:/]/).at(-1));

/** What a reading of a board is in that names no unit: ours. */
const ownUnit = (position: Position) => (position === "supply" ? "V" : "Cel");

/**
 * Nothing on a fridge is colder or hotter than -100 to 1500 °C, the flue included, and no probe in its range sends more
 * (common practice, no source). Odd readings in between are cleaning's work.
 */
const believable = { Cel: [-100, 1500], Ohm: [0, 1e8], mV: [-10, 80] } as const;
