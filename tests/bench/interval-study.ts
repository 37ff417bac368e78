// Do 95 % intervals cover? 1,000 seeded stretches per row, made from the fitted model itself (model-stretch.ts), so
// that only the arithmetic and the noise are on trial. `npm run bench interval-study`; the smaller sister among the
// tests is tests/science/pull-down/pull-down-intervals.test.ts.

import { fitPullDown } from "../../src/science/pull-down/pull-down-fit.ts";
import { type Interval, pullDownIntervals } from "../../src/science/pull-down/pull-down-intervals.ts";
import { type ModelStretch, modelStretch, type Noise, usualStretch } from "../science/pull-down/model-stretch.ts";
import { printMachine, printTable } from "./print.ts";

const seeds = Number(process.argv[3] ?? 1000);
const noises: readonly Noise[] = ["white", "AR(1) 0.6", "AR(1) 0.9", "white + 10 min wander", "0.0625 K steps"];
const numbers = ["rate", "depth", "initialSlope", "onset"] as const;
const truth = {
  rate: usualStretch.rate,
  depth: usualStretch.depth,
  initialSlope: usualStretch.rate * usualStretch.depth,
  onset: usualStretch.onset,
};

const rows: string[][] = [];
for (const robust of [false, true]) {
  for (const hours of [4, 7, 12]) {
    for (const noise of noises) {
      // A robust fit treats ambient as the plain one does: its block holds the harder of the two.
      for (const ambient of robust ? (["drifting"] as const) : (["constant", "drifting"] as const)) {
        rows.push(studied({ hours, noise, ambient }, robust));
      }
    }
  }
}
console.log(
  `Coverage of 95 % intervals in per cent, ${seeds} seeded stretches per row; in brackets the share with an open end.\n`,
);
printTable(["fit", "hours", "ambient", "noise", "k", "D", "S", "onset", "goal"], rows);
printMachine();

function studied(changes: Pick<ModelStretch, "hours" | "noise" | "ambient">, robust: boolean): string[] {
  const covered = { rate: 0, depth: 0, initialSlope: 0, onset: 0 };
  const open = { ...covered };
  for (let seed = 0; seed < seeds; seed++) {
    const fit = fitPullDown(modelStretch(changes, seed), { robust });
    if (fit.outcome !== "fitted") continue;
    const intervals = pullDownIntervals(fit);
    for (const name of numbers) {
      if (covers(intervals[name], truth[name])) covered[name]++;
      if (intervals[name].low === null || intervals[name].high === null) open[name]++;
    }
  }
  return [
    robust ? "robust" : "plain",
    String(changes.hours),
    changes.ambient,
    changes.noise,
    ...numbers.map((name) => `${percent(covered[name])}${open[name] > 0 ? ` (${percent(open[name])})` : ""}`),
    verdict(changes, covered),
  ];
}

function percent(count: number): string {
  return ((100 * count) / seeds).toFixed(1);
}

function covers({ low, high }: Interval, value: number): boolean {
  return (low === null || low <= value) && (high === null || value <= high);
}

/** The goal is for k, D and S: 93 to 98 % within two binomial standard errors; at 4 h 90 %, wander only reported. */
function verdict({ hours, noise }: Pick<ModelStretch, "hours" | "noise">, covered: Record<string, number>): string {
  if (hours === 4 && noise === "white + 10 min wander") return "reported";
  const [least, most] = hours === 4 ? [0.9, 1] : [0.93, 0.98];
  const doubt = (share: number) => 2 * Math.sqrt((share * (1 - share)) / seeds);
  const isMet = ["rate", "depth", "initialSlope"].every((name) => {
    const share = covered[name] / seeds;
    return share >= least - (hours === 4 ? 0 : doubt(least)) && share <= most + doubt(most);
  });
  return isMet ? "met" : "missed";
}
