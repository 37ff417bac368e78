// The unit of a temperature column: from its header, the row of units below it, the cells themselves, or values that
// are possible in one unit only.

import { kelvinOfZeroCelsius, type Position, type TemperatureUnit } from "../schema/index.ts";

const written: readonly (readonly [TemperatureUnit, RegExp])[] = [
  ["Cel", /[°º˚]\s*c\b|\bdeg\.?\s*c\b|\bdegc\b|celsius|℃|[([]\s*c\s*[)\]]|^c$|\bcel\b/i],
  ["[degF]", /[°º˚]\s*f\b|\bdeg\.?\s*f\b|\bdegf\b|fahrenheit|℉|[([]\s*f\s*[)\]]|^f$|\[degf\]/i],
  ["K", /kelvin|[([]\s*k\s*[)\]]|^k$|[°º˚]\s*k\b/i],
];
/** "temp_c", "T1 C": a last letter behind a word for temperature. */
const lastLetter = /(?:^|[^a-z])t(?:emp(?:erature?|eratur|érature|eratura)?)?\d*[ _.-]([cfk])$/i;

/** All units that a text names; one when it is plain. */
export function unitsIn(text: string): readonly TemperatureUnit[] {
  const trimmed = text.trim();
  const found = written.filter(([, pattern]) => pattern.test(trimmed)).map(([unit]) => unit);
  const letter = lastLetter.exec(trimmed)?.[1].toLowerCase();
  if (found.length > 0 || letter === undefined) return found;
  return [letter === "c" ? "Cel" : letter === "f" ? "[degF]" : "K"];
}

/** Whether a text names volts. */
export const isInVolts = (text: string) => /\bvolts?\b|[([]\s*v\s*[)\]]|^v$|\bvdc\b|\bvac\b/i.test(text.trim());

/** Whether a text names millivolts. */
export const isInMillivolts = (text: string) => /(?<!\p{L})(?:mV|millivolts?)(?!\p{L})/iu.test(text);

/** °C of a value. */
export function celsiusOf(value: number, unit: TemperatureUnit): number {
  if (unit === "[degF]") return (value - 32) / 1.8;
  return unit === "K" ? value - kelvinOfZeroCelsius : value;
}

/** What a probe in a place can read while a fridge is tested, °C; wide, since only the impossible is ruled out. */
const possible: { readonly [P in Exclude<Position, "supply">]: readonly [number, number] } = {
  evaporator: [-60, 70],
  cabinet: [-50, 70],
  ambient: [-40, 65],
  room: [-40, 65],
  freezer: [-60, 70],
  ventOut: [-40, 150],
  flue: [-40, 700],
  boiler: [-40, 400],
};

/** Nothing in or at a fridge is hotter, in any place, °C. */
export const hottestCelsius = possible.flue[1];

/** So many freak readings rule nothing out, however short the log. */
const mostSpoilt = 3;

/** Units in which nearly all values are possible for a probe there; a spoilt reading rules nothing out. */
export function unitsPossible(values: readonly number[], position: Exclude<Position, "supply">): TemperatureUnit[] {
  const [least, most] = possible[position];
  return (["Cel", "[degF]", "K"] as const).filter((unit) => {
    const impossible = values.filter((value) => !(celsiusOf(value, unit) >= least && celsiusOf(value, unit) <= most));
    return impossible.length <= Math.max(values.length * 0.05, Math.min(mostSpoilt, Math.floor(values.length / 2)));
  });
}
