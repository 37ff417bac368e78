// Two energy sources held against each other across a switch without a pause: boiler hot, cabinet cold. There is no start
// of cold and no curve to fit, but the fins tell both sources' cooling on the same night, with the same frost and the
// same probes. Where the first source comes on once more, the line through both its stretches takes the drift out.

import { msPerHour } from "../../schema/index.ts";
import { varianceInflation } from "../numbers/effective-readings.ts";
import { type Answer, estimate, unknown } from "../numbers/estimate.ts";
import { factor, inverse, solve } from "../numbers/normal-equations.ts";
import { fitStraightLine } from "../numbers/straight-line.ts";
import { doorCutHours } from "../readings/stretch-view.ts";
import type { UnknownSaying } from "../sayings.ts";
import { type FinCooling, type FinMoment, finCooling, finCoolingDoubt, logCoolingOf } from "./fin-cooling.ts";
import type { StretchEvidence } from "./run-evidence.ts";
import { cyclingIn } from "./settled-depth.ts";

/** What a switch without a pause tells of the source after it. */
export interface SwitchOver {
  /** The stretch before the switch. */
  readonly before: StretchEvidence;
  /** Cooling after over before, both at 25 °C ambient with the evaporator at -5 °C. */
  readonly ratio: Answer;
  /** ln(ratio) and its variance, and the settled fin difference before and after, K; null without a ratio. */
  readonly told: SwitchTold | null;
  /** "removed": the first source came on once more; else "allowed-for" in the interval. */
  readonly drift: "removed" | "allowed-for";
}

interface SwitchTold {
  readonly log: number;
  readonly variance: number;
  readonly finsBefore: number;
  readonly finsAfter: number;
}

/** The fins need about this long to settle on a new source, h; the answer may come a few minutes early. */
export const switchSettlesHours = 2;
const leastHours = 1.9;
/** Of the stretch before, only its end: earlier it was still a beginning pull-down. */
const hoursBefore = 2;
const leastHoursBefore = 1.5;
const hoursAgain = 2;
/** Until then the boiler, the pipes and the fins are between the sources, h. */
const betweenSources = 1;
/** After that only this is left of the old source, exp(-rate·(t - lag)): the rates are tried, and weighed by their fit. */
const lagHours = 0.35;
const rates = [2.5, 3.5, 5, 8];
/** The settled end, by which the sources are told apart in words, h after the switch. */
const settledFrom = 1.25;
const leastSettledHours = 0.3;
/** Frost, the probes and the room may drift on by this much of ln(cooling) in an hour. Common practice, no source. */
const driftPerHour = 0.015;
/** What is left between two sources of one simulated fridge when everything else is allowed for. */
const modelError = 0.01;
/** Fins this little colder than the air cool nothing, K. */
const leastFins = 0.7;
/** Frost that melts holds the fins here, °C, the probe's own error included. */
const meltsFrom = -0.6;
const meltsUntil = 1.1;

/**
 * What the switch right before a stretch tells of it.
 *
 * @param stretches those of the same run among others, in order of time.
 * @returns null where the stretch was not switched to while cold, or where nobody said from or to which source.
 */
export function switchOverAt(after: StretchEvidence, stretches: readonly StretchEvidence[]): SwitchOver | null {
  if (after.stretch.startState !== "switched-while-cold") return null;
  const heated = stretches.filter(({ stretch, run }) => stretch.heated && run.recording === after.run.recording);
  const at = heated.indexOf(after);
  const before = heated[at - 1];
  if (before === undefined || before.source === null || after.source === null) return null;
  if (before.source === after.source) return null;
  const next = heated[at + 1];
  const isAgain = next?.stretch.startState === "switched-while-cold" && next.source === before.source;
  return switchOver(before, after, isAgain ? next : null);
}

/** @param again the first source once more, directly after; null when there is none. */
function switchOver(before: StretchEvidence, after: StretchEvidence, again: StretchEvidence | null): SwitchOver {
  const none = (why: UnknownSaying): SwitchOver => ({
    before,
    ratio: unknown(why),
    told: null,
    drift: "allowed-for",
  });
  if (isHeldBack(before) || (after.view.endHours < leastHours && isHeldBack(after)))
    return none({ code: "held-back-at-switch" });
  if (after.view.endHours < leastHours)
    return none({ code: "too-short", hours: after.view.endHours, neededHours: switchSettlesHours });
  const hours = hoursOf(before);
  if (hours < leastHoursBefore) return none({ code: "too-short", hours, neededHours: leastHoursBefore });
  const rows = rowsAround(before, after, again);
  const settled = rows.filter((row) => row.side === "after" && row.hours >= settledFrom);
  const first = rows.filter((row) => row.side === "before");
  const used = settled.filter((row) => !row.melts);
  if (settled.length > 0 && spanOf(used) < leastSettledHours) return none({ code: "frost-melting" });
  if (spanOf(used) < leastSettledHours || spanOf(first) < leastSettledHours)
    return none({ code: "too-few-readings", readings: used.length, needed: 6 });
  if (!(meanOf(first, kelvinOf) > leastFins && meanOf(used, kelvinOf) > leastFins))
    return none({ code: "nothing-cooled" });
  return fitted(
    before,
    rows.filter((row) => !row.melts && row.kelvin > 0),
    none,
  );
}

/** A thermostat, or a flame or supply lost before the end: then the fins do not show what the source can do. */
const isHeldBack = (evidence: StretchEvidence): boolean =>
  evidence.view.endHours < hoursOf(evidence) - 0.25 || cyclingIn(evidence.view, evidence.events) !== null;

const hoursOf = ({ stretch }: StretchEvidence): number => (stretch.endMs - stretch.startMs) / msPerHour;

function fitted(
  before: StretchEvidence,
  rows: readonly FinRow[],
  none: (why: UnknownSaying) => SwitchOver,
): SwitchOver {
  const isFanInside = before.run.recording.sheet?.fanInside ?? false;
  const sides = ["before", "after"] as const;
  let log = 0;
  let fit: SwitchFit | null = null;
  // How hot the condenser runs depends on the ratio, weakly: a few rounds settle it.
  for (let round = 0; round < 4; round++) {
    const share = { before: shareOf(-log), after: shareOf(log) };
    const values = rows.map((row) => logCoolingOf(finCooling(row, share[row.side], isFanInside)));
    fit = fitOver(rows, values, log);
    if (fit === null) return none({ code: "no-numbers" });
    log = fit.log;
  }
  if (fit === null) return none({ code: "no-numbers" });
  const [first, settled] = sides.map((side) =>
    rows.filter((row) => row.side === side && (side === "before" || (row.hours >= settledFrom && !row.isAgain))),
  );
  const parts = (side: readonly FinRow[]) =>
    side.map((row) => finCooling(row, shareOf(row.side === "before" ? -log : log), isFanInside));
  const doubt = doubtBetween(parts(first), parts(settled));
  const [finsBefore, finsAfter] = [meanOf(first, kelvinOf), meanOf(settled, kelvinOf)];
  // The probes' own difference shifts both alike, and a small fin difference by more.
  const offset = 1.25 * before.offset.standardError * (1 / finsAfter - 1 / finsBefore);
  const variance = fit.variance + doubt + offset ** 2 + modelError ** 2;
  const error = Math.sqrt(variance);
  return {
    before,
    ratio: estimate("1", Math.exp(log), Math.exp(log - 2 * error), Math.exp(log + 2 * error), {
      standardError: Math.exp(log) * error,
      readings: rows.length,
    }),
    told: { log, variance, finsBefore, finsAfter },
    drift: rows.some((row) => row.isAgain) ? "removed" : "allowed-for",
  };
}

/** One reading of the fins. */
interface FinRow extends FinMoment {
  /** Since the switch. */
  readonly hours: number;
  /** Which of the two sources it was read on. */
  readonly side: "before" | "after";
  /** Read on the first source once more. */
  readonly isAgain: boolean;
  /** How much of the second source there is in it for each approach rate, 0 to 1. */
  readonly approach: readonly number[];
  readonly melts: boolean;
}

const kelvinOf = (row: FinRow) => row.kelvin;

/** The stronger of two sources counts as fully heated. */
const shareOf = (logOverOther: number): number => Math.exp(Math.min(0, logOverOther));

function rowsAround(before: StretchEvidence, after: StretchEvidence, again: StretchEvidence | null): FinRow[] {
  const switchMs = after.stretch.startMs;
  const lasted = (after.stretch.endMs - switchMs) / msPerHour;
  const mix = (since: number) => rates.map((rate) => -Math.expm1(-rate * Math.max(0, since - lagHours)));
  const one = momentsOf(before, -hoursBefore, 0, switchMs);
  const wereCold = meanOf(one.slice(-20), ({ evaporator }) => evaporator) < meltsFrom;
  const melts = ({ evaporator }: FinMoment) => wereCold && evaporator > meltsFrom && evaporator < meltsUntil;
  const nothing = rates.map(() => 0);
  const two = momentsOf(after, betweenSources, Math.min(lasted, after.view.endHours), switchMs);
  const three = again === null ? [] : momentsOf(again, lasted + betweenSources, lasted + hoursAgain, switchMs);
  const atEnd = mix(lasted);
  return [
    ...one.map((row) => ({ ...row, side: "before" as const, isAgain: false, approach: nothing, melts: false })),
    ...two.map((row) => ({
      ...row,
      side: "after" as const,
      isAgain: false,
      approach: mix(row.hours),
      melts: melts(row),
    })),
    ...three.map((row) => ({
      ...row,
      side: "before" as const,
      isAgain: true,
      approach: mix(row.hours - lasted).map((gone, i) => atEnd[i] * (1 - gone)),
      melts: melts(row),
    })),
  ];
}

/** Readings between two instants (h from the switch), with the evaporator's own rate over the third of an hour around. */
function momentsOf(
  { view, offset, stretch }: StretchEvidence,
  from: number,
  until: number,
  switchMs: number,
): (FinMoment & { readonly hours: number })[] {
  const shift = (stretch.startMs - switchMs) / msPerHour;
  const rows = [...view.hours.keys()].filter((row) => {
    const hours = view.hours[row];
    const ambient = view.ambient?.[row] ?? Number.NaN;
    const nearDoor = view.doorHours.some((door) => hours >= door && hours < door + doorCutHours);
    return (
      !nearDoor &&
      hours <= view.endHours &&
      hours + shift >= from - rateHours &&
      hours + shift <= until &&
      Number.isFinite(view.cabinet[row] + view.evaporator[row] + ambient)
    );
  });
  return rows.flatMap((row, at) => {
    const hours = view.hours[row] + shift;
    const warming = rateAround(view.hours, view.evaporator, rows, at);
    if (hours < from || warming === null) return [];
    const evaporator = view.evaporator[row] + offset.kelvin;
    const kelvin = view.cabinet[row] - evaporator;
    return [{ hours, kelvin, evaporator, ambient: view.ambient?.[row] ?? Number.NaN, warming }];
  });
}

const rateHours = 1 / 6;

function rateAround(hours: Float64Array, values: Float64Array, rows: readonly number[], at: number): number | null {
  const near: number[] = [];
  for (let i = at; i >= 0 && hours[rows[i]] >= hours[rows[at]] - rateHours; i--) near.push(rows[i]);
  for (let i = at + 1; i < rows.length && hours[rows[i]] <= hours[rows[at]] + rateHours; i++) near.push(rows[i]);
  const line = fitStraightLine(
    near.map((row) => hours[row]),
    near.map((row) => values[row]),
  );
  return line?.slope ?? null;
}

interface SwitchFit {
  readonly log: number;
  readonly variance: number;
}

/** The step of ln(cooling) at the switch, over all approach rates, each weighed by how well it fits. */
function fitOver(rows: readonly FinRow[], values: readonly number[], log: number): SwitchFit | null {
  const fits = rates.map((_, rate) => fitAt(rows, values, log, rate)).filter((fit) => fit !== null);
  if (fits.length === 0) return null;
  const least = Math.min(...fits.map((fit) => fit.rss));
  const weights = fits.map((fit) => Math.exp((least - fit.rss) / (2 * fit.noise)));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const mean = fits.reduce((total, fit, i) => total + weights[i] * fit.log, 0) / sum;
  const variance = fits.reduce((total, fit, i) => total + weights[i] * (fit.variance + (fit.log - mean) ** 2), 0) / sum;
  return { log: mean, variance };
}

/** Least squares for one rate: level, step and drift; the drift is believed small as far as the readings do not tell. */
function fitAt(
  rows: readonly FinRow[],
  values: readonly number[],
  log: number,
  rate: number,
): (SwitchFit & { readonly rss: number; readonly noise: number }) | null {
  const design = rows.map((row) => [1, inLogarithms(row.approach[rate], log), row.hours]);
  // Twice: the drift's own belief weighs by the noise, which the first pass finds.
  let noise = 0.02 ** 2;
  for (let pass = 0; ; pass++) {
    const normal = [0, 0, 0, 0, 0, 0, 0, 0, noise / driftPerHour ** 2];
    const step = [0, 0, 0];
    for (const [i, row] of design.entries()) {
      for (let a = 0; a < 3; a++) {
        step[a] += row[a] * values[i];
        for (let b = 0; b < 3; b++) normal[3 * a + b] += row[a] * row[b];
      }
    }
    if (!factor(normal, 3, 3)) return null;
    solve(normal, 3, 3, step);
    const residual = Float64Array.from(
      design,
      (row, i) => values[i] - row[0] * step[0] - row[1] * step[1] - row[2] * step[2],
    );
    const rss = residual.reduce((sum, value) => sum + value * value, 0);
    noise = (rss / Math.max(1, rows.length - 3)) * varianceInflation(residual, null, 3);
    if (pass === 1) return { log: step[1], variance: noise * inverse(normal, 3, 3)[4], rss, noise };
  }
}

/** The flows of two sources mix, not their logarithms: how much of a step of `log` there is with so much of the second. */
const inLogarithms = (share: number, log: number): number =>
  Math.abs(log) < 1e-3 ? share : Math.log1p(share * Math.expm1(log)) / log;

/** Variance of ln(cooling) between two states, of what is only believed of the referring. */
function doubtBetween(first: readonly FinCooling[], second: readonly FinCooling[]): number {
  const shift = (part: keyof FinCooling) =>
    finCoolingDoubt[part] * (meanOf(second, (one) => one[part]) - meanOf(first, (one) => one[part]));
  return shift("fins") ** 2 + shift("mass") ** 2 + shift("evaporator") ** 2 + shift("surroundings") ** 2;
}

const meanOf = <T>(of: readonly T[], value: (one: T) => number): number =>
  of.reduce((sum, one) => sum + value(one), 0) / of.length;

const spanOf = (rows: readonly FinRow[]): number =>
  rows.length < 6 ? 0 : (rows.at(-1)?.hours ?? 0) - (rows[0]?.hours ?? 0);
