// What helps on a hot day and on the way there, each with its cautions.

import { type Forecast, type HeatSource, heatSources, msPerHour } from "../../schema/index.ts";
import { isKnown } from "../numbers/estimate.ts";
import { hourOfDay } from "../plan/day-hours.ts";
import type { CautionCode } from "../sayings.ts";
import type { HotDaySource, Load, Trip } from "./hot-day-findings.ts";
import type { HotDayAdvice, HotDayAdviceCode } from "./hot-day-sayings.ts";

const cautionsOf: { readonly [A in HotDayAdviceCode]: readonly CautionCode[] } = {
  "cool-down-on-mains": ["mains", "night"],
  "load-cold": ["food"],
  "gas-on-the-road": ["road", "gas"],
  "gas-while-driving": ["road", "gas"],
  "gas-at-night": ["night", "gas"],
  "dc12-on-charge": ["dc12"],
  "shade-the-wall": ["road"],
  "fan-at-the-rear": ["dc12", "gas"],
  "record-hotter": ["night", "two-sources"],
  "record-the-source": ["night", "two-sources"],
  "record-empty": ["night", "two-sources", "food"],
};

/** Advice that is itself a run: whatever holds for running on the source holds for it. */
const runsAgain: ReadonlySet<HotDayAdviceCode> = new Set(["record-hotter", "record-the-source", "record-empty"]);

/** Every advice there is. */
export const adviceCodes = Object.keys(cautionsOf) as readonly HotDayAdviceCode[];

/**
 * An advice with the cautions that belong to it: the one way to make it.
 *
 * @param source that it is about; null when it may be any.
 */
export function adviceFor(advice: HotDayAdviceCode, source: HeatSource | null = null): HotDayAdvice {
  const ofSource: readonly CautionCode[] = source === null ? heatSources : [source];
  return { advice, cautions: [...cautionsOf[advice], ...(runsAgain.has(advice) ? ofSource : [])] };
}

/** @param asked the source that the answer is about. */
export function hotDayAdvice(
  asked: HotDaySource,
  trip: Trip | null,
  forecast: Forecast | null,
  load: Load | null,
): readonly HotDayAdvice[] {
  const rows = forecast?.rows ?? [];
  const uses = (source: HeatSource) => rows.some((row) => row.source === source);
  const drivesOnGas = rows.some((row) => row.source === "gas" && row.driving);
  const blocked = trip?.hours.find((hour) => !isKnown(hour.cabinet))?.source ?? null;
  const isHotFor8 = isKnown(asked.settled) && !((asked.settled.high ?? Infinity) <= 8);
  const holdsGoods = !isKnown(asked.settled) && asked.settled.why.code === "goods-may-have-cooled";
  const wanted: readonly (readonly [boolean, HotDayAdviceCode])[] = [
    [trip !== null, "cool-down-on-mains"],
    [trip !== null || load !== null, "load-cold"],
    [uses("gas"), drivesOnGas ? "gas-while-driving" : "gas-on-the-road"],
    [forecast !== null && gasAtNight(forecast), "gas-at-night"],
    [uses("dc12") || (trip === null && asked.source === "dc12"), "dc12-on-charge"],
    [isHotFor8 || rows.some((row) => row.sun), "shade-the-wall"],
    [isHotFor8, "fan-at-the-rear"],
    [holdsGoods, "record-empty"],
    [!holdsGoods && (blocked !== null || !isKnown(asked.settled)), "record-the-source"],
    [asked.isExtrapolated, "record-hotter"],
  ];
  const codes = new Set(wanted.filter(([is]) => is).map(([, code]) => code));
  const aboutSource = blocked === null || blocked === "off" ? asked.source : blocked;
  return [...codes].map((code) => adviceFor(code, aboutSource));
}

/** Whether some gas hours lie between 22:00 and 06:00 of the forecast's own clock. */
function gasAtNight({ rows, utcOffsetMinutes }: Forecast): boolean {
  return rows.slice(0, -1).some(({ source, unixMs }, i) => {
    if (source !== "gas") return false;
    for (let ms = unixMs; ms < rows[i + 1].unixMs; ms += msPerHour / 2) {
      const hour = hourOfDay(ms, utcOffsetMinutes);
      if (hour >= 22 || hour < 6) return true;
    }
    return false;
  });
}
