// How often the verdict is right: random simulated fridges, faults and conditions, once calm and once scattered.
// npm run bench verdict-study -- [fridges] [seed]; prints markdown tables. The fridges are made in cases/verdict-cases.ts.

import type { Cause } from "../../src/schema/documents/index.ts";
import { type HeatSource, heatSources } from "../../src/schema/index.ts";
import { type Analysis, analyse, isKnown, type SourceFinding } from "../../src/science/index.ts";
import type { SimulatedRun } from "../../src/simulate/index.ts";
import type { Scatter } from "./cases/luck.ts";
import { type Case, type Kind, studyCase, unknownCase } from "./cases/verdict-cases.ts";
import { printMachine, printTable } from "./print.ts";

/** Looked at while tuning; figures to report come from others. */
const tuningSeeds =
  "1000 to 1099, 3000 to 3099, 40000 to 40199, 41000 to 41199, 42000 to 42199, 45000 to 45044, 70000 to 70149, 80000 to 80149, 90000 to 90009, 100000 to 100499, 110000 to 110499, 130000 to 130199, 131000 to 131099, 200000 to 200699, 201000 to 201249, 203000 to 203149, 205000 to 205499, 207000 to 207249, 208000 to 208249";
const margin = 0.15;

/** One source of one simulated fridge, judged. */
interface Judged {
  readonly kind: Kind;
  readonly fault: string;
  readonly truth: number;
  readonly truthTonight: number;
  readonly finding: SourceFinding;
  readonly tonight: { readonly low: number; readonly high: number } | null;
}

interface JudgedCase {
  readonly case: Case;
  readonly judged: readonly Judged[];
  readonly analysis: Analysis;
}

const analysed = (runs: readonly SimulatedRun[], knownGood: readonly SimulatedRun[]): Analysis =>
  analyse(
    runs.map(({ recording }) => recording),
    { knownGood: knownGood.map(({ recording }) => recording), baselineKind: "own", margin },
  );

function judgeCase(one: Case, testRuns: number): JudgedCase {
  const given = one.tests.slice(0, testRuns);
  const analysis = analysed(given, one.knownGood);
  const judged = heatSources.flatMap((source): Judged[] => {
    const finding = analysis.sources.find((each) => each.source === source);
    const stretch = given[0].truth.stretches.find((each) => each.source === source);
    if (finding === undefined || stretch?.strength == null) return [];
    const night = analysis.stretches.find((each) => each.source === source)?.thisNight;
    const tonight =
      night !== undefined && isKnown(night) && night.low !== null && night.high !== null
        ? { low: night.low, high: night.high }
        : null;
    const { ofFaults: truth, atRatedSupply, thisNight } = stretch.strength;
    // Volts that nobody told are part of the night.
    const truthTonight = given[0].recording.columns.supply === undefined ? thisNight : atRatedSupply;
    return [{ kind: one.kind, fault: one.fault?.name ?? "none", truth, truthTonight, finding, tonight }];
  });
  return { case: one, judged, analysis };
}

const called = (one: Judged, ...verdicts: readonly SourceFinding["verdict"][]) =>
  verdicts.includes(one.finding.verdict);
const isWeak = (one: Judged) => called(one, "weak", "not-cooling");
const share = <T>(of: readonly T[], is: (one: T) => boolean) =>
  of.length === 0 ? Number.NaN : of.filter(is).length / of.length;
const percent = (value: number) => (Number.isNaN(value) ? "–" : `${(100 * value).toFixed(1)} %`);
const counted = <T>(of: readonly T[], is: (one: T) => boolean) => `${percent(share(of, is))} of ${of.length}`;
const median = (values: readonly number[]) => values.toSorted((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
const isWithin = ({ low, high }: { readonly low: number | null; readonly high: number | null }, value: number) =>
  (low ?? Number.NEGATIVE_INFINITY) <= value && value <= (high ?? Number.POSITIVE_INFINITY);

const excused: readonly Kind[] = ["seal", "load", "lamp", "probe"];

function verdictRows(judged: readonly Judged[]): readonly (readonly [string, string])[] {
  const below75 = judged.filter((one) => one.truth < 0.75);
  const below50 = judged.filter((one) => one.truth < 0.5);
  const sound = judged.filter((one) => one.truth > 0.999 && !excused.includes(one.kind));
  const known = judged.flatMap((one) => {
    const { coolingStrength } = one.finding;
    return isKnown(coolingStrength) ? [{ one, strength: coolingStrength }] : [];
  });
  const halfWidths = known.flatMap(({ strength: { low, high, value } }) =>
    low === null || high === null ? [] : [(high - low) / 2 / value],
  );
  const tonight = judged.flatMap(({ tonight: night, truthTonight }) =>
    night === null ? [] : [{ night, truthTonight }],
  );
  return [
    ["below 0.75 called sound", counted(below75, (one) => called(one, "sound"))],
    ["below 0.75 called weak or no cooling", counted(below75, isWeak)],
    ["below 0.5 called so", counted(below50, isWeak)],
    ["sound called weak", counted(sound, isWeak)],
    ["sound called sound", counted(sound, (one) => called(one, "sound"))],
    [
      "seal or load called weak",
      counted(
        judged.filter(({ kind }) => kind === "seal" || kind === "load"),
        isWeak,
      ),
    ],
    [
      "lamp or moved probe called weak",
      counted(
        judged.filter(({ kind }) => kind === "lamp" || kind === "probe"),
        isWeak,
      ),
    ],
    ["coolingStrength covers the fault alone", counted(known, ({ one, strength }) => isWithin(strength, one.truth))],
    ["thisNight covers the night", counted(tonight, ({ night, truthTonight }) => isWithin(night, truthTonight))],
    ["median half width of coolingStrength", percent(median(halfWidths))],
    ["without a strength", counted(judged, (one) => !isKnown(one.finding.coolingStrength) && !isWeak(one))],
  ];
}

const causeGroups: { readonly [K in Kind]: readonly Cause[] } = {
  none: ["none"],
  heat: ["burner", "flue", "gas-supply", "mains-element", "dc12-element", "supply-voltage"],
  unit: ["cooling-unit", "not-level", "ventilation"],
  seal: ["door-seal"],
  load: ["warm-load"],
  probe: ["probe", "frost"],
  lamp: ["lamp"],
};
const shareOfTruth = ({ case: one, analysis }: JudgedCase) =>
  analysis.causes
    .filter(({ cause }) => causeGroups[one.kind].includes(cause))
    .reduce((sum, { probability }) => sum + probability, 0);
const leadsRightly = ({ case: one, analysis }: JudgedCase) =>
  analysis.causes.slice(0, 1).some(({ cause }) => causeGroups[one.kind].includes(cause));
const lossOf = ({ judged }: JudgedCase) => 1 - Math.min(1, ...judged.map(({ truth }) => truth));
const isAsked = (one: JudgedCase) => (one.case.kind !== "heat" && one.case.kind !== "unit") || lossOf(one) >= 0.2;

function causeRows(cases: readonly JudgedCase[]): readonly (readonly [string, string])[] {
  const asked = cases.filter(isAsked);
  const sound = cases.filter((one) => one.case.kind === "none");
  const logScore = cases.reduce((sum, one) => sum + Math.log(Math.max(1e-4, shareOfTruth(one))), 0) / cases.length;
  return [
    ["cause group first (loss of 20 % or more)", counted(asked, leadsRightly)],
    [
      "the same, lamps left out",
      counted(
        asked.filter((one) => one.case.kind !== "lamp"),
        leadsRightly,
      ),
    ],
    ["mean log score of the true group", logScore.toFixed(2)],
    ["`none` leads on sound fridges", counted(sound, leadsRightly)],
    [
      "mean share of `none` on sound fridges",
      percent(sound.reduce((sum, one) => sum + shareOfTruth(one), 0) / sound.length),
    ],
    [
      "one fault, yet stretches said to point apart",
      counted(cases, ({ analysis }) => analysis.warnings.some(({ code }) => code === "causes-differ")),
    ],
  ];
}

/** Doors that let the cabinet rise by 1 K or more in 10 min, against the events; and the settled cabinet at 32 °C. */
function otherRows(cases: readonly JudgedCase[]): readonly (readonly [string, string])[] {
  const doors: boolean[] = [];
  const invented: boolean[] = [];
  const settled: { readonly hit: boolean; readonly half: number }[] = [];
  let unanswered = 0;
  for (const { case: one, analysis } of cases) {
    const [{ recording, truth }] = one.tests;
    const found = analysis.events.filter(({ kind, log }) => kind === "door-opening" && log === recording.name);
    for (const door of truth.doors) {
      if (riseAfter(recording, door.startMs) < 1) continue;
      doors.push(found.some(({ startMs }) => Math.abs(startMs - door.startMs) < 600_000));
    }
    invented.push(
      found.some(({ startMs }) => truth.doors.every((door) => Math.abs(startMs - door.startMs) > 1_200_000)),
    );
    for (const { source, settledAt32 } of analysis.keepsUp) {
      // Loads and lamps alter where it settles in ways that the truth leaves out.
      if (source === null || one.kind === "load" || one.kind === "lamp") continue;
      if (!isKnown(settledAt32) || settledAt32.low === null || settledAt32.high === null) {
        unanswered++;
        continue;
      }
      const hit = isWithin(settledAt32, truth.settledCabinet(source, 32));
      settled.push({ hit, half: (settledAt32.high - settledAt32.low) / 2 });
    }
  }
  return [
    ["door openings of 1 K or more found", counted(doors, (hit) => hit)],
    ["runs with an invented opening", counted(invented, (is) => is)],
    ["settled cabinet at 32 °C within its interval", counted(settled, ({ hit }) => hit)],
    [
      "half width: median; at most 3 K",
      `${median(settled.map(({ half }) => half)).toFixed(1)} K; ${percent(share(settled, ({ half }) => half <= 3))}`,
    ],
    ["without an answer", percent(unanswered / (unanswered + settled.length))],
  ];
}

function riseAfter({ unixMs, columns }: SimulatedRun["recording"], startMs: number): number {
  const { cabinet } = columns;
  if (cabinet === undefined) return 0;
  const at = unixMs.findIndex((ms) => ms >= startMs);
  if (at < 1) return 0;
  return Math.max(...cabinet.subarray(at, at + 10)) - cabinet[at - 1];
}

/** Every fault by how much cooling it left, one test run. */
function faultRows(cases: readonly JudgedCase[]): string[][] {
  const rows = new Map<string, JudgedCase[]>();
  for (const one of cases) {
    const { kind, fault } = one.case;
    const loss = lossOf(one);
    const severity =
      kind === "heat" || kind === "unit" ? (loss < 0.2 ? "under 20 %" : loss < 0.5 ? "20 to 50 %" : "over 50 %") : "–";
    const key = `${fault?.name ?? "none"} | ${severity}`;
    rows.set(key, [...(rows.get(key) ?? []), one]);
  }
  return [...rows.entries()]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, group]) => {
      const hit = group.flatMap(({ case: one, judged }) =>
        judged.filter(({ truth }) => (one.kind === "heat" || one.kind === "unit" ? truth < 0.999 : true)),
      );
      return [
        ...key.split(" | "),
        String(group.length),
        percent(share(hit, isWeak)),
        percent(share(hit, (one) => called(one, "undecided"))),
        percent(share(hit, (one) => called(one, "sound"))),
        percent(share(group, leadsRightly)),
      ];
    });
}

const heatOf: { readonly [S in HeatSource]: readonly Cause[] } = {
  gas: ["burner", "flue", "gas-supply"],
  mains: ["mains-element", "supply-voltage"],
  dc12: ["dc12-element", "supply-voltage"],
};

/** A source is named where it is called weak or said to be low, or where its own heat is the likelier half of all causes. */
const isNamed = ({ sources, causes }: Analysis, source: HeatSource) =>
  sources.some(
    (one) =>
      one.source === source && (one.verdict === "weak" || one.reasons.some(({ code }) => code === "low-among-sources")),
  ) ||
  causes
    .filter((one) => one.source === source && heatOf[source].includes(one.cause))
    .reduce((sum, { probability }) => sum + probability, 0) > 0.5;

/** The sources of a fridge that nobody knows, against each other. */
function unknownRows(scatter: Scatter, fridges: number, firstSeed: number): readonly (readonly [string, string])[] {
  const found = Array.from({ length: fridges }, (_, i) => {
    const one = unknownCase(firstSeed + i, scatter);
    const analysis = analysed([one.run], []);
    return { ...one, sources: analysis.sources.length, analysis };
  });
  const weak = found.flatMap((one) => (one.weak === null ? [] : [{ ...one, weak: one.weak }]));
  const sources = (isOfInterest: (weak: HeatSource | null, source: HeatSource) => boolean) =>
    found.flatMap(({ weak: one, analysis }) =>
      analysis.sources.flatMap(({ source }) =>
        source !== null && isOfInterest(one, source) ? [isNamed(analysis, source)] : [],
      ),
    );
  const rowFor = (name: string, of: typeof weak) =>
    [name, counted(of, ({ weak: source, analysis }) => isNamed(analysis, source))] as const;
  return [
    rowFor("an electric source at 75 % of its cooling named", weak),
    rowFor(
      "the same, rated watts on the sheet",
      weak.filter(({ tellsWatts }) => tellsWatts),
    ),
    rowFor(
      "the same, three sources",
      weak.filter(({ sources: count }) => count === 3),
    ),
    [
      "the same, called weak",
      counted(weak, ({ weak: source, analysis }) =>
        analysis.sources.some((one) => one.source === source && one.verdict === "weak"),
      ),
    ],
    [
      "a source of a sound unknown fridge named",
      counted(
        sources((one) => one === null),
        (is) => is,
      ),
    ],
    [
      "a sound source beside the weak one named",
      counted(
        sources((one, source) => one !== null && source !== one),
        (is) => is,
      ),
    ],
  ];
}

/** Prints all tables for so many fridges from a seed on. */
function runStudy(fridges: number, firstSeed: number): void {
  const seeds = `seeds ${firstSeed} to ${firstSeed + fridges - 1}`;
  console.log(`Seeds looked at while tuning: ${tuningSeeds}; this run: ${fridges} fridges of either kind, ${seeds}.\n`);
  const columns = (["calm", "scattered"] as const).map((scatter) => {
    const once: JudgedCase[] = [];
    const twice: JudgedCase[] = [];
    for (let i = 0; i < fridges; i++) {
      const one = studyCase(firstSeed + i, scatter);
      once.push(judgeCase(one, 1));
      twice.push(judgeCase(one, 2));
    }
    return { scatter, once, twice };
  });
  const [calm, scattered] = columns;
  const judgedOf = (cases: readonly JudgedCase[]) => cases.flatMap(({ judged }) => judged);
  const rowsOf = (cases: readonly JudgedCase[]) => [...verdictRows(judgedOf(cases)), ...causeRows(cases)];
  const [a, b, c, d] = [calm.once, calm.twice, scattered.once, scattered.twice].map(rowsOf);
  printTable(
    ["verdict and causes", "calm, one test run", "two", "scattered, one test run", "two"],
    a.map(([name, value], i) => [name, value, b[i][1], c[i][1], d[i][1]]),
  );
  console.log();
  const others = columns.map(({ scatter, once }) => [...otherRows(once), ...unknownRows(scatter, fridges, firstSeed)]);
  printTable(
    ["doors, hot days, unknown fridges", "calm", "scattered"],
    others[0].map(([name, value], i) => [name, value, others[1][i][1]]),
  );
  for (const { scatter, once } of columns) {
    console.log();
    printTable(
      [
        `fault, ${scatter}`,
        "cooling lost",
        "fridges",
        "hit sources called weak",
        "undecided",
        "sound",
        "cause group first",
      ],
      faultRows(once),
    );
  }
  printMachine();
}

const [fridges = "60", seed = "80000"] = process.argv.filter((argument) => /^\d+$/.test(argument));
runStudy(Number(fridges), Number(seed));
