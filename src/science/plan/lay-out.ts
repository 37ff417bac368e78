// Finds the hours of a plan: every order of the sources, every sensible end of each stretch, and of all that keep the
// rules the one that is over soonest without cutting stretches short.

import { type HeatSource, msPerHour } from "../../schema/index.ts";
import { finsAloneHours } from "../strength/comparison.ts";
import type { DayWindow } from "./day-hours.ts";
import { betterCurveHours, curveHours, usualOnsetHours } from "./proofs.ts";

export interface LayoutRequest {
  /** When the first source may go on. */
  readonly firstOnMs: number;
  readonly untilMs?: number;
  readonly sources: readonly HeatSource[];
  readonly attended: DayWindow;
  /** When gas may burn; within the attended hours. */
  readonly gas: DayWindow;
  readonly isSwitchedWhileCold: boolean;
}

export interface PlannedStretch {
  readonly source: HeatSource;
  readonly startMs: number;
  readonly endMs: number;
  /** Follows without a pause. */
  readonly isSwitched: boolean;
}

export interface Layout {
  readonly stretches: readonly PlannedStretch[];
  /** How long it takes and what it leaves to be wished, in hours. */
  readonly cost: number;
}

/** Between two stretches so that the boiler is cold again, h; and usually, so that warming back shows its rate too. */
export const leastPauseHours = 2;
/** Off between two sources, so that the next one starts from a cold boiler and a warm cabinet, h. */
export const usualPauseHours = 3;
/** Long enough to show strength, the curve, and the curve well, h since the switch-on. */
const leastHours = usualOnsetHours.latest + 2;
const usualHours = usualOnsetHours.latest + curveHours;
const fullHours = usualOnsetHours.latest + betterCurveHours;

/** What is worth an hour of the whole run's length. */
const perHourShortOfUsual = 4;
const perHourShortOfFull = 0.5;
const perHourShortOfPause = 1.5;
/** A night on 12 V is a night on a supply that must last; the order asked for is kept for an hour. */
const nightOn12V = 0.1;
/** Nobody waits for the hours of a night: this share of them costs nothing. */
const sleptThrough = 0.75;
const otherOrder = 1;

/** The best layout; null when none keeps the rules. */
export function layOut(request: LayoutRequest): Layout | null {
  const orders = request.isSwitchedWhileCold ? sandwiches(request.sources) : permutations(request.sources);
  return orders.reduce<Layout | null>((best, order) => {
    const isAsked = request.sources.every((source, i) => order[i] === source);
    const limit = best?.cost ?? Number.POSITIVE_INFINITY;
    return bestFrom(request, order, [], isAsked ? 0 : otherOrder, limit) ?? best;
  }, null);
}

/** Goes through the stretches one by one; anything that costs `limit` or more is given up. */
function bestFrom(
  request: LayoutRequest,
  order: readonly HeatSource[],
  done: readonly PlannedStretch[],
  cost: number,
  limit: number,
): Layout | null {
  if (done.length === order.length) return { stretches: done, cost };
  const source = order[done.length];
  const isSwitched = request.isSwitchedWhileCold && done.length > 0;
  const last = done.at(-1);
  let best: Layout | null = null;
  let bound = limit;
  for (const startMs of startsAfter(request, last, isSwitched, source)) {
    for (const endMs of endsAfter(request, source, startMs, isSwitched)) {
      if (endMs > (request.untilMs ?? Number.POSITIVE_INFINITY)) continue;
      const stretch = { source, startMs, endMs, isSwitched };
      const now = cost + costOf(stretch, last, request);
      if (now >= bound) continue;
      const found = bestFrom(request, order, [...done, stretch], now, bound);
      if (found === null) continue;
      best = found;
      bound = found.cost;
    }
  }
  return best;
}

function startsAfter(
  { firstOnMs, attended, gas }: LayoutRequest,
  last: PlannedStretch | undefined,
  isSwitched: boolean,
  source: HeatSource,
): readonly number[] {
  const window = source === "gas" ? gas : attended;
  // Whoever starts the run is there for its first source, whatever the hour; gas still waits for its own hours.
  if (last === undefined) {
    return source !== "gas" || window.holds(firstOnMs)
      ? [firstOnMs, window.nextBegin(firstOnMs)]
      : [window.nextBegin(firstOnMs)];
  }
  if (isSwitched) return window.holds(last.endMs) ? [last.endMs] : [];
  const [least, usual] = [leastPauseHours, usualPauseHours].map((hours) => last.endMs + hours * msPerHour);
  const evening = window.endAfter(last.endMs);
  return [least, usual, evening, window.nextBegin(least)].filter((ms) => ms >= least && window.holds(ms));
}

function endsAfter(
  { attended, gas }: LayoutRequest,
  source: HeatSource,
  startMs: number,
  isSwitched: boolean,
): readonly number[] {
  const window = source === "gas" ? gas : attended;
  const least = isSwitched ? finsAloneHours : leastHours;
  const lengths = isSwitched ? [least] : [least, usualHours, fullHours];
  const evening = window.endAfter(startMs);
  const beforeEvening = [evening, evening - leastPauseHours * msPerHour, evening - usualPauseHours * msPerHour];
  const ends = [...lengths.map((hours) => startMs + hours * msPerHour), ...beforeEvening];
  const byDay = ends.filter((ms) => ms >= startMs + least * msPerHour && window.holds(ms) && ms <= evening);
  if (source === "gas") return byDay;
  const morning = window.nextBegin(startMs + least * msPerHour - 1);
  return [...byDay, morning];
}

function costOf(
  { source, startMs, endMs, isSwitched }: PlannedStretch,
  last: PlannedStretch | undefined,
  { firstOnMs, attended }: LayoutRequest,
): number {
  const hours = (endMs - startMs) / msPerHour;
  const pauseHours = last === undefined ? usualPauseHours : (startMs - last.endMs) / msPerHour;
  const elapsed = (endMs - (last?.endMs ?? firstOnMs)) / msPerHour;
  const shortOf = (wanted: number, had: number) => Math.max(0, wanted - had);
  // An attended stretch takes a person's day: the curve is enough.
  const wishes = isSwitched
    ? 0
    : perHourShortOfUsual * shortOf(usualHours, hours) +
      (source === "gas" ? 0 : perHourShortOfFull * shortOf(fullHours, hours)) +
      perHourShortOfPause * shortOf(usualPauseHours, pauseHours);
  const nightHours = Math.max(0, endMs - attended.endAfter(startMs)) / msPerHour;
  const night = source === "dc12" && nightHours > 0 ? nightOn12V : 0;
  return elapsed - sleptThrough * nightHours + wishes + night;
}

/** The first electric source, then the others, then the first again: what drifts meanwhile shows in its two parts. */
function sandwiches(sources: readonly HeatSource[]): readonly (readonly HeatSource[])[] {
  return sources
    .filter((source) => source !== "gas")
    .flatMap((bread) =>
      permutations(sources.filter((source) => source !== bread)).map((others) => [bread, ...others, bread]),
    );
}

function permutations<Value>(values: readonly Value[]): readonly (readonly Value[])[] {
  if (values.length <= 1) return [values];
  return values.flatMap((first, i) => permutations(values.filter((_, j) => j !== i)).map((rest) => [first, ...rest]));
}
