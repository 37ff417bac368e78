// The time axis of a run that is being recorded. The board's uptime says how long lies between two readings; the host's
// clock only says where the whole of it lies, because it may be set, be years off, or sleep. Unix time knows no summer
// time. A file that a board recorded alone is placed in time by board-file.ts instead.

import type { LineHead } from "./probe-line.ts";

/** An instant on both clocks, and where the axis put it. */
export interface PlacedLine {
  readonly boot: number;
  readonly uptimeMs: number;
  readonly unixMs: number;
  readonly hostUnixMs: number;
}

/** Something that a person reading the run should know. `unixMs` is on the axis. */
export type ClockEvent =
  /** The board has started anew; what lay between its last line and this one is a gap. */
  | { readonly kind: "restarted"; readonly unixMs: number; readonly fromBoot: number; readonly toBoot: number }
  /**
   * The host's clock has been set forward (above 0) or back, and has stayed so; the axis has not followed it. Told
   * after a minute, `unixMs` is when it happened.
   */
  | { readonly kind: "host-clock-moved"; readonly unixMs: number; readonly byMs: number }
  /** The board has started anew while the host's clock stood before the last reading: the length of the gap is unknown. */
  | { readonly kind: "unknown-gap"; readonly unixMs: number };

/** A board's clock may run wrong by so much and is followed: ceramic resonators are within 0.5 % (common practice, no source). */
const steepestDrift = 0.006;
/** How quickly a clock that runs wrong is followed, ms. */
const followingTime = 600_000;
/** Within this the host's clock is right and its lines are a little late, now more, now less: nothing to follow, ms. */
const delayJitter = 500;
/** A line may be as late as this without any doubt about the host's clock, ms. */
const usualDelay = 5_000;
/** The host's clock has been set when so many lines over so long agree about it; late lines do not agree with each other. */
const fewestWitnesses = 5;
const shortestWitness = 60_000;
/** The newest rounds of a start, kept so that lines sent again get the very instant of their round. */
const mostRounds = 600;

interface Round {
  readonly uptimeMs: number;
  readonly unixMs: number;
}

interface Witness extends Round {
  readonly aheadMs: number;
}

/** The time axis of one board. The same start and uptime always get the same instant, and later uptime a later one. */
export class BoardClock {
  #boot: number | null = null;
  /** Of this start, in order of uptime. */
  #rounds: Round[] = [];
  /** What to add to the uptime of an earlier start, for its lines that come late. */
  readonly #earlierStarts = new Map<number, number>();
  /** How far the host's clock is known to be ahead of the axis. */
  #hostAheadMs = 0;
  /** Lines that agree on another host's clock. */
  #witnesses: Witness[] = [];

  /** @param last the last line kept by an earlier recording of the same run, to go on from. */
  constructor(last?: PlacedLine) {
    if (last === undefined) return;
    this.#boot = last.boot;
    this.#rounds = [last];
    const ahead = last.hostUnixMs - last.unixMs;
    if (Math.abs(ahead) > usualDelay) this.#hostAheadMs = ahead;
  }

  /**
   * Places a line in time.
   *
   * @param hostUnixMs what the host's clock said when the line arrived.
   */
  place(
    { boot, uptimeMs }: Pick<LineHead, "boot" | "uptimeMs">,
    hostUnixMs: number,
  ): { readonly unixMs: number; readonly events: readonly ClockEvent[] } {
    if (boot !== this.#boot) {
      const earlier = this.#earlierStarts.get(boot);
      return earlier === undefined
        ? this.#startAnew(boot, uptimeMs, hostUnixMs)
        : { unixMs: earlier + uptimeMs, events: [] };
    }
    const newest = this.#rounds[this.#rounds.length - 1];
    if (uptimeMs <= newest.uptimeMs) return { unixMs: this.#placeAgain(uptimeMs), events: [] };
    return this.#goOn(newest, uptimeMs, hostUnixMs);
  }

  #startAnew(boot: number, uptimeMs: number, hostUnixMs: number): ReturnType<BoardClock["place"]> {
    const newest = this.#rounds.at(-1);
    const byHost = Math.round(hostUnixMs - this.#hostAheadMs);
    const isGapUnknown = newest !== undefined && byHost <= newest.unixMs;
    const unixMs = isGapUnknown ? newest.unixMs + 1 : byHost;
    const events: ClockEvent[] = [];
    if (this.#boot !== null && newest !== undefined) {
      this.#earlierStarts.set(this.#boot, newest.unixMs - newest.uptimeMs);
      events.push({ kind: "restarted", unixMs, fromBoot: this.#boot, toBoot: boot });
    }
    if (isGapUnknown) {
      events.push({ kind: "unknown-gap", unixMs });
      this.#hostAheadMs = hostUnixMs - unixMs;
    }
    this.#boot = boot;
    this.#rounds = [{ uptimeMs, unixMs }];
    this.#witnesses = [];
    return { unixMs, events };
  }

  #goOn(newest: Round, uptimeMs: number, hostUnixMs: number): ReturnType<BoardClock["place"]> {
    const elapsed = uptimeMs - newest.uptimeMs;
    const byUptime = newest.unixMs + elapsed;
    const aheadMs = hostUnixMs - this.#hostAheadMs - byUptime;
    const steepest = steepestDrift * elapsed;
    const isUsual = Math.abs(aheadMs) <= usualDelay + steepest;
    const toFollow = aheadMs - between(-delayJitter, delayJitter, aheadMs);
    const pull = between(-steepest, steepest, toFollow * (1 - Math.exp(-elapsed / followingTime)));
    const step = isUsual ? Math.round(pull) : 0;
    const unixMs = byUptime + step;
    this.#rounds.push({ uptimeMs, unixMs });
    if (this.#rounds.length > mostRounds) this.#rounds.shift();
    if (!isUsual) return { unixMs, events: this.#hostClockMove({ uptimeMs, unixMs, aheadMs }) };
    this.#witnesses = [];
    return { unixMs, events: [] };
  }

  /** Says that the host's clock has been set, once enough lines agree, and from when. */
  #hostClockMove(witness: Witness): readonly ClockEvent[] {
    const agree = this.#witnesses.every(({ aheadMs }) => Math.abs(aheadMs - witness.aheadMs) <= usualDelay);
    this.#witnesses = [...(agree ? this.#witnesses : []), witness];
    const [{ unixMs, uptimeMs }] = this.#witnesses;
    if (this.#witnesses.length < fewestWitnesses || witness.uptimeMs - uptimeMs < shortestWitness) return [];
    // A line can only be late, so the least delayed one tells the move best.
    const byMs = Math.min(...this.#witnesses.map(({ aheadMs }) => aheadMs));
    this.#hostAheadMs += byMs;
    this.#witnesses = [];
    return [{ kind: "host-clock-moved", unixMs, byMs }];
  }

  #placeAgain(uptimeMs: number): number {
    const after = this.#rounds.findIndex((round) => round.uptimeMs >= uptimeMs);
    const [before, next] = [this.#rounds[after - 1], this.#rounds[after]];
    const backwards = next.unixMs - (next.uptimeMs - uptimeMs);
    // Between two rounds that ran apart from the uptime, never before the earlier one.
    return before === undefined ? backwards : Math.max(backwards, before.unixMs + 1);
  }
}

const between = (least: number, most: number, value: number) => Math.min(most, Math.max(least, value));
