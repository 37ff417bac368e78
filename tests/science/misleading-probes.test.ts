// Runs in which a probe, the load or a silent run sheet would make a verdict wrong: what nothing in the log tells apart must
// be left open, and what it does tell must be used.

import { describe, expect, test } from "vitest";
import type { Position, RunSheet } from "../../src/schema/index.ts";
import { compareRuns } from "../../src/science/before-after/index.ts";
import { analyse, isKnown } from "../../src/science/index.ts";
import type { SimulatedRun, SimulationPlan } from "../../src/simulate/index.ts";
import { judged, knownGood, simulated, sourceIn, stretchIn } from "./simulated-runs.ts";

type Columns = SimulatedRun["recording"]["columns"];

const probed = (run: SimulatedRun, change: (columns: Columns) => Columns): SimulatedRun => ({
  ...run,
  recording: { ...run.recording, columns: change(run.recording.columns) },
});

/** The cabinet probe half-way to the fins. */
const besideFins = (run: SimulatedRun) =>
  probed(run, (columns) => {
    const { cabinet = new Float64Array(), evaporator = new Float64Array() } = columns;
    return { ...columns, cabinet: cabinet.map((celsius, row) => (celsius + evaporator[row]) / 2) };
  });

const only = (run: SimulatedRun, ...positions: readonly Position[]) =>
  probed(run, (columns) => Object.fromEntries(positions.map((position) => [position, columns[position]])));

/** A cooling unit that keeps 65 % of its cooling. */
const weakUnit = { faults: [{ name: "cooling-unit", size: 0.35 }] } as const;
const sources = ["mains", "gas"] as const;

describe("a fridge that is weak is never called good", () => {
  test.each([60, 61, 62, 63])("by a cabinet probe that touches the fins (seed %i)", (seed) => {
    const analysis = judged(besideFins(simulated(seed, weakUnit)));
    for (const source of sources) expect(sourceIn(analysis, source).verdict).not.toBe("sound");
  });

  test.each([60, 61])("by a cabinet probe in a bottle, where no cold ever seems to begin (seed %i)", (seed) => {
    const run = simulated(seed, { ...weakUnit, probes: { cabinet: { lagSeconds: 7200 } } });
    for (const { verdict } of judged(run).sources) expect(verdict).not.toBe("sound");
  });

  test.each([65, 66, 67, 68])("nor the gas of a cold start by one in a bottle for hours (seed %i)", (seed) => {
    const gas = [{ name: "flue", size: 0.3 }] as const;
    const start = [
      { source: "mains", hours: 8 },
      { source: "off", hours: 3 },
      { source: "gas", hours: 7 },
      { source: "off", hours: 2 },
    ] as const;
    for (const lagSeconds of [3600, 10_800, 18_000]) {
      const analysis = judged(simulated(seed, { schedule: start, faults: gas, probes: { cabinet: { lagSeconds } } }));
      expect(sourceIn(analysis, "gas").verdict).not.toBe("sound");
      expect(analysis.causes[0].cause).toMatch(/probe|burner|flue|gas-supply/);
    }
  });

  test.each([60, 61, 62, 63])("by goods put in cold, without an evaporator probe (seed %i)", (seed) => {
    const load = { kilograms: 10, celsius: 4 };
    const analysis = judged(only(simulated(seed, { ...weakUnit, load }), "cabinet", "ambient"));
    for (const source of sources) expect(sourceIn(analysis, source).verdict).not.toBe("sound");
    expect(analysis.stretches.flatMap(({ reasons }) => reasons.map(({ code }) => code))).toContain("began-cold");
  });

  test.each([60, 61, 62, 63])("by goods put in cold once it runs, without an evaporator probe (seed %i)", (seed) => {
    const warm = only(simulated(seed, weakUnit), "cabinet", "ambient");
    // The air gives its heat to 6 kg at 5 °C from half an hour after the switch-on: 3 h in the logarithm (own estimate).
    const cooled = probed(warm, ({ cabinet = new Float64Array(), ...others }) => ({
      ...others,
      cabinet: cabinet.map((celsius, row) => {
        const hours = (row - 90) / 60;
        return hours < 0 ? celsius : celsius - 6 * (1 - Math.exp(-hours / 0.4)) * Math.exp(-hours / 3);
      }),
    }));
    const analysis = judged(cooled);
    expect(sourceIn(analysis, "mains").verdict).not.toBe("sound");
    expect(stretchIn(analysis, "mains").reasons.map(({ code }) => code)).toContain("fall-bent");
  });

  test("by sun on the ambient probe: its readings are left out, and what is left is judged", () => {
    const sun = [{ atHours: 0.5, hours: 8, kelvin: 8 }];
    const analysis = judged(simulated(64, { ...weakUnit, sun }));
    expect(analysis.events.map(({ kind }) => kind)).toContain("sun-on-probe");
    for (const source of sources) expect(sourceIn(analysis, source).verdict).not.toBe("sound");
    expect(analysis.causes[0].cause).not.toMatch(/burner|flue|gas-supply/);
  });
});

describe("a fridge in order is never called weak", () => {
  const twoProbes = (seed: number, change: Partial<SimulationPlan> = {}) =>
    judged(only(simulated(seed, change), "cabinet", "ambient"));
  const load = { faults: [{ name: "warm-load", size: 10 }] } as const;

  test.each([70, 71, 72, 73])("for ten kilograms of warm goods, without an evaporator probe (seed %i)", (seed) => {
    const analysis = twoProbes(seed, load);
    for (const source of sources) expect(sourceIn(analysis, source).verdict).not.toBe("weak");
    expect(analysis.nextChecks.map(({ check }) => check)).toContain("wait-for-load");
    expect(analysis.causes[0].cause).toMatch(/warm-load|none/);
  });

  describe.each([3600, 10_800])("for a bottle around the cabinet probe (%i s)", (lagSeconds) => {
    const bottled = (seed: number) => simulated(seed, { probes: { cabinet: { lagSeconds } } });
    const known = [1, 2, 3].map((seed) => bottled(seed).recording);
    const slow = ({ stretches }: ReturnType<typeof judged>) =>
      stretches.flatMap(({ reasons }) => reasons.filter(({ code }) => code === "cabinet-probe-slow"));

    test("in this run: it is found, and is the cause", () => {
      const analysis = judged(bottled(76));
      for (const source of sources) expect(sourceIn(analysis, source).verdict).not.toBe("weak");
      expect(slow(analysis)).toHaveLength(2);
      expect(analysis.causes[0].cause).toBe("probe");
    });

    test("in the known-good runs", () => {
      const analysis = judged(simulated(76), { knownGood: known });
      for (const source of sources) expect(sourceIn(analysis, source).verdict).not.toBe("weak");
    });

    test("in all of them alike, where it changes nothing", () => {
      expect(slow(judged(bottled(76), { knownGood: known }))).toHaveLength(0);
    });
  });

  test.each([70, 71])("for goods put in cold in the known-good runs, without an evaporator probe (seed %i)", (seed) => {
    const load = { kilograms: 10, celsius: 4 };
    const known = [1, 2, 3].map((other) => only(simulated(other, { load }), "cabinet", "ambient").recording);
    const analysis = judged(only(simulated(seed), "cabinet", "ambient"), { knownGood: known });
    for (const source of sources) expect(sourceIn(analysis, source).verdict).not.toBe("weak");
  });

  test("for low volts that only one side tells: half of them are allowed for, and all of them are in reach", () => {
    const low = simulated(74, { includeSupply: true, supply: { volts: { mains: 205 } } });
    const { verdict, coolingStrength } = sourceIn(judged(low), "mains");
    expect(verdict).not.toBe("weak");
    expect(isKnown(coolingStrength) && (coolingStrength.high ?? 0)).toBeGreaterThan(1);
  });

  test("for an altitude that only one side tells", () => {
    const sheet: RunSheet = { altitudeMetres: 2000 };
    const { coolingStrength } = sourceIn(judged(simulated(75, { sheet })), "gas");
    const [low, high] = isKnown(coolingStrength) ? [coolingStrength.low ?? 0, coolingStrength.high ?? 0] : [0, 0];
    expect(low).toBeLessThan(1);
    expect(high).toBeGreaterThan(1);
  });
});

describe("a van that is heated while the air at its vent is cold", () => {
  const room = { meanCelsius: 20, swingKelvin: 1 };
  const van = { ambient: { meanCelsius: 5, swingKelvin: 1 }, room } as const;

  test("has no lamp, where the room is logged", () => {
    const analysis = judged(simulated(80, { ...van, probes: { room: {} } }));
    expect(analysis.causes[0].cause).toBe("none");
    expect(stretchIn(analysis, "mains").reasons.map(({ code }) => code)).toContain("room-shares");
  });

  test("nor where the run sheet says that it is a van", () => {
    const analysis = judged(simulated(81, { ...van, sheet: { setting: "vehicle-indoors" } }));
    expect(analysis.causes[0].cause).not.toBe("lamp");
  });
});

describe("what is wrong with the logs is not told of the fridge", () => {
  test("known-good logs with exchanged probes cannot serve, and say so", () => {
    const exchanged = knownGood.map((recording) => {
      const { evaporator, cabinet, ...columns } = recording.columns;
      return { ...recording, columns: { ...columns, evaporator: cabinet, cabinet: evaporator } };
    });
    const analysis = judged(simulated(82), { knownGood: exchanged });
    const unused = analysis.warnings.filter((warning) => warning.code === "known-good-not-used");
    expect(unused.map(({ why }) => why)).toEqual(Array(3).fill("probes-exchanged"));
    for (const { verdict, baseline } of analysis.sources) {
      expect(verdict).toBe("undecided");
      expect(baseline).toBe("other-sources");
    }
  });

  test("cold that began sooner is not said to have begun as usual", () => {
    const analysis = judged(simulated(83, { ambient: { meanCelsius: 34, swingKelvin: 1 } }), {
      knownGood: [84, 85, 86].map((seed) => simulated(seed, { ambient: { meanCelsius: 5 } }).recording),
    });
    const codes = analysis.stretches.flatMap(({ reasons }) => reasons.map(({ code }) => code));
    expect(codes).toContain("onset-earlier");
    expect(codes).not.toContain("onset-later");
  });
});

describe("compared before and after", () => {
  const sheet: RunSheet = { untouchedSources: ["mains"] };
  const compared = (before: SimulatedRun, after: SimulatedRun) =>
    compareRuns([before.recording], [after.recording], { knownGood, margin: 0.15 });

  test.each([90, 91, 92, 93])(
    "a source that did not change is not worse because the untouched one rose (seed %i)",
    (seed) => {
      const before = simulated(seed, { supply: { volts: { mains: 205 } } });
      const after = simulated(seed + 10, { sheet, supply: { volts: { mains: 240 } } });
      const gas = compared(before, after).sources.find(({ source }) => source === "gas");
      expect(gas?.change).not.toBe("worse");
    },
  );

  test.each([94, 95])("a cabinet probe that came to touch the fins makes nothing better (seed %i)", (seed) => {
    const { sources } = compared(simulated(seed), besideFins(simulated(seed + 10)));
    for (const { change } of sources) expect(change).not.toBe("better");
  });
});

test.each([98, 99, 100])(
  "compared before and after without fins, warm goods before make nothing better (seed %i)",
  (seed) => {
    const loaded = only(simulated(seed, { faults: [{ name: "warm-load", size: 8 }] }), "cabinet", "ambient");
    const empty = only(simulated(seed + 10), "cabinet", "ambient");
    const { sources: changes } = compareRuns([loaded.recording], [empty.recording], { knownGood, margin: 0.15 });
    for (const { change } of changes) expect(change).not.toBe("better");
  },
);

test("compared before and after, a probe that went into a bottle makes nothing better or worse", () => {
  const after = simulated(97, { probes: { cabinet: { lagSeconds: 10_800 } } });
  const { sources: changes } = compareRuns([simulated(96).recording], [after.recording], { knownGood, margin: 0.15 });
  for (const { change } of changes) expect(change).toBe("undecided");
});

test("two nights that disagree are not explained by nothing: the newest has a cause", () => {
  const nights = [simulated(30), simulated(31, { faults: [{ name: "flue", size: 0.4 }] })];
  const recordings = nights.map(({ recording }) => recording);
  const analysis = analyse(recordings, { knownGood, baselineKind: "own", margin: 0.15 });
  const gas = sourceIn(analysis, "gas");
  expect(gas.verdict).toBe("undecided");
  expect(gas.reasons.map(({ code }) => code)).toContain("stretches-disagree");
  expect(analysis.causes[0].cause).toMatch(/flue|burner|gas-supply/);
});

describe("a source that nobody named", () => {
  const unnamed = (seed: number, faults: SimulationPlan["faults"] = []) =>
    judged(simulated(seed, { faults, tellSource: false }));

  test("is judged where every source's known-good runs say the same", () => {
    const found = unnamed(50, [{ name: "cooling-unit", size: 0.6 }]).sources.filter(({ source }) => source === null);
    expect(found.map(({ verdict }) => verdict)).toEqual(["weak"]);
  });

  test("and is not where they cannot tell", () => {
    const slight = unnamed(51, [{ name: "cooling-unit", size: 0.15 }]);
    for (const { verdict } of slight.sources) expect(verdict).toBe("undecided");
  });
});
