// The air outside: mean, daily swing, drift and slow wander.

import { seededRandom } from "./seeded-random.ts";

export interface AmbientPlan {
  readonly meanCelsius: number;
  /** Whole swing of a day, lowest to highest, K; warmest at 16:00 local time. */
  readonly swingKelvin?: number;
  readonly driftKelvinPerHour?: number;
  /** Standard deviation of the weather's and the room's own wander (memory 2 h), K. */
  readonly wanderKelvin?: number;
}

const warmestHour = 16;
const wanderKnotHours = 1 / 6;
const wanderMemoryHours = 2;

/**
 * Air temperature as a function of the hours since the start.
 *
 * @param fromHours earliest hour that will be asked for, ≤ 0.
 * @param startHourOfDay local time of day at the start, h.
 */
export function ambientOf(
  plan: AmbientPlan,
  span: { readonly fromHours: number; readonly toHours: number; readonly startHourOfDay: number },
  seed: number,
  stream: string,
): (hours: number) => number {
  const { meanCelsius, swingKelvin = 0, driftKelvinPerHour = 0, wanderKelvin = 0 } = plan;
  const wander = wanderKnots(
    Math.ceil((span.toHours - span.fromHours) / wanderKnotHours) + 2,
    wanderKelvin,
    seed,
    stream,
  );
  return (hours) => {
    const day = (2 * Math.PI * (span.startHourOfDay + hours - warmestHour)) / 24;
    const knot = (hours - span.fromHours) / wanderKnotHours;
    const before = Math.min(Math.max(0, Math.floor(knot)), wander.length - 2);
    const between = wander[before] + (knot - before) * (wander[before + 1] - wander[before]);
    return meanCelsius + (swingKelvin / 2) * Math.cos(day) + driftKelvinPerHour * hours + between;
  };
}

function wanderKnots(count: number, spread: number, seed: number, stream: string): Float64Array {
  const random = seededRandom(seed, `wander of ${stream}`);
  const memory = Math.exp(-wanderKnotHours / wanderMemoryHours);
  const knots = new Float64Array(count);
  let value = random.normal();
  for (let i = 0; i < count; i++) {
    knots[i] = spread * value;
    value = memory * value + Math.sqrt(1 - memory ** 2) * random.normal();
  }
  return knots;
}
