// A probe that was moved or fell off: its readings step within minutes and stay, while the other probes go on as before.

import { msPerMinute, type Position } from "../../../schema/index.ts";
import type { RunEvent } from "../../findings.ts";
import { usualStepMs } from "../sampling-step.ts";
import type { Series } from "../series.ts";
import { medianBetween, readingNoise } from "../smoothing.ts";

/** Steps below this are not told from what the probe should see, K. Air outside may change quickly by itself. */
const leastStep = { evaporator: 2.5, cabinet: 2.5, freezer: 2.5, ambient: 3, room: 3 } as const;
const noiseTimes = 7;
/** The step must be this much faster than what goes on before and after it: cooling that stops takes half an hour. */
const timesFaster = 3;
/** Still there after half an hour, at least this share of it. */
const lastingShare = 0.6;
const lastsFromMinutes = 15;
const lastsToMinutes = 35;
/** Another probe that moves by this share of it at once: not one probe, but what they all see. */
const sharedShare = 0.35;

/** The series with the probes inside the box blank from where they were moved on: they tell of another place. */
export function withoutMovedProbes(series: Series, events: readonly RunEvent[]): Series {
  let columns = series.columns;
  for (const { kind, position, startMs } of events) {
    if (kind !== "probe-moved" || (position !== "evaporator" && position !== "cabinet")) continue;
    const values = columns[position];
    if (values === undefined) continue;
    const seated = values.map((value, row) => (series.unixMs[row] > startMs ? Number.NaN : value));
    columns = { ...columns, [position]: seated };
  }
  return columns === series.columns ? series : { ...series, columns };
}

/** Steps of single probes, in order of time. */
export function findProbeSteps(series: Series): RunEvent[] {
  const names = Object.keys(leastStep) as (keyof typeof leastStep)[];
  return names.flatMap((name) => stepsOf(series, name)).sort((a, b) => a.startMs - b.startMs);
}

function stepsOf(series: Series, position: keyof typeof leastStep): RunEvent[] {
  const { log, unixMs, columns } = series;
  const values = columns[position];
  if (values === undefined) return [];
  const least = Math.max(leastStep[position], noiseTimes * readingNoise(values));
  const change = quickChanges(series, values, least);
  const steps: RunEvent[] = [];
  for (let i = 0; i < values.length; i++) {
    if (!(Math.abs(change.at[i]) >= least)) continue;
    const top = largestWithin(unixMs, change.at, i, change.spanMs);
    const kelvin = change.at[top];
    if (isAloneAndLasting(series, position, change, top)) {
      steps.push({
        log,
        kind: "probe-moved",
        startMs: unixMs[top],
        endMs: unixMs[Math.min(values.length - 1, rowAfter(unixMs, top, change.spanMs))],
        position,
        size: kelvin,
        sizeUnit: "K",
        reason: { code: "probe-stepped", kelvin },
      });
    }
    i = rowAfter(unixMs, top, change.spanMs);
  }
  return steps;
}

/** Change of the level over some minutes that begin at each row. */
interface QuickChanges {
  readonly at: Float64Array;
  readonly spanMs: number;
  /** A level is the median over this long, ms. */
  readonly levelMs: number;
}

/** @param least changes of less than half of this between single readings are left at 0: they are no steps. */
function quickChanges({ unixMs }: Series, values: Float64Array, least: number): QuickChanges {
  const step = usualStepMs(unixMs);
  const levelMs = Math.max(3 * msPerMinute, Number.isNaN(step) ? 0 : 1.2 * step);
  const spanMs = Math.max(4 * msPerMinute, Number.isNaN(step) ? 0 : 2 * step);
  const at = new Float64Array(unixMs.length);
  for (let i = 0, later = 0; i < at.length; i++) {
    while (later < at.length - 1 && unixMs[later] - unixMs[i] < spanMs) later++;
    if (!(Math.abs(values[later] - values[i]) >= least / 2)) continue;
    at[i] = changeOver(unixMs, values, unixMs[i], i, spanMs, levelMs);
  }
  return { at, spanMs, levelMs };
}

/** From the level that ends at an instant to the level that begins `spanMs` later. */
function changeOver(
  unixMs: Float64Array,
  values: Float64Array,
  atMs: number,
  near: number,
  spanMs: number,
  levelMs: number,
): number {
  const before = medianBetween(unixMs, values, atMs - levelMs, atMs, near);
  return medianBetween(unixMs, values, atMs + spanMs, atMs + spanMs + levelMs, near) - before;
}

function largestWithin(unixMs: Float64Array, change: Float64Array, from: number, ms: number): number {
  let best = from;
  for (let i = from; i < change.length && unixMs[i] - unixMs[from] <= ms; i++)
    if (Math.abs(change[i]) > Math.abs(change[best])) best = i;
  return best;
}

const rowAfter = (unixMs: Float64Array, row: number, ms: number) => {
  let i = row;
  while (i < unixMs.length && unixMs[i] - unixMs[row] < ms) i++;
  return i;
};

function isAloneAndLasting(series: Series, position: Position, change: QuickChanges, row: number): boolean {
  const { unixMs, columns } = series;
  const values = columns[position] as Float64Array;
  const { spanMs, levelMs } = change;
  const kelvin = change.at[row];
  const at = unixMs[row];
  const whole = spanMs + levelMs;
  const before = changeOver(unixMs, values, at - whole, row, spanMs, levelMs);
  const after = changeOver(unixMs, values, at + whole, row, spanMs, levelMs);
  const rest = Math.max(Math.abs(before), Math.abs(after));
  if (!(rest * timesFaster <= Math.abs(kelvin))) return false;
  const later = medianBetween(
    unixMs,
    values,
    at + Math.max(lastsFromMinutes * msPerMinute, 2 * whole),
    at + Math.max(lastsToMinutes * msPerMinute, 4 * whole),
    row,
  );
  const level = medianBetween(unixMs, values, at - levelMs, at, row);
  if (!((later - level) / kelvin >= lastingShare)) return false;
  return (Object.keys(leastStep) as Position[]).every((other) => {
    const others = columns[other];
    if (other === position || others === undefined) return true;
    return !(Math.abs(changeOver(unixMs, others, at, row, spanMs, levelMs)) > sharedShare * Math.abs(kelvin));
  });
}
