// The schedule with this run's own luck: what each stretch is really fed.

import type { EnergySource, HeatSource } from "../schema/index.ts";
import { type FaultEffects, faultEffects } from "./faults.ts";
import type { SimulatedFridge } from "./fridge.ts";
import { heatInput, type Supply, voltsOf } from "./heat-input.ts";
import { hoursOf, type SimulationPlan } from "./plan.ts";
import { seededRandom } from "./seeded-random.ts";
import { throttle } from "./thermostat.ts";

/** A scheduled stretch with this night's own heat. */
export interface Night {
  readonly source: EnergySource;
  readonly startHours: number;
  readonly endHours: number;
  readonly supply: Supply;
  /** This night's own factor on the heat. */
  readonly heatFactor: number;
  /** Heat that reaches the boiler at full call, W. */
  readonly heatWatts: number;
  /** Heat of the burnt gas that does not, W; 0 but on gas. */
  readonly flueWatts: number;
  /** At the fridge's terminals; null without an electric source. */
  readonly volts: number | null;
}

/** All stretches, those before the recording first; hours count from the recording's start. */
export function nightsOf(plan: SimulationPlan): Night[] {
  const faults = faultEffects(plan.faults ?? []);
  const before = plan.before ?? [];
  let startHours = -hoursOf(before);
  return [...before, ...plan.schedule].map(({ source, hours }, i) => {
    // Numbered from the recording's start, so that what ran before it leaves its luck alone.
    const night = nightOf(plan, faults, source, i - before.length);
    const stretch = { ...night, startHours, endHours: startHours + hours };
    startHours += hours;
    return stretch;
  });
}

function nightOf(plan: SimulationPlan, faults: FaultEffects, source: EnergySource, number: number) {
  const { fridge, seed, supply = {}, nightToNight = {} } = plan;
  const heatFactor = scatter(seed, `heat of stretch ${number}`, nightToNight.heat);
  const scattered = scatteredVolts(fridge, supply, scatter(seed, `volts of stretch ${number}`, nightToNight.volts));
  if (source === "off") return { source, heatFactor, supply: scattered, heatWatts: 0, flueWatts: 0, volts: null };
  const heatWatts = heatFactor * heatInput(source, fridge, scattered, faults);
  return {
    source,
    heatFactor,
    supply: scattered,
    heatWatts,
    flueWatts: source === "gas" ? heatFactor * burntWatts(fridge, scattered, faults) - heatWatts : 0,
    volts: voltsOf(source, fridge, scattered, faults),
  };
}

/** Heat of the burnt gas, wherever it goes, W. */
const burntWatts = (fridge: SimulatedFridge, supply: Supply, faults: FaultEffects) =>
  heatInput("gas", { ...fridge, burnerEfficiency: 1 }, supply, {
    ...faults,
    heat: { ...faults.heat, gas: faults.gasFlow },
  });

/** A factor around 1 with this spread, the same for the same seed and stream. */
export const scatter = (seed: number, stream: string, spread = 0) =>
  Math.exp(spread * seededRandom(seed, stream).normal());

function scatteredVolts({ ratedVolts }: SimulatedFridge, supply: Supply, factor: number): Supply {
  const { mains = ratedVolts.mains, dc12 = ratedVolts.dc12 } = supply.volts ?? {};
  return { ...supply, volts: { mains: mains * factor, dc12: dc12 * factor } };
}

/** Heat now, W: less when the thermostat holds, none during an outage. */
export function heatNow(
  plan: SimulationPlan,
  night: Night,
  hours: number,
  calls: boolean,
): Pick<Night, "heatWatts" | "flueWatts"> {
  const { outages = [] } = plan;
  const isOut = outages.some((outage) => hours >= outage.atHours && hours < outage.atHours + outage.hours);
  if (night.source === "off" || isOut) return { heatWatts: 0, flueWatts: 0 };
  const share = throttle(night.source satisfies HeatSource, calls, plan);
  return { heatWatts: night.heatWatts * share, flueWatts: night.flueWatts * share };
}
