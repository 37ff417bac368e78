// The parts of a run on one energy source: told by the log or by marks, and failing both found from the curves.

import type { StartState } from "../../schema/documents/index.ts";
import { type EnergySource, energySources, msPerHour, msPerMinute, type SourceMark } from "../../schema/index.ts";
import { type CoolingPhase, coolingPhases } from "./change-points.ts";
import { longestThermostatPauseMs } from "./events/cycling.ts";
import { findProbeSteps, withoutMovedProbes } from "./events/probe-steps.ts";
import type { Series, Stretch } from "./series.ts";
import { medianBetween } from "./smoothing.ts";

/** A stretch before it is known how its heating began. */
type Part = Omit<Stretch, "startState">;

/** A source told for so few rows, and less than so long, is a flicker: a switch passing by, a loose contact. */
const flickerRows = 2;
const flickerMs = 10 * msPerMinute;
/** After a pause of the log this long nobody knows what the fridge runs on. */
const longestPauseMs = 7 * 24 * msPerHour;
/** Found pauses of cooling shorter than this may be the thermostat's, and the last one seen not even a switch-off. */
const shortestFoundOffMs = longestThermostatPauseMs;
const shortestLastOffMs = 75 * msPerMinute;

/** Off for so long the boiler is cold; shorter than a pause it stayed hot. Common practice, no source. */
const coldBoilerMs = 2 * msPerHour;
const leastPauseMs = 10 * msPerMinute;
/** Within this of ambient a cabinet has not been cooled, K: probes' tolerances and the day's swing. */
const nearAmbient = 3;
const nearFins = 1.5;
/** A boiler this far above ambient was heated not long ago, K. */
const warmBoilerKelvin = 30;

/**
 * Cuts a run into stretches; together they hold every row of the series.
 *
 * - A row that says nothing carries on the last source. Before the first word the curves must tell.
 * - One or two rows of another source for less than 10 min make no stretch: the one before carries on over them.
 * - Gaps, thermostat cycling and flame-outs do not cut; a pause of the log of more than a week does.
 * - A found stretch begins where the curves turn, so its heating began some time before: it starts `warm-boiler`.
 */
export function findStretches(series: Series, marks: readonly SourceMark[]): Stretch[] {
  const n = series.unixMs.length;
  if (n === 0) return [];
  const told = toldSources(series, marks);
  const parts: Part[] = [];
  for (const [from, to] of withoutLongPauses(series)) {
    const firstTold = told === null ? -1 : told.subarray(from, to).findIndex((code) => code !== 0);
    const silentTo = firstTold < 0 ? to : from + firstTold;
    if (silentTo > from) parts.push(...foundParts(series, from, silentTo));
    if (told !== null && silentTo < to) parts.push(...toldParts(series, told, silentTo, to));
  }
  return withEnds(series, parts).map((part, i, all) => ({ ...part, startState: startState(series, all, i) }));
}

/** Per row the source told, carried on; null when nobody said anything. The log's own column goes before marks. */
function toldSources(series: Series, marks: readonly SourceMark[]): Uint8Array | null {
  const { unixMs, sourceCodes } = series;
  const codes = new Uint8Array(unixMs.length);
  const isColumn = sourceCodes?.some((code) => code > 0 && code <= energySources.length) ?? false;
  const sorted = marks.filter((mark) => Number.isFinite(mark.unixMs)).sort((a, b) => a.unixMs - b.unixMs);
  if (!isColumn && sorted.length === 0) return null;
  let code = 0;
  let mark = 0;
  for (let i = 0; i < codes.length; i++) {
    if (i > 0 && unixMs[i] - unixMs[i - 1] > longestPauseMs) code = 0;
    if (isColumn && sourceCodes !== null) {
      if (sourceCodes[i] > 0 && sourceCodes[i] <= energySources.length) code = sourceCodes[i];
    } else {
      for (; mark < sorted.length && sorted[mark].unixMs <= unixMs[i]; mark++)
        code = energySources.indexOf(sorted[mark].source) + 1;
    }
    codes[i] = code;
  }
  return codes;
}

function withoutLongPauses({ unixMs }: Series): [number, number][] {
  const pieces: [number, number][] = [];
  let from = 0;
  for (let i = 1; i <= unixMs.length; i++) {
    if (i < unixMs.length && unixMs[i] - unixMs[i - 1] <= longestPauseMs) continue;
    pieces.push([from, i]);
    from = i;
  }
  return pieces;
}

function toldParts(series: Series, told: Uint8Array, from: number, to: number): Part[] {
  const runs: { from: number; to: number; code: number }[] = [];
  for (let i = from; i < to; i++) {
    const last = runs.at(-1);
    if (last !== undefined && last.code === told[i]) last.to = i + 1;
    else runs.push({ from: i, to: i + 1, code: told[i] });
  }
  const kept: typeof runs = [];
  for (const [i, run] of runs.entries()) {
    const before = kept.at(-1);
    if (before !== undefined && (run.code === before.code || isFlicker(series, run, i === runs.length - 1))) {
      before.to = run.to;
    } else {
      // A flicker right at the start has nothing before it: what follows takes it in.
      const first = kept.length === 1 && isFlicker(series, kept[0], false) ? kept.pop() : undefined;
      kept.push({ ...run, from: first?.from ?? run.from });
    }
  }
  return kept.map((run) => {
    const source: EnergySource = energySources[run.code - 1];
    return { ...span(series, run.from, run.to), source, heated: source !== "off", sourceFrom: "told" };
  });
}

/** The last run may just have begun: it is no flicker. */
function isFlicker({ unixMs }: Series, run: { from: number; to: number }, isLast: boolean): boolean {
  if (isLast || run.to - run.from > flickerRows) return false;
  return unixMs[run.to] - unixMs[run.from] < flickerMs;
}

/** On and off as the curves show them; one heated stretch of unknown source where they show nothing. */
function foundParts(series: Series, from: number, to: number): Part[] {
  const evaporatorSteps = findProbeSteps(series).filter((step) => step.position === "evaporator");
  const seated = withoutMovedProbes(series, evaporatorSteps);
  const phases = withoutShortPauses(series, coolingPhases(seated, from, to));
  if (phases.length === 0) return [{ ...span(series, from, to), source: null, heated: true, sourceFrom: "found" }];
  return phases.map((phase) => ({
    ...span(series, phase.from, phase.to),
    source: phase.isCooling ? null : "off",
    heated: phase.isCooling,
    sourceFrom: "found",
  }));
}

/** Joins cooling phases over pauses that a thermostat can make, also where such a pause is the last thing seen. */
function withoutShortPauses({ unixMs }: Series, phases: readonly CoolingPhase[]): CoolingPhase[] {
  const kept: CoolingPhase[] = [];
  for (const phase of phases) {
    const before = kept.at(-1);
    const isLast = phase === phases[phases.length - 1];
    const isShort = unixMs[phase.to - 1] - unixMs[phase.from] < (isLast ? shortestLastOffMs : shortestFoundOffMs);
    if (before?.isCooling && (phase.isCooling || isShort)) kept[kept.length - 1] = { ...before, to: phase.to };
    else kept.push(phase);
  }
  return kept;
}

const span = ({ unixMs }: Series, from: number, to: number) => ({
  from,
  to,
  startMs: unixMs[from],
  endMs: unixMs[to - 1],
});

/** A stretch ends where the next begins, unless the log paused for more than a week. */
function withEnds({ unixMs }: Series, parts: readonly Part[]): Part[] {
  return parts.map((part, i) => {
    const next = parts[i + 1];
    if (next === undefined || unixMs[next.from] - unixMs[part.to - 1] > longestPauseMs) return part;
    return { ...part, endMs: unixMs[next.from] };
  });
}

function startState(series: Series, parts: readonly Part[], i: number): StartState | null {
  const part = parts[i];
  if (!part.heated) return null;
  const heatedBefore = parts.slice(0, i).findLast((other) => other.heated);
  const isCold = isColdAt(series, part);
  if (heatedBefore !== undefined) {
    const pause = part.startMs - heatedBefore.endMs;
    if (pause >= coldBoilerMs) return part.sourceFrom === "found" ? "warm-boiler" : "cold-boiler";
    return pause < leastPauseMs && isCold ? "switched-while-cold" : "warm-boiler";
  }
  // Nothing heated before it in this log; what came before the log, only the temperatures can tell.
  const offBefore = part.startMs - parts[0].startMs;
  if (part.sourceFrom === "found" && i > 0) return "warm-boiler";
  if (offBefore >= coldBoilerMs) return "cold-boiler";
  if (isCold) return offBefore < leastPauseMs ? "switched-while-cold" : "warm-boiler";
  return isBoilerWarm(series, part) ? "warm-boiler" : "cold-boiler";
}

/** Whether the cabinet (or the evaporator) is colder than what surrounds it at the start of a stretch. */
function isColdAt(series: Series, part: Part): boolean {
  const level = (name: "cabinet" | "evaporator" | "ambient") => levelAt(series, part, name);
  const [cabinet, evaporator, ambient] = [level("cabinet"), level("evaporator"), level("ambient")];
  return ambient - cabinet > nearAmbient || cabinet - evaporator > nearFins || ambient - evaporator > nearAmbient;
}

const isBoilerWarm = (series: Series, part: Part) =>
  levelAt(series, part, "boiler") - levelAt(series, part, "ambient") > warmBoilerKelvin;

/** Level of one probe within 5 min of the start, °C; NaN without readings, and NaN compares as false. */
function levelAt(series: Series, part: Part, name: "cabinet" | "evaporator" | "ambient" | "boiler"): number {
  const values = series.columns[name];
  if (values === undefined) return Number.NaN;
  const { startMs, from } = part;
  return medianBetween(series.unixMs, values, startMs - 5 * msPerMinute, startMs + 5 * msPerMinute, from);
}
