// When the unit cools and when it does not, read from the curves: the fins fall away from the cabinet air and come back
// to it. Serves the stretches nobody told of, and the pauses of cooling within a stretch.

import { msPerMinute } from "../../schema/index.ts";
import type { Series } from "./series.ts";
import { movingMedian, readingNoise } from "./smoothing.ts";

/** A part of the run in one state. Rows `from` to `to` (half-open) of the series. */
export interface CoolingPhase {
  readonly from: number;
  readonly to: number;
  readonly isCooling: boolean;
  /** The sign of cooling (fin difference, else how cold the one probe is), K: before the phase, and its farthest within. */
  readonly before: number;
  readonly farthest: number;
  /** Row of the farthest value: in a pause, where cooling comes back or the pause ends. */
  readonly farthestRow: number;
}

/** What tells whether the unit cools. */
interface CoolingSign {
  /** Grows while the unit cools, K. */
  readonly sign: Float64Array;
  /** The colder probe itself, °C: it must move as well, or only the other one did. */
  readonly own: Float64Array;
  /** Whether the sign is the fin difference, which has a level of its own while the unit cools. */
  readonly isFinDifference: boolean;
  readonly noise: number;
}

/** A door lifts the cabinet air for minutes; a median over these many minutes hardly sees it. */
const smoothMinutes = 11;
/** The least change of the sign, K. The probes' noise can ask for more. */
const leastChange = 1.5;
const leastChangeOfOne = 2.5;
const noiseTimes = 4;
/** Cooling has paused when the fin difference is down to this share of its level. */
const pauseShare = 0.6;
/** How long the sign's lowest (or highest) point is remembered while waiting for a change, ms. */
const memoryMs = 150 * msPerMinute;
/** A change began where the sign had made this share of it: little of a steady level, more of a noisy lowest point. */
const nearLevel = 0.1;
const nearExtreme = 0.3;
/** A fin difference as large as this at the very start means that the fridge was cooling already, K. */
const coldAtStart = 3;

/** One probe that has been silent for so long at the end no longer tells; the other carries on, ms. */
const silentEndMs = 30 * msPerMinute;

/**
 * The run as alternating phases of cooling and not, covering all rows; empty when neither the evaporator nor the
 * cabinet ever shows a change.
 */
export function coolingPhases(series: Series, from = 0, to = series.unixMs.length): CoolingPhase[] {
  const bothTo = lastRowOfBoth(series, from, to);
  if (bothTo === to) return phasesOf(series, from, to, null);
  const first = phasesOf(series, from, bothTo, null);
  const rest = phasesOf(series, bothTo, to, first.at(-1)?.isCooling ?? null);
  if (first.length === 0) return rest.length === 0 ? [] : phasesOf(series, from, to, null);
  const [last, next] = [first[first.length - 1], rest[0]];
  if (next === undefined) return [...first.slice(0, -1), { ...last, to }];
  return next.isCooling === last.isCooling
    ? [...first.slice(0, -1), { ...last, to: next.to }, ...rest.slice(1)]
    : [...first, ...rest];
}

/** Where one of the two probes falls silent for good though the other goes on; `to` when neither does. */
function lastRowOfBoth({ unixMs, columns }: Series, from: number, to: number): number {
  const lastOf = (values: Float64Array | undefined) => {
    for (let i = to - 1; values !== undefined && i >= from; i--) if (Number.isFinite(values[i])) return i;
    return -1;
  };
  const [evaporator, cabinet] = [lastOf(columns.evaporator), lastOf(columns.cabinet)];
  const [one, other] = [Math.min(evaporator, cabinet), Math.max(evaporator, cabinet)];
  return one < from || unixMs[other] - unixMs[one] < silentEndMs ? to : one + 1;
}

/** @param wasCooling the state the rows begin in, null when only they can tell. */
function phasesOf(series: Series, from: number, to: number, wasCooling: boolean | null): CoolingPhase[] {
  const read = coolingSign(series, from, to);
  if (read === null) return [];
  return followSign(series.unixMs.subarray(from, to), read, wasCooling).map((phase) => ({
    ...phase,
    from: phase.from + from,
    to: phase.to + from,
    farthestRow: phase.farthestRow + from,
  }));
}

function coolingSign({ unixMs, columns }: Series, from: number, to: number): CoolingSign | null {
  const instants = unixMs.subarray(from, to);
  const column = (name: "evaporator" | "cabinet" | "ambient") => {
    const values = columns[name]?.subarray(from, to);
    return values?.some(Number.isFinite) ? movingMedian(instants, values, smoothMinutes) : null;
  };
  const noiseOf = (name: "evaporator" | "cabinet") =>
    readingNoise((columns[name] ?? new Float64Array(0)).subarray(from, to));
  const [evaporator, cabinet, ambient] = [column("evaporator"), column("cabinet"), column("ambient")];
  if (evaporator !== null && cabinet !== null) {
    const noise = Math.hypot(noiseOf("evaporator"), noiseOf("cabinet"));
    return {
      sign: cabinet.map((celsius, i) => celsius - evaporator[i]),
      own: evaporator,
      isFinDifference: true,
      noise,
    };
  }
  const own = evaporator ?? cabinet;
  if (own === null) return null;
  const sign = own.map((celsius, i) => (ambient === null ? -celsius : ambient[i] - celsius));
  return { sign, own, isFinDifference: false, noise: noiseOf(evaporator === null ? "cabinet" : "evaporator") };
}

function followSign(unixMs: Float64Array, read: CoolingSign, wasCooling: boolean | null): CoolingPhase[] {
  const { sign, own, isFinDifference } = read;
  const least = Math.max(isFinDifference ? leastChange : leastChangeOfOne, noiseTimes * read.noise);
  const first = sign.findIndex(Number.isFinite);
  if (first < 0) return [];
  const startsCooling = wasCooling ?? (isFinDifference && sign[first] >= Math.max(coldAtStart, least));
  let state: WatchState = {
    isCooling: startsCooling,
    begin: 0,
    before: sign[first],
    level: sign[first],
    extreme: first,
    coldest: own[first],
  };
  const phases: CoolingPhase[] = [];
  for (let i = first + 1; i < sign.length; i++) {
    if (!Number.isFinite(sign[i])) continue;
    followExtreme(unixMs, read, state, i);
    if (!hasTurned(read, state, i, least)) continue;
    const { isCooling, level, extreme } = state;
    const reference = isCooling && isFinDifference ? level : sign[extreme];
    const near = (isCooling ? nearLevel : nearExtreme) * Math.abs(reference - sign[i]);
    const turn = lastNear(sign, extreme, i, reference, Math.max(near, read.noise));
    if (turn > state.begin) phases.push(phaseUpTo(turn, state, sign));
    state = { isCooling: !isCooling, begin: turn, before: reference, level: sign[i], extreme: i, coldest: own[i] };
  }
  if (phases.length === 0 && !startsCooling && !state.isCooling) return [];
  return [...phases, phaseUpTo(sign.length, state, sign)];
}

interface WatchState {
  readonly isCooling: boolean;
  readonly begin: number;
  readonly before: number;
  /** The sign's usual height while it cools. */
  level: number;
  /** Row where the sign was farthest the way it must come back from: lowest while waiting for cold, highest while cooling. */
  extreme: number;
  /** The coldest the probe was while cooling: that comes hours after the highest sign, when a pull-down is quick. */
  coldest: number;
}

const phaseUpTo = (
  to: number,
  { begin, isCooling, before, extreme }: WatchState,
  sign: Float64Array,
): CoolingPhase => ({
  from: begin,
  to,
  isCooling,
  before,
  farthest: sign[extreme],
  farthestRow: extreme,
});

function followExtreme(unixMs: Float64Array, { sign, own }: CoolingSign, state: WatchState, i: number): void {
  const { isCooling, extreme } = state;
  const isFarther = isCooling ? sign[i] >= sign[extreme] : sign[i] <= sign[extreme];
  if (isFarther) state.extreme = i;
  // A height of hours ago is no measure: frost and a colder evaporator bring it down without a pause.
  else if (isCooling && unixMs[i] - unixMs[extreme] > memoryMs)
    state.extreme = highestSince(unixMs, sign, i, memoryMs / 2);
  if (!isCooling) return;
  state.coldest = Math.min(state.coldest, own[i]);
  state.level = followedLevel(state.level, sign[i], unixMs[i] - unixMs[i - 1]);
}

function hasTurned({ sign, own, isFinDifference }: CoolingSign, state: WatchState, i: number, least: number): boolean {
  const { isCooling, extreme, level, coldest } = state;
  const change = isCooling ? sign[extreme] - sign[i] : sign[i] - sign[extreme];
  const ownChange = isCooling ? own[i] - coldest : own[extreme] - own[i];
  if (!(change >= least && ownChange >= least / 2)) return false;
  return !(isCooling && isFinDifference) || sign[i] <= pauseShare * level;
}

/** The fin difference's level: up quickly, down slowly (frost, a colder evaporator), not at all in a collapse. */
function followedLevel(level: number, sign: number, stepMs: number): number {
  const minutes = Math.min(stepMs / msPerMinute, 30);
  if (sign > level) return level + (sign - level) * -Math.expm1(-minutes / 10);
  return sign > 0.7 * level ? level + (sign - level) * -Math.expm1(-minutes / 120) : level;
}

function highestSince(unixMs: Float64Array, sign: Float64Array, row: number, ms: number): number {
  let best = row;
  for (let i = row; i >= 0 && unixMs[row] - unixMs[i] <= ms; i--) if (sign[i] > sign[best]) best = i;
  return best;
}

/** The last row between two at which the sign still was within `near` of `reference`. */
function lastNear(sign: Float64Array, from: number, to: number, reference: number, near: number): number {
  for (let i = to; i > from; i--) if (Math.abs(sign[i] - reference) <= near) return i;
  return Math.max(from, 0);
}
