// The zones of an unknown log's times: said behind each, in a column, in the header, by the user, or asked for.

import { type DateOrder, isOffset, type LogFound, msPerMinute, offsetMinutesOf, offsetName } from "../schema/index.ts";
import type { Findings, LogHints, TimeColumns } from "./log-findings.ts";
import type { LogParts } from "./log-rows.ts";
import { type TimeText, wallMsOf } from "./time-text.ts";
import { ZoneClock } from "./zone-clock.ts";
import { meaningOfLetters, offsetsOfLetters } from "./zone-letters.ts";

/** What a mapping says of a log's zones. */
export interface FoundZones {
  /** Of times that say none; undefined where all do, or nobody knows. */
  readonly zone: string | undefined;
  /** Of letters behind times. */
  readonly zoneNames: { readonly [letters: string]: string };
}

/** One row's time. */
export interface TimeRow {
  readonly text: string;
  readonly parsed: TimeText;
  readonly line: number;
}

/** Whom to ask, and about what. */
export interface Asking {
  readonly time: TimeColumns;
  readonly parts: LogParts;
  readonly hints: LogHints;
  readonly findings: Findings;
}

/** One time of the log, as an example. */
interface WallTime {
  readonly text: string;
  readonly wallMs: number;
  readonly line: number;
}

/** Offsets behind the times speak for themselves; letters may have to be explained; a bare clock has to be told. */
export function zonesOf(rows: readonly TimeRow[], order: DateOrder | undefined, asking: Asking): FoundZones {
  const { findings, hints } = asking;
  const walls = rows.map(({ text, parsed, line }) => ({ text, line, parsed, wallMs: wallMsOf(parsed, order) }));
  const named = walls.filter(({ parsed }) => parsed.zoneName !== null);
  const bare = walls.filter(({ parsed }) => parsed.offsetMinutes === null && parsed.zoneName === null);
  const own = rows.find(({ parsed }) => parsed.offsetMinutes !== null)?.parsed.offsetMinutes ?? null;
  if (own !== null && bare.length === 0) findings.sure.push({ code: "zone", zone: offsetName(own), from: "text" });
  const names = new Set(named.map(({ parsed }) => parsed.zoneName ?? ""));
  const zoneNames = Object.fromEntries(
    [...names].flatMap((name) => {
      const meaning = meaningOfName(
        name,
        named.filter(({ parsed }) => parsed.zoneName === name),
        asking,
      );
      return meaning === undefined ? [] : [[name, meaning] as const];
    }),
  );
  if (bare.length > 0) return { zoneNames, zone: zoneOfClock(bare[0], asking) };
  // Letters that come further down may be some that only a zone explains.
  return { zoneNames, zone: named.length > 0 ? hints.zone : undefined };
}

/** What the mapping has to say of a name behind the times; undefined where the name says all, or a question is open. */
function meaningOfName(name: string, rows: readonly WallTime[], { hints, findings }: Asking): string | undefined {
  if (name.includes("/")) {
    findings.sure.push({ code: "zone", zone: name, from: "text" });
    return undefined;
  }
  const dated = rows.filter(({ wallMs }) => Number.isFinite(wallMs));
  // The order of day and month is asked first.
  if (dated.length === 0) return undefined;
  const told = { told: hints.zone, here: hints.here?.() };
  const meaning = meaningOfLetters(
    name,
    dated.map(({ wallMs }) => wallMs),
    told,
  );
  if (meaning.outcome === "settled") {
    findings.sure.push({ code: "zone-letters", letters: name, zone: meaning.zone, from: meaning.from });
    const offsets = new Set(offsetsOfLetters(name).map(offsetName));
    return offsets.size === 1 && offsets.has(meaning.zone) ? undefined : meaning.zone;
  }
  const { text, line, wallMs } = dated[meaning.row];
  const readings = meaning.zones.map((answer) => ({ answer, unixMs: instantIn(answer, wallMs) }));
  findings.questions.push({ about: "zone", line, text, letters: name, readings });
  return undefined;
}

/** The zone of a clock that does not say it; undefined when nobody knows. */
export function zoneOfClock(
  { text, wallMs, line }: WallTime,
  { time, parts, hints, findings }: Asking,
): string | undefined {
  const stated = statedZone([...time.time.texts, ...(time.date?.texts ?? [])], parts);
  const zone = stated ?? hints.zone;
  if (zone !== undefined) {
    findings.sure.push({ code: "zone", zone, from: stated === undefined ? "told" : "header" } satisfies LogFound);
    return zone;
  }
  const here = hints.here?.() ?? "Z";
  const offered = here === "UTC" ? ["Z"] : [...new Set([here, "Z"])];
  const readings = offered.map((answer) => ({ answer, unixMs: instantIn(answer, wallMs) }));
  findings.questions.push({ about: "zone", line, text, letters: null, readings });
  return undefined;
}

function instantIn(zone: string, wallMs: number): number {
  if (Number.isNaN(wallMs)) return wallMs;
  if (isOffset(zone)) return wallMs - offsetMinutesOf(zone) * msPerMinute;
  return new ZoneClock(zone).instants(wallMs)[0]?.unixMs ?? Number.NaN;
}

/** "Time (UTC)", "Date Time, GMT+02:00", or a line before the header that speaks of the time zone. */
function statedZone(timeTexts: readonly string[], { before }: LogParts): string | undefined {
  const lines = before
    .map(({ cells }) => cells.join(" "))
    .filter((line) => /time ?zone|zeitzone|fuseau|fuso|tijdzone|tidszon|huso/i.test(line));
  const zones = [...timeTexts, ...lines].flatMap((text) => {
    const said = /\b(?:UTC|GMT)\s*([+\u2212-]\d{1,2}(?::?\d\d)?)?(?!\w)/i.exec(text);
    if (said === null) return [];
    const [sign, digits] = [said[1]?.[0] === "+" ? "+" : "-", said[1]?.slice(1) ?? ""];
    const hours = digits.split(":")[0].length === 1 ? `0${digits}` : digits;
    const minutes = digits === "" ? 0 : offsetMinutesOf(sign + hours);
    return Number.isNaN(minutes) ? [] : [offsetName(minutes)];
  });
  return new Set(zones).size === 1 ? zones[0] : undefined;
}
