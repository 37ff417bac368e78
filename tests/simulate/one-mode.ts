// A small one-mode fit of our own for these tests only: the simulator may not know the project's fit, nor be judged by it.

import { type SimulatedFault, type SimulatedFridge, simulateRun } from "../../src/simulate/index.ts";
import { courseOf, nightOnMains } from "./noise-free.ts";

export interface OneMode {
  readonly onsetMinutes: number;
  /** 1/h */
  readonly rate: number;
  /** K below ambient */
  readonly depth: number;
  /** K/h */
  readonly slope: number;
  /** Cabinet minus evaporator over the last hour, K. */
  readonly finDifference: number;
  /** 1/h, warming back from 45 min to 5 h after switching off */
  readonly warmingRate: number;
}

const pullDownHours = 7;

/** Eight hours on mains at a steady ambient, five hours off, seen as one exponential over seven hours from the onset. */
export function oneModeOf(fridge: SimulatedFridge, faults: readonly SimulatedFault[] = [], ambient = 25): OneMode {
  const schedule = [
    { source: "mains", hours: 9 },
    { source: "off", hours: 5 },
  ] as const;
  const { recording, truth } = simulateRun(
    nightOnMains({ fridge, faults, schedule, ambient: { meanCelsius: ambient } }),
  );
  const { hours, cabinet, evaporator } = courseOf(recording);
  const { startMs, coldBeganMs } = truth.stretches[0];
  if (coldBeganMs === null) throw new Error("it never cooled");
  const onset = (coldBeganMs - startMs) / 3_600_000;
  const rows = hours.map((hour, i) => ({ hour, cabinet: cabinet[i], fins: cabinet[i] - evaporator[i] }));
  const between = (from: number, to: number) => rows.filter(({ hour }) => hour >= from && hour < to);
  const pullDown = between(onset, onset + pullDownHours);
  const rate = bestRate(pullDown.map(({ hour, cabinet: t }) => [hour - onset, t] as const));
  const line = lineThrough(pullDown.map(({ hour, cabinet: t }) => [Math.exp(-rate * (hour - onset)), t] as const));
  const lastHour = between(onset + pullDownHours - 1, onset + pullDownHours);
  const warming = lineThrough(between(9.75, 14).map(({ hour, cabinet: t }) => [hour, Math.log(ambient - t)] as const));
  return {
    onsetMinutes: onset * 60,
    rate,
    depth: ambient - line.intercept,
    slope: rate * (ambient - line.intercept),
    finDifference: lastHour.reduce((sum, { fins }) => sum + fins, 0) / lastHour.length,
    warmingRate: -warming.slope,
  };
}

type Points = ReadonlyArray<readonly [x: number, y: number]>;

/** By golden section: for a given rate the rest is a straight line. */
function bestRate(points: Points): number {
  const misfit = (rate: number) => lineThrough(points.map(([hour, y]) => [Math.exp(-rate * hour), y] as const)).misfit;
  let [low, high] = [0.02, 2];
  for (let i = 0; i < 60; i++) {
    const [left, right] = [high - 0.618 * (high - low), low + 0.618 * (high - low)];
    if (misfit(left) < misfit(right)) high = right;
    else low = left;
  }
  return (low + high) / 2;
}

function lineThrough(points: Points) {
  const n = points.length;
  const meanX = points.reduce((sum, [x]) => sum + x, 0) / n;
  const meanY = points.reduce((sum, [, y]) => sum + y, 0) / n;
  const sxx = points.reduce((sum, [x]) => sum + (x - meanX) ** 2, 0);
  const sxy = points.reduce((sum, [x, y]) => sum + (x - meanX) * (y - meanY), 0);
  const slope = sxy / sxx;
  const intercept = meanY - slope * meanX;
  return { slope, intercept, misfit: points.reduce((sum, [x, y]) => sum + (y - intercept - slope * x) ** 2, 0) };
}
