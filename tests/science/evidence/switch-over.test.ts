// Sources held against each other across a switch without a pause. The truth is the simulator's own: steady cooling
// power at 25 °C ambient with the evaporator at -5 °C, of each stretch of that very night.

import { describe, expect, test } from "vitest";
import { type HeatSource, msPerHour } from "../../../src/schema/index.ts";
import { type Analysis, type Estimate, isKnown, type StretchFinding } from "../../../src/science/index.ts";
import {
  randomFridge,
  type ScheduledStretch,
  type SimulatedRun,
  type SimulationPlan,
} from "../../../src/simulate/index.ts";
import { judged, simulated, sourceIn, stretchIn } from "../simulated-runs.ts";

const off: ScheduledStretch = { source: "off", hours: 1 };
/** A night on mains and an attended morning on gas, without a pause between. */
const night = (...stretches: readonly (readonly [HeatSource, number])[]): readonly ScheduledStretch[] => [
  off,
  ...stretches.map(([source, hours]) => ({ source, hours })),
];
const single = night(["mains", 8], ["gas", 2]);
const sandwich = night(["mains", 8], ["gas", 2], ["mains", 2]);

const switched = (change: Partial<SimulationPlan> = {}, seed = 61): SimulatedRun =>
  simulated(seed, { schedule: single, ...change });

/** True cooling of the second heated stretch over the first. */
function trueRatio(run: SimulatedRun): number {
  const [, first, second] = run.truth.stretches.map(({ strength }) => strength?.thisNightWatts ?? Number.NaN);
  return second / first;
}

const alone = { knownGood: [] } as const;
const onGas = (run: SimulatedRun) => stretchIn(judged(run, alone), "gas");

function ratioOf({ switchOver }: StretchFinding): Estimate {
  if (switchOver === null) throw new Error("no switch");
  if (!isKnown(switchOver.ratio)) throw new Error(`no ratio: ${switchOver.ratio.why.code}`);
  return switchOver.ratio;
}

function expectTold(run: SimulatedRun, within = 0.05): void {
  const ratio = ratioOf(onGas(run));
  const truth = trueRatio(run);
  expect(Math.abs(ratio.value / truth - 1)).toBeLessThan(within);
  expect(holds(ratio, truth)).toBe(true);
}

const holds = ({ low, high }: Estimate, truth: number | undefined): boolean =>
  truth !== undefined && (low ?? -Infinity) <= truth && truth <= (high ?? Infinity);

const codesOf = ({ reasons }: Pick<StretchFinding, "reasons">) => reasons.map(({ code }) => code);

describe("two hours after a switch while cold", () => {
  for (const size of [0, 0.15, 0.3, 0.5]) {
    test(`the ratio of the two sources is within 5 % with ${100 * size} % of the gas heat lost, and its interval holds it`, () => {
      expectTold(switched({ faults: [{ name: "flue", size }] }));
    });
  }

  test("a weak first source and a sound second are told apart as well", () => {
    expectTold(switched({ faults: [{ name: "mains-element", size: 0.35 }] }));
  });

  test("what both sources share leaves the ratio alone, and the reasons say that it cannot be seen", () => {
    const shared = onGas(switched({ faults: [{ name: "cooling-unit", size: 0.4 }] }));
    const sound = onGas(switched());
    expect(Math.abs(ratioOf(shared).value / ratioOf(sound).value - 1)).toBeLessThan(0.03);
    expect(codesOf(shared)).toContain("switch-cannot-see");
  });

  test("a room that cools by 3 K meanwhile is told apart from a weak source", () => {
    expectTold(
      switched({ ambient: { meanCelsius: 30, driftKelvinPerHour: -0.6 }, faults: [{ name: "flue", size: 0.25 }] }),
    );
  });

  test("a cold room and a hot one give the same ratio within 5 %", () => {
    for (const meanCelsius of [15, 34]) {
      expectTold(switched({ ambient: { meanCelsius }, faults: [{ name: "flue", size: 0.3 }] }));
    }
  });

  test("a door opened right before the switch and again while the fins settle costs neither ratio nor interval", () => {
    const doors = [
      { atHours: 8.4, seconds: 90 },
      { atHours: 10.6, seconds: 90 },
    ];
    const faults = [{ name: "flue", size: 0.25 }] as const;
    expectTold(switched({ doors, faults }));
    const sureness = (run: SimulatedRun) => ratioOf(onGas(run)).standardError ?? Number.NaN;
    expect(sureness(switched({ doors, faults }))).toBeLessThan(1.5 * sureness(switched({ faults })));
  });

  test("frost that grows on the fins is within the interval, and a sandwich takes it out", () => {
    const frosty = { frostGramsPerHour: 12, faults: [{ name: "flue", size: 0.2 }] } as const;
    expectTold(switched(frosty), 0.08);
    const between = onGas(switched({ ...frosty, schedule: sandwich }));
    expect(between.switchOver?.drift).toBe("removed");
    expect(Math.abs(ratioOf(between).value / trueRatio(switched(frosty)) - 1)).toBeLessThan(0.05);
    expect(onGas(switched(frosty)).switchOver?.drift).toBe("allowed-for");
  });

  test("of twelve random fridges, seeds 801 to 812, eleven are within 5 % and every interval holds the truth", () => {
    const misses = Array.from({ length: 12 }, (_, i) => {
      const size = i % 3 === 0 ? 0 : 0.06 * i;
      const run = switched({ fridge: randomFridge(801 + i), faults: [{ name: "flue", size }] }, 801 + i);
      const ratio = ratioOf(onGas(run));
      const truth = trueRatio(run);
      expect(holds(ratio, truth)).toBe(true);
      return Math.abs(ratio.value / truth - 1);
    });
    expect(misses.filter((miss) => miss <= 0.05).length).toBeGreaterThanOrEqual(11);
  });
});

describe("where a switch tells nothing", () => {
  test("before two hours it says until when to wait", () => {
    const early = judged(switched({ schedule: night(["mains", 8], ["gas", 1.2]) }));
    const gas = stretchIn(early, "gas");
    expect(gas.switchOver?.ratio).toMatchObject({ why: { code: "too-short", neededHours: 2 } });
    expect(gas.verdict).toBe("undecided");
    expect(gas.reasons[0]).toMatchObject({ code: "wait-until", hours: 2, unixMs: gas.startMs + 2 * msPerHour });
  });

  test("a thermostat that held the first source back refuses the comparison, and says so", () => {
    const gas = onGas(switched({ thermostatSetCelsius: 7, schedule: night(["mains", 9], ["gas", 2.5]) }));
    expect(gas.switchOver?.ratio).toMatchObject({ why: { code: "held-back-at-switch" } });
  });

  test("frost melting on the fins holds them at 0 °C: no ratio until it is over", () => {
    const gas = onGas(
      switched({
        frostGramsPerHour: 14,
        ambient: { meanCelsius: 27 },
        schedule: night(["mains", 6], ["gas", 2]),
        faults: [{ name: "flue", size: 0.35 }],
      }),
    );
    expect(gas.switchOver?.ratio).toMatchObject({ why: { code: "frost-melting" } });
  });

  test("a stretch after a pause, or the first of a run, has no switch", () => {
    const paused = judged(simulated(62), alone);
    expect(paused.stretches.map(({ switchOver }) => switchOver)).toEqual(paused.stretches.map(() => null));
  });

  test("a source that never takes over has no ratio, and its cold is lost, not weak", () => {
    const dead = switched({ schedule: night(["mains", 8], ["gas", 2.5]), faults: [{ name: "flue", size: 1 }] });
    const analysis = judged(dead, alone);
    expect(isKnown(stretchIn(analysis, "gas").switchOver?.ratio ?? { why: { code: "no-stretch" } })).toBe(false);
    expect(stretchIn(analysis, "gas").verdict).toBe("undecided");
    expect(analysis.events.map(({ kind }) => kind)).toContain("cooling-stopped");
  });
});

describe("the verdict over a switch", () => {
  const gasOf = (analysis: Analysis) => sourceIn(analysis, "gas");

  test("two hours after the switch a blocked flue is weak, and mains before it good", () => {
    const analysis = judged(switched({ faults: [{ name: "flue", size: 0.3 }] }));
    expect(gasOf(analysis).verdict).toBe("weak");
    expect(sourceIn(analysis, "mains").verdict).toBe("sound");
    expect(gasOf(analysis).baseline).toBe("own");
    expect(codesOf(stretchIn(analysis, "gas"))).toEqual(
      expect.arrayContaining(["switch-tells", "switch-drift", "switch-cannot-see", "strength-over-switch"]),
    );
  });

  test("its strength holds the fault's own", () => {
    const run = switched({ faults: [{ name: "flue", size: 0.3 }] });
    const { coolingStrength } = gasOf(judged(run));
    if (!isKnown(coolingStrength)) throw new Error(coolingStrength.why.code);
    expect(holds(coolingStrength, run.truth.stretches[2].strength?.ofFaults)).toBe(true);
  });

  test("a loss near the margin stays undecided", () => {
    const run = switched({ faults: [{ name: "flue", size: 0.15 }] });
    expect(run.truth.stretches[2].strength?.ofFaults).toBeCloseTo(0.83, 2);
    expect(gasOf(judged(run)).verdict).toBe("undecided");
  });

  test("a weak cooling unit, which both sources share, shows against the known-good runs", () => {
    expect(gasOf(judged(switched({ faults: [{ name: "cooling-unit", size: 0.4 }] }))).verdict).toBe("weak");
  });

  test("a stretch without a fall of its own shows none, and is not offered as a known-good run", () => {
    const gas = stretchIn(judged(switched()), "gas");
    expect(gas.baselineFit).toBeNull();
    expect(gas.fit.initialSlope).toMatchObject({ why: { code: "switched-while-cold" } });
    expect(codesOf(gas)).not.toContain("offered-as-baseline");
  });

  test("with no known-good run a source far below the other is named by the heat that each gets", () => {
    const analysis = judged(switched({ faults: [{ name: "flue", size: 0.45 }] }), alone);
    expect(gasOf(analysis)).toMatchObject({ verdict: "weak", baseline: "other-sources" });
    expect(sourceIn(analysis, "mains").verdict).not.toBe("weak");
  });

  test("a chain of switches carries the fall on the first source on to the third", () => {
    const schedule = night(["mains", 8], ["gas", 2.5], ["dc12", 2.5]);
    const full = [simulated(71, { schedule: [off, { source: "dc12", hours: 8 }] }).recording];
    const chain = judged(switched({ schedule, faults: [{ name: "dc12-element", size: 0.4 }] }), { knownGood: full });
    expect(sourceIn(chain, "dc12").verdict).toBe("weak");
    expect(codesOf(stretchIn(chain, "dc12"))).toContain("strength-over-switch");
  });

  test("back on the first source the chain would hold it against itself: that stretch waits for its fins alone", () => {
    const analysis = judged(switched({ schedule: sandwich }));
    const again = analysis.stretches.at(-1);
    expect(again?.source).toBe("mains");
    expect(isKnown(again?.coolingStrength ?? { why: { code: "no-stretch" } })).toBe(false);
    expect(again === undefined ? 0 : ratioOf(again).value).toBeCloseTo(
      1 / ratioOf(stretchIn(analysis, "gas")).value,
      1,
    );
  });

  test("the switch to a much weaker source is no lost flame", () => {
    const analysis = judged(switched({ faults: [{ name: "flue", size: 0.5 }] }), alone);
    expect(analysis.events.map(({ kind }) => kind)).not.toContain("cooling-stopped");
  });
});
