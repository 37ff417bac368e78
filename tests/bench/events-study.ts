// Are events found, and none invented? Seeded simulated runs of tests/science/readings/simulated-events.ts: random fridges and
// faults, probes with AR(1) noise of 0.05 to 0.3 K in steps of 0.0625 K, read every 1 s to 5 min.
// `npm run bench events-study [RUNS] [list]`; the smaller sister among the tests is tests/science/readings/events-study.test.ts.

import {
  foundStretchesRow,
  type StudyName,
  type StudyRow,
  studyNoises,
  studyRow,
} from "../science/readings/simulated-events.ts";
import { printMachine, printTable } from "./print.ts";

const runs = Number(process.argv[3] ?? 400);
const isListing = process.argv[4] === "list";

const asked: readonly (readonly [string, StudyName])[] = [
  ["nothing happens", "quiet"],
  ["thermostat cycles", "thermostat"],
  ["cooling stops", "outage"],
  ["evaporator probe falls", "fallen"],
  ["sun on the ambient probe", "sunny"],
];

const rows: string[][] = [];
const wrong: string[] = [];
for (const [label, name] of asked) add(label, studyRow(name, runs));
for (const noise of studyNoises) add(`doors of 1 K or more, noise ${noise} K`, studyRow("doors", runs, noise));
for (const name of ["quiet", "doors", "thermostat", "fallen"] as const)
  add(`stretches without a told source, ${name}`, foundStretchesRow(name, Math.ceil(runs / 4)));
printTable(["runs in which", "runs", "there", "found", "runs with an invented one"], rows);
for (const line of isListing ? wrong : []) console.log(line);
printMachine();

function add(label: string, row: StudyRow): void {
  const share = (count: number, of: number) => (of === 0 ? "" : ` (${((100 * count) / of).toFixed(1)} %)`);
  rows.push([
    label,
    String(row.runs),
    String(row.there),
    `${row.found}${share(row.found, row.there)}`,
    `${row.runsWithInvented}${share(row.runsWithInvented, row.runs)}`,
  ]);
  wrong.push(...row.wrong);
}
