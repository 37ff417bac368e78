// Sensor logs as SenML JSON (RFC 8428): a pack of records whose base fields hold until they are set anew. Resolved here
// record by record, then laid out as a log.

import {
  BadInput,
  type ColumnMeaning,
  energySources,
  type LogFound,
  type LogQuestion,
  type LogUnderstanding,
  type Position,
  positions,
  type RawUnit,
  type SenmlProblem,
  sourceUnsaid,
} from "../schema/index.ts";
import { headerSays } from "./column-meaning.ts";
import { parsedJson } from "./json-text.ts";
import { isPosition, type LogColumns } from "./log-columns.ts";
import { celsiusOf } from "./temperature-unit.ts";
import { refuseUnknownColumns } from "./told-columns.ts";
import { showable, UnreadableTally } from "./unreadable-cells.ts";

/** One record without base fields (RFC 8428, section 4.6). One of the values, or a sum alone. */
export interface SenmlRecord {
  readonly n: string;
  /** Seconds since 1970; null when only "now" is meant and nobody told when that was. */
  readonly t: number;
  readonly u?: string;
  readonly v?: number;
  readonly vs?: string;
  readonly vb?: boolean;
  readonly vd?: string;
  readonly s?: number;
  readonly ut?: number;
  readonly bver?: number;
}

/** Times below this are relative to now (RFC 8428, section 4.5.3). */
const relativeBelow = 2 ** 28;
const usualVersion = 10;

/**
 * Resolves a pack.
 *
 * @param told.unixMs the instant that relative times count from; without it such a record is refused
 * @throws BadInput "not-senml", naming the record
 */
export function resolveSenml(pack: unknown, file: string, told: { readonly unixMs?: number } = {}): SenmlRecord[] {
  const refuse = (record: number, problem: SenmlProblem, text = "") =>
    new BadInput({ code: "not-senml", file, record, problem, text: showable(text) });
  if (!Array.isArray(pack)) throw refuse(0, "no-pack");
  const base: Base = { bn: "", bt: 0, bv: 0, bs: 0 };
  return pack.flatMap((given: unknown, index) => {
    if (typeof given !== "object" || given === null || Array.isArray(given)) throw refuse(index + 1, "no-record");
    const record = given as Record<string, unknown>;
    const wrong = wrongLabel(record);
    if (wrong) throw refuse(index + 1, wrong.problem, wrong.label);
    takeBase(base, record);
    if ((base.bver ?? usualVersion) > usualVersion) throw refuse(index + 1, "newer-version", `${base.bver}`);
    if (!valueLabels.some((label) => label in record) && !("s" in record)) {
      if (Object.keys(record).every((label) => label in baseLabels)) return [];
      throw refuse(index + 1, "no-value");
    }
    const resolved = resolve(base, record as Fields, told.unixMs);
    if (!/^[A-Za-z0-9][A-Za-z0-9:./_-]*$/.test(resolved.n)) throw refuse(index + 1, "no-name", resolved.n);
    if (Number.isNaN(resolved.t)) throw refuse(index + 1, "relative-time", resolved.n);
    return [resolved];
  });
}

interface Base {
  bn: string;
  bt: number;
  bu?: string;
  bv: number;
  bs: number;
  bver?: number;
}

type Fields = Partial<SenmlRecord> & Partial<Base>;

const baseLabels = { bn: "string", bt: "number", bu: "string", bv: "number", bs: "number", bver: "number" } as const;
const ownLabels = {
  n: "string",
  u: "string",
  v: "number",
  vs: "string",
  vb: "boolean",
  vd: "string",
  s: "number",
  t: "number",
  ut: "number",
} as const;
const valueLabels = ["v", "vs", "vb", "vd"] as const;
const labelTypes: ReadonlyMap<string, string> = new Map(Object.entries({ ...baseLabels, ...ownLabels }));

/** A label that must be understood and is not, one of the wrong type, or two values in one record. */
function wrongLabel(record: Record<string, unknown>): { problem: SenmlProblem; label: string } | undefined {
  for (const [label, value] of Object.entries(record)) {
    const type = labelTypes.get(label);
    if (type === undefined && label.endsWith("_")) return { problem: "must-understand", label };
    if (type !== undefined && typeof value !== type) return { problem: "wrong-type", label };
  }
  const values = valueLabels.filter((label) => label in record);
  return values.length > 1 ? { problem: "several-values", label: values.join(", ") } : undefined;
}

function takeBase(base: Base, { bn, bt, bu, bv, bs, bver }: Fields): void {
  if (bn !== undefined) base.bn = bn;
  if (bt !== undefined) base.bt = bt;
  if (bu !== undefined) base.bu = bu;
  if (bv !== undefined) base.bv = bv;
  if (bs !== undefined) base.bs = bs;
  if (bver !== undefined) base.bver = bver;
}

function resolve(base: Base, own: Fields, nowUnixMs: number | undefined): SenmlRecord {
  const time = base.bt + (own.t ?? 0);
  const { vs, vb, vd, ut } = own;
  const unit = own.u ?? base.bu;
  return {
    n: base.bn + (own.n ?? ""),
    t: time >= relativeBelow ? time : nowUnixMs === undefined ? Number.NaN : nowUnixMs / 1000 + time,
    ...(unit === undefined ? {} : { u: unit }),
    ...(own.v === undefined ? {} : { v: base.bv + own.v }),
    ...(vs === undefined ? {} : { vs }),
    ...(vb === undefined ? {} : { vb }),
    ...(vd === undefined ? {} : { vd }),
    ...(own.s === undefined ? {} : { s: base.bs + own.s }),
    ...(ut === undefined ? {} : { ut }),
    ...(base.bver === undefined || base.bver === usualVersion ? {} : { bver: base.bver }),
  };
}

/** Whether a file begins like a SenML pack: a list, where a log begins with a name or a time. */
export const beginsLikeSenml = (head: Uint8Array) =>
  /^(?:\u00ef\u00bb\u00bf)?\s*\[\s*(\{|\])/.test(String.fromCharCode(...head.subarray(0, 200)));

export interface SenmlHints {
  /** By the record's whole name. */
  readonly columns?: ReadonlyMap<string, ColumnMeaning>;
  readonly nowUnixMs?: number;
}

/** A pack as a log, with how it was understood; `columns` is null while a question is open. */
export interface SenmlLog {
  readonly columns: LogColumns | null;
  readonly understanding: LogUnderstanding;
}

/**
 * Reads a SenML file as a log: every name that speaks of a position becomes one, in °C from Cel or K, the supply in V.
 * A string value under a name that speaks of the source is the energy source.
 *
 * @throws BadInput "not-json" or "not-senml"
 */
export function readSenml(bytes: Uint8Array, file: string, hints: SenmlHints = {}): SenmlLog {
  const pack = parsedJson(new TextDecoder().decode(bytes), file);
  const records = resolveSenml(pack, file, hints.nowUnixMs === undefined ? {} : { unixMs: hints.nowUnixMs });
  const sure: LogFound[] = [{ code: "senml", records: records.length }];
  const questions: LogQuestion[] = [];
  const meanings = meaningsOf(records, hints, sure, questions);
  const columns = questions.length > 0 ? null : laidOut(records, meanings, sure);
  if (columns !== null && !Object.values(columns.columns).some((values) => values.some(Number.isFinite))) {
    throw new BadInput({ code: "not-senml", file, record: 0, problem: "no-reading", text: "" });
  }
  return { columns, understanding: { mapping: null, sure, questions, firstRows: columns ? firstRows(columns) : [] } };
}

type Meanings = ReadonlyMap<string, Position | "source">;

function meaningsOf(
  records: readonly SenmlRecord[],
  { columns }: SenmlHints,
  sure: LogFound[],
  questions: LogQuestion[],
): Meanings {
  const meanings = new Map<string, Position | "source">();
  const firstOf = new Map<string, { readonly record: SenmlRecord; readonly index: number }>();
  for (const [index, record] of records.entries()) {
    const isReading = record.v !== undefined || record.vs !== undefined;
    if (isReading && !firstOf.has(record.n)) firstOf.set(record.n, { record, index });
  }
  refuseUnknownColumns(columns, [...firstOf.keys()]);
  for (const [name, { record, index }] of firstOf) {
    const told = columns?.get(name);
    const meaning = told ?? meantBy(name, record);
    if (meaning === "ask") {
      const readings = (["evaporator", "cabinet", "ambient", "none"] as const).map((answer) => ({ answer }));
      questions.push({ about: "column", line: index + 1, column: name, text: `${record.v} ${record.u}`, readings });
    } else if (meaning === "source" || (meaning !== null && meaning !== "none" && isPosition(meaning))) {
      const other = [...meanings].find(([, taken]) => taken === meaning)?.[0];
      if (other !== undefined) {
        const readings = [other, name].map((answer) => ({ answer, text: `${firstOf.get(answer)?.record.v}` }));
        questions.push({ about: "which-column", meaning, line: index + 1, readings });
      }
      meanings.set(name, meaning);
      sure.push({ code: "column", column: name, meaning, told: told !== undefined });
    } else sure.push({ code: "column-left-out", column: name });
  }
  return meanings;
}

/** "ask": a temperature that could be any probe's; null: nothing of ours. */
function meantBy(name: string, { u, vs }: SenmlRecord): Position | "source" | "ask" | null {
  const own =
    name
      .split(/[:/]/)
      .filter((part) => part !== "")
      .pop() ?? name;
  const says = headerSays(own);
  if (vs !== undefined) return says.kind === "meaning" && says.meaning === "source" ? "source" : null;
  if (u !== "Cel" && u !== "K")
    return u === "V" ? "supply" : says.kind === "meaning" && isPosition(says.meaning) ? says.meaning : null;
  return says.kind === "meaning" && isPosition(says.meaning) && says.meaning !== "supply" ? says.meaning : "ask";
}

/** One row per instant, in order of time. */
function laidOut(records: readonly SenmlRecord[], meanings: Meanings, sure: LogFound[]): LogColumns {
  const instants = [...new Set(records.filter(({ n }) => meanings.has(n)).map(({ t }) => unixMsOf(t)))].sort(
    (a, b) => a - b,
  );
  const rowOf = new Map(instants.map((unixMs, row) => [unixMs, row]));
  const columns: { [P in Position]?: Float64Array } = {};
  const codes = [...meanings.values()].includes("source") ? new Uint8Array(instants.length).fill(sourceUnsaid) : null;
  const tally = new UnreadableTally();
  const strange = new Map<string, number>();
  for (const [index, { n, t, u, v, vs }] of records.entries()) {
    const meaning = meanings.get(n);
    const row = rowOf.get(unixMsOf(t));
    if (meaning === undefined || row === undefined) continue;
    if (meaning === "source") {
      const code = (energySources as readonly string[]).indexOf(vs?.toLowerCase() ?? "") + 1;
      if (code === 0) tally.add("source", "unknown-source", index + 1, `${vs}`);
      if (codes) codes[row] = code;
      continue;
    }
    const column = columns[meaning] ?? new Float64Array(instants.length).fill(Number.NaN);
    columns[meaning] = column;
    const value = inOurUnit(meaning, u, v);
    if (value === undefined) strange.set(u ?? "", (strange.get(u ?? "") ?? 0) + 1);
    // Of two readings at one instant the first is kept, as the store does it.
    else if (Number.isNaN(column[row])) column[row] = value;
    else if (column[row] !== value) tally.add(meaning, "not-a-number", index + 1, `${v} ${u}`);
  }
  for (const [unit, count] of strange) sure.push({ code: "senml-unit", unit: showable(unit), records: count });
  return {
    unixMs: Float64Array.from(instants),
    utcOffsetMinutes: 0,
    columns,
    sourceCodes: codes,
    unreadable: tally.list(),
    ignoredColumns: sure.flatMap((found) => (found.code === "column-left-out" ? [found.column] : [])),
  };
}

const unixMsOf = (seconds: number) => Math.round(seconds * 1000);

/** °C, or V of the supply; undefined for any other unit: a log in ohms or millivolts has no probe whose curve would be known. */
function inOurUnit(position: Position, unit: string | undefined, value: number | undefined): number | undefined {
  if (value === undefined || !Number.isFinite(value)) return undefined;
  const kept = inKeptUnit(position, unit, value);
  return kept?.unit === undefined ? kept?.raw : undefined;
}

/**
 * A record's value in a unit that readings are kept in: °C, V of the supply, or a sensor's ohms or millivolts. RFC 8428,
 * section 12.1: Cel, K, V and Ohm; RFC 8798: mV.
 *
 * @returns undefined for any other unit
 */
export function inKeptUnit(
  position: Position,
  unit: string | undefined,
  value: number,
): { readonly raw: number; readonly unit?: RawUnit } | undefined {
  if (position === "supply") return unit === "V" ? { raw: value } : undefined;
  switch (unit) {
    case "Cel":
    case "K":
      return { raw: celsiusOf(value, unit) };
    case "Ohm":
    case "mV":
      return { raw: value, unit };
    case "V":
      return { raw: value * 1000, unit: "mV" };
    default:
      return undefined;
  }
}

function firstRows({ unixMs, columns }: LogColumns): LogUnderstanding["firstRows"] {
  return Array.from(unixMs.subarray(0, 3), (instant, row) => ({
    line: row + 1,
    timeText: new Date(instant).toISOString(),
    unixMs: instant,
    utcOffsetMinutes: 0,
    values: Object.fromEntries(positions.flatMap((p) => (columns[p] ? [[p, columns[p][row]]] : []))),
  }));
}
