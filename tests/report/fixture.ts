// A hand-made analysis of an invented fridge, for the report's tests: gas weak at 0.62, mains good, 12 V too
// short to say, warming back in between, a door opened once. The curves follow the lumped heat balance of
// the project's own model; the figures beside them are those the curves were drawn with.

import type { ReportContext } from "../../src/report/index.ts";
import { checkFor } from "../../src/science/causes/next-checks.ts";
import type { Analysis, PullDownNumbers, StretchCurves, StretchFinding } from "../../src/science/findings.ts";
import { type Estimate, estimate, unknown } from "../../src/science/numbers/estimate.ts";

const hour = 3_600_000;
/** 06:00 on the log's own clock, two hours ahead of UTC. */
const start = Date.UTC(2026, 5, 4, 4, 0);
const at = (hours: number) => start + hours * hour;

/** Readings set aside, one every ten minutes. */
const setAside = (readings: number, fromMs: number, value: number) => ({
  unixMs: Float64Array.from({ length: readings }, (_, i) => fromMs + (i * hour) / 6),
  values: new Float64Array(readings).fill(value),
});

const share = (value: number, low: number, high: number) => estimate("1", value, low, high);
const kelvin = (value: number, error: number, readings = 214): Estimate =>
  estimate("K", value, value - 1.96 * error, value + 1.96 * error, { standardError: error, readings });

interface Recipe {
  readonly fromHours: number;
  readonly hours: number;
  readonly startCabinet: number;
  readonly onset: number;
  readonly rate: number;
  readonly depth: number;
  readonly finDifference: number;
  readonly knownGood: { readonly rate: number; readonly depth: number } | null;
  readonly door?: number;
}

const ambientAt = (hours: number) => 24.5 + 2.2 * Math.sin(((hours - 3.5) / 24) * 2 * Math.PI);

/** Readings in 0.0625 K steps, a small wander instead of noise so that every run of the tests sees the same. */
function curvesOf(recipe: Recipe): StretchCurves {
  const rows = Math.round(recipe.hours * 60);
  const column = () => new Float64Array(rows).fill(Number.NaN);
  const curves = {
    hours: column(),
    evaporator: column(),
    cabinet: column(),
    ambient: column(),
    fitted: column(),
    bandLow: column(),
    bandHigh: column(),
    residual: column(),
    evaporatorFitted: column(),
  };
  const step = (value: number) => Math.round(value * 16) / 16;
  let cabinet = recipe.startCabinet;
  let jump = 0;
  for (let row = 0; row < rows; row++) {
    const hours = row / 60;
    const ambient = ambientAt(recipe.fromHours + hours);
    const cooling = hours >= recipe.onset;
    const rate = cooling ? recipe.rate : 0.12;
    cabinet += (rate * (ambient - (cooling ? recipe.depth : 0) - cabinet)) / 60;
    if (recipe.door !== undefined && row === Math.round(recipe.door * 60)) jump = 3.1;
    jump *= 0.985;
    const wander = 0.06 * Math.sin(row / 7) + 0.05 * Math.sin(row / 23 + 1) + 0.04 * Math.sin(row * 2.1);
    const built = cooling ? 1 - Math.exp(-(hours - recipe.onset) / 0.8) : 0;
    curves.hours[row] = hours;
    curves.ambient[row] = step(ambient + wander / 2);
    curves.cabinet[row] = step(cabinet + jump + wander);
    curves.evaporator[row] = step(cabinet + jump / 3 - built * recipe.finDifference + wander);
    curves.fitted[row] = cabinet;
    const spread = 0.15 + 0.03 * hours;
    curves.bandLow[row] = cabinet - spread;
    curves.bandHigh[row] = cabinet + spread;
    if (jump < 0.4) curves.residual[row] = curves.cabinet[row] - cabinet;
  }
  return { ...curves, knownGood: knownGoodOf(recipe) };
}

function knownGoodOf({ knownGood, hours, onset, startCabinet, fromHours }: Recipe): StretchCurves["knownGood"] {
  if (knownGood === null) return null;
  const rows = Math.max(2, Math.round((hours - onset) * 12));
  const startBelow = ambientAt(fromHours + onset) - startCabinet;
  const hoursSinceOnset = Float64Array.from({ length: rows }, (_, row) => row / 12);
  const belowAmbient = hoursSinceOnset.map(
    (h) => knownGood.depth + (startBelow - knownGood.depth) * Math.exp(-knownGood.rate * h),
  );
  return { hoursSinceOnset, belowAmbient };
}

const noNumbers: PullDownNumbers = {
  rateConstant: unknown({ code: "is-off" }),
  depth: unknown({ code: "is-off" }),
  initialSlope: unknown({ code: "is-off" }),
  deadTime: unknown({ code: "is-off" }),
};

const baselineNumbers: PullDownNumbers & { hours: number } = {
  hours: 6.15,
  rateConstant: estimate("1/h", 0.279, 0.262, 0.296, { standardError: 0.0085 }),
  depth: estimate("K", 27.1, 25.9, 28.3, { standardError: 0.6 }),
  initialSlope: estimate("K/h", 7.56, 7.1, 8.02, { standardError: 0.23 }),
  deadTime: estimate("h", 0.62, 0.57, 0.67, { standardError: 0.025 }),
};

const gas: StretchFinding = {
  log: "june-service.csv",
  source: "gas",
  startMs: at(1),
  endMs: at(8),
  sourceFrom: "told",
  startState: "cold-boiler",
  verdict: "weak",
  baseline: { kind: "own", runs: 3 },
  coolingStrength: share(0.62, 0.57, 0.68),
  thisNight: share(0.63, 0.6, 0.66),
  fit: {
    modes: 1,
    rateConstant: estimate("1/h", 0.251, 0.231, 0.272, { standardError: 0.0105, readings: 341 }),
    depth: estimate("K", 18.3, 17.3, 19.4, { standardError: 0.54, readings: 341 }),
    initialSlope: estimate("K/h", 4.59, 4.41, 4.78, { standardError: 0.094, readings: 341 }),
    deadTime: estimate("h", 0.85, 0.82, 0.88, { standardError: 0.015, readings: 341 }),
  },
  baselineFit: baselineNumbers,
  finDifference: kelvin(5.6, 0.14, 60),
  belowAmbient: unknown({ code: "not-settled" }),
  warmingRate: unknown({ code: "not-warming-back" }),
  duty: unknown({ code: "no-cycling" }),
  milestones: {
    to8: estimate("h", 10.4, 8.9, null, { standardError: 0.8 }),
    to5: unknown({ code: "not-reached", celsius: 5, settles: 7.4 }),
    to0: unknown({ code: "not-reached", celsius: 0, settles: 7.4 }),
    fallFirstHour: kelvin(3.9, 0.08, 60),
    shareAbove5: share(1, 1, 1),
    shareAbove8: share(1, 1, 1),
  },
  ratios: {
    rateConstant: share(0.9, 0.81, 1.0),
    depth: share(0.68, 0.62, 0.73),
    initialSlope: share(0.61, 0.56, 0.66),
    finDifference: share(0.68, 0.63, 0.73),
  },
  deadTimeShift: estimate("h", 0.23, 0.17, 0.29, { standardError: 0.03 }),
  switchOver: null,
  reasons: [
    { code: "strength-weak", estimate: share(0.62, 0.57, 0.68), margin: 0.15 },
    { code: "cold-began", onsetUnixMs: at(1.85), minutes: 51, source: "gas" },
    { code: "onset-later", shift: estimate("h", 0.23, 0.17, 0.29, { standardError: 0.03 }) },
    { code: "fins-tell", finDifference: kelvin(5.6, 0.14), baseline: kelvin(8.2, 0.2), ratio: share(0.68, 0.63, 0.73) },
    {
      code: "slope-tells",
      slope: estimate("K/h", 4.59, 4.41, 4.78, { standardError: 0.094 }),
      baseline: baselineNumbers.initialSlope as Estimate,
      ratio: share(0.61, 0.56, 0.66),
    },
    { code: "witnesses-agree", finRatio: 0.68, slopeRatio: 0.61 },
    { code: "rate-constant-alone-misleads" },
    { code: "cut-to-equal-length", hours: 6.15, runs: 3 },
    { code: "ambient-referred", ambient: 26.1, baselineAmbient: 24.8, factor: 1.006 },
    { code: "conditions-taken-equal", conditions: ["gas-pressure"] },
  ],
  curves: curvesOf({
    fromHours: 1,
    hours: 7,
    startCabinet: 23.4,
    onset: 0.85,
    rate: 0.251,
    depth: 18.3,
    finDifference: 5.6,
    knownGood: { rate: 0.279, depth: 27.1 },
    door: 4.2,
  }),
};

const off: StretchFinding = {
  ...gas,
  source: "off",
  startMs: at(8),
  endMs: at(11),
  startState: null,
  verdict: null,
  baseline: { kind: "none", runs: 0 },
  coolingStrength: unknown({ code: "is-off" }),
  thisNight: unknown({ code: "is-off" }),
  fit: { ...noNumbers, modes: 1 },
  baselineFit: null,
  finDifference: unknown({ code: "is-off" }),
  belowAmbient: unknown({ code: "is-off" }),
  warmingRate: estimate("1/h", 0.119, 0.112, 0.126, { standardError: 0.0036, readings: 135 }),
  duty: unknown({ code: "is-off" }),
  milestones: {
    to8: unknown({ code: "is-off" }),
    to5: unknown({ code: "is-off" }),
    to0: unknown({ code: "is-off" }),
    fallFirstHour: unknown({ code: "is-off" }),
    shareAbove5: unknown({ code: "is-off" }),
    shareAbove8: unknown({ code: "is-off" }),
  },
  ratios: {
    rateConstant: unknown({ code: "is-off" }),
    depth: unknown({ code: "is-off" }),
    initialSlope: unknown({ code: "is-off" }),
    finDifference: unknown({ code: "is-off" }),
  },
  deadTimeShift: unknown({ code: "is-off" }),
  reasons: [],
  curves: curvesOf({
    fromHours: 8,
    hours: 3,
    startCabinet: 11.6,
    onset: 99,
    rate: 0.12,
    depth: 0,
    finDifference: 0,
    knownGood: null,
  }),
};

const mains: StretchFinding = {
  ...gas,
  source: "mains",
  startMs: at(11),
  endMs: at(20),
  startState: "cold-boiler",
  verdict: "sound",
  coolingStrength: share(0.98, 0.92, 1.05),
  thisNight: share(0.97, 0.94, 1.0),
  fit: {
    modes: 2,
    rateConstant: estimate("1/h", 0.284, 0.269, 0.299, { standardError: 0.0076, readings: 494 }),
    depth: estimate("K", 26.6, 25.9, 27.3, { standardError: 0.36, readings: 494 }),
    initialSlope: estimate("K/h", 7.55, 7.24, 7.86, { standardError: 0.16, readings: 494 }),
    deadTime: estimate("h", 0.63, 0.6, 0.66, { standardError: 0.015, readings: 494 }),
  },
  baselineFit: { ...baselineNumbers, hours: 8.3 },
  finDifference: kelvin(8.1, 0.12, 60),
  belowAmbient: kelvin(25.4, 0.2, 90),
  milestones: {
    to8: estimate("h", 2.62, 2.55, 2.7, { standardError: 0.04 }),
    to5: estimate("h", 3.5, 3.4, 3.6, { standardError: 0.05 }),
    to0: estimate("h", 7.4, 6.9, 8.0, { standardError: 0.28 }),
    fallFirstHour: kelvin(5.2, 0.07, 60),
    shareAbove5: share(0.39, 0.38, 0.4),
    shareAbove8: share(0.29, 0.28, 0.3),
  },
  ratios: {
    rateConstant: share(1.02, 0.94, 1.1),
    depth: share(0.98, 0.93, 1.03),
    initialSlope: share(1.0, 0.93, 1.07),
    finDifference: share(0.99, 0.93, 1.05),
  },
  deadTimeShift: estimate("h", 0.01, -0.05, 0.07, { standardError: 0.03 }),
  reasons: [
    { code: "strength-sound", estimate: share(0.98, 0.92, 1.05), margin: 0.15 },
    { code: "cold-began", onsetUnixMs: at(11.63), minutes: 38, source: "mains" },
    { code: "onset-as-usual", shift: estimate("h", 0.01, -0.05, 0.07, { standardError: 0.03 }) },
    { code: "witnesses-agree", finRatio: 0.99, slopeRatio: 1 },
    { code: "two-modes" },
    { code: "offered-as-baseline" },
  ],
  curves: curvesOf({
    fromHours: 11,
    hours: 9,
    startCabinet: 15.3,
    onset: 0.63,
    rate: 0.284,
    depth: 26.6,
    finDifference: 8.1,
    knownGood: { rate: 0.279, depth: 27.1 },
  }),
};

const tooEarly = unknown({ code: "too-early", hoursAfterOnset: 0.4, neededHours: 1 });
const dc12: StretchFinding = {
  ...mains,
  source: "dc12",
  startMs: at(20),
  endMs: at(21.2),
  startState: "switched-while-cold",
  verdict: "undecided",
  coolingStrength: tooEarly,
  thisNight: tooEarly,
  fit: { modes: 1, rateConstant: tooEarly, depth: tooEarly, initialSlope: tooEarly, deadTime: tooEarly },
  finDifference: tooEarly,
  belowAmbient: unknown({ code: "not-settled" }),
  milestones: {
    to8: unknown({ code: "already-below", celsius: 8 }),
    to5: unknown({ code: "already-below", celsius: 5 }),
    to0: tooEarly,
    fallFirstHour: tooEarly,
    shareAbove5: share(0, 0, 0),
    shareAbove8: share(0, 0, 0),
  },
  ratios: { rateConstant: tooEarly, depth: tooEarly, initialSlope: tooEarly, finDifference: tooEarly },
  deadTimeShift: tooEarly,
  baselineFit: null,
  switchOver: {
    from: "mains",
    ratio: unknown({ code: "too-short", hours: 1.2, neededHours: 2 }),
    drift: "allowed-for",
  },
  reasons: [{ code: "wait-until", unixMs: at(21.8), hours: 0.6 }],
  curves: {
    ...curvesOf({
      fromHours: 20,
      hours: 1.2,
      startCabinet: 0.1,
      onset: 0,
      rate: 0.2,
      depth: 23,
      finDifference: 6.5,
      knownGood: null,
    }),
    fitted: new Float64Array(72).fill(Number.NaN),
    bandLow: new Float64Array(72).fill(Number.NaN),
    bandHigh: new Float64Array(72).fill(Number.NaN),
    residual: new Float64Array(72).fill(Number.NaN),
  },
};

/** The fridge of the report's tests. */
export const weakOnGas: Analysis = {
  margin: 0.15,
  sources: [
    {
      source: "gas",
      verdict: "weak",
      baseline: "own",
      coolingStrength: gas.coolingStrength,
      stretches: [0],
      reasons: gas.reasons.slice(0, 1),
    },
    {
      source: "mains",
      verdict: "sound",
      baseline: "own",
      coolingStrength: mains.coolingStrength,
      stretches: [2],
      reasons: mains.reasons.slice(0, 1),
    },
    {
      source: "dc12",
      verdict: "undecided",
      baseline: "none",
      coolingStrength: tooEarly,
      stretches: [3],
      reasons: dc12.reasons,
    },
  ],
  stretches: [gas, off, mains, dc12],
  keepsUp: [
    {
      source: "gas",
      settledHere: estimate("Cel", 7.4, 6.2, 8.6, { standardError: 0.6 }),
      settledAt32: estimate("Cel", 15.1, 12.8, 17.4, { standardError: 1.2 }),
      baseline: "own",
      reasons: [
        { code: "settled-projected", stretches: 1, belowAmbient: 18.3, ambient: 25.7 },
        { code: "extrapolated", fromAmbient: 25.7, toAmbient: 32 },
      ],
    },
    {
      source: "mains",
      settledHere: estimate("Cel", -2.4, -3.1, -1.7, { standardError: 0.35 }),
      settledAt32: estimate("Cel", 6.5, 4.3, 8.7, { standardError: 1.1 }),
      baseline: "own",
      reasons: [{ code: "settled-from", stretches: 1, belowAmbient: 25.4, ambient: 23.1 }],
    },
    {
      source: "dc12",
      settledHere: unknown({ code: "not-settled" }),
      settledAt32: unknown({ code: "not-settled" }),
      baseline: "none",
      reasons: [],
    },
  ],
  causes: [
    { cause: "burner", source: "gas", probability: 0.37 },
    { cause: "flue", source: "gas", probability: 0.38 },
    { cause: "gas-supply", source: "gas", probability: 0.17 },
    { cause: "boiler-insulation", source: null, probability: 0.012 },
    { cause: "cooling-unit", source: null, probability: 0.004 },
    { cause: "other", source: null, probability: 0.034 },
    { cause: "none", source: null, probability: 0.03 },
  ],
  nextChecks: [
    checkFor("clean-flue-and-burner", "gas"),
    checkFor("measure-gas-pressure", "gas"),
    checkFor("record-longer", "dc12"),
    checkFor("check-lamp"),
  ],
  beforeCondemning: [],
  events: [
    {
      log: "june-service.csv",
      kind: "door-opening",
      startMs: at(5.2),
      endMs: at(5.23),
      position: "cabinet",
      size: 3.1,
      sizeUnit: "K",
      reason: { code: "door-opened", riseKelvin: 3.1, minutes: 2 },
    },
    {
      log: "june-service.csv",
      kind: "gap",
      startMs: at(15.5),
      endMs: at(15.8),
      position: null,
      size: 0.3,
      sizeUnit: "h",
      reason: { code: "no-rows", minutes: 18 },
    },
  ],
  rejected: [
    {
      log: "june-service.csv",
      position: "cabinet",
      reason: "power-on-value",
      readings: 12,
      ...setAside(12, at(9), 85),
    },
    { log: "june-service.csv", position: "evaporator", reason: "spike", readings: 1, ...setAside(1, at(11), 9.5) },
  ],
  warnings: [{ code: "known-good-not-used", log: "april-driving.csv", why: "too-short" }],
};

const noKnownGood = unknown({ code: "no-known-good", source: "gas" });
/** The gas stretch alone, with no known-good run to compare with, and a flame that went out. */
export const withoutKnownGood: Analysis = {
  ...weakOnGas,
  sources: [
    {
      source: "gas",
      verdict: "undecided",
      baseline: "none",
      coolingStrength: noKnownGood,
      stretches: [0],
      reasons: [{ code: "no-baseline", source: "gas" }],
    },
  ],
  stretches: [
    {
      ...gas,
      verdict: "undecided",
      baseline: { kind: "none", runs: 0 },
      baselineFit: null,
      coolingStrength: noKnownGood,
      thisNight: noKnownGood,
      ratios: { rateConstant: noKnownGood, depth: noKnownGood, initialSlope: noKnownGood, finDifference: noKnownGood },
      deadTimeShift: noKnownGood,
      reasons: [
        { code: "no-baseline", source: "gas" },
        { code: "cold-began", onsetUnixMs: at(1.85), minutes: 51, source: "gas" },
        { code: "flame-out", unixMs: at(7), minutes: 60, source: "gas" },
      ],
      curves: { ...gas.curves, knownGood: null },
    },
  ],
  keepsUp: weakOnGas.keepsUp.slice(0, 1),
  causes: [
    { cause: "other", source: null, probability: 0.6 },
    { cause: "none", source: null, probability: 0.4 },
  ],
  nextChecks: [checkFor("record-known-good", "gas")],
  events: [
    {
      log: "june-service.csv",
      kind: "cooling-stopped",
      startMs: at(7),
      endMs: at(8),
      position: "evaporator",
      size: 5.2,
      sizeUnit: "K",
      reason: {
        code: "cooling-stopped",
        source: "gas",
        finDifferenceBefore: 5.6,
        finDifferenceAfter: 0.4,
        doubt: null,
      },
    },
  ],
  rejected: [],
  warnings: [],
};

/** A log in which nothing was heated. */
export const nothingHeated: Analysis = {
  margin: 0.15,
  sources: [],
  stretches: [],
  keepsUp: [],
  causes: [],
  nextChecks: [],
  beforeCondemning: [],
  events: [],
  rejected: [],
  warnings: [],
};

export const context: ReportContext = {
  language: "en",
  inputs: [
    { name: "june-service.csv", role: "log", sha256: "4d8cf1f9".repeat(8) },
    { name: "april-mains.csv", role: "known-good", sha256: "0b3e77aa".repeat(8) },
  ],
  utcOffsetMinutes: 120,
  sourceMarks: [],
};
