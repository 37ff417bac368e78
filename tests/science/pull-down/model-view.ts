// A stretch view straight from the model of a pull-down, for tests of the numbers that are read off it.

import { cabinetTemperature } from "../../../src/science/pull-down/pull-down.ts";
import type { Stretch } from "../../../src/science/readings/series.ts";
import type { StretchView } from "../../../src/science/readings/stretch-view.ts";

export interface ModelView {
  readonly hours?: number;
  readonly rate?: number;
  readonly depth?: number;
  readonly onset?: number;
  readonly start?: number;
  readonly ambient?: number;
  readonly finKelvin?: number;
  readonly heated?: boolean;
}

/** A reading a minute, free of noise. A view that is not heated warms back with `rate`. */
export function modelView({
  hours = 8,
  rate = 0.3,
  depth = 27,
  onset = 0.6,
  start = 25,
  ambient = 25,
  finKelvin = 8,
  heated = true,
}: ModelView = {}): StretchView {
  const course = Float64Array.from({ length: hours * 60 + 1 }, (_, i) => i / 60);
  const ambientCelsius = new Float64Array(course.length).fill(ambient);
  const cabinet = cabinetTemperature(
    { hours: course, ambientCelsius },
    { start, onset: heated ? onset : Number.POSITIVE_INFINITY, rate, depth: heated ? depth : 0, jumps: [] },
    { warmingRate: heated ? 0.12 : rate },
  );
  const stretch: Stretch = {
    from: 0,
    to: course.length,
    startMs: 0,
    endMs: hours * 3_600_000,
    source: heated ? "mains" : "off",
    heated,
    sourceFrom: "told",
    startState: heated ? "cold-boiler" : null,
  };
  return {
    stretch,
    hours: course,
    cabinet,
    evaporator: cabinet.map((value) => value - finKelvin),
    ambient: ambientCelsius,
    supply: new Float64Array(course.length).fill(Number.NaN),
    doorHours: [],
    endHours: hours,
  };
}
