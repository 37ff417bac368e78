// Marches through the same steps of all the fridges that the readings allow.

import { normalDraws } from "../numbers/normal-draws.ts";
import { type MarchStep, marchCabinet } from "./cabinet-march.ts";
import { allowances, type DrawnFridge, drawDimensions, drawnFridge, type FridgeNumbers } from "./fridge-numbers.ts";
import type { Load } from "./hot-day-findings.ts";
import type { StartKind } from "./hot-day-sayings.ts";
import type { Marches } from "./march-band.ts";

/** Where a march begins. */
export interface MarchStart {
  readonly kind: StartKind;
  /** Without goods, °C; of `settled`, at the end of the run-up. */
  readonly celsius: number;
  /** Whether the boiler is hot and the unit cooling. */
  readonly isCooling: boolean;
  /** Steps before the first one, through which the cabinet comes to the temperature it starts with; only when `settled`. */
  readonly runUp?: readonly MarchStep[];
}

export interface MarchSetting {
  readonly fridge: FridgeNumbers;
  readonly load: Load | null;
  /** Of the draws. */
  readonly seed: number;
}

/** Draws behind each band. */
const draws = 200;

/** The cabinet at every step (°C): first of the fridge in the middle of what is possible, then of each that is drawn. */
export function marchAll(steps: readonly MarchStep[], start: MarchStart, setting: MarchSetting): Marches {
  const { fridge, load, seed } = setting;
  const march = (normals: readonly number[]) => marchOne(steps, start, drawnFridge(fridge, load, normals), load);
  const middle = march(new Array<number>(drawDimensions).fill(0));
  return [middle, ...normalDraws(drawDimensions, draws, seed).map(march)];
}

function marchOne(steps: readonly MarchStep[], start: MarchStart, drawn: DrawnFridge, load: Load | null): Float64Array {
  const { ownShare, startNormal, modelNormal } = drawn;
  const before = startCelsius(start, drawn) + allowances.start[start.kind] * startNormal;
  const march = marchCabinet(steps, {
    ...drawn,
    start: ownShare * before + (1 - ownShare) * (load?.celsius ?? before),
    startsCooling: start.isCooling,
    // Goods make everything slower and nothing deeper.
    warmingRate: drawn.warmingRate * ownShare,
    sources: new Map([...drawn.sources].map(([source, unit]) => [source, { ...unit, rate: unit.rate * ownShare }])),
  });
  // The start has an error of its own; what the march leaves out builds up within the hour.
  return march.map((celsius, i) => celsius + allowances.model.error * modelNormal * Math.min(1, steps[i].hours));
}

function startCelsius({ celsius, runUp }: MarchStart, drawn: DrawnFridge): number {
  if (runUp === undefined) return celsius;
  return marchCabinet(runUp, { ...drawn, start: celsius, startsCooling: true })[runUp.length - 1];
}
