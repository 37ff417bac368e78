import { describe, expect, test } from "vitest";
import { finDifference } from "../../../src/science/evidence/fin-difference.ts";
import { milestones } from "../../../src/science/evidence/milestones.ts";
import { runEvidence } from "../../../src/science/evidence/run-evidence.ts";
import { belowAmbient } from "../../../src/science/evidence/settled-depth.ts";
import { warmingRate } from "../../../src/science/evidence/warming-rate.ts";
import { type Answer, type Estimate, isKnown } from "../../../src/science/numbers/estimate.ts";
import { fitCabinet } from "../../../src/science/pull-down/cabinet-fit.ts";
import { judgedFit } from "../../../src/science/pull-down/pull-down-numbers.ts";
import { type ModelView, modelView } from "../pull-down/model-view.ts";
import { simulated } from "../simulated-runs.ts";

const known = (answer: Answer): Estimate => {
  if (!isKnown(answer)) throw new Error(`no number: ${answer.why.code}`);
  return answer;
};

const fitted = (model: ModelView) => {
  const view = modelView(model);
  const cabinetFit = fitCabinet(view, 0.12);
  if ("why" in cabinetFit) throw new Error(cabinetFit.why.code);
  return { view, fit: { cabinetFit, judged: judgedFit(cabinetFit) } };
};

const offset = (kelvin: number, standardError = 0.05) => ({ kelvin, standardError, isMeasured: true });

describe("milestones", () => {
  // t = onset + ln(D / (D - fall)) / k with the start at ambient: definition of the exponential, as in absorption.json.
  const reachedAt = (fall: number) => 0.6 + Math.log(27 / (27 - fall)) / 0.3;

  for (const [name, celsius] of [
    ["to8", 8],
    ["to5", 5],
    ["to0", 0],
  ] as const) {
    test(`the time to ${celsius} °C is when the curve gets there, to a reading`, () => {
      const { view, fit } = fitted({ hours: 12 });
      expect(Math.abs(known(milestones(view, fit)[name]).value - reachedAt(25 - celsius))).toBeLessThan(1.1 / 60);
    });
  }

  test("a temperature not yet reached is projected from the fit", () => {
    const { view, fit } = fitted({ hours: 6.8 });
    const to0 = known(milestones(view, fit).to0);
    expect(to0.value).toBeGreaterThan(6.8);
    expect(to0.value).toBeCloseTo(reachedAt(25), 1);
  });

  test("where the fall ended before the stretch, what it was heading for is not told as if it had come", () => {
    const { view } = fitted({ hours: 6.8 });
    const stopped = { ...view, endHours: 5 };
    const cabinetFit = fitCabinet(stopped, 0.12);
    if ("why" in cabinetFit) throw new Error(cabinetFit.why.code);
    const { to0 } = milestones(stopped, { cabinetFit, judged: judgedFit(cabinetFit) });
    expect(to0).toMatchObject({ why: { code: "fall-ended" } });
  });

  test("a temperature below where it settles is not reached, and it says where it settles", () => {
    const { view, fit } = fitted({ hours: 8, depth: 18 });
    expect(milestones(view, fit).to5).toMatchObject({ why: { code: "not-reached", celsius: 5 } });
  });

  test("the first hour after the onset falls by D (1 - exp(-k))", () => {
    const { view, fit } = fitted({});
    expect(known(milestones(view, fit).fallFirstHour).value).toBeCloseTo(27 * -Math.expm1(-0.3), 0);
  });

  test("the share of time above a limit has the probe's tolerance as its interval", () => {
    const { view, fit } = fitted({ hours: 12 });
    const share = known(milestones(view, fit).shareAbove5);
    expect(share.value).toBeCloseTo(reachedAt(20) / 12, 2);
    expect(share.low).toBeLessThan(share.value);
    expect(share.high).toBeGreaterThan(share.value);
  });
});

describe("the fin difference", () => {
  test("is the last hour's cabinet minus evaporator, less the probes' own offset", () => {
    expect(known(finDifference(modelView({ finKelvin: 8 }), offset(0.5))).value).toBeCloseTo(7.5, 9);
  });

  test("is no surer than the offset", () => {
    expect(known(finDifference(modelView(), offset(0, 0.25))).standardError).toBeGreaterThanOrEqual(0.25);
  });

  test("is missing without an evaporator probe, and says so", () => {
    const view = { ...modelView(), evaporator: new Float64Array(481).fill(Number.NaN) };
    expect(finDifference(view, offset(0))).toMatchObject({ why: { code: "no-evaporator" } });
  });
});

describe("kelvin below ambient", () => {
  test("is read off a settled end", () =>
    expect(known(belowAmbient(modelView({ hours: 24 }), [])).value).toBeCloseTo(27, 1));

  test("is not read off a cabinet still falling", () => {
    expect(belowAmbient(modelView({ hours: 4 }), [])).toMatchObject({ why: { code: "not-settled" } });
  });
});

describe("the rate of warming back", () => {
  const warming = { heated: false, rate: 0.15, start: 4, hours: 6, finKelvin: -1 };

  test("is found from 45 min after the switch-off on", () => {
    expect(known(warmingRate(modelView(warming))).value).toBeCloseTo(0.15, 3);
  });

  test("is not read from under two hours of warming", () => {
    expect(warmingRate(modelView({ ...warming, hours: 2.5 }))).toMatchObject({ why: { code: "too-short" } });
  });

  test("is not read across melting frost, which holds the fins at 0 °C", () => {
    const view = modelView(warming);
    const evaporator = view.evaporator.map((value, i) => (view.hours[i] > 1 && view.hours[i] < 2 ? 0.1 : value));
    expect(warmingRate({ ...view, evaporator })).toMatchObject({ why: { code: "frost-melting" } });
  });
});

describe("what a pull-down tells by its length", () => {
  test("under two hours after the onset neither slope nor rate, and the waiting time is named", () => {
    const { fit } = fitted({ hours: 2 });
    expect(fit.judged.numbers.initialSlope).toMatchObject({ why: { code: "too-early", neededHours: 2 } });
  });

  test("three hours tell the slope; a build-up of the cooling could still pass for another rate", () => {
    const { numbers } = fitted({ hours: 3.6 }).fit.judged;
    expect(known(numbers.initialSlope).value).toBeCloseTo(0.3 * 27, 1);
    expect(numbers.rateConstant).toMatchObject({ why: { code: "soft-start-possible" } });
  });

  test("eight hours tell all four numbers", () => {
    const { numbers } = fitted({ hours: 8 }).fit.judged;
    expect(known(numbers.rateConstant).value).toBeCloseTo(0.3, 4);
    expect(known(numbers.depth).value).toBeCloseTo(27, 2);
    expect(known(numbers.deadTime).value).toBeCloseTo(0.6, 2);
  });

  test("a door opened on the way leaves the numbers where they were", () => {
    const { view } = fitted({ hours: 8 });
    const opened = view.cabinet.map((value, i) =>
      view.hours[i] >= 3 ? value + 3 * Math.exp(-0.3 * (view.hours[i] - 3)) : value,
    );
    const fit = fitCabinet({ ...view, cabinet: opened, doorHours: [3] }, 0.12);
    if ("why" in fit) throw new Error(fit.why.code);
    expect(fit.fit.pullDown.rate).toBeCloseTo(0.3, 3);
    expect(fit.fit.pullDown.depth).toBeCloseTo(27, 1);
  });

  test.each([
    ["twice within half an hour", [3, 3.3], 4],
    ["so wide that one curve without it fits nothing", [3], 14],
  ])("a door opened %s does not hide the cold", (_, doorHours, kelvin) => {
    const { view } = fitted({ hours: 8 });
    const opened = view.cabinet.map((value, i) =>
      doorHours.reduce(
        (sum, door) => sum + (view.hours[i] >= door ? kelvin * Math.exp(-0.3 * (view.hours[i] - door)) : 0),
        value,
      ),
    );
    const fit = fitCabinet({ ...view, cabinet: opened, doorHours }, 0.12);
    if ("why" in fit) throw new Error(fit.why.code);
    const { rate, depth } = fit.fit.pullDown;
    expect(rate * depth).toBeGreaterThan(0.95 * 0.3 * 27);
    expect(rate * depth).toBeLessThan(1.05 * 0.3 * 27);
  });

  test.each([0.2, 0.4, 0.6])("nor one opened at %f h, shortly before the cold began", (atHours) => {
    const cold = [
      { source: "off", hours: 1 },
      { source: "mains", hours: 8 },
      { source: "off", hours: 3 },
      { source: "gas", hours: 3.2 },
    ] as const;
    const fitOf = (doors: readonly { atHours: number; seconds: number }[]) => {
      const { fitted: found, view } = runEvidence(simulated(40, { schedule: cold, doors }).recording).stretches[3];
      if ("why" in found) throw new Error(found.why.code);
      const { rate, depth } = found.cabinetFit.fit.pullDown;
      return { slope: rate * depth, onset: found.cabinetFit.onsetHours, doors: view.doorHours.length };
    };
    const shut = fitOf([]);
    const opened = fitOf([{ atHours: 12 + atHours, seconds: 45 }]);
    expect(opened.doors).toBe(1);
    expect(opened.onset - shut.onset).toBeLessThan(0.06);
    expect(Math.abs(Math.log(opened.slope / shut.slope))).toBeLessThan(0.03);
  });
});
