import { describe, expect, test } from "vitest";
import type { Recording } from "../../src/schema/index.ts";
import { analyse, isKnown } from "../../src/science/index.ts";
import { judged, knownGood, numbersIn, schedule, simulated, sourceIn, stretchIn } from "./simulated-runs.ts";

const codesOf = (finding: { reasons: readonly { code: string }[] }) => finding.reasons.map(({ code }) => code);

/** The strength's interval; fails when there is none. */
function strengthOf(analysis: ReturnType<typeof judged>, source: "gas" | "mains") {
  const { coolingStrength } = sourceIn(analysis, source);
  if (!isKnown(coolingStrength)) throw new Error(`no strength: ${coolingStrength.why.code}`);
  return { ...coolingStrength, low: coolingStrength.low ?? 0, high: coolingStrength.high ?? Number.POSITIVE_INFINITY };
}

describe("a fridge as good as its known-good runs", () => {
  const analysis = judged(simulated(9));

  test("is good on both sources, with the strength's interval around 100 %", () => {
    for (const source of ["mains", "gas"] as const) {
      expect(sourceIn(analysis, source).verdict).toBe("sound");
      const { low, high } = strengthOf(analysis, source);
      expect(low).toBeLessThan(1);
      expect(high).toBeGreaterThan(1);
    }
  });

  test("has its rate constant beside the known-good one, with the warning that it misleads alone", () => {
    expect(codesOf(sourceIn(analysis, "mains"))).toEqual(
      expect.arrayContaining(["rate-constants", "rate-constant-alone-misleads"]),
    );
    const { fit, baselineFit } = stretchIn(analysis, "mains");
    expect(isKnown(fit.rateConstant) && baselineFit !== null && isKnown(baselineFit.rateConstant)).toBe(true);
  });

  test("points to no cause", () => expect(analysis.causes[0].cause).toBe("none"));

  test("is offered as a known-good run for next year", () =>
    expect(codesOf(sourceIn(analysis, "gas"))).toContain("offered-as-baseline"));

  test("keeps up at 32 °C within what the simulator's steady state says", () => {
    const run = simulated(9);
    for (const source of ["mains", "gas"] as const) {
      const { settledAt32 } = analysis.keepsUp.find((one) => one.source === source) ?? {};
      if (settledAt32 === undefined || !isKnown(settledAt32)) throw new Error("no prediction");
      const truth = run.truth.settledCabinet(source, 32);
      expect(settledAt32.low).toBeLessThan(truth);
      expect(settledAt32.high).toBeGreaterThan(truth);
    }
  });
});

describe("one source starved by a blocked flue", () => {
  const run = simulated(11, { faults: [{ name: "flue", size: 0.3 }] });
  const analysis = judged(run);

  test("gas is weak, mains is good", () => {
    expect(sourceIn(analysis, "gas").verdict).toBe("weak");
    expect(sourceIn(analysis, "mains").verdict).toBe("sound");
  });

  test("the true strength lies within the interval of the strength", () => {
    const truth = run.truth.stretches.find((one) => one.source === "gas")?.strength?.ofFaults ?? Number.NaN;
    const { low, high } = strengthOf(analysis, "gas");
    expect(truth).toBeGreaterThan(low);
    expect(truth).toBeLessThan(high);
  });

  test("the cold began later, and burner, flue and gas supply stay tied as causes", () => {
    expect(codesOf(sourceIn(analysis, "gas"))).toContain("onset-later");
    expect(
      analysis.causes
        .slice(0, 3)
        .map(({ cause }) => cause)
        .sort(),
    ).toEqual(["burner", "flue", "gas-supply"]);
  });

  test("the rate constant alone would have called it nearly good", () => {
    const { ratios } = stretchIn(analysis, "gas");
    expect(isKnown(ratios.rateConstant) && ratios.rateConstant.value).toBeGreaterThan(0.85);
    expect(isKnown(ratios.initialSlope) && ratios.initialSlope.value).toBeLessThan(0.75);
  });

  test("every check sent to the gas side carries the gas caution", () => {
    const gasSide = analysis.nextChecks.filter(({ separates }) => separates.includes("flue"));
    expect(gasSide.length).toBeGreaterThan(0);
    for (const { cautions } of gasSide) expect(cautions).toContain("gas");
  });
});

describe("faults that are no fault of a source", () => {
  test("a leaking seal lowers the depth, yet neither source is called weak, and the seal leads the causes", () => {
    const analysis = judged(simulated(12, { faults: [{ name: "door-seal", size: 0.67 }] }));
    const { ratios } = stretchIn(analysis, "mains");
    expect(isKnown(ratios.depth) && ratios.depth.value).toBeLessThan(0.8);
    expect(analysis.sources.map(({ verdict }) => verdict)).not.toContain("weak");
    expect(analysis.causes[0].cause).toBe("door-seal");
  });

  test("a warm load lowers the initial fall, yet neither source is called weak, and the load leads the causes", () => {
    const analysis = judged(simulated(13, { faults: [{ name: "warm-load", size: 8 }] }));
    const { ratios } = stretchIn(analysis, "mains");
    expect(isKnown(ratios.initialSlope) && ratios.initialSlope.value).toBeLessThan(0.8);
    expect(analysis.sources.map(({ verdict }) => verdict)).not.toContain("weak");
    expect(analysis.causes[0].cause).toBe("warm-load");
  });
});

describe("all sources weak", () => {
  test("unit, level and ventilation lead as one group, and the unit is not condemned on one run", () => {
    const analysis = judged(simulated(14, { faults: [{ name: "cooling-unit", size: 0.35 }] }));
    expect(analysis.sources.map(({ verdict }) => verdict)).toEqual(["weak", "weak"]);
    expect(
      analysis.causes
        .slice(0, 3)
        .map(({ cause }) => cause)
        .sort(),
    ).toEqual(["cooling-unit", "not-level", "ventilation"]);
    const checks = analysis.nextChecks.map(({ check }) => check);
    expect(checks).toEqual(expect.arrayContaining(["check-level", "fan-at-rear", "prove-heat-in-watts"]));
  });
});

describe("no cooling", () => {
  const dead = { faults: [{ name: "flue", size: 0.85 }] } as const;

  test("is said after 4 h with fins and cabinet both showing nothing", () => {
    const analysis = judged(simulated(15, dead));
    expect(sourceIn(analysis, "gas").verdict).toBe("not-cooling");
    expect(sourceIn(analysis, "mains").verdict).toBe("sound");
  });

  test("is not said before: an hour without cold is 'no cold yet', with the time to wait", () => {
    const short = [...schedule.slice(0, 3), { source: "gas", hours: 2 }] as const;
    const gas = sourceIn(judged(simulated(15, { ...dead, schedule: short })), "gas");
    expect(gas.verdict).toBe("undecided");
    expect(codesOf(gas)).toEqual(expect.arrayContaining(["no-cold-yet", "wait-until"]));
  });

  test("is said without any known-good run as well", () => {
    expect(sourceIn(judged(simulated(15, dead), { knownGood: [] }), "gas").verdict).toBe("not-cooling");
  });

  test("is not said because the evaporator probe alone has fallen into the cabinet air", () => {
    const fallen = simulated(16, { faults: [{ name: "probe", size: 1 }] });
    for (const { verdict } of judged(fallen).sources) expect(verdict).not.toBe("not-cooling");
  });
});

describe("what a stretch can tell", () => {
  const gasFor = (hours: number) => {
    const run = simulated(17, {
      schedule: [
        { source: "off", hours: 1 },
        { source: "gas", hours },
      ],
    });
    return sourceIn(judged(run), "gas");
  };

  test("half an hour from a cold boiler tells nothing and says how long to wait", () => {
    const gas = gasFor(0.5);
    expect(gas.verdict).toBe("undecided");
    expect(codesOf(gas)).toContain("wait-until");
  });

  test("an hour after the onset there is no strength yet", () =>
    expect(isKnown(gasFor(1.6).coolingStrength)).toBe(false));

  test("from two hours after the onset there is one", () => expect(isKnown(gasFor(3.2).coolingStrength)).toBe(true));

  test("a stretch that starts settled has its fin difference and its depth below ambient, and no rate constant", () => {
    const run = simulated(18, { before: [{ source: "mains", hours: 30 }], schedule: [{ source: "mains", hours: 6 }] });
    const stretch = stretchIn(judged(run), "mains");
    expect(isKnown(stretch.belowAmbient)).toBe(true);
    expect(isKnown(stretch.finDifference)).toBe(true);
    expect(isKnown(stretch.fit.rateConstant)).toBe(false);
  });

  /** All that is said of why, in one stretch. */
  const whysOf = ({ fit, milestones }: ReturnType<typeof stretchIn>) =>
    [fit.rateConstant, fit.depth, milestones.to0, milestones.fallFirstHour].flatMap((answer) =>
      isKnown(answer) ? [] : [answer.why],
    );

  test("a stretch that starts too cold for a fall gives that one reason for whatever is missing, and cuts from no start of cold", () => {
    const stretch = stretchIn(judged(simulated(11, { faults: [{ name: "flue", size: 0.5 }] })), "gas");
    expect(new Set(whysOf(stretch).map(({ code }) => code))).toEqual(new Set(["starts-settled"]));
    expect(codesOf(stretch)).toContain("late-fins-compared");
    expect(codesOf(stretch)).not.toContain("cut-to-equal-length");
  });

  test("a cabinet that warms from where it started is said to, and not to be settled", () => {
    const analysis = judged(simulated(15, { faults: [{ name: "flue", size: 0.85 }] }));
    const why = { code: "starts-settled", warms: true };
    for (const one of whysOf(stretchIn(analysis, "gas"))) expect(one).toEqual(why);
    expect(analysis.keepsUp.find(({ source }) => source === "gas")?.settledHere).toMatchObject({ why });
  });
});

describe("without a known-good run", () => {
  const analysis = judged(simulated(9), { knownGood: [] });

  test("everything but a strength is there, and the next check is to record a known-good run", () => {
    for (const source of analysis.sources) expect(source.verdict).toBe("undecided");
    expect(isKnown(stretchIn(analysis, "mains").fit.initialSlope)).toBe(true);
    expect(isKnown(stretchIn(analysis, "mains").milestones.to5)).toBe(true);
    expect(analysis.nextChecks.map(({ check }) => check)).toContain("record-known-good");
  });
});

test("a source that the known-good runs ran on, too short to serve, is not said to have none", () => {
  const short = (seed: number) => simulated(seed, { schedule: [{ source: "gas", hours: 1 }] }).recording;
  const options = { knownGood: [short(1), short(2)], baselineKind: "own", margin: 0.15 } as const;
  const alone = simulated(9, { schedule: [{ source: "gas", hours: 7 }] }).recording;
  expect(sourceIn(analyse([alone], options), "gas").coolingStrength).toMatchObject({
    why: { code: "known-good-unusable" },
  });
  expect(analyse([alone], options).nextChecks.map(({ check }) => check)).toEqual(["record-known-good"]);
  expect(sourceIn(analyse([alone], { ...options, knownGood: [] }), "gas").coolingStrength).toMatchObject({
    why: { code: "no-known-good" },
  });
});

describe("what must not matter", () => {
  const run = simulated(11, { faults: [{ name: "flue", size: 0.3 }] });
  const strengthAfter = (recording: Recording, known = knownGood) =>
    strengthOf(analyse([recording], { knownGood: known, baselineKind: "own", margin: 0.15 }), "gas");
  const asIs = strengthAfter(run.recording);

  test("the order of the known-good logs", () => {
    expect(strengthAfter(run.recording, [...knownGood].reverse())).toEqual(asIs);
  });

  test("the order of the logs of one fridge", () => {
    const other = simulated(21, { faults: [{ name: "flue", size: 0.3 }] }).recording;
    const options = { knownGood, baselineKind: "own", margin: 0.15 } as const;
    const forth = strengthOf(analyse([run.recording, other], options), "gas");
    const back = strengthOf(analyse([other, run.recording], options), "gas");
    expect(back.value).toBeCloseTo(forth.value, 9);
    expect(back.low).toBeCloseTo(forth.low, 9);
  });

  test("whole days added to every instant", () => {
    const later = { ...run.recording, unixMs: run.recording.unixMs.map((ms) => ms + 400 * 86_400_000) };
    expect(strengthAfter(later).value).toBeCloseTo(asIs.value, 9);
  });

  test("the same offset on all three probes", () => {
    const columns = Object.fromEntries(
      Object.entries(run.recording.columns).map(([position, values]) => [position, values.map((value) => value + 1.5)]),
    );
    // No fitted number moves. Its air reads 1.5 K warmer, and a warmer day is referred: by about half a per cent a kelvin.
    expect(Math.abs(Math.log(strengthAfter({ ...run.recording, columns }).value / asIs.value))).toBeLessThan(0.01);
  });

  test("two test runs together are surer than one", () => {
    const other = simulated(21, { faults: [{ name: "flue", size: 0.3 }] }).recording;
    const both = strengthOf(analyse([run.recording, other], { knownGood, baselineKind: "own", margin: 0.15 }), "gas");
    expect(both.high - both.low).toBeLessThan(asIs.high - asIs.low);
  });
});

describe("odd logs are analysed without a NaN and never called good", () => {
  const base = simulated(9).recording;
  const withColumns = (change: Partial<Recording["columns"]>): Recording => ({
    ...base,
    columns: { ...base.columns, ...change },
  });
  const constant = (celsius: number) => new Float64Array(base.unixMs.length).fill(celsius);
  const missing = constant(Number.NaN);
  const firstRows = (count: number): Recording => ({
    ...base,
    unixMs: base.unixMs.slice(0, count),
    columns: Object.fromEntries(
      Object.entries(base.columns).map(([position, values]) => [position, values.slice(0, count)]),
    ),
    sourceCodes: base.sourceCodes?.slice(0, count) ?? null,
  });
  const onMains: Recording = { ...firstRows(3), sourceCodes: Uint8Array.of(2, 2, 2) };

  for (const [what, recording] of [
    ["constant temperatures", withColumns({ evaporator: constant(20), cabinet: constant(20), ambient: constant(20) })],
    ["three readings", firstRows(3)],
    ["three readings on mains", onMains],
    ["no reading at all", firstRows(0)],
    ["an ambient that is all missing", withColumns({ ambient: missing })],
    ["everything missing", withColumns({ evaporator: missing, cabinet: missing, ambient: missing })],
    [
      "evaporator and ambient exchanged",
      withColumns({ evaporator: base.columns.ambient, ambient: base.columns.evaporator }),
    ],
    [
      "evaporator and cabinet exchanged",
      withColumns({ evaporator: base.columns.cabinet, cabinet: base.columns.evaporator }),
    ],
    ["time going backwards", { ...base, unixMs: Float64Array.from(base.unixMs).reverse() }],
    [
      "a fridge that warms while on",
      withColumns({
        cabinet: Float64Array.from(base.unixMs, (_, i) => 8 + i / 60),
        evaporator: Float64Array.from(base.unixMs, (_, i) => 8.2 + i / 60),
      }),
    ],
  ] as const) {
    test(what, () => {
      const analysis = analyse([recording], { knownGood, baselineKind: "own", margin: 0.15 });
      expect(numbersIn(analysis).filter((number) => Number.isNaN(number))).toEqual([]);
      for (const { verdict } of analysis.sources) expect(verdict).not.toBe("sound");
    });
  }
});
