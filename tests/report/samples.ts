// One set of values for every code that can be said, so that the tests can hear every sentence. The types
// demand that none is left out.

import { estimate } from "../../src/science/estimate.ts";
import type { EventSayings, ReasonSayings, UnknownSayings, WarningSayings } from "../../src/science/sayings.ts";

const share = estimate("1", 0.72, 0.66, 0.79, { standardError: 0.033 });
const kelvin = estimate("K", 8.1, 7.8, 8.4, { standardError: 0.15, readings: 60 });
const slope = estimate("K/h", 6.7, 6.3, 7.1, { standardError: 0.2 });
const rate = estimate("1/h", 0.25, 0.23, 0.27, { standardError: 0.01 });
const shift = estimate("h", 0.25, 0.1, 0.4, { standardError: 0.07 });
const unixMs = Date.UTC(2026, 5, 4, 5, 52);

export const unknownSamples: UnknownSayings = {
  "no-cabinet": {},
  "no-evaporator": {},
  "fins-warmer-than-air": {},
  "no-ambient": {},
  "no-onset": {},
  "too-early": { hoursAfterOnset: 0.4, neededHours: 1 },
  "too-short": { hours: 1.5, neededHours: 4 },
  "too-few-readings": { readings: 1, needed: 5 },
  "starts-settled": {},
  "switched-while-cold": {},
  "warm-boiler": {},
  "open-profile": { hours: 3 },
  "soft-start-possible": { hours: 3 },
  "not-settled": {},
  "no-cycling": {},
  "no-known-good": { source: "gas" },
  "known-good-unusable": { source: null },
  "not-reached": { celsius: 5, settles: 7.4 },
  "already-below": { celsius: 8 },
  "not-warming-back": {},
  "frost-melting": {},
  "ambient-too-low": { ambient: 12, needed: 15 },
  "is-off": {},
  "source-unknown": {},
  "no-stretch": {},
  "no-numbers": {},
};

export const reasonSamples: ReasonSayings = {
  "strength-sound": { estimate: share, margin: 0.15 },
  "strength-weak": { estimate: share, margin: 0.15 },
  "strength-undecided": { estimate: share, margin: 0.15 },
  "another-night-decides": {},
  "wait-until": { unixMs, hours: 1.5 },
  "cannot-tell": { why: { code: "too-short", hours: 1, neededHours: 2 } },
  "no-baseline": { source: "mains" },
  "baseline-one-run": { runs: 1 },
  "cold-began": { onsetUnixMs: unixMs, minutes: 37, source: "gas" },
  "onset-later": { shift },
  "onset-as-usual": { shift },
  "no-cold-yet": { hours: 2 },
  "not-cooling": { finDifference: 0.3, hours: 5 },
  "fins-tell": { finDifference: kelvin, baseline: kelvin, ratio: share },
  "slope-tells": { slope, baseline: slope, ratio: share },
  "fins-alone": {},
  "slope-alone": {},
  "rate-constants": { rate, baseline: rate, hours: 6 },
  "rate-constant-alone-misleads": {},
  "witnesses-agree": { finRatio: 0.7, slopeRatio: 0.72 },
  "witnesses-disagree": { finRatio: 0.7, slopeRatio: 1 },
  "explained-by-seal": { ratio: share },
  "explained-by-load": { ratio: share },
  "seal-suspected": { ratio: share },
  "load-suspected": { ratio: share },
  "frost-or-moved-probe": {},
  "two-modes": {},
  "supply-low": { volts: 11, ratedVolts: 12 },
  "supply-referred": { volts: 11, baselineVolts: 12, factor: 1.2 },
  "ambient-referred": { ambient: 26, baselineAmbient: 24, factor: 1.01 },
  "start-referred": { belowAmbient: 1, baselineBelowAmbient: 0, factor: 0.97 },
  "offset-from-settled": { kelvin: 0.12 },
  "offset-unknown": { tolerance: 0.5 },
  "flame-out": { unixMs, minutes: 60, source: "gas" },
  "thermostat-held": { duty: 0.6 },
  "at-least": {},
  "starts-settled": {},
  "source-was-found": {},
  "source-unknown": {},
  "stretches-combined": { stretches: 2 },
  "stretches-disagree": {},
  "cool-ambient": { ambient: 13 },
  "offered-as-baseline": {},
  "cut-to-equal-length": { hours: 6, runs: 3 },
  "condition-unknown": { condition: "gas pressure" },
  "settled-from": { stretches: 1, belowAmbient: 27, ambient: 25 },
  "settled-projected": { stretches: 1, belowAmbient: 27, ambient: 25 },
  "slope-default": { kelvinPerKelvin: -0.13, standardError: 0.05 },
  extrapolated: { fromAmbient: 25, toAmbient: 32 },
};

export const eventSamples: EventSayings = {
  "door-opened": { riseKelvin: 3.1, minutes: 2 },
  "cooling-stopped": { source: "gas", finDifferenceBefore: 6, finDifferenceAfter: 0.3 },
  "cooling-resumed-at": { unixMs },
  "thermostat-cycles": { duty: 0.6, periodMinutes: 40, cycles: 7 },
  "no-rows": { minutes: 18 },
  "probe-silent": { minutes: 12 },
  "probe-stuck": { celsius: 4.5, minutes: 30 },
  "probe-unbelievable": { celsius: 84, minutes: 6 },
  "probe-stepped": { kelvin: 2.3 },
  "sun-on-ambient": { kelvin: 6, minutes: 90 },
  "clock-jumped": { seconds: -3600 },
};

export const warningSamples: WarningSayings = {
  "source-column-absent": { log: "Night.csv" },
  "probe-columns-swapped": { log: "Night.csv" },
  "warms-while-on": { log: "Night.csv", source: "gas" },
  "evaporator-warmer": { log: "Night.csv" },
  "low-ambient": { log: "Night.csv", ambient: 12 },
  "no-ambient-probe": { log: "Night.csv" },
  "known-good-not-used": { log: "May.csv", why: "cycling" },
  "different-conditions": { condition: "load", here: "full", knownGood: "empty" },
  "causes-differ": { first: "flue", second: "mains-element" },
  "many-rejected": { log: "Night.csv", position: "cabinet", share: 0.3 },
  "rejected-source-mark": { mark: { unixMs, source: "gas" } },
};
