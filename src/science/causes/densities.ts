// How likely each thing that was seen is where a cause is there: densities, which causes.ts multiplies.

import type { CabinetLift } from "../evidence/cabinet-lift.ts";
import { normalBelow } from "../numbers/distributions.ts";
import type { Candidate } from "./candidates.ts";
import type { Shown, SourceObservation, WhileWarm } from "./observed.ts";
import { usualHeatScatter } from "./strength-in-heat.ts";

/** Night to night, onsets move by some minutes. */
export const onsetScatter = 5;
/**
 * A boiler that gets half the heat takes twice as long to boil: the dead time of a fridge in order, min, grows as the heat
 * shrinks. Common practice, no source (30 to 60 min from cold); 500 simulated faults lie within a quarter of it.
 */
const usualDeadMinutes = 45;
const delayDoubt = 0.4;
/** Cooling goes as the heat to this power where there is less than rated (heat-law.ts). */
export const coolingPower = 1.4;
export const warmingScatter = 0.08;

/** ln(strength) of a source that is as good as dead. */
export const deadLog = Math.log(0.12);

export function strengthDensity({ logStrength, standardError, isDead }: SourceObservation, expected: number): number {
  if (logStrength === null && !isDead) return 1;
  // Next to nothing is as good as dead: no loss goes further than that.
  const seen = isDead ? deadLog : Math.max(deadLog, Math.min(0.3, logStrength ?? 0));
  return wideNormal(seen - expected, Math.max(0.04, standardError));
}

/** How much later the cold begins where too little heat leaves so much of the cooling (its logarithm), min. */
export const delayOf = (loss: number): number => usualDeadMinutes * (Math.exp(-loss / coolingPower) - 1);

/** One source in fifty is told an hour or so before it is lit, or after: common practice, no source. */
const onsetAnyhow = 0.02 / 60;

export function onsetDensity({ onsetShift }: SourceObservation, delay: number): number {
  if (onsetShift === null) return 1;
  const scatter = Math.hypot(onsetScatter, delayDoubt * delay);
  const { minutes, atLeast } = onsetShift;
  return atLeast ? notBefore(minutes - delay, scatter) : normal(minutes - delay, scatter) + onsetAnyhow;
}

/**
 * Of the rate constant between runs of a fridge in order; later stretches begin colder, and scatter more. A loss of heat lowers it
 * by a tenth at most (simulated fridges).
 */
const rateScatter = { first: 0.06, later: 0.09 };
const rateWhenWeak = -0.03;

export function rateDensity({ rate, wearsOff }: Candidate, { first, later }: WhileWarm): number {
  if (rate === "raised") return wearsOff ? raisedByGoods(first, later) : raisedByLeak(first, later);
  return rateAsUsual(rate, first, rateScatter.first) * rateAsUsual(rate, later, rateScatter.later);
}

const raisedByGoods = (first: Shown | null, later: Shown | null) =>
  (first === null ? 1 : mostlySmall(0.05, 0.35, 0.6, first.value, Math.hypot(rateScatter.first, first.standardError))) *
  evenDensity(0, 0.35, later, rateScatter.later);

/** A leak raises the rate in every stretch alike: by 0.18 to 0.57 where it is 40 to 100 % larger (80 simulated stretches). */
const raises = Array.from({ length: 11 }, (_, i) => 0.1 + 0.05 * i);

const raisedByLeak = (first: Shown | null, later: Shown | null) =>
  raises.reduce(
    (sum, raise) => sum + nearDensity(raise, first, rateScatter.first) * nearDensity(raise, later, rateScatter.later),
    0,
  ) / raises.length;

function rateAsUsual(expected: "usual" | "any", seen: Shown | null, scatter: number): number {
  if (seen === null) return 1;
  const usual = nearDensity(rateWhenWeak, seen, scatter);
  return expected === "usual" ? usual : (usual + 1) / 2;
}

/** Of what is seen beside what is expected; 1 where nothing is seen. */
const nearDensity = (expected: number, seen: Shown | null, scatter: number): number =>
  seen === null ? 1 : wideNormal(seen.value - expected, Math.hypot(scatter, seen.standardError));

/** Of what may be anything between two values; 1 where nothing is seen. */
const evenDensity = (from: number, to: number, seen: Shown | null, scatter: number): number =>
  seen === null ? 1 : evenBetween(from, to, seen.value, Math.hypot(scatter, seen.standardError));

export function warmingDensity(expected: Candidate["warming"], seen: Shown | null): number {
  if (seen === null) return 1;
  const error = Math.hypot(seen.standardError, warmingScatter);
  if (expected === "faster") return evenBetween(Math.log(1.2), Math.log(2.2), seen.value, error);
  // Goods that hardly touch the air slow the warming back little, and such that are warm still when the fridge goes off hasten it.
  if (expected === "slower")
    return (
      0.8 * evenBetween(Math.log(0.4), 0, seen.value, error) + 0.2 * evenBetween(0, Math.log(1.25), seen.value, error)
    );
  return wideNormal(seen.value, error);
}

/** The fins' logarithm less the slope's where their probe reads a third of what it should; farther off it has fallen. */
const fallenOff = -1.6;

/** The least that the witnesses scatter by between them. */
const apartScatter = 0.05;

export function apartDensity({ apart, wearsOff }: Candidate, { first, later }: WhileWarm): number {
  return (
    apartDensityOf(apart, first) *
    (wearsOff ? evenDensity(-0.15, 0.15, later, apartScatter) : apartDensityOf(apart, later))
  );
}

function apartDensityOf(expected: Candidate["apart"], seen: Shown | null): number {
  if (seen === null) return 1;
  const error = Math.max(apartScatter, seen.standardError);
  if (expected === "slope-low") return mostlySmall(0.05, 0.3, 0.6, seen.value, error);
  // 0.01 to 0.17 for a leak 40 to 100 % larger (80 simulated stretches).
  if (expected === "slope-a-little-low") return evenBetween(0, 0.2, seen.value, error);
  // A probe that hangs loose reads towards the air, be it a little or nearly all of it; one clipped to a colder fin is rarer.
  if (expected === "either") {
    const value = Math.max(fallenOff, seen.value);
    return 0.3 * evenBetween(0.15, 0.8, value, error) + 0.7 * evenBetween(fallenOff, -0.15, value, error);
  }
  return wideNormal(seen.value, error);
}

/** Frost heavy enough to matter melts for all to see; a little of it is on the fins of many a fridge in order. */
const meltsSeen = 0.9;
const meltsAnyway = 0.1;

export function frostShare(melts: boolean, seen: boolean | null): number {
  if (seen === null) return 1;
  const share = melts ? meltsSeen : meltsAnyway;
  return seen ? share : 1 - share;
}

/** Half of the probes that moved are not late, and a bottle or goods make it stand off by up to this, K. */
const slowest = 6;
const lagScatter = 0.5;

export function lagDensity(lags: boolean, seen: Shown | null): number {
  if (seen === null) return 1;
  const error = Math.hypot(lagScatter, seen.standardError);
  // Fins that stay colder than usual are frosted, or their probe is elsewhere.
  const value = Math.min(slowest, Math.max(0, seen.value));
  const usual = wideNormal(value, error);
  return lags ? (usual + evenBetween(1, slowest, value, error)) / 2 : usual;
}

export function liftDensity(lifts: boolean, seen: CabinetLift | null): number {
  if (seen === null) return 1;
  // 2 to 25 W of lamp over some 1 W/K of leak; few lamps are strong.
  if (lifts)
    return (
      0.8 * evenBetween(1.5, 10, seen.value, seen.standardError) +
      0.2 * evenBetween(10, 25, seen.value, seen.standardError)
    );
  const ended = wideNormal(seen.value, Math.max(0.5, seen.standardError));
  // No doubt of its rate makes a cabinet without a lamp rise further above ambient.
  return seen.least === null ? ended : Math.min(ended, wideNormal(seen.least, 0.5));
}

export function inHeatDensity(expected: Candidate["inHeat"], seen: Shown | null): number {
  if (seen === null) return 1;
  const error = Math.hypot(seen.standardError, usualHeatScatter);
  const usual = wideNormal(seen.value, error);
  if (expected === "usual") return usual;
  // Poor ventilation costs 10 % on a cool day and 35 % above 32 °C (simulated fridges).
  const weaker = evenBetween(-0.5, -0.05, seen.value, error);
  return expected === "weaker" ? weaker : (usual + weaker) / 2;
}

/** Density of what is seen when the truth may lie anywhere between two values. */
function evenBetween(from: number, to: number, seen: number, error: number): number {
  const steps = Math.ceil((2 * (to - from)) / error);
  let sum = 0;
  for (let i = 0; i < steps; i++) sum += wideNormal(seen - from - ((to - from) * (i + 0.5)) / steps, error);
  return sum / steps;
}

/** A few kilograms of goods are commoner than a full cabinet of them, and a small lamp than a strong one. */
const mostlySmall = (from: number, middle: number, to: number, seen: number, error: number): number =>
  0.7 * evenBetween(from, middle, seen, error) + 0.3 * evenBetween(middle, to, seen, error);

/** Chance of lying beyond a deviation, with the same floor. */
const notBefore = (deviation: number, error: number) => 0.995 * (1 - normalBelow(deviation / error)) + 0.005;

/** Normal density with a floor: nothing observed rules a cause out for good. */
const wideNormal = (deviation: number, error: number) => normal(deviation, error) + 0.002;

const normal = (deviation: number, error: number) =>
  (0.98 * Math.exp(-((deviation / error) ** 2) / 2)) / (error * Math.sqrt(2 * Math.PI));
