// Thermostat cycling: cooling pauses again and again at the same cabinet temperature, the saw-tooth about a set point.

import { msPerHour, msPerMinute } from "../../../schema/index.ts";
import type { RunEvent } from "../../findings.ts";
import { heatSourceOf, type Series, type Stretch } from "../series.ts";
import type { CoolingPause } from "./cooling-pauses.ts";

/** Pauses within this of each other's cabinet level, K, are the same set point. */
const sameLevel = 1.3;
/** From one pause to the next. Shorter is noise, longer is the day. */
const shortestCycleMs = 12 * msPerMinute;
const longestCycleMs = 5 * msPerHour;
/** A pause longer than this is no thermostat's, ms. */
export const longestThermostatPauseMs = 100 * msPerMinute;

/** A thermostat lets the cabinet come no higher than at its holds before, but for this, K, … */
const higherThanHeld = 0.8;
/** … and nothing is said of a pause before it is so old, ms. */
const leastLeftMs = 42 * msPerMinute;

/** Pauses that one thermostat made. */
export interface Cycling {
  readonly pauses: readonly CoolingPause[];
  readonly event: RunEvent;
}

/** Two or more pauses in a row at one level; none where there is no thermostat to make them. */
export function findCycling(series: Series, stretch: Stretch, pauses: readonly CoolingPause[]): Cycling[] {
  if (!mayHaveThermostat(stretch)) return [];
  const chains: CoolingPause[][] = [];
  for (const pause of pauses) {
    const chain = chains.at(-1);
    if (chain !== undefined && isNextCycle(series, chain, pause)) chain.push(pause);
    else chains.push([pause]);
  }
  return chains
    .filter((chain) => chain.length >= 2)
    .map((chain) => ({ pauses: chain, event: eventOf(series, stretch, chain) }));
}

function isNextCycle({ unixMs }: Series, chain: readonly CoolingPause[], pause: CoolingPause): boolean {
  const last = chain[chain.length - 1];
  const cycle = unixMs[pause.from] - unixMs[last.from];
  const isShort = (one: CoolingPause) => unixMs[one.to - 1] - unixMs[one.from] <= longestThermostatPauseMs;
  return (
    cycle >= shortestCycleMs &&
    cycle <= longestCycleMs &&
    Math.abs(pause.levelAtStop - last.levelAtStop) <= sameLevel &&
    last.hasResumed &&
    !hasLeftCycle(unixMs, pause, chain) &&
    isShort(last) &&
    isShort(pause)
  );
}

/**
 * Whether the cabinet has become warmer in a pause that goes on than in any that came before it at the same level: then
 * the thermostat, which called for heat each time before, is not what keeps the cold away.
 */
export function hasLeftCycle(unixMs: Float64Array, pause: CoolingPause, earlier: readonly CoolingPause[]): boolean {
  if (pause.hasResumed || unixMs[pause.to - 1] - unixMs[pause.from] < leastLeftMs) return false;
  const held = heldBefore(pause, earlier);
  return held.length > 0 && pause.levelLast > Math.max(...held.map((one) => one.levelHighest)) + higherThanHeld;
}

/** Pauses that came before this one at its level, and ended. */
export const heldBefore = (pause: CoolingPause, earlier: readonly CoolingPause[]) =>
  earlier.filter(
    (one) => one.hasResumed && one.from < pause.from && Math.abs(one.levelAtStop - pause.levelAtStop) <= sameLevel,
  );

/**
 * From the first pause to the stretch's end, or to where cooling came back for the last time if it then lasted. The duty
 * is the share of whole cycles in which cooling was there: boiler and pipes delay its going and coming about alike.
 */
function eventOf({ log, unixMs }: Series, stretch: Stretch, chain: readonly CoolingPause[]): RunEvent {
  const first = chain[0];
  const last = chain[chain.length - 1];
  const whole = unixMs[last.from] - unixMs[first.from];
  const paused = chain.slice(0, -1).reduce((sum, pause) => sum + unixMs[pause.to] - unixMs[pause.from], 0);
  const period = whole / (chain.length - 1);
  const duty = 1 - paused / whole;
  const endRow = last.to < stretch.to ? last.to : stretch.to - 1;
  const wentOn = unixMs[stretch.to - 1] - unixMs[last.from] <= 1.5 * period;
  return {
    log,
    kind: "cycling",
    startMs: unixMs[first.from],
    endMs: wentOn ? stretch.endMs : unixMs[endRow],
    position: null,
    size: duty,
    sizeUnit: "1",
    reason: {
      code: "thermostat-cycles",
      source: heatSourceOf(stretch),
      duty,
      periodMinutes: period / msPerMinute,
      cycles: chain.length - 1,
    },
  };
}

/** On 12 V these fridges usually have no thermostat. Common practice, no source. */
export const mayHaveThermostat = (stretch: Stretch) => stretch.source !== "dc12";
