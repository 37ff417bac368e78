// Whether the cabinet's probe answers late, as in a bottle or among goods. With the fridge off nothing cools the fins and they
// warm with the air, so what they then read above the cabinet's probe is how far it lags behind its air.

import { mean } from "simple-statistics";
import { meanBetween, type StretchView } from "../readings/stretch-view.ts";
import type { ProbeOffset } from "./probe-offset.ts";

/** How far the fins stood above the cabinet's probe, K, in the half hour with the fridge off that shows it most. */
export interface FinsAbove {
  readonly value: number;
  readonly standardError: number;
}

const windowHours = 0.5;

/** @returns null where no off stretch of the run shows both probes */
export function finsAboveCabinet(views: readonly StretchView[], offset: ProbeOffset): FinsAbove | null {
  const means = views.filter(({ stretch }) => !stretch.heated).flatMap((view) => meansOf(view, offset.kelvin));
  return means.length === 0 ? null : { value: Math.max(...means), standardError: offset.standardError };
}

function meansOf(view: StretchView, offset: number): readonly number[] {
  const windows = Math.floor(view.endHours / windowHours);
  return Array.from({ length: windows }, (_, at) =>
    meanBetween(
      view,
      at * windowHours,
      (at + 1) * windowHours,
      (row) => view.evaporator[row] + offset - view.cabinet[row],
    ),
  ).flatMap((found) => (found === null ? [] : [found.mean]));
}

/**
 * Air is in layers and nights differ: so much says nothing, K. Simulated fridges in order stay under 0.2 K, a probe that
 * answers an hour late stands at 1.4 K and more.
 */
const layeredAir = 1.5;

/**
 * How much more the cabinet's probe lags here than in the known-good runs, K; negative where it lags there. Of a run that does
 * not show it, it is taken to have hung in the air.
 */
export function lagBeyond(here: FinsAbove | null, knownGood: readonly (FinsAbove | null)[]): FinsAbove {
  const inTheAir: FinsAbove = { value: 0, standardError: 0 };
  const there = knownGood.map((run) => run ?? inTheAir);
  const own = here ?? inTheAir;
  return {
    value: own.value - mean(there.map(({ value }) => value)),
    standardError: Math.hypot(own.standardError, mean(there.map(({ standardError }) => standardError))),
  };
}

/** Whether the probe lags so much more on one side that its readings cannot be compared. */
export const isSlow = ({ value, standardError }: FinsAbove): boolean =>
  Math.abs(value) - 2 * standardError > layeredAir;
