// Readings reduced to means over equal runs: a fit's start and its profiles need the curve's shape, not every
// reading. Only around the onset does every reading tell: the bend there is sharp.

import { firstAtOrAfter } from "../numbers/first-at-or-after.ts";
import type { PullDownReadings } from "./pull-down-readings.ts";

/** Readings kept whole on each side of the onset. */
const wholeReadings = 16;
/** Beyond them, runs of a sixteenth for this many runs on each side. */
const shortRuns = 3;

/** Means over about `bins` equal runs of readings; the readings themselves where there are hardly more. */
export class PullDownBins {
  readonly means: PullDownReadings;
  private readonly readings: PullDownReadings;
  /** Whole readings per run: regular sampling then stays regular, and one decay serves every step. */
  private readonly run: number;

  constructor(readings: PullDownReadings, bins: number) {
    const n = readings.hours.length;
    this.readings = readings;
    this.run = Math.max(1, Math.floor(n / bins));
    if (this.run === 1) {
      this.means = readings;
      return;
    }
    const means = new Means(1 + Math.ceil((n - 1) / this.run));
    // The first reading stays itself: the series begins at the switch-on.
    means.addRuns(readings, 0, 1, 1);
    means.addRuns(readings, 1, n, this.run);
    this.means = means;
  }

  /** Whether `around(onset)` holds every reading close to `other`, so that it shows the bend there too. */
  showsBendAt(other: number, onset: number): boolean {
    const { hours } = this.readings;
    return this.run === 1 || Math.abs(firstAtOrAfter(hours, other) - firstAtOrAfter(hours, onset)) < wholeReadings / 2;
  }

  /** The means, but with every reading close to the onset (h) and short runs beside them. */
  around(onset: number): PullDownReadings {
    const { readings, means, run } = this;
    if (run === 1) return readings;
    const n = readings.hours.length;
    const bins = means.hours.length;
    const shortRun = Math.max(1, run >> 4);
    const onsetAt = firstAtOrAfter(readings.hours, onset);
    const wholeFrom = Math.max(1, onsetAt - wholeReadings);
    const wholeTo = Math.min(n, onsetAt + wholeReadings);
    // Runs begin at reading 1; the finer part replaces whole runs.
    const fromBin = Math.max(1, 1 + Math.floor((wholeFrom - 1) / run) - shortRuns);
    const toBin = Math.min(bins, 1 + Math.ceil((wholeTo - 1) / run) + shortRuns);
    const from = 1 + (fromBin - 1) * run;
    const to = Math.min(n, 1 + (toBin - 1) * run);
    const runsIn = (readingsThere: number) => Math.ceil(readingsThere / shortRun);
    const fine = new Means(
      fromBin + runsIn(wholeFrom - from) + (wholeTo - wholeFrom) + runsIn(to - wholeTo) + (bins - toBin),
    );
    fine.copy(means, 0, fromBin);
    fine.addRuns(readings, from, wholeFrom, shortRun);
    fine.addRuns(readings, wholeFrom, wholeTo, 1);
    fine.addRuns(readings, wholeTo, to, shortRun);
    fine.copy(means, toBin, bins);
    return fine;
  }
}

/** Room for means, filled from the left. */
class Means implements PullDownReadings {
  readonly hours: Float64Array;
  readonly cabinetCelsius: Float64Array;
  readonly ambientCelsius: Float64Array;
  readonly weights: Float64Array;
  private count = 0;

  constructor(room: number) {
    // One allocation: a fit of a thousand readings spends more time on many than on its sums.
    const block = new Float64Array(4 * room);
    this.hours = block.subarray(0, room);
    this.cabinetCelsius = block.subarray(room, 2 * room);
    this.ambientCelsius = block.subarray(2 * room, 3 * room);
    this.weights = block.subarray(3 * room);
  }

  copy(from: PullDownReadings, first: number, end: number): void {
    for (let i = first; i < end; i++) {
      this.hours[this.count] = from.hours[i];
      this.cabinetCelsius[this.count] = from.cabinetCelsius[i];
      this.ambientCelsius[this.count] = from.ambientCelsius[i];
      this.weights[this.count] = from.weights === null ? 1 : from.weights[i];
      this.count++;
    }
  }

  /** Means of `run` readings each, from `first` up to `end`. */
  addRuns(readings: PullDownReadings, first: number, end: number, run: number): void {
    if (run === 1) this.copy(readings, first, end);
    else if (readings.weights === null) this.addPlainRuns(readings, first, end, run);
    else this.addWeightedRuns(readings, readings.weights, first, end, run);
  }

  private addPlainRuns(readings: PullDownReadings, first: number, end: number, run: number): void {
    const { hours, cabinetCelsius, ambientCelsius } = readings;
    for (let i = first; i < end; ) {
      const from = i;
      const to = Math.min(end, i + run);
      let sumHours = 0;
      let sumCabinet = 0;
      let sumAmbient = 0;
      for (; i < to; i++) {
        sumHours += hours[i];
        sumCabinet += cabinetCelsius[i];
        sumAmbient += ambientCelsius[i];
      }
      this.add(sumHours, sumCabinet, sumAmbient, to - from);
    }
  }

  private addWeightedRuns(
    readings: PullDownReadings,
    weights: Float64Array,
    first: number,
    end: number,
    run: number,
  ): void {
    const { hours, cabinetCelsius, ambientCelsius } = readings;
    for (let i = first; i < end; ) {
      const from = i;
      const to = Math.min(end, i + run);
      let sumHours = 0;
      let sumCabinet = 0;
      let sumAmbient = 0;
      let sumWeights = 0;
      for (; i < to; i++) {
        const w = weights[i];
        sumHours += w * hours[i];
        sumCabinet += w * cabinetCelsius[i];
        sumAmbient += w * ambientCelsius[i];
        sumWeights += w;
      }
      // A run that counts for nothing keeps its place: its first reading, without weight.
      if (sumWeights > 0) this.add(sumHours, sumCabinet, sumAmbient, sumWeights);
      else this.copy({ ...readings, weights }, from, from + 1);
    }
  }

  private add(sumHours: number, sumCabinet: number, sumAmbient: number, weight: number): void {
    this.hours[this.count] = sumHours / weight;
    this.cabinetCelsius[this.count] = sumCabinet / weight;
    this.ambientCelsius[this.count] = sumAmbient / weight;
    this.weights[this.count] = weight;
    this.count++;
  }
}
