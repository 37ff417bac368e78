// A trip through a forecast: where it begins, its hours, and what it rests on.

import { type Forecast, type HeatSource, msPerHour } from "../../schema/index.ts";
import type { RunEvidence } from "../evidence/run-evidence.ts";
import { type Answer, estimate, type Unknown, unknown } from "../numbers/estimate.ts";
import { foodLimit, isBeyond, noDepth, settledAt } from "../verdict/keeps-up.ts";
import { type MarchStep, marchSteps } from "./cabinet-march.ts";
import type { DepthLaw } from "./depth-law.ts";
import { allowances, type FridgeNumbers } from "./fridge-numbers.ts";
import type { Trip, TripHour } from "./hot-day-findings.ts";
import { type MarchSetting, type MarchStart, marchAll } from "./hot-day-marches.ts";
import type { HotDayReasonSaying } from "./hot-day-sayings.ts";
import { type Band, bandOf, hoursAbove, hoursUntil } from "./march-band.ts";

/** @param begin cabinet as the trip begins, °C; null to find it from the runs. */
export function tripThrough(
  forecast: Forecast,
  runs: readonly RunEvidence[],
  setting: MarchSetting,
  begin: number | null,
): Trip {
  const { fridge } = setting;
  const { rows } = forecast;
  const startMs = rows[0].unixMs;
  const steps = marchSteps(forecast);
  const start = tripStart(forecast, steps, runs, fridge, begin);
  const stop = stopIn(steps, fridge);
  const said = stop === null ? steps : steps.slice(0, stop.at + 1);
  const marches = marchAll(said, start, setting);
  const [middle] = marches;
  // Where the very first source is unknown, so is what the cabinet starts from.
  const band = bandOf(stop?.at === 0 ? [new Float64Array()] : marches, steps.length);
  const never: Answer = unknown({
    code: "never-crosses",
    celsius: foodLimit,
    settles: middle[middle.length - 1],
    falling: middle[0] > foodLimit,
  });
  return {
    startMs,
    endMs: rows[rows.length - 1].unixMs,
    start: { celsius: middle[0], from: start.kind },
    hours: tripHours(steps, band, startMs, fridge, stop),
    hoursAbove5: stop?.why ?? hoursAbove(5, said, marches),
    hoursAbove8: stop?.why ?? hoursAbove(foodLimit, said, marches),
    hoursUntil8: hoursUntil(foodLimit, said, marches) ?? stop?.why ?? never,
    crosses8: middle[0] > foodLimit ? "falling" : "rising",
    curves: {
      hours: Float64Array.from(steps, (step) => step.hours),
      ambient: Float64Array.from(steps, (step) => step.ambient),
      cabinet: band.value,
      low: band.low,
      high: band.high,
    },
    reasons: tripReasons(steps, setting, { ...start, celsius: middle[0] }, startMs, stop),
  };
}

/** The step from which on nothing can be said, because no run tells of its source. */
interface Stop {
  readonly at: number;
  readonly hours: number;
  readonly source: HeatSource;
  readonly why: Unknown;
}

function stopIn(steps: readonly MarchStep[], fridge: FridgeNumbers): Stop | null {
  // The last step has no length: whatever it is on does nothing any more.
  for (const [at, { source, hours }] of steps.slice(0, -1).entries()) {
    if (source === "off" || lawOf(fridge, source) !== null) continue;
    const own = fridge.sources.get(source);
    return { at, hours, source, why: own === undefined ? notRun(source) : noDepth(own.stretches) };
  }
  return null;
}

/** Why nothing can be said of a source: no run was on it. */
export const notRun = (source: HeatSource | null): Unknown => unknown({ code: "source-not-run", source });

const lawOf = (fridge: FridgeNumbers, source: HeatSource): DepthLaw | null => fridge.sources.get(source)?.law ?? null;

/** A log that ended this shortly before the trip tells where it begins, h. */
const freshHours = 2;
/** Clocks of loggers and people differ by this much, h. */
const clockError = 0.2;

function tripStart(
  { rows }: Forecast,
  steps: readonly MarchStep[],
  runs: readonly RunEvidence[],
  fridge: FridgeNumbers,
  begin: number | null,
): MarchStart {
  const [{ unixMs, ambient, source }] = rows;
  if (begin !== null) return { kind: "stated", celsius: begin, isCooling: source !== "off" };
  const last = lastReading(runs);
  const age = last === null ? Number.POSITIVE_INFINITY : (unixMs - last.unixMs) / msPerHour;
  if (last !== null && age >= -clockError && age <= freshHours) {
    return { kind: "last-reading", celsius: last.celsius, isCooling: last.isCooling };
  }
  const own = source === "off" ? undefined : fridge.sources.get(source);
  if (source === "off" || !own?.law) return { kind: "ambient", celsius: ambient, isCooling: false };
  return {
    kind: "settled",
    celsius: settledAt(own.law, own.held, ambient).value,
    isCooling: true,
    runUp: dayBefore(steps, source),
  };
}

function lastReading(runs: readonly RunEvidence[]) {
  const readings = runs.flatMap(({ series, stretches }) => {
    const row = series.columns.cabinet?.findLastIndex(Number.isFinite) ?? -1;
    const isCooling = stretches.toSorted((a, b) => b.stretch.endMs - a.stretch.endMs)[0]?.stretch.heated === true;
    return row < 0
      ? []
      : [{ unixMs: series.unixMs[row], celsius: series.columns.cabinet?.[row] ?? Number.NaN, isCooling }];
  });
  return readings.toSorted((a, b) => b.unixMs - a.unixMs)[0] ?? null;
}

/**
 * The cabinet trails the ambient by hours. The day before is taken to go like the trip's first day, so that one that
 * starts on a cool morning starts after a cool night; a trip shorter than a day has only its first ambient.
 */
function dayBefore(steps: readonly MarchStep[], source: HeatSource): readonly MarchStep[] {
  const firstDay = steps.filter((step) => step.hours <= 24);
  const isWhole = steps[steps.length - 1].hours >= 24;
  return firstDay.map(({ hours, ambient }) => ({
    hours,
    ambient: isWhole ? ambient : steps[0].ambient,
    source,
    sun: false,
    driving: false,
  }));
}

function tripHours(
  steps: readonly MarchStep[],
  band: Band,
  startMs: number,
  fridge: FridgeNumbers,
  stop: Stop | null,
): readonly TripHour[] {
  const last = steps[steps.length - 1].hours;
  return Array.from({ length: Math.floor(last + 1e-6) + 1 }, (_, hour) => {
    // The step that holds at the full hour.
    const i = Math.max(
      0,
      steps.findLastIndex((step) => step.hours <= hour + 1e-6),
    );
    const { hours, source, ambient, sun, driving } = steps[i];
    const law = source === "off" ? null : lawOf(fridge, source);
    const cabinet = Number.isFinite(band.value[i])
      ? estimate("Cel", band.value[i], band.low[i], band.high[i])
      : (stop?.why ?? unknown({ code: "no-numbers" }));
    return {
      unixMs: startMs + hours * msPerHour,
      source,
      ambient,
      sun,
      driving,
      cabinet,
      isExtrapolated: law !== null && isBeyond(law, ambient + (sun ? allowances.sun.kelvin : 0)),
    };
  });
}

function tripReasons(
  steps: readonly MarchStep[],
  { fridge, load }: MarchSetting,
  start: MarchStart,
  startMs: number,
  stop: Stop | null,
): readonly HotDayReasonSaying[] {
  const hoursOf = (which: (step: MarchStep) => boolean) =>
    steps.slice(1).reduce((sum, next, i) => sum + (which(steps[i]) ? next.hours - steps[i].hours : 0), 0);
  const sunny = hoursOf((step) => step.sun);
  const driven = hoursOf((step) => step.driving && step.source !== "off");
  const { sun, driving } = allowances;
  const reasons: HotDayReasonSaying[] = [
    { code: "starts-at", celsius: start.celsius, from: start.kind, withGoods: load !== null },
    { code: "boiler-from", cold: !start.isCooling },
  ];
  if (sunny > 0) reasons.push({ code: "sun-allowed", kelvin: sun.kelvin, standardError: sun.error, hours: sunny });
  if (driven > 0) reasons.push({ code: "driving-allowed", share: driving.error, hours: driven });
  for (const [source, { rate, law }] of fridge.sources) {
    if (source === null || law === null || rate.isOwn || hoursOf((step) => step.source === source) === 0) continue;
    reasons.push({ code: "rate-usual", source, perHour: rate.value });
  }
  if (!fridge.warming.isOwn) reasons.push({ code: "warming-usual", perHour: fridge.warming.value });
  if (stop !== null) {
    reasons.push({
      code: "cannot-from",
      unixMs: startMs + stop.hours * msPerHour,
      source: stop.source,
      why: stop.why.why,
    });
  }
  return reasons;
}
