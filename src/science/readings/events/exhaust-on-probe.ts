// The ambient probe in the warm air that leaves the fridge: it rises within an hour after each heating begins and falls within
// an hour after it ends, as neither sun (sun-on-probe.ts) nor a day that grows warm does. What it adds is taken off again.

import { msPerMinute } from "../../../schema/index.ts";
import type { RunEvent } from "../../findings.ts";
import { firstAtOrAfter } from "../../numbers/first-at-or-after.ts";
import type { Series, Stretch } from "../series.ts";
import { movingMedian, readingNoise } from "../smoothing.ts";

/** The least rise, K, and how long it and its fall take, min: the boiler then drives the whole unit, or none of it. */
const leastRise = 2.5;
const noiseTimes = 6;
const edgeMinutes = 40;
/** Over a longer gap in the log anything may have changed, min. */
const longestMinutes = 60;
/** A boiler takes so long from the switch-on until it drives the unit, and leaves off so soon after the switch-off, min. */
const latestRiseMinutes = 120;
const latestFallMinutes = 20;
/** So much earlier than the log says may the switch have been turned, min; where only the cold shows it, the boiler was on before. */
const earlyMinutes = { told: 5, found: 75 } as const;
/** Shorter heating may end before the unit is warm, min. */
const shortestMinutes = 90;
/** Rise and fall are of one size: the smaller is at least this share of the larger. */
const leastShare = 0.5;
/** While it is heated the exhaust loses no more than this share of it, but for a thermostat's pauses; sun goes. */
const lastingShare = 0.6;
/** A room probe that rises by this share of it: the air itself warmed. */
const sharedShare = 0.5;

/** What is left open of the exhaust's share where its edges prove it, K. */
const provenError = 0.8;
/**
 * One edge alone may be the air's own, as when a heater comes on; likelier it is the exhaust or the sun, and the same in every
 * log of a probe that hangs there. Shares of what was seen: taken off, and open; none and all are both in reach.
 */
const unproven = { share: 0.75, error: 0.4 } as const;

/** Heating from a switch-on to a switch-off, whatever by. */
interface Spell {
  readonly startMs: number;
  readonly endMs: number;
  readonly sourceFrom: Stretch["sourceFrom"];
  /** Whether the log holds an off time before and after, long enough to show the change. */
  readonly seesRise: boolean;
  readonly seesFall: boolean;
}

interface Edge {
  readonly kelvin: number;
  readonly startMs: number;
}

/** @returns one event per spell of heating; `isProven` where both edges of a spell, or two spells, show it. */
export function findExhaustOnProbe(series: Series, stretches: readonly Stretch[]): RunEvent[] {
  const { log, unixMs, columns } = series;
  const { ambient, room } = columns;
  if (ambient === undefined || unixMs.length === 0) return [];
  const least = Math.max(leastRise, noiseTimes * readingNoise(ambient));
  const own = movingMedian(unixMs, ambient, 10);
  const shared = room === undefined ? null : movingMedian(unixMs, room, 10);
  const found = spellsOf(series, stretches).flatMap((spell) => {
    const edges = edgesOf(spell, unixMs, own, shared, least);
    return edges === null ? [] : [{ spell, ...edges }];
  });
  const isProven = found.length > 1 || found.some(({ rise, fall }) => rise !== null && fall !== null);
  return found.map(({ spell, rise, fall }): RunEvent => {
    const sizes = [rise, fall].flatMap((edge) => (edge === null ? [] : [edge.kelvin]));
    const kelvin = sizes.reduce((sum, size) => sum + size, 0) / sizes.length;
    return {
      log,
      kind: "exhaust-on-probe",
      startMs: rise?.startMs ?? spell.startMs,
      endMs: fall === null ? spell.endMs : fall.startMs + edgeMinutes * msPerMinute,
      position: "ambient",
      size: kelvin,
      sizeUnit: "K",
      reason: { code: "exhaust-on-ambient", kelvin, isProven },
    };
  });
}

/** The series with the exhaust's share taken off the ambient probe; while the share changes it is left out. */
export function withoutExhaust(series: Series, events: readonly RunEvent[]): Series {
  const { unixMs, columns } = series;
  const exhausts = events.filter((event) => event.kind === "exhaust-on-probe");
  if (columns.ambient === undefined || exhausts.length === 0) return series;
  const ambient = columns.ambient.map((celsius, row) => {
    const here = exhausts.find(({ startMs, endMs }) => unixMs[row] >= startMs && unixMs[row] <= endMs);
    if (here === undefined) return celsius;
    const isChanging = Math.min(unixMs[row] - here.startMs, here.endMs - unixMs[row]) < edgeMinutes * msPerMinute;
    return isChanging ? Number.NaN : celsius - shareOf(here).kelvin;
  });
  return { ...series, columns: { ...columns, ambient } };
}

/** What an exhaust adds to the probe, K, and what is left open of it: unproven it may be all of what was seen, or nothing. */
export function shareOf({ reason }: RunEvent): { readonly kelvin: number; readonly error: number } {
  if (reason.code !== "exhaust-on-ambient") return { kelvin: 0, error: 0 };
  const { kelvin, isProven } = reason;
  return isProven
    ? { kelvin, error: provenError }
    : { kelvin: unproven.share * kelvin, error: unproven.error * kelvin };
}

function spellsOf({ unixMs }: Series, stretches: readonly Stretch[]): readonly Spell[] {
  const spells: Spell[] = [];
  const offMinutes = (stretch: Stretch | undefined) =>
    stretch === undefined || stretch.heated ? 0 : (stretch.endMs - stretch.startMs) / msPerMinute;
  for (const [i, { heated, startMs, endMs, sourceFrom }] of stretches.entries()) {
    if (!heated) continue;
    const seesFall = offMinutes(stretches[i + 1]) >= edgeMinutes + latestFallMinutes;
    const before = spells.at(-1);
    // Another source without an off time between goes on heating.
    if (before !== undefined && stretches[i - 1].heated) spells[spells.length - 1] = { ...before, endMs, seesFall };
    else spells.push({ startMs, endMs, sourceFrom, seesRise: offMinutes(stretches[i - 1]) >= edgeMinutes, seesFall });
  }
  const endMs = unixMs[unixMs.length - 1];
  return spells
    .filter((spell) => spell.endMs - spell.startMs >= shortestMinutes * msPerMinute)
    .map((spell) => ({ ...spell, endMs: Math.min(spell.endMs, endMs) }));
}

/** Rise and fall of a spell; null where an edge that should show does not, or the two do not belong together. */
function edgesOf(
  { startMs, endMs, sourceFrom, seesRise, seesFall }: Spell,
  unixMs: Float64Array,
  own: Float64Array,
  shared: Float64Array | null,
  least: number,
): { readonly rise: Edge | null; readonly fall: Edge | null } | null {
  const latestRise = Math.min(startMs + latestRiseMinutes * msPerMinute, endMs - edgeMinutes * msPerMinute);
  const edgeAt = (fromMs: number, toMs: number, sign: 1 | -1): Edge | null => {
    const earliestMs = fromMs - earlyMinutes[sourceFrom] * msPerMinute;
    const around = edgeMinutes * msPerMinute;
    const edge = steepest(unixMs, own, earliestMs - around, toMs + around, sign);
    if (edge === null || edge.kelvin < least || edge.startMs < earliestMs || edge.startMs > toMs) return null;
    const ofRoom = shared === null ? null : steepest(unixMs, shared, edge.startMs, edge.startMs, sign);
    return ofRoom !== null && ofRoom.kelvin >= sharedShare * edge.kelvin ? null : edge;
  };
  const rise = edgeAt(startMs, latestRise, 1);
  const fall = seesFall ? edgeAt(endMs, endMs + latestFallMinutes * msPerMinute, -1) : null;
  if ((seesRise && rise === null) || (rise ?? fall) === null) return null;
  const kelvin = Math.min(...[rise, fall].flatMap((edge) => (edge === null ? [] : [edge.kelvin])));
  const fromMs = rise === null ? startMs : rise.startMs + edgeMinutes * msPerMinute;
  const between = fallsBetween(unixMs, own, fromMs, fall?.startMs ?? endMs, lastingShare * kelvin);
  if (between === "for good") return null;
  // A thermostat may hold as the heating ends: there is nothing left to fall then.
  if (seesFall && fall === null && between !== "comes back") return null;
  if (rise === null || fall === null) return { rise, fall };
  const [smaller, larger] = [rise.kelvin, fall.kelvin].sort((a, b) => a - b);
  return smaller >= leastShare * larger ? { rise, fall } : null;
}

/** Whether it falls by this much, K, in the time that an edge takes: for good, or to come back as after a thermostat's pause. */
function fallsBetween(
  unixMs: Float64Array,
  values: Float64Array,
  fromMs: number,
  toMs: number,
  kelvin: number,
): "never" | "for good" | "comes back" {
  const untilMs = toMs - edgeMinutes * msPerMinute;
  const fall = steepest(unixMs, values, fromMs, untilMs, -1);
  if (fall === null || fall.kelvin < kelvin) return "never";
  const back = steepest(unixMs, values, fromMs, untilMs, 1);
  return back === null || back.kelvin < kelvin ? "for good" : "comes back";
}

/** Of a change that comes at once, all starts within its time look alike: the last that keeps this share of it is its own. */
const wholeShare = 0.9;

/** The largest change, K, over the time that an edge takes, begun between two instants; null where no readings tell. */
function steepest(unixMs: Float64Array, values: Float64Array, fromMs: number, toMs: number, sign: 1 | -1): Edge | null {
  const first = firstAtOrAfter(unixMs, fromMs);
  const changes: number[] = [];
  for (let i = first; i < unixMs.length && unixMs[i] <= toMs; i++) {
    const until = firstAtOrAfter(unixMs, unixMs[i] + edgeMinutes * msPerMinute);
    const isNear = unixMs[until] - unixMs[i] < longestMinutes * msPerMinute;
    changes.push(isNear ? sign * (values[until] - values[i]) : Number.NaN);
  }
  const kelvin = Math.max(0, ...changes.filter(Number.isFinite));
  if (kelvin === 0) return null;
  return { kelvin, startMs: unixMs[first + changes.findLastIndex((change) => change >= wholeShare * kelvin)] };
}
