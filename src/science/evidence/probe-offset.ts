// Two probes in the same air do not read the same. Their offset is taken where the run is settled: before the first
// heating has made any cold. An hour after the last stretch it would cost 30 % of the fin difference.

import { median } from "simple-statistics";
import { msPerMinute } from "../../schema/index.ts";
import type { Series, Stretch } from "../readings/series.ts";

export interface ProbeOffset {
  /** Cabinet minus evaporator probe in the same air, K. */
  readonly kelvin: number;
  readonly standardError: number;
  /** Whether the run showed it; otherwise it is 0 within the probes' tolerance. */
  readonly isMeasured: boolean;
}

/** What two uncalibrated probes may differ by, K. Source: 18B20-type sensor datasheet, ±0.5 °C from -10 to +85 °C. */
export const probeTolerance = 0.5;

/** Boilers need 30 to 60 min before anything cools: common practice, no source. The first part of that is settled. */
const stillMinutes = 12;
const fewestMinutes = 15;

/** The offset from the settled rows at the start of the run. */
export function probeOffset(series: Series, stretches: readonly Stretch[]): ProbeOffset {
  const unknownOffset: ProbeOffset = { kelvin: 0, standardError: probeTolerance / 2, isMeasured: false };
  const { cabinet, evaporator, ambient } = series.columns;
  if (cabinet === undefined || evaporator === undefined || ambient === undefined || series.unixMs.length === 0)
    return unknownOffset;
  const first = stretches.find((stretch) => stretch.heated);
  if (first === undefined) return unknownOffset;
  const endMs = first.startMs + (first.startState === "cold-boiler" ? stillMinutes * msPerMinute : 0);
  const rows: number[] = [];
  for (let i = 0; i < series.unixMs.length && series.unixMs[i] < endMs; i++) {
    if (Number.isFinite(cabinet[i] + evaporator[i] + ambient[i])) rows.push(i);
  }
  // At most the last hour: further back the room may still have been moving.
  const recent = rows.filter((i) => series.unixMs[i] > endMs - 60 * msPerMinute);
  if (recent.length < 5 || endMs - series.unixMs[recent[0]] < fewestMinutes * msPerMinute) return unknownOffset;
  const differences = recent.map((i) => cabinet[i] - evaporator[i]);
  const half = Math.floor(recent.length / 2);
  const drift = median(differences.slice(half)) - median(differences.slice(0, half));
  const lift = median(recent.map((i) => ambient[i] - cabinet[i]));
  const kelvin = median(differences);
  // Settled: the difference stands still, is a probe's, and the cabinet is as warm as the air around it.
  if (Math.abs(drift) > 0.25 || Math.abs(kelvin) > 3 * probeTolerance || lift > 3) return unknownOffset;
  return { kelvin, standardError: Math.max(0.03, Math.abs(drift) / 2), isMeasured: true };
}
