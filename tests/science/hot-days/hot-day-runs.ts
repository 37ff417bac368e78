// Runs and forecasts for the tests of hot days: the simulator is the truth behind them.

import type { EnergySource, Forecast, ForecastRow } from "../../../src/schema/index.ts";
import { type HotDay, type HotDayOptions, hotDay } from "../../../src/science/hot-days/index.ts";
import type { Answer, Estimate } from "../../../src/science/index.ts";
import { isKnown } from "../../../src/science/index.ts";
import { simulated } from "../simulated-runs.ts";

/** A fridge seen at 19, 23 and 28 °C, on mains and on gas. */
export const seenAt = (ambients: readonly number[], seed = 500) =>
  ambients.map((meanCelsius, i) => simulated(seed + i, { ambient: { meanCelsius, swingKelvin: 2 } }).recording);

export const logs = seenAt([19, 23, 28]);

export const hour = 3_600_000;
export const tripStart = Date.parse("2026-07-10T06:00:00Z");

export type Part = readonly [hours: number, ambient: number, source: EnergySource, extra?: Partial<ForecastRow>];

/** One row per part, and the end. */
export function forecastOf(...parts: readonly Part[]): Forecast {
  let at = 0;
  const rows = parts.map(([hours, ambient, source, extra]): ForecastRow => {
    const row = { unixMs: tripStart + at * hour, ambient, source, sun: false, driving: false, ...extra };
    at += hours;
    return row;
  });
  const last = rows[rows.length - 1];
  return {
    name: "trip.forecast.csv",
    sha256: "0".repeat(64),
    utcOffsetMinutes: 120,
    rows: [...rows, { ...last, unixMs: tripStart + at * hour }],
  };
}

export const predicted = (options: HotDayOptions, from = logs): HotDay => hotDay(from, options);

export function known(answer: Answer): Estimate {
  if (!isKnown(answer)) throw new Error(`not known: ${answer.why.code}`);
  return answer;
}

/** The whole trip, which must be there. */
export function tripOf(prediction: HotDay) {
  if (prediction.trip === null) throw new Error("no trip");
  return prediction.trip;
}
