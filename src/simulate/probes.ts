// From true temperatures to what a logger writes: lag, offset, noise with a memory, steps, and what goes wrong.

import type { SimulatedPosition } from "./plan.ts";
import { seededRandom } from "./seeded-random.ts";

export interface ProbeBuild {
  /** The probe's own error, K; 0 unless stated. */
  readonly offsetKelvin?: number;
  /** Standard deviation, K; 0.03 unless stated. */
  readonly noiseKelvin?: number;
  /** Share of the noise that carries over to the next reading (AR(1)); 0.6 unless stated. */
  readonly noiseMemory?: number;
  /** Smallest step, K; 0.0625 (12 bits) unless stated, 0 for none. */
  readonly stepKelvin?: number;
  /** How slowly it follows, s; 60 unless stated. */
  readonly lagSeconds?: number;
  /** From this hour on the probe hangs in the cabinet air. */
  readonly fallsAtHours?: number;
  /** Chance that a single reading is missing, the power-on value or the disconnected value; 0 unless stated. */
  readonly missingChance?: number;
  readonly powerOnChance?: number;
  readonly disconnectedChance?: number;
}

/**
 * A thermocouple of type K, as boiler and flue need one: a one-wire sensor ends at 125 °C. The step is that of the front end in
 * firmware-notes/parts-and-wiring.md (14 bits; from memory 0.25 °C), the noise common practice, no source.
 */
export const thermocouple: ProbeBuild = { stepKelvin: 0.25, noiseKelvin: 0.3 };

export interface SpoiltReadings {
  readonly position: SimulatedPosition;
  readonly atHours: number;
  readonly hours: number;
  readonly as: "missing" | "power-on" | "disconnected" | "stuck";
}

/** The value of a one-wire sensor right after power-up, °C. Source: datasheet of the 18B20-type sensor. */
const powerOnCelsius = 85;
/** What drivers write when the sensor does not answer, °C. Common practice, no source. */
const disconnectedCelsius = -127;

/** A probe that is stepped with the true temperature and read at the logger's instants. */
export class SimulatedProbe {
  readonly #build: ProbeBuild;
  readonly #spoilt: readonly SpoiltReadings[];
  readonly #noise: () => number;
  readonly #luck: () => number;
  #follows: number;
  #error: number;
  #last = Number.NaN;

  constructor(
    position: SimulatedPosition,
    build: ProbeBuild,
    spoilt: readonly SpoiltReadings[],
    seed: number,
    start: number,
  ) {
    this.#build = build;
    this.#spoilt = spoilt.filter((s) => s.position === position);
    this.#noise = seededRandom(seed, `noise of ${position}`).normal;
    this.#luck = seededRandom(seed, `luck of ${position}`).uniform;
    this.#follows = start;
    this.#error = this.#noise();
  }

  /** Follows the temperature it feels for one step; exact for a steady one. */
  follow(celsius: number, seconds: number): void {
    const lag = this.#build.lagSeconds ?? 60;
    this.#follows += (celsius - this.#follows) * (lag > 0 ? -Math.expm1(-seconds / lag) : 1);
  }

  read(hours: number): number {
    const { offsetKelvin = 0, noiseKelvin = 0.03, noiseMemory = 0.6, stepKelvin = 0.0625 } = this.#build;
    const celsius = this.#follows + offsetKelvin + noiseKelvin * this.#error;
    this.#error = noiseMemory * this.#error + Math.sqrt(1 - noiseMemory ** 2) * this.#noise();
    const told = stepKelvin > 0 ? Math.round(celsius / stepKelvin) * stepKelvin : celsius;
    const spoilt = this.#spoilt.find((s) => hours >= s.atHours && hours < s.atHours + s.hours);
    if (spoilt?.as !== "stuck") this.#last = told;
    return spoilt ? spoiltValue(spoilt, this.#last) : this.#unlucky(told);
  }

  #unlucky(told: number): number {
    const { missingChance = 0, powerOnChance = 0, disconnectedChance = 0 } = this.#build;
    const luck = this.#luck();
    if (luck < missingChance) return Number.NaN;
    if (luck < missingChance + powerOnChance) return powerOnCelsius;
    if (luck < missingChance + powerOnChance + disconnectedChance) return disconnectedCelsius;
    return told;
  }
}

function spoiltValue({ as }: SpoiltReadings, last: number): number {
  if (as === "power-on") return powerOnCelsius;
  if (as === "disconnected") return disconnectedCelsius;
  return as === "stuck" ? last : Number.NaN;
}
