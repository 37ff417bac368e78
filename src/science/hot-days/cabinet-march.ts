// The cabinet through a trip by the lumped model of pull-down.ts: while a source cools it closes on ambient less depth,
// while nothing cools it relaxes towards ambient. One march is one set of numbers; hot-day.ts marches many for its band.

import { type EnergySource, type Forecast, type HeatSource, msPerHour } from "../../schema/index.ts";

/** Short against everything a cabinet does, h. */
const stepHours = 1 / 12;

/** What one source does in one march. */
export interface MarchSource {
  /** 1/h */
  readonly rate: number;
  /** From switching on a cold boiler until it cools, h. */
  readonly deadHours: number;
  /** Kelvin below an ambient under full cooling. */
  readonly depthAt: (ambient: number) => number;
  /** What the dial holds, °C; null under full cooling. */
  readonly held: number | null;
}

export interface MarchNumbers {
  readonly start: number;
  /** Whether the boiler is hot and the unit cooling as the trip begins. */
  readonly startsCooling: boolean;
  readonly warmingRate: number;
  readonly sources: ReadonlyMap<HeatSource, MarchSource>;
  /** What sun on the vents adds to the ambient, K. */
  readonly sunKelvin: number;
  /** What driving makes of the depth, a factor. */
  readonly drivingFactor: number;
}

/** Instants of a march and what holds in the step that begins there. */
export interface MarchStep {
  readonly hours: number;
  readonly ambient: number;
  readonly source: EnergySource;
  readonly sun: boolean;
  readonly driving: boolean;
}

/** Cuts a forecast into steps; the last one stands at its end and lasts no time. */
export function marchSteps({ rows }: Forecast): readonly MarchStep[] {
  const hoursAt = (row: number) => (rows[row].unixMs - rows[0].unixMs) / msPerHour;
  const steps = rows.slice(0, -1).flatMap((row, i): MarchStep[] => {
    const [from, to] = [hoursAt(i), hoursAt(i + 1)];
    const count = Math.max(1, Math.ceil((to - from) / stepHours - 1e-9));
    return Array.from({ length: count }, (_, at) => ({
      hours: from + (at / count) * (to - from),
      ambient: row.ambient + (at / count) * (rows[i + 1].ambient - row.ambient),
      source: row.source,
      sun: row.sun,
      driving: row.driving,
    }));
  });
  const { ambient, source, sun, driving } = rows[rows.length - 1];
  return [...steps, { hours: hoursAt(rows.length - 1), ambient, source, sun, driving }];
}

/** The boiler is cold again after so long without heat, h; before, it needs a share of the time from cold. */
const coldBoilerHours = 2;

/**
 * Cabinet temperature at the start of every step, °C.
 *
 * A warmer ambient, a longer time off or a later start of cold never give a colder cabinet at any time.
 */
export function marchCabinet(steps: readonly MarchStep[], numbers: MarchNumbers): Float64Array {
  const result = new Float64Array(steps.length);
  let cabinet = numbers.start;
  // How far the boiler is from cold, 1 (cooling) to 0, and what is still missing while it heats.
  let warmth = numbers.startsCooling ? 1 : 0;
  steps.forEach(({ hours, ambient, source, sun, driving }, i) => {
    result[i] = cabinet;
    const next = steps[i + 1];
    if (next === undefined) return;
    const h = next.hours - hours;
    const air = (ambient + next.ambient) / 2 + (sun ? numbers.sunKelvin : 0);
    const warming = air + (cabinet - air) * Math.exp(-numbers.warmingRate * h);
    const unit = source === "off" ? undefined : numbers.sources.get(source);
    if (unit === undefined) {
      cabinet = warming;
      warmth = Math.max(0, warmth - h / coldBoilerHours);
      return;
    }
    // The step in which the boiler becomes ready cools for its last part only.
    const heating = Math.min(h, (1 - warmth) * unit.deadHours);
    warmth = Math.min(1, warmth + (unit.deadHours > 0 ? h / unit.deadHours : 1));
    const relaxed = air + (cabinet - air) * Math.exp(-numbers.warmingRate * heating);
    const floor = air - Math.max(0, unit.depthAt(air)) * (driving ? numbers.drivingFactor : 1);
    const cooled = floor + (relaxed - floor) * Math.exp(-unit.rate * (h - heating));
    // Cooling never warms: what is colder than the source can hold warms back as if it were off.
    const cooling = Math.min(cooled, warming);
    // The dial lets it warm back to its set point and cools no further.
    cabinet = unit.held === null ? cooling : Math.max(cooling, Math.min(unit.held, warming));
  });
  return result;
}
