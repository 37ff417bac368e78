// The letters that clocks write behind a time, such as CEST: which offsets they stand for, and in which zones. Many stand
// for several; and a clock that was never put forward writes winter's letters in summer, as does a program that knows
// only one name for its zone. So letters have readings, as dates do.

import { isOffset, msPerDay, offsetMinutesOf, offsetName } from "../schema/index.ts";
import { ZoneClock } from "./zone-clock.ts";

/**
 * Letters, the offset in minutes east of UTC, and a zone that goes by them. Source: abbreviations in use since 2010 in
 * the tz database (IANA, release 2025b), tests/reference/zone-letters.json. MEZ and MESZ are German for CET and CEST.
 */
const known: readonly (readonly [letters: string, offsetMinutes: number, zone: string])[] = [
  ["WET", 0, "Europe/Lisbon"],
  ["WEST", 60, "Europe/Lisbon"],
  ["BST", 60, "Europe/London"],
  ["CET", 60, "Europe/Paris"],
  ["CEST", 120, "Europe/Paris"],
  ["MEZ", 60, "Europe/Berlin"],
  ["MESZ", 120, "Europe/Berlin"],
  ["EET", 120, "Europe/Helsinki"],
  ["EEST", 180, "Europe/Helsinki"],
  ["MSK", 180, "Europe/Moscow"],
  ["MSK", 240, "Europe/Moscow"],
  ["MSD", 240, "Europe/Moscow"],
  ["IST", 60, "Europe/Dublin"],
  ["IST", 120, "Asia/Jerusalem"],
  ["IST", 330, "Asia/Kolkata"],
  ["IDT", 180, "Asia/Jerusalem"],
  ["WAT", 60, "Africa/Lagos"],
  ["CAT", 120, "Africa/Maputo"],
  ["SAST", 120, "Africa/Johannesburg"],
  ["EAT", 180, "Africa/Nairobi"],
  ["PKT", 300, "Asia/Karachi"],
  ["WIB", 420, "Asia/Jakarta"],
  ["WITA", 480, "Asia/Makassar"],
  ["WIT", 540, "Asia/Jayapura"],
  ["HKT", 480, "Asia/Hong_Kong"],
  ["JST", 540, "Asia/Tokyo"],
  ["KST", 510, "Asia/Pyongyang"],
  ["KST", 540, "Asia/Seoul"],
  ["AWST", 480, "Australia/Perth"],
  ["ACST", 570, "Australia/Adelaide"],
  ["ACDT", 630, "Australia/Adelaide"],
  ["AEST", 600, "Australia/Sydney"],
  ["AEDT", 660, "Australia/Sydney"],
  ["CHST", 600, "Pacific/Guam"],
  ["NZST", 720, "Pacific/Auckland"],
  ["NZDT", 780, "Pacific/Auckland"],
  ["NST", -210, "America/St_Johns"],
  ["NDT", -150, "America/St_Johns"],
  ["AST", -240, "America/Halifax"],
  ["ADT", -180, "America/Halifax"],
  ["EST", -300, "America/New_York"],
  ["EDT", -240, "America/New_York"],
  ["CST", -360, "America/Chicago"],
  ["CST", -300, "America/Havana"],
  ["CST", 480, "Asia/Shanghai"],
  ["CDT", -300, "America/Chicago"],
  ["CDT", -240, "America/Havana"],
  ["MST", -420, "America/Denver"],
  ["MDT", -360, "America/Denver"],
  ["PST", -480, "America/Los_Angeles"],
  ["PST", 480, "Asia/Manila"],
  ["PDT", -420, "America/Los_Angeles"],
  ["AKST", -540, "America/Anchorage"],
  ["AKDT", -480, "America/Anchorage"],
  ["HST", -600, "Pacific/Honolulu"],
  ["HDT", -540, "America/Adak"],
  ["SST", -660, "Pacific/Pago_Pago"],
  // From memory: written there by people and by older programs, while the tz database has numbers or other letters now.
  ["BST", 360, "Asia/Dhaka"],
  ["AST", 180, "Asia/Riyadh"],
  ["EST", 600, "Australia/Brisbane"],
  ["EDT", 660, "Australia/Sydney"],
];

const byLetters = Map.groupBy(known, ([letters]) => letters);

/** What one log's letters were found to mean, or what they can mean. */
export type LettersMeaning =
  | { readonly outcome: "settled"; readonly zone: string; readonly from: "only-one" | "told" }
  /** `row`: the place in `walls` of the time that can be read so. */
  | { readonly outcome: "open"; readonly zones: readonly string[]; readonly row: number };

/**
 * What letters mean in one log.
 *
 * @param walls the log's times with these letters, as if UTC, ms; at least one, and each of them a number
 * @param told the zone that the user named, an offset or a zone
 * @param here the zone of this computer: named first among the readings, and in the place of another that goes by the
 *   same letters
 * @returns an offset, or a zone where the letters are taken as its local time
 */
export function meaningOfLetters(
  letters: string,
  walls: readonly number[],
  { told, here }: { readonly told?: string | undefined; readonly here?: string | undefined },
): LettersMeaning {
  const readings = readingsOf(letters, walls, [told, here]);
  if (told !== undefined) {
    const fits = ({ offsetMinutes }: Reading) => offsetMinutes !== undefined && hasOffset(told, offsetMinutes, walls);
    const meant = readings.find(fits) ?? readings.find(({ zone }) => zone === told);
    if (meant !== undefined) return { outcome: "settled", zone: meaningOf(meant), from: "told" };
  }
  const [first, ...others] = new Set(readings.map(meaningOf));
  if (first !== undefined && others.length === 0) return { outcome: "settled", zone: first, from: "only-one" };
  const zones = [...new Set(readings.map(({ zone }) => zone))].sort((a, b) => Number(b === here) - Number(a === here));
  return { outcome: "open", zones, row: Math.max(0, ...readings.map(({ row }) => row)) };
}

const meaningOf = ({ offsetMinutes, zone }: Reading) =>
  offsetMinutes === undefined ? zone : offsetName(offsetMinutes);

/** Whether letters stand for a zone. */
export const isZoneLetters = (letters: string): boolean => byLetters.has(letters);

/** The offsets that letters can stand for, minutes. */
export const offsetsOfLetters = (letters: string): readonly number[] =>
  (byLetters.get(letters) ?? []).map(([, offsetMinutes]) => offsetMinutes);

interface Reading {
  /** What the user says to choose it. */
  readonly zone: string;
  /** What every time then has; undefined where it is the zone's own, summer and winter. */
  readonly offsetMinutes: number | undefined;
  /** The first time at which clocks of the zone do not show the letters; -1 where there is none. */
  readonly row: number;
}

/** Where all clocks of the zone show the letters then, that is one reading; else there are two: the letters, or the zone. */
function readingsOf(letters: string, walls: readonly number[], preferred: readonly (string | undefined)[]): Reading[] {
  const inUse = (byLetters.get(letters) ?? []).filter(([, offsetMinutes, zone]) =>
    yearOffsets(zone, walls[0]).includes(offsetMinutes),
  );
  return inUse.flatMap(([, offsetMinutes, usual]): Reading[] => {
    const zone = preferred.find((name) => name !== undefined && isLike(name, usual, walls[0])) ?? usual;
    const row = walls.findIndex((wall) => !hasOffset(zone, offsetMinutes, [wall]));
    if (row < 0) return [{ zone, offsetMinutes, row }];
    return [
      { zone: offsetName(offsetMinutes), offsetMinutes, row },
      { zone, offsetMinutes: undefined, row },
    ];
  });
}

/** Whether clocks of a zone, or at an offset, are that far from UTC at all of these times. */
function hasOffset(zone: string, offsetMinutes: number, walls: readonly number[]): boolean {
  if (isOffset(zone)) return offsetMinutesOf(zone) === offsetMinutes;
  const clock = clockOf(zone);
  return walls.every((wall) => clock.instants(wall).some(({ utcOffsetMinutes }) => utcOffsetMinutes === offsetMinutes));
}

/** Whether two zones keep the same time, in winter and in summer. */
const isLike = (zone: string, other: string, wallMs: number) =>
  !isOffset(zone) && `${yearOffsets(zone, wallMs)}` === `${yearOffsets(other, wallMs)}`;

/** At the beginning of that year, and half a year on. */
function yearOffsets(zone: string, wallMs: number): readonly number[] {
  const start = Date.UTC(new Date(wallMs).getUTCFullYear(), 0, 10);
  const clock = clockOf(zone);
  return [start, start + 182 * msPerDay].map((wall) => clock.instants(wall)[0].utcOffsetMinutes);
}

const clocks = new Map<string, ZoneClock>();
/** `instants` alone is asked of these, which follows no log. */
function clockOf(zone: string): ZoneClock {
  const clock = clocks.get(zone) ?? new ZoneClock(zone);
  clocks.set(zone, clock);
  return clock;
}
