// Sums for every onset at once: what the readings ahead of an onset say of the start, and what those behind it say
// of depth and start at a given rate. pull-down-scan.ts finds the best onset with them.

import { meanDecay } from "./pull-down.ts";
import { type PullDownReadings, sameStep } from "./pull-down-readings.ts";

/** The curve at an onset while depth and start add nothing: the ambient's answers, K, and two decays. */
export interface OnsetState {
  /** With the rate from the first reading on, and with the warming rate. */
  readonly lag: number;
  readonly warmLag: number;
  /** What is left of a kelvin at the start. */
  readonly fading: number;
  /** From the onset to the next reading. */
  readonly decay: number;
}

/** The sums of one stretch; `sumBehind` renews them for a rate, `stateAt` gives the curve at an onset between readings. */
export class OnsetSums {
  // Over the readings ahead of index j; G fades with the warming rate, X is what it has to explain.
  readonly aheadGG: Float64Array;
  readonly aheadGX: Float64Array;
  readonly aheadXX: Float64Array;
  // Over the readings from index j on; E decays from 1 at reading j, Y is what it has to explain.
  readonly sumW: Float64Array;
  readonly sumE: Float64Array;
  readonly sumEE: Float64Array;
  readonly sumY: Float64Array;
  readonly sumYE: Float64Array;
  readonly sumYY: Float64Array;
  /** States at the readings themselves. */
  readonly lag: Float64Array;
  readonly warmLag: Float64Array;
  readonly fading: Float64Array;
  /** Decay over the step that leads to a reading. */
  private readonly decay: Float64Array;
  private readonly readings: PullDownReadings;
  private readonly warmingRate: number;
  private rate = 0;

  constructor(readings: PullDownReadings, warmingRate: number) {
    const length = readings.hours.length + 1;
    // One allocation: a scan is short, and a dozen of them would take as long.
    const block = new Float64Array(13 * length);
    const column = (at: number) => block.subarray(at * length, (at + 1) * length);
    this.aheadGG = column(0);
    this.aheadGX = column(1);
    this.aheadXX = column(2);
    this.sumW = column(3);
    this.sumE = column(4);
    this.sumEE = column(5);
    this.sumY = column(6);
    this.sumYE = column(7);
    this.sumYY = column(8);
    this.lag = column(9);
    this.warmLag = column(10);
    this.fading = column(11);
    this.decay = column(12);
    this.readings = readings;
    this.warmingRate = warmingRate;
    this.sumAhead();
  }

  private sumAhead(): void {
    const { hours, cabinetCelsius, ambientCelsius, weights } = this.readings;
    const { warmLag, fading, aheadGG, aheadGX, aheadXX, warmingRate } = this;
    fading[0] = 1;
    let lastStep = Number.NaN;
    let e = 1;
    let g = 1;
    for (let i = 0; i < hours.length; i++) {
      if (i > 0) {
        const h = hours[i] - hours[i - 1];
        if (!(Math.abs(h - lastStep) < sameStep)) {
          lastStep = h;
          e = Math.exp(-warmingRate * h);
          g = meanDecay(warmingRate * h);
        }
        warmLag[i] = e * warmLag[i - 1] - g * (ambientCelsius[i] - ambientCelsius[i - 1]);
        fading[i] = e * fading[i - 1];
      }
      const x = cabinetCelsius[i] - ambientCelsius[i] - warmLag[i];
      const w = weights === null ? 1 : weights[i];
      aheadGG[i + 1] = aheadGG[i] + w * fading[i] * fading[i];
      aheadGX[i + 1] = aheadGX[i] + w * fading[i] * x;
      aheadXX[i + 1] = aheadXX[i] + w * x * x;
    }
  }

  /** Renews what depends on the rate, 1/h: the ambient's answer forwards, the sums backwards. */
  sumBehind(rate: number): void {
    const { hours, cabinetCelsius, ambientCelsius, weights } = this.readings;
    const { lag, decay, sumW, sumE, sumEE, sumY, sumYE, sumYY } = this;
    const n = hours.length;
    this.rate = rate;
    let lastStep = Number.NaN;
    let e = 1;
    let g = 1;
    for (let i = 1; i < n; i++) {
      const h = hours[i] - hours[i - 1];
      if (!(Math.abs(h - lastStep) < sameStep)) {
        lastStep = h;
        g = meanDecay(rate * h);
        e = 1 - rate * h * g;
      }
      decay[i] = e;
      lag[i] = e * lag[i - 1] - g * (ambientCelsius[i] - ambientCelsius[i - 1]);
    }
    let W = 0;
    let E = 0;
    let EE = 0;
    let Y = 0;
    let YE = 0;
    let YY = 0;
    e = 1;
    for (let i = n - 1; i >= 0; i--) {
      const w = weights === null ? 1 : weights[i];
      const y = cabinetCelsius[i] - ambientCelsius[i] - lag[i];
      W += w;
      E = e * E + w;
      EE = e * e * EE + w;
      Y += w * y;
      YE = e * YE + w * y;
      YY += w * y * y;
      sumW[i] = W;
      sumE[i] = E;
      sumEE[i] = EE;
      sumY[i] = Y;
      sumYE[i] = YE;
      sumYY[i] = YY;
      e = decay[i];
    }
  }

  /** At an onset (h) in the gap before reading `j`. */
  stateAt(onset: number, j: number): OnsetState {
    const { hours, ambientCelsius } = this.readings;
    if (j === 0) return { lag: 0, warmLag: 0, fading: 1, decay: 1 };
    const h = onset - hours[j - 1];
    const rise = ((ambientCelsius[j] - ambientCelsius[j - 1]) * h) / (hours[j] - hours[j - 1]);
    const warmDecay = Math.exp(-this.warmingRate * h);
    return {
      lag: Math.exp(-this.rate * h) * this.lag[j - 1] - meanDecay(this.rate * h) * rise,
      warmLag: warmDecay * this.warmLag[j - 1] - meanDecay(this.warmingRate * h) * rise,
      fading: warmDecay * this.fading[j - 1],
      decay: Math.exp(-this.rate * (hours[j] - onset)),
    };
  }
}
