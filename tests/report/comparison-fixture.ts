// Comparisons of simulated runs for the report's tests, and one set of values for every code a comparison can say.

import type { ComparisonContext } from "../../src/report/comparison/index.ts";
import {
  type ChangeReasonSayings,
  type ComparisonWarningSayings,
  compareRuns,
  type DifferenceSayings,
  type RunsCompared,
  type SummarySayings,
} from "../../src/science/before-after/index.ts";
import { estimate } from "../../src/science/numbers/estimate.ts";
import { knownGood, simulated } from "../science/simulated-runs.ts";

const sheet = { load: "empty", vents: "open" } as const;
const sooted = simulated(20, { faults: [{ name: "flue", size: 0.32 }], sheet }).recording;
const cleaned = simulated(25, { sheet: { ...sheet, load: "full", untouchedSources: ["mains"] } }).recording;
const dead = simulated(30, { faults: [{ name: "burner", size: 1 }] }).recording;

/** Better on gas, the same on mains, which nobody touched; the load differs. */
export const serviced: RunsCompared = compareRuns([sooted], [cleaned], { knownGood, margin: 0.15 });
/** Did not cool on gas before; no run sheets, no known-good runs. */
export const repaired: RunsCompared = compareRuns([dead], [simulated(31).recording], { knownGood: [], margin: 0.15 });
/** Several runs on either side. */
export const several: RunsCompared = compareRuns(
  [sooted, simulated(21).recording],
  [cleaned, simulated(26).recording],
  {
    knownGood: [],
    margin: 0.15,
  },
);
/** Logs in which nothing ran. */
export const nothing: RunsCompared = {
  margin: 0.15,
  sources: [],
  differences: [],
  sentence: { code: "nothing-compared" },
  warnings: [],
};

export const comparisonContext: ComparisonContext = {
  language: "en",
  inputs: [
    { name: "may.csv", role: "before", sha256: "4d8cf1f9".repeat(8) },
    { name: "june.csv", role: "after", sha256: "0b3e77aa".repeat(8) },
    { name: "june.sheet.json", role: "sheet", sha256: "17aa99ce".repeat(8) },
  ],
  utcOffsetMinutes: 120,
  sourceMarks: [{ unixMs: Date.UTC(2026, 5, 4, 5), source: "gas" }],
};

const ratio = estimate("1", 1.63, 1.42, 1.87, { standardError: 0.1 });
const margin = 0.15;

export const changeReasonSamples: ChangeReasonSayings = {
  "ratio-better": { estimate: ratio, margin },
  "ratio-same": { estimate: ratio, margin },
  "ratio-worse": { estimate: ratio, margin },
  "ratio-undecided": { estimate: ratio, margin },
  "no-ratio": { why: { code: "not-run", source: "gas", when: "before" } },
  "dead-before": {},
  "dead-after": {},
  "dead-throughout": {},
  "dead-now-and-then": { when: "before" },
  "stopped-then": { when: "after", unixMs: Date.parse("2026-06-02T01:15:00Z") },
  "runs-combined": { before: 1, after: 2, hours: 6 },
  "switched-on-both-sides": { from: "mains" },
  "runs-disagree": {},
  "seal-changed": { ratio },
  "load-changed": { ratio },
  "is-control": {},
  "over-control": { control: "mains", estimate: ratio },
  "control-decides": { control: "dc12" },
  "control-changed": { control: "mains" },
  "control-speaks-against": { control: "mains" },
  "control-clears": { control: "mains", differences: ["load", "fan-inside"] },
  withheld: { change: "better", differences: ["gas-kind", "dc12-volts"] },
  "another-pair-decides": {},
  "witnesses-agree": { finRatio: 1.6, slopeRatio: 1.7 },
  "witnesses-disagree": { finRatio: 1, slopeRatio: 1.7 },
  "fins-alone": {},
  "slope-alone": {},
  "load-unseen": { share: 1 / 3 },
  "fall-bent": { share: 0.3 },
  "explained-by-seal": { ratio },
  "explained-by-load": { ratio },
  "frost-or-moved-probe": {},
  "load-unseen-before": { share: 0.25 },
  "began-cold": { kelvin: 4.6, side: "here" },
  "cabinet-probe-slow": { kelvin: 4.6, side: "here" },
  "ambient-referred": { ambient: 26, baselineAmbient: 24, factor: 1.01 },
  "supply-referred": { volts: 11, baselineVolts: 12, factor: 0.9 },
  "gas-referred": { heat: 0.91, factor: 1.12, share: 0.1 },
  "condition-one-sided": { condition: "supply", share: 0.2 },
};

export const differenceSamples: DifferenceSayings = {
  fridge: { before: ["larch"], after: ["rowan"] },
  setting: { before: ["bench"], after: ["driving", "vehicle-outdoors"] },
  "tilt-sideways": { before: [0], after: [4] },
  "tilt-lengthways": { before: [0], after: [-4] },
  dial: { before: ["2"], after: ["coldest"] },
  load: { before: ["empty", "part"], after: ["full"] },
  vents: { before: ["open"], after: ["part-covered"] },
  "fan-inside": { before: [], after: [true] },
  "fan-at-rear": { before: [false], after: [true] },
  "gas-kind": { before: ["propane"], after: ["butane"] },
  "gas-pressure": { before: [30], after: [22] },
  altitude: { before: [100], after: [900] },
  "gas-rated-watts": { before: [185], after: [170] },
  "mains-rated-watts": { before: [125], after: [150] },
  "dc12-rated-watts": { before: [120], after: [100] },
  "mains-volts": { before: [230], after: [215] },
  "dc12-volts": { before: [12.4], after: [11.2] },
  "mains-rated-volts": { before: [230], after: [240] },
  "dc12-rated-volts": { before: [12], after: [13] },
};

export const summarySamples: SummarySayings = {
  changes: {
    clauses: [
      { source: "mains", change: "same", ratio, dead: null, isUntouched: true },
      { source: "dc12", change: "undecided", ratio: null, dead: null, isUntouched: false },
      { source: "gas", change: "better", ratio: { ...ratio, high: null }, dead: null, isUntouched: false },
    ],
  },
  "nothing-compared": {},
};

export const comparisonWarningSamples: ComparisonWarningSayings = {
  "after-is-older": { before: ["June.csv"], after: ["March.csv", "May.csv"] },
  "no-run-sheet": { when: "before" },
  "stated-on-one-side": { when: "after", conditions: ["load", "vents"] },
  "untouched-not-run": { source: "mains" },
  "source-unnamed": { log: "Night.csv" },
};
