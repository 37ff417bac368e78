// What really happened in a simulated run: the answers that a verdict is held against.

import { type EnergySource, type HeatSource, msPerHour } from "../schema/index.ts";
import { type FaultEffects, faultEffects } from "./faults.ts";
import { heatInput } from "./heat-input.ts";
import type { Night } from "./nights.ts";
import type { SimulationPlan } from "./plan.ts";
import { settledCabinet, strengthWatts } from "./steady-state.ts";

export interface Truth {
  readonly stretches: readonly TrueStretch[];
  readonly doors: readonly Span[];
  /** Flame out or supply lost while the source said on. */
  readonly outages: readonly Span[];
  /** Cabinet air after a long time at full heat, door closed, no load, fan or frost, without this night's scatter, °C. */
  readonly settledCabinet: (source: HeatSource, ambientCelsius: number) => number;
}

export interface TrueStretch {
  readonly source: EnergySource;
  readonly startMs: number;
  readonly endMs: number;
  /**
   * When the cooling first reached half of the most it had in this stretch: where a fit that lets it begin at once
   * should put the onset. Null on `off`, when it never cooled, or when it was cooling already.
   */
  readonly coldBeganMs: number | null;
  /** Null on `off`. */
  readonly strength: TrueStrength | null;
}

/** Steady cooling power at 25 °C ambient with the evaporator at -5 °C, over that of the same fridge without faults. */
export interface TrueStrength {
  /** Faults, this night's scatter and what fed the source. */
  readonly thisNight: number;
  /** The same, had volts, gas and altitude been as rated. */
  readonly atRatedSupply: number;
  /** The faults alone: the fridge's, whatever the night. */
  readonly ofFaults: number;
  /** The steady cooling power behind `thisNight`, W: what two sources of one night are compared by. */
  readonly thisNightWatts: number;
}

export interface Span {
  readonly startMs: number;
  readonly endMs: number;
}

/**
 * @param nights the recording's stretches.
 * @param coolingWatts cooling in each of them, step by step.
 * @param coolingFactor this night's own factor on the cooling.
 */
export function truthOf(
  plan: SimulationPlan,
  nights: readonly Night[],
  coolingWatts: ReadonlyArray<readonly CoolingMoment[]>,
  coolingFactor: number,
): Truth {
  const { fridge, faults = [], doors = [], outages = [], supply } = plan;
  const at = (hours: number) => plan.startUnixMs + Math.round(hours * msPerHour);
  const span = (hours: number, lasts: number): Span => ({ startMs: at(hours), endMs: at(hours + lasts) });
  const effects = faultEffects(faults);
  return {
    stretches: nights.map((night, i) => {
      const began = night.source === "off" ? null : coldBegan(coolingWatts[i]);
      return {
        source: night.source,
        ...span(night.startHours, night.endHours - night.startHours),
        coldBeganMs: began === null ? null : at(began),
        strength: strengthOf(plan, night, effects, coolingFactor),
      };
    }),
    doors: doors.map(({ atHours, seconds }) => span(atHours, seconds / 3600)),
    outages: outages.map(({ atHours, hours }) => span(atHours, hours)),
    settledCabinet: (source, ambient) => settledCabinet(fridge, faults, source, ambient, supply),
  };
}

export interface CoolingMoment {
  readonly hours: number;
  readonly watts: number;
}

/** First reach of half the most; null when it never cooled or was beyond half from the start. */
function coldBegan(moments: readonly CoolingMoment[]): number | null {
  const most = moments.reduce((best, { watts }) => Math.max(best, watts), 0);
  const first = moments.findIndex(({ watts }) => watts > most / 2);
  return first > 0 ? moments[first].hours : null;
}

function strengthOf(
  { fridge }: SimulationPlan,
  { source, heatFactor, supply }: Night,
  effects: FaultEffects,
  coolingFactor: number,
): TrueStrength | null {
  if (source === "off") return null;
  const sound = faultEffects([]);
  const best = strengthWatts(fridge, sound, heatInput(source, fridge, {}, sound));
  const fedAsRated = { ...effects, volts: 1, gasPressure: 1 };
  const heat = heatInput(source, fridge, {}, effects);
  const tonight = heatFactor * heatInput(source, fridge, supply, effects);
  const tonightAsRated = heatFactor * heatInput(source, fridge, {}, fedAsRated);
  const thisNightWatts = coolingFactor * strengthWatts(fridge, effects, tonight);
  return {
    thisNightWatts,
    thisNight: thisNightWatts / best,
    atRatedSupply: (coolingFactor * strengthWatts(fridge, effects, tonightAsRated)) / best,
    ofFaults: strengthWatts(fridge, effects, heat) / best,
  };
}
