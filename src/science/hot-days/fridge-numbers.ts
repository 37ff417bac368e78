// What the runs tell of a fridge for marching it: depth, rate, time until cold and dial of every source, and how it warms
// back; each with what is allowed for where no run tells. And one fridge drawn from among those the readings allow.

import { type HeatSource, heatSources } from "../../schema/index.ts";
import type { RunEvidence, StretchEvidence } from "../evidence/run-evidence.ts";
import { warmingRate } from "../evidence/warming-rate.ts";
import { type Estimate, isKnown } from "../numbers/estimate.ts";
import { usualWarmingRate } from "../pull-down/pull-down-fit.ts";
import { knownGoodBySource } from "../strength/known-good.ts";
import { nightSpread } from "../strength/night-spread.ts";
import { newestHeld } from "../verdict/keeps-up.ts";
import type { MarchNumbers, MarchSource } from "./cabinet-march.ts";
import { type DepthLaw, depthBy, depthLaw, drawnTerms, nightlyDepth } from "./depth-law.ts";
import type { Load } from "./hot-day-findings.ts";

/**
 * Allowed for without a reading of this fridge; errors of rates are relative. Common practice, no source; the widths are
 * held against simulated trips in tests/bench/hot-day-study.ts.
 */
export const allowances = {
  /** Sun on the vents or the wall behind the fridge, as K of ambient. */
  sun: { kelvin: 4, error: 2 },
  /** Wind at the vents, shaking and slopes, as a share of the depth. */
  driving: { error: 0.1 },
  /** Volts, gas and level on the way are not those of the runs: a share of the depth, one for each source and trip. */
  onTheWay: { error: 0.03 },
  /** One rate stands for air, walls and contents. */
  rate: { error: 0.15 },
  usualRate: { perHour: 0.27, error: 0.3 },
  deadTime: { hours: 0.75, error: 0.25 },
  ownDeadTime: { error: 0.1 },
  warming: { error: 0.15 },
  usualWarming: { error: 0.35 },
  /** What the march leaves out altogether, K. */
  model: { error: 0.6 },
  /** Of the temperature that a trip starts from, K. */
  start: { stated: 0.5, "last-reading": 0.5, settled: 0.6, ambient: 1 },
} as const;

/**
 * Heat that leaks into a closed cabinet, W/K: a small absorption cabinet 0.554 (Mansouri, Bourouis & Bellagi, from memory),
 * one of 225 l 1.066 (computed from Vián & Astrain); 90 l or so lie between.
 */
const leak = { wattsPerKelvin: 0.9, error: 0.3 } as const;

/** Between fish 3.18 and milk 3.9 kJ/(kg K) (ASHRAE, reprinted in NZIFST Unit Operations, appendix 7). */
const foodHeat = { kilojoules: 3.7, error: 0.2 } as const;

/** A number and its error. */
export interface Spread {
  readonly value: number;
  readonly error: number;
  /** Whether runs of this fridge told it. */
  readonly isOwn: boolean;
}

export interface FridgeNumbers {
  readonly sources: ReadonlyMap<HeatSource | null, SourceNumbers>;
  /** 1/h, its error relative. */
  readonly warming: Spread;
}

export interface SourceNumbers {
  readonly stretches: readonly StretchEvidence[];
  /** null when no stretch tells a depth. */
  readonly law: DepthLaw | null;
  /** What the dial held, °C; null under full cooling. */
  readonly held: Estimate | null;
  /** 1/h, its error relative. */
  readonly rate: Spread;
  /** From a cold boiler to cold, h. */
  readonly dead: Spread;
}

/** The numbers of one fridge, from all runs of it together. */
export function fridgeNumbers(runs: readonly RunEvidence[]): FridgeNumbers {
  const stretches = runs.flatMap((run) => run.stretches).toSorted((a, b) => a.stretch.startMs - b.stretch.startMs);
  const [heated, off] = [true, false].map((is) => stretches.filter(({ stretch }) => stretch.heated === is));
  const warming = off.map(({ view }) => warmingRate(view)).flatMap((rate) => (isKnown(rate) ? [rate.value] : []));
  // The runs stand in for known-good ones here: what they differ by is what the night in question may differ by.
  const inOrder = runs.toSorted((a, b) => a.recording.unixMs[0] - b.recording.unixMs[0]);
  const nights = nightSpread(knownGoodBySource(inOrder));
  return {
    sources: new Map(
      [...Map.groupBy(heated, (one) => one.source)].map(([source, all]) => [
        source,
        sourceNumbers(all, nightlyDepth(nights, all)),
      ]),
    ),
    warming: spread(warming, allowances.warming.error, usualWarmingRate, allowances.usualWarming.error),
  };
}

function sourceNumbers(stretches: readonly StretchEvidence[], nightly: number): SourceNumbers {
  const fits = stretches.flatMap(({ fitted, stretch }) =>
    "why" in fitted ? [] : [{ ...fitted.judged.numbers, isFromCold: stretch.startState === "cold-boiler" }],
  );
  const rates = fits.flatMap(({ rateConstant }) => (isKnown(rateConstant) ? [rateConstant.value] : []));
  const deads = fits.flatMap(({ deadTime, isFromCold }) =>
    isFromCold && isKnown(deadTime) ? [Math.max(0, deadTime.value)] : [],
  );
  const { rate, usualRate, ownDeadTime, deadTime } = allowances;
  return {
    stretches,
    law: depthLaw(stretches, nightly),
    held: newestHeld(stretches),
    rate: spread(rates, rate.error, usualRate.perHour, usualRate.error),
    dead: spread(deads, ownDeadTime.error, deadTime.hours, deadTime.error),
  };
}

/** The mean of what the runs tell, or what is usual. */
function spread(own: readonly number[], ownError: number, usual: number, usualError: number): Spread {
  if (own.length === 0) return { value: usual, error: usualError, isOwn: false };
  return { value: own.reduce((sum, value) => sum + value, 0) / own.length, error: ownError, isOwn: true };
}

const shared = ["start", "warming", "sun", "driving", "leak", "food", "model"] as const;
const perSource = 6;

/** How many standard normal numbers draw a fridge; all zero is the middle of what the readings allow. */
export const drawDimensions = shared.length + perSource * heatSources.length;

/** One fridge among those that the readings allow. */
export interface DrawnFridge extends Omit<MarchNumbers, "start" | "startsCooling"> {
  /** Standard normal: how far the start and the march as a whole lie off. */
  readonly startNormal: number;
  readonly modelNormal: number;
  /** Share of the heat capacity that is the fridge's own, the rest being goods put in. */
  readonly ownShare: number;
}

/**
 * One fridge of those that the runs leave possible.
 *
 * @param normals `drawDimensions` standard normal numbers; all zero for the middle
 */
export function drawnFridge(fridge: FridgeNumbers, load: Load | null, normals: readonly number[]): DrawnFridge {
  const [start, warming, sun, driving, leakNormal, food, model] = normals;
  const warmingPerHour = fridge.warming.value * Math.exp(fridge.warming.error * warming);
  const sources = heatSources.flatMap((source, i): [HeatSource, MarchSource][] => {
    const own = fridge.sources.get(source);
    const at = shared.length + perSource * i;
    return own?.law ? [[source, drawnSource(own, own.law, normals.slice(at, at + perSource))]] : [];
  });
  return {
    startNormal: start,
    modelNormal: model,
    ownShare: ownShareOfHeat(load, warmingPerHour, leakNormal, food),
    warmingRate: warmingPerHour,
    sources: new Map(sources),
    sunKelvin: Math.max(0, allowances.sun.kelvin + allowances.sun.error * sun),
    drivingFactor: Math.min(1.5, Math.max(0.5, 1 + allowances.driving.error * driving)),
  };
}

function drawnSource(own: SourceNumbers, law: DepthLaw, normals: readonly number[]): MarchSource {
  const terms = drawnTerms(law, normals, allowances.onTheWay.error * law.meanDepth);
  const [, , , , rate, dead] = normals;
  return {
    rate: own.rate.value * Math.exp(own.rate.error * rate),
    deadHours: Math.max(0, own.dead.value + own.dead.error * dead),
    depthAt: (ambient) => depthBy(terms, ambient),
    held: own.held === null ? null : own.held.value,
  };
}

/** The fridge's own heat capacity follows from how it warms back and what leaks into such a cabinet. */
export function ownShareOfHeat(load: Load | null, warmingPerHour: number, leakNormal = 0, foodNormal = 0): number {
  if (load === null || !(load.kilograms > 0)) return 1;
  const leakWatts = leak.wattsPerKelvin * Math.exp((leak.error / leak.wattsPerKelvin) * leakNormal);
  const ownKilojoules = (leakWatts * 3.6) / warmingPerHour;
  return ownKilojoules / (ownKilojoules + load.kilograms * (foodHeat.kilojoules + foodHeat.error * foodNormal));
}
