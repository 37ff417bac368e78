// Before and after, where gas was switched to while cold on both sides: random simulated fridges, a flue cleaned in between,
// no known-good runs. How often the ratio and the ratio over mains hold the truth, and what is said.
// `npm run bench switched-pairs-study`; seeds are 1 to 40 for every row.

import type { Change } from "../../src/schema/documents/index.ts";
import { compareRuns } from "../../src/science/before-after/index.ts";
import { type Answer, isKnown } from "../../src/science/index.ts";
import { randomFridge, type SimulatedRun, simulateRun } from "../../src/simulate/index.ts";
import { luckOf, type Scatter, scatters, usualProbes } from "./cases/luck.ts";
import { printMachine, printTable } from "./print.ts";

const pairs = 40;
const blocked = [0, 0.15, 0.3, 0.45];
const weekMs = 7 * 86_400_000;

/** A run before with the flue blocked by this share, and one after with it clean. */
function pairOf(seed: number, scatter: Scatter, flue: number): readonly [SimulatedRun, SimulatedRun] {
  const luck = luckOf(seed, "switched-pairs");
  const { between } = luck;
  const run = (index: number, size: number) =>
    simulateRun({
      name: `${seed}-${index}.csv`,
      seed: seed * 10 + index,
      startUnixMs: Date.parse("2026-06-01T19:00:00Z") + index * weekMs,
      fridge: randomFridge(seed),
      schedule: [
        { source: "off", hours: 1 },
        { source: "mains", hours: between(7, 9) },
        { source: "gas", hours: between(2.2, 3) },
      ],
      ambient: { meanCelsius: between(18, 30), swingKelvin: 3, wanderKelvin: 0.3 },
      samplingSeconds: 60,
      nightToNight: scatters[scatter],
      faults: [{ name: "flue", size }],
      probes: usualProbes(luck),
      sheet: { untouchedSources: ["mains"] },
    });
  return [run(1, flue), run(2, 0)];
}

const strengthOnGas = ({ truth }: SimulatedRun) => truth.stretches[2].strength?.ofFaults ?? Number.NaN;

function row(scatter: Scatter, flue: number): string[] {
  const found = Array.from({ length: pairs }, (_, i) => {
    const [before, after] = pairOf(i + 1, scatter, flue);
    const { sources } = compareRuns([before.recording], [after.recording], { knownGood: [], margin: 0.15 });
    const gas = sources.find(({ source }) => source === "gas");
    if (gas === undefined) throw new Error("nothing on gas");
    return { gas, truth: strengthOnGas(after) / strengthOnGas(before) };
  });
  const held = (pick: (one: (typeof found)[number]["gas"]) => Answer) => {
    const known = found.flatMap(({ gas, truth }) => {
      const answer = pick(gas);
      return isKnown(answer) ? [(answer.low ?? 0) <= truth && truth <= (answer.high ?? Number.POSITIVE_INFINITY)] : [];
    });
    return `${known.filter(Boolean).length} of ${known.length}`;
  };
  const said = (change: Change) => String(found.filter(({ gas }) => gas.change === change).length);
  return [
    `${scatter}, ${100 * flue} %`,
    held(({ coolingStrength }) => coolingStrength),
    held(({ overControl }) => overControl),
    ...(["better", "same", "worse", "undecided"] as const).map(said),
  ];
}

printTable(
  ["flue blocked before", "ratio held", "ratio over mains held", "better", "same", "worse", "undecided"],
  (["calm", "scattered"] as const).flatMap((scatter) => blocked.map((flue) => row(scatter, flue))),
);
printMachine();
