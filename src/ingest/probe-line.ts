// One line from a probe board, read. The format is explained field by field in firmware-notes/line-format.md;
// bytes become lines in board-lines.ts, lines get their place in time in board-clock.ts.

import { type Position, positions } from "../schema/index.ts";
import { lineChecksum } from "./probe-line-checksum.ts";

/** No line is longer, its end included; a longer one is noise. */
export const longestLine = 512;

/** What a value is in, as UCUM codes: °C as such; ohms and millivolts of a sensor that the host converts; volts of the supply. */
export const lineUnits = ["Cel", "Ohm", "mV", "V"] as const;
export type LineUnit = (typeof lineUnits)[number];

/** What stands at the beginning of every line, whatever its type. */
export interface LineHead {
  readonly boardId: string;
  /** Counts the board's starts: sequence and uptime begin anew with each. */
  readonly boot: number;
  /** Counts the board's lines since its start, from 1. A line sent again keeps its number. */
  readonly sequence: number;
  /** Since the board's start, on the board's own clock. Readings of one round carry the same. */
  readonly uptimeMs: number;
}

/** One probe as a board lists it. */
export interface ListedProbe {
  readonly probeId: string;
  /** Where it sits, where the board knows. */
  readonly role: Position | null;
  readonly unit: LineUnit;
  /** Smallest step of its values, in `unit`. */
  readonly resolution: number;
}

/** Why a board says hello: it has just started (and what started it), or somebody asked, or its probes changed. */
export const helloReasons = ["power-on", "brown-out", "watchdog", "reset-pin", "asked", "probes-changed"] as const;
export type HelloReason = (typeof helloReasons)[number];

/**
 * Why a probe gave no value: it does not answer, its answer is damaged, it has not measured yet since it got its power,
 * its wire is open or shorted.
 */
export const probeFaults = ["absent", "garbled", "not-measured", "open", "shorted"] as const;
export type ProbeFault = (typeof probeFaults)[number];

/** What a board does with the memory that it keeps its own lines in. */
export const memoryStates = ["resting", "keeping", "full", "sent", "erasing", "erased"] as const;
export type MemoryState = (typeof memoryStates)[number];

/** A good line. Words that this version does not know come as "other". */
export type ProbeLine =
  | (LineHead & { readonly type: "reading"; readonly probeId: string; readonly value: number; readonly unit: LineUnit })
  | (LineHead & { readonly type: "fault"; readonly probeId: string; readonly fault: ProbeFault | "other" })
  | (LineHead & {
      readonly type: "hello";
      readonly formatVersion: number;
      readonly firmware: string;
      readonly reason: HelloReason | "other";
      readonly intervalSeconds: number;
      readonly probes: readonly ListedProbe[];
    })
  /** What a board that keeps its own lines does with them, and how much of its memory they fill. */
  | (LineHead & {
      readonly type: "memory";
      readonly state: MemoryState | "other";
      readonly usedBytes: number;
      readonly sizeBytes: number;
    })
  /** The board repeats the command it has heard, so that one damaged on the way is seen. */
  | (LineHead & { readonly type: "heard"; readonly command: string })
  /** A command that the board does not know, or with a number that it does not take. */
  | (LineHead & { readonly type: "refused"; readonly command: string });

/**
 * How a line can be damaged: bytes that are no printable ASCII, too long, the checksum is missing or differs, or it is
 * right and the fields are not the format's.
 */
export type LineDamage = "not-text" | "too-long" | "no-checksum" | "checksum-differs" | "fields";

export type ParsedLine =
  | { readonly outcome: "good"; readonly line: ProbeLine }
  /** Whole, but of a type that this version does not know: to be skipped. */
  | { readonly outcome: "unknown-type"; readonly type: string; readonly head: LineHead }
  | { readonly outcome: "damaged"; readonly why: LineDamage };

/**
 * Reads one line.
 *
 * @param text the line without its line end.
 * @returns what it says, or that it is damaged: a bad line is counted, never guessed at.
 */
export function parseProbeLine(text: string): ParsedLine {
  if (text.length >= longestLine) return damaged("too-long");
  if (!/^[\x20-\x7e]*$/.test(text)) return damaged("not-text");
  const checked = /^(.+) ([0-9A-F]{4})$/.exec(text);
  if (checked === null) return damaged("no-checksum");
  const [, body, checksum] = checked;
  if (lineChecksum(body) !== checksum) return damaged("checksum-differs");
  const [type, boardId, boot, sequence, uptimeMs, ...fields] = body.split(" ");
  const head = { boardId, boot: wholeNumber(boot), sequence: wholeNumber(sequence), uptimeMs: wholeNumber(uptimeMs) };
  if (!/^[a-z-]+$/.test(type) || !isHead(head)) return damaged("fields");
  if (!Object.hasOwn(readers, type)) return { outcome: "unknown-type", type, head };
  const line = readers[type as ProbeLine["type"]](head, fields);
  return line === null ? damaged("fields") : { outcome: "good", line };
}

/** Further fields behind the known ones belong to later versions of the format and are left alone. */
const readers: Readonly<Record<ProbeLine["type"], (head: LineHead, fields: readonly string[]) => ProbeLine | null>> = {
  reading: (head, [probeId, text, unit]) => {
    const value = decimal(text);
    if (!isId(probeId) || value === null || !isOneOf(lineUnits, unit)) return null;
    return { type: "reading", ...head, probeId, value, unit };
  },
  fault: (head, [probeId, fault]) => {
    if (!isId(probeId) || fault === undefined) return null;
    return { type: "fault", ...head, probeId, fault: isOneOf(probeFaults, fault) ? fault : "other" };
  },
  hello: (head, [version, firmware, reason, interval, ...list]) => {
    const [formatVersion, intervalSeconds] = [wholeNumber(version), wholeNumber(interval)];
    const probes = list.map(listedProbe);
    if (
      formatVersion === null ||
      intervalSeconds === null ||
      !isId(firmware) ||
      !probes.every((probe) => probe !== null)
    )
      return null;
    const known = isOneOf(helloReasons, reason) ? reason : "other";
    return { type: "hello", ...head, formatVersion, firmware, reason: known, intervalSeconds, probes };
  },
  memory: (head, [state, used, size]) => {
    const [usedBytes, sizeBytes] = [wholeNumber(used), wholeNumber(size)];
    if (state === undefined || usedBytes === null || sizeBytes === null) return null;
    return { type: "memory", ...head, state: isOneOf(memoryStates, state) ? state : "other", usedBytes, sizeBytes };
  },
  heard: (head, words) => (words.length === 0 ? null : { type: "heard", ...head, command: words.join(" ") }),
  refused: (head, words) => (words.length === 0 ? null : { type: "refused", ...head, command: words.join(" ") }),
};

/** `id,role,unit,resolution`; the role is `-` where the board knows none. */
function listedProbe(text: string): ListedProbe | null {
  const [probeId, role, unit, step] = text.split(",");
  const resolution = decimal(step);
  if (!isId(probeId) || resolution === null || !isOneOf(lineUnits, unit)) return null;
  return { probeId, role: isOneOf(positions, role) ? role : null, unit, resolution };
}

const damaged = (why: LineDamage): ParsedLine => ({ outcome: "damaged", why });

type UncheckedHead = { readonly [Field in keyof LineHead]: LineHead[Field] | null | undefined };

const isHead = (head: UncheckedHead): head is LineHead =>
  isId(head.boardId ?? undefined) && head.boot !== null && head.sequence !== null && head.uptimeMs !== null;

const isId = (text: string | undefined): text is string => text !== undefined && /^[0-9A-Za-z.-]{1,32}$/.test(text);

function isOneOf<Word extends string>(words: readonly Word[], text: string | undefined): text is Word {
  return (words as readonly (string | undefined)[]).includes(text);
}

/** Not by Number alone, to which "" is 0 and "1e9" or "0x10" a number. */
const wholeNumber = (text: string | undefined) => (text !== undefined && /^\d{1,15}$/.test(text) ? Number(text) : null);

const decimal = (text: string | undefined) =>
  text !== undefined && /^-?\d{1,9}(\.\d{1,6})?$/.test(text) ? Number(text) : null;
