// A board on a serial port as arrivals: its lines placed in time and at their positions, what was missed asked for again,
// and everything that is no reading told as an event.

import {
  BoardClock,
  type BoardCommand,
  BoardLines,
  type ClockEvent,
  commandText,
  type HeardLine,
  type LineCounts,
  type PlacedLine,
  type PortHappening,
  type ProbeLine,
} from "../../ingest/index.ts";
import type { Position } from "../../schema/index.ts";
import type { NewReading, RunEvent } from "../../store/index.ts";
import type { Arrival } from "./arrival.ts";

/** Where a recording of this board stopped, to go on from. */
export interface LastLine extends PlacedLine {
  readonly boardId: string;
  readonly sequence: number;
}

export interface BoardArrivalsOptions {
  /** Where each probe sits, by its id. A hello that names roles fills in what is missing. */
  readonly roles: ReadonlyMap<string, Position>;
  /** Null for a new recording. */
  readonly last: LastLine | null;
  /** Says something to the board. */
  say(text: string): void;
  /** Told of every hello, before its readings. */
  whenHello?(hello: Extract<ProbeLine, { type: "hello" }>): void;
}

/** A board's arrivals, with the lines counted so far. */
export interface BoardArrivals extends AsyncIterable<Arrival> {
  readonly counts: LineCounts;
}

/** Missed lines are asked for again at most this often, ms: a board that has them no more would be asked for ever. */
const askAgainMs = 10_000;

/** Makes arrivals of what a port does. One board per port. */
export function boardArrivals(happenings: AsyncIterable<PortHappening>, options: BoardArrivalsOptions): BoardArrivals {
  const { last } = options;
  const lines = new BoardLines(last === null ? [] : [last]);
  const board = new BoardOnPort(options);
  return {
    get counts() {
      return lines.counts;
    },
    async *[Symbol.asyncIterator]() {
      for await (const happening of happenings) {
        switch (happening.kind) {
          case "opened":
            board.greet();
            break;
          case "bytes":
            yield* board.take(lines.push(happening.bytes), happening.hostUnixMs);
            break;
          case "lost":
          case "silent":
            yield* board.gone(happening.kind === "lost" ? "board-unplugged" : "board-silent", happening.hostUnixMs);
            break;
        }
      }
    },
  };
}

/** What is known of the board while it is listened to. */
class BoardOnPort {
  readonly #options: BoardArrivalsOptions;
  readonly #clock: BoardClock;
  readonly #roles: Map<string, Position>;
  #newest: { readonly boardId: string; readonly boot: number; readonly sequence: number } | null;
  #askedAtMs = Number.NEGATIVE_INFINITY;
  /** Probes without a role, each told once. */
  readonly #unplaced = new Set<string>();

  constructor(options: BoardArrivalsOptions) {
    this.#options = options;
    this.#clock = new BoardClock(options.last ?? undefined);
    this.#roles = new Map(options.roles);
    this.#newest = options.last;
  }

  /** The port is there: who are you, and what have I missed? */
  greet(): void {
    this.#say({ ask: "identify" });
    if (this.#newest !== null) this.#say({ ask: "resend", fromSequence: this.#newest.sequence + 1 });
  }

  gone(kind: "board-unplugged" | "board-silent", hostUnixMs: number): Arrival[] {
    const boardId = this.#newest?.boardId;
    const event = { kind, fromUnixMs: hostUnixMs, ...(boardId === undefined ? {} : { boardId }) };
    return [
      { kind: "happened", event },
      { kind: "quiet", unixMs: hostUnixMs },
    ];
  }

  take(heard: readonly HeardLine[], hostUnixMs: number): Arrival[] {
    const readings: NewReading[] = [];
    const happened: RunEvent[] = [];
    for (const each of heard) {
      if (each.outcome === "damaged") {
        happened.push({ kind: "line-damaged", fromUnixMs: hostUnixMs, details: { why: each.why, text: each.text } });
      }
      if (each.outcome !== "good" || each.isRepeat) continue;
      const { line } = each;
      if (each.missedBefore > 0) this.#askAgain(line.sequence - each.missedBefore, hostUnixMs);
      const { unixMs, events } = this.#clock.place(line, hostUnixMs);
      happened.push(...events.map((event) => clockEvent(event, line.boardId)));
      if (this.#newest === null || line.boot !== this.#newest.boot || line.sequence > this.#newest.sequence)
        this.#newest = { boardId: line.boardId, boot: line.boot, sequence: line.sequence };
      if (line.type === "hello") happened.push(...this.#hello(line, unixMs));
      if (line.type === "fault") happened.push(this.#fault(line, unixMs));
      if (line.type === "reading") {
        const reading = this.#reading(line, unixMs, hostUnixMs);
        if ("position" in reading) readings.push(reading);
        else happened.push(...reading.instead);
      }
    }
    return [
      ...happened.map((event): Arrival => ({ kind: "happened", event })),
      ...(readings.length > 0
        ? [{ kind: "readings" as const, readings: readings.toSorted((a, b) => a.unixMs - b.unixMs) }]
        : []),
    ];
  }

  #say(command: BoardCommand): void {
    this.#options.say(commandText(command));
  }

  #askAgain(fromSequence: number, hostUnixMs: number): void {
    if (Math.abs(hostUnixMs - this.#askedAtMs) < askAgainMs) return;
    this.#askedAtMs = hostUnixMs;
    this.#say({ ask: "resend", fromSequence });
  }

  #hello(hello: Extract<ProbeLine, { type: "hello" }>, unixMs: number): RunEvent[] {
    for (const { probeId, role } of hello.probes) {
      if (role !== null && !this.#roles.has(probeId)) this.#roles.set(probeId, role);
    }
    this.#options.whenHello?.(hello);
    // Asked for or not, a hello that follows a start says why the board started; the clock tells of the start itself.
    return hello.reason === "asked"
      ? []
      : [
          {
            kind: "board-hello",
            fromUnixMs: unixMs,
            boardId: hello.boardId,
            details: { reason: hello.reason, firmware: hello.firmware },
          },
        ];
  }

  #fault(line: Extract<ProbeLine, { type: "fault" }>, unixMs: number): RunEvent {
    const position = this.#roles.get(line.probeId);
    return {
      kind: "probe-silent",
      fromUnixMs: unixMs,
      boardId: line.boardId,
      ...(position === undefined ? {} : { position }),
      details: { probe: line.probeId, fault: line.fault },
    };
  }

  #reading(
    line: Extract<ProbeLine, { type: "reading" }>,
    unixMs: number,
    hostUnixMs: number,
  ): NewReading | { readonly instead: readonly RunEvent[] } {
    const { probeId, boardId, boot, sequence, uptimeMs, value: raw } = line;
    const position = this.#roles.get(probeId);
    const unit = position === "supply" || line.unit === "V" || line.unit === "Cel" ? undefined : line.unit;
    if (position === undefined || (unit === undefined && line.unit !== (position === "supply" ? "V" : "Cel"))) {
      if (this.#unplaced.has(probeId)) return { instead: [] };
      this.#unplaced.add(probeId);
      const details = { probe: probeId, unit: line.unit };
      return { instead: [{ kind: "probe-without-position", fromUnixMs: unixMs, boardId, details }] };
    }
    const reading = { position, unixMs, raw, probeId, boardId, boot, sequence, uptimeMs, hostUnixMs };
    // Ohms and millivolts are kept as they came; the probe's curve makes them °C whenever they are read.
    return unit === undefined ? reading : { ...reading, unit };
  }
}

function clockEvent(event: ClockEvent, boardId: string): RunEvent {
  const at = { fromUnixMs: event.unixMs, boardId };
  switch (event.kind) {
    case "restarted":
      return { kind: "board-restarted", ...at, details: { fromBoot: event.fromBoot, toBoot: event.toBoot } };
    case "host-clock-moved":
      return { kind: "host-clock-moved", ...at, details: { byMs: event.byMs } };
    case "unknown-gap":
      return { kind: "gap-of-unknown-length", ...at };
  }
}
