// Whether frost on the fins melted while the fridge was off: it holds them at 0 °C until it is gone. Looked for strictly where it
// is to explain something, and loosely where a little of it already spoils a rate.

import type { StretchView } from "../readings/stretch-view.ts";
import type { ProbeOffset } from "./probe-offset.ts";

/** Half the width of the plateau, K: what the probe and its place on the fin leave open. */
const halfWidth = 0.7;
/** Below the plateau as wide a band shows the pace at which the fins warm. */
const below = 0.2;
/** So much longer than the band below takes, and so long at all: fins without frost pass both in about the same time. */
const timesSlower = 2.5;
const leastHours = 0.4;

/** @returns null where no off stretch takes the fins from well below 0 °C through it, or long enough to it */
export function frostMelted(views: readonly StretchView[], offset: ProbeOffset): boolean | null {
  const shown = views.flatMap((view) => (view.stretch.heated ? [] : (meltsIn(view, offset.kelvin) ?? [])));
  return shown.length === 0 ? null : shown.includes(true);
}

function meltsIn({ hours, evaporator }: StretchView, offset: number): boolean | null {
  let [plateau, before] = [0, 0];
  let [hasBeenCold, hasPassed] = [false, false];
  for (let row = 1; row < hours.length; row++) {
    const fins = evaporator[row] + offset;
    const step = hours[row] - hours[row - 1];
    if (fins < -3 * halfWidth - below) hasBeenCold = true;
    else if (fins < -halfWidth - below) before += step;
    else if (Math.abs(fins) <= halfWidth) plateau += step;
    else if (fins > 3 * halfWidth) hasPassed = true;
  }
  if (!hasBeenCold) return null;
  const isHeld = plateau > leastHours && plateau > timesSlower * before;
  return isHeld || hasPassed ? isHeld : null;
}

/** Whether the fins were held at 0 °C for half an hour, within 0.6 K of it: enough to bend a rate of warming back. */
export function meltsBetween(hours: Float64Array, evaporator: Float64Array, from: number, until: number): boolean {
  let held = 0;
  for (let i = 1; i < hours.length; i++) {
    if (hours[i] < from || hours[i] > until) continue;
    if (Math.abs(evaporator[i]) < 0.6) held += hours[i] - hours[i - 1];
    else if (Number.isFinite(evaporator[i])) held = 0;
    if (held >= 0.5) return true;
  }
  return false;
}
