// Intervals that hold: for every rate constant the best pull-down, and the rates that the readings do not
// exclude (profile likelihood). Depth, initial slope and onset take the widest ends met on the way. An end
// that is not met is open: the stretch does not hold that number.

import { fQuantile } from "../numbers/distributions.ts";
import type { PullDown } from "./pull-down.ts";
import { PullDownBins } from "./pull-down-bins.ts";
import type { FittedPullDown } from "./pull-down-fit.ts";
import { type BestAtRate, PullDownScan } from "./pull-down-scan.ts";
import { scanRange } from "./pull-down-start.ts";

/** An interval; null is an open end. */
export interface Interval {
  readonly low: number | null;
  readonly high: number | null;
}

/** A pull-down that the readings do not exclude. */
export interface PossiblePullDown {
  readonly pullDown: PullDown;
  /** By how much its depth may still move, K. */
  readonly depthReach: number;
}

export interface PullDownIntervals {
  readonly rate: Interval;
  readonly depth: Interval;
  readonly initialSlope: Interval;
  readonly onset: Interval;
  /** From the slowest to the fastest rate that the readings allow. */
  readonly possible: readonly PossiblePullDown[];
}

const profileBins = 192;
/** Points of the profile between the best rate and each end. */
const pointsPerSide = 5;

/**
 * 95 % profile intervals of rate (1/h), depth (K), initial slope (K/h) and onset (h).
 *
 * The allowed rise of the sum of squares is s² F(0.95; 1, n_eff - p), widened by the residuals' memory
 * (effective-readings.ts). Robust weights stay as the fit left them, since Huber's scores have no likelihood.
 */
export function pullDownIntervals(fit: FittedPullDown): PullDownIntervals {
  const profile = new Profile(fit);
  const down = profile.follow(-1);
  const up = profile.follow(+1);
  const points = [...down.inside, profile.best, ...up.inside].sort((a, b) => a.rate - b.rate);
  const ends = (valueAt: (point: BestAtRate) => number, varianceAt: (point: BestAtRate) => number): Interval => {
    const lows = points.map((point) => valueAt(point) - profile.reach(point, varianceAt(point)));
    const highs = points.map((point) => valueAt(point) + profile.reach(point, varianceAt(point)));
    return { low: -peak(lows.map((low) => -low)), high: peak(highs) };
  };
  const depth = ends(
    (point) => point.depth,
    (point) => point.depthVariance,
  );
  const slope = ends(
    (point) => point.rate * point.depth,
    (point) => point.rate ** 2 * point.depthVariance,
  );
  const onset = ends(
    (point) => point.onset,
    (point) => point.onsetVariance,
  );
  return {
    rate: { low: down.end, high: up.end },
    // As the rate falls towards 0 the curve becomes a line: any depth will do, and only the slope remains.
    depth: { low: finite(depth.low), high: down.end === null ? null : finite(depth.high) },
    initialSlope: { low: finite(slope.low), high: up.end === null ? null : finite(slope.high) },
    onset: { low: onset.low === null ? null : Math.max(0, onset.low), high: finite(onset.high) },
    possible: points.map((point) => ({
      pullDown: {
        start: point.start,
        onset: point.onset,
        rate: point.rate,
        depth: point.depth,
        jumps: profile.jumpHours.map((hours, j) => ({ hours, kelvin: point.jumps[j] })),
      },
      depthReach: profile.reach(point, point.depthVariance),
    })),
  };
}

const finite = (value: number | null) => (value !== null && Number.isFinite(value) ? value : null);

/** Largest value, refined by the parabola through its neighbours' values at equal steps. */
function peak(values: readonly number[]): number {
  let at = 0;
  for (let i = 1; i < values.length; i++) if (values[i] > values[at]) at = i;
  if (at === 0 || at === values.length - 1) return values[at];
  const [left, top, right] = [values[at - 1], values[at], values[at + 1]];
  const bend = left - 2 * top + right;
  return bend < 0 ? top - (right - left) ** 2 / (8 * bend) : top;
}

class Profile {
  readonly best: BestAtRate;
  readonly jumpHours: readonly number[];
  private readonly scan: PullDownScan;
  private readonly allowance: number;
  private readonly firstStep: number;
  private readonly lowest: number;
  private readonly highest: number;

  constructor(fit: FittedPullDown) {
    const { pullDown, readings, inflation, count, parameters } = fit;
    const freedom = Math.max(1, count / inflation - parameters);
    this.allowance = fit.variance * inflation * fQuantile(0.95, 1, freedom);
    this.jumpHours = pullDown.jumps.map((jump) => jump.hours);
    this.scan = new PullDownScan(
      new PullDownBins(readings, profileBins).around(pullDown.onset),
      fit.warmingRate,
      fit.held,
      this.jumpHours,
    );
    this.best = this.scan.bestAt(pullDown.rate, pullDown.onset);
    const duration = readings.hours[readings.hours.length - 1];
    this.lowest = scanRange.lowest / duration;
    this.highest = scanRange.highest / duration;
    const relative = (2 * Math.sqrt(inflation) * fit.standardErrors.rate) / pullDown.rate;
    this.firstStep = Math.min(0.7, Math.max(1e-5, Number.isFinite(relative) ? relative : 0.7));
  }

  /** How far a number may move at a point of the profile before the readings exclude it. */
  reach(point: BestAtRate, variance: number): number {
    const left = this.allowance - (point.rss - this.best.rss);
    return left > 0 ? Math.sqrt(left * variance) : 0;
  }

  /** The end of the interval in one direction, null when open, and points on the way. */
  follow(direction: 1 | -1): { end: number | null; inside: BestAtRate[] } {
    const end = this.endTowards(direction);
    const span = Math.log(end ?? (direction > 0 ? this.highest : this.lowest)) - Math.log(this.best.rate);
    const inside: BestAtRate[] = [];
    let near = this.best.onset;
    for (let i = 1; i <= pointsPerSide; i++) {
      // Evenly spread as an angle: what a number may reach is then nearly a sine, and `peak` finds its top.
      const share = Math.sin((Math.PI / 2) * (i / pointsPerSide));
      const point = this.scan.bestAt(this.best.rate * Math.exp(span * share), near);
      near = point.onset;
      inside.push(point);
    }
    return { end, inside };
  }

  private endTowards(direction: 1 | -1): number | null {
    const from = Math.log(this.best.rate);
    const limit = Math.log(direction > 0 ? this.highest : this.lowest);
    let near = this.best.onset;
    // The root of the excess is nearly straight in ln k.
    const excess = (x: number) => {
      const point = this.scan.bestAt(Math.exp(x), near);
      near = point.onset;
      return Math.sqrt(Math.max(0, point.rss - this.best.rss)) - Math.sqrt(this.allowance);
    };
    let inner = from;
    let innerExcess = -Math.sqrt(this.allowance);
    let step = this.firstStep;
    let outer = from + direction * step;
    let outerExcess = excess(outer);
    while (outerExcess <= 0) {
      if ((outer - limit) * direction >= 0) return null;
      inner = outer;
      innerExcess = outerExcess;
      step *= 1.8;
      outer += direction * step;
      outerExcess = excess(outer);
    }
    for (let i = 0; i < 3; i++) {
      const middle = inner + ((outer - inner) * -innerExcess) / (outerExcess - innerExcess);
      const value = excess(middle);
      if (Math.abs(value) < 0.003 * Math.sqrt(this.allowance)) return Math.exp(middle);
      if (value < 0) [inner, innerExcess] = [middle, value];
      else [outer, outerExcess] = [middle, value];
    }
    return Math.exp(inner + ((outer - inner) * -innerExcess) / (outerExcess - innerExcess));
  }
}
