// English: what may be behind cooling that stopped, for the alarm, the head of the live page and the event.

import { type HeatSource, isElectric } from "../../../schema/index.ts";
import type { StopDoubt } from "../../../science/index.ts";

/**
 * Full sentences.
 *
 * @param doubt of an alarm that was kept before it was told: a first hold, where there may be a thermostat.
 */
export function mayHaveStopped(
  source: HeatSource | null,
  doubt: StopDoubt = source === "dc12" ? null : "first-hold",
): string {
  if (doubt === "heat-goes-on")
    return "The boiler or the flue stays hot, so the heat goes on and no cold comes of it: the fridge may not stand level, the cooling unit may have failed, or a thermostat holds for very long.";
  if (doubt === "heat-came-back")
    return "The boiler or the flue had cooled and is hot again: the heat was lost and is back, and cold should follow within the hour.";
  const lost = isElectric(source)
    ? "The supply may have been lost."
    : source === "gas"
      ? "The flame may have gone out."
      : "If this is gas, the flame may have gone out.";
  // Of five simulated nights on gas with a thermostat and no boiler probe, three raise this at its first hold (tests/bench/gas-stop-study.ts).
  return doubt === "first-hold" ? `${lost} A thermostat that holds for the first time looks the same.` : lost;
}
