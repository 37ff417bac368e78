// The test before a probe's first use: some minutes in a slush of crushed ice and water, which is at 0 °C. It finds probes that
// are wet inside, broken, far off, or not the ones their labels say.

import { linearRegression, linearRegressionLine, median, standardDeviation } from "simple-statistics";

/** A probe during the test, readings in order of time. */
export interface SlushProbe {
  readonly probeId: string;
  /** Whether its label says that it lies in the slush. */
  readonly isInSlush: boolean;
  readonly readings: readonly { readonly seconds: number; readonly celsius: number }[];
  /** Rounds in which it gave a fault instead. */
  readonly faults: number;
}

export type SlushFinding =
  /** `offsetKelvin` is what it reads at 0 °C. */
  | { readonly probeId: string; readonly finding: "good"; readonly offsetKelvin: number }
  /** Steady, but further off than its tolerance: calibrate it or put it away. */
  | { readonly probeId: string; readonly finding: "far-off"; readonly offsetKelvin: number }
  /** Unsteady, or with faults between its readings: wet inside, or a bad contact. */
  | {
      readonly probeId: string;
      readonly finding: "wet-or-loose";
      readonly scatterKelvin: number;
      readonly faults: number;
    }
  /** Still moving at the end: stir, and wait. */
  | { readonly probeId: string; readonly finding: "not-settled"; readonly kelvinPerMinute: number }
  /** Said to be in the slush, but reads the room; where exactly one other probe reads the slush instead, the two labels are swapped. */
  | { readonly probeId: string; readonly finding: "not-in-slush"; readonly instead: string | null }
  /** Said to lie outside, but reads the slush. */
  | { readonly probeId: string; readonly finding: "in-slush-unasked" }
  /** Outside the slush, as it should be. */
  | { readonly probeId: string; readonly finding: "outside" }
  | { readonly probeId: string; readonly finding: "silent" };

/** A probe this near to 0 °C is in the slush; a room is warmer than this. */
const nearestToRoom = 4;
/** Looked at: the last minutes, when everything has settled. */
const lastSeconds = 180;
const fewestReadings = 6;
/** Limits of what a dry probe in a stirred slush does (common practice, no source). */
const mostScatter = 0.15;
const mostDrift = 0.1;
const mostFaultShare = 0.02;

/**
 * Judges each probe.
 *
 * @param toleranceKelvin how far off a good probe may be: 0.5 K for one-wire probes of the 18B20 type.
 */
export function iceSlushCheck(probes: readonly SlushProbe[], toleranceKelvin = 0.5): SlushFinding[] {
  const lasts = probes.map(({ readings }) => lastPart(readings));
  const isCold = lasts.map(
    (last) => last.length > 0 && Math.abs(median(last.map(({ celsius }) => celsius))) < nearestToRoom,
  );
  const strangers = probes.filter(({ isInSlush }, i) => !isInSlush && isCold[i]);
  return probes.map((probe, i): SlushFinding => {
    const { probeId } = probe;
    if (lasts[i].length < fewestReadings) return { probeId, finding: "silent" };
    if (!probe.isInSlush) return { probeId, finding: isCold[i] ? "in-slush-unasked" : "outside" };
    const kelvinPerMinute = drift(lasts[i]);
    if (!isCold[i]) {
      // A probe on its way down from the room is only slow.
      if (kelvinPerMinute < -mostDrift) return { probeId, finding: "not-settled", kelvinPerMinute };
      return { probeId, finding: "not-in-slush", instead: strangers.length === 1 ? strangers[0].probeId : null };
    }
    return inSlush(probe, lasts[i], kelvinPerMinute, toleranceKelvin);
  });
}

function inSlush(
  { probeId, readings, faults }: SlushProbe,
  last: SlushProbe["readings"],
  kelvinPerMinute: number,
  toleranceKelvin: number,
): SlushFinding {
  const scatterKelvin = scatter(last);
  if (scatterKelvin > mostScatter || faults > mostFaultShare * (readings.length + faults)) {
    return { probeId, finding: "wet-or-loose", scatterKelvin, faults };
  }
  if (Math.abs(kelvinPerMinute) > mostDrift) return { probeId, finding: "not-settled", kelvinPerMinute };
  const offsetKelvin = median(last.map(({ celsius }) => celsius));
  return { probeId, finding: Math.abs(offsetKelvin) > toleranceKelvin ? "far-off" : "good", offsetKelvin };
}

function lastPart(readings: SlushProbe["readings"]): SlushProbe["readings"] {
  const end = readings.at(-1)?.seconds ?? 0;
  return readings.filter(({ seconds }) => seconds >= end - lastSeconds);
}

const pairs = (readings: SlushProbe["readings"]) => readings.map(({ seconds, celsius }) => [seconds, celsius]);

const drift = (last: SlushProbe["readings"]) => linearRegression(pairs(last)).m * 60;

/** About the line of its drift. */
function scatter(last: SlushProbe["readings"]): number {
  const line = linearRegressionLine(linearRegression(pairs(last)));
  return standardDeviation(last.map(({ seconds, celsius }) => celsius - line(seconds)));
}
