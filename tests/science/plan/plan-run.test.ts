import { fc, test as propTest } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { type HeatSource, heatSources, msPerHour } from "../../../src/schema/index.ts";
import { hourOfDay } from "../../../src/science/plan/day-hours.ts";
import { type PlanRequest, planRun, type RunPlan } from "../../../src/science/plan/index.ts";

const at = (clock: string) => Date.parse(`2026-06-04T${clock}:00Z`);

function planned(request: Partial<PlanRequest> & Pick<PlanRequest, "sources">): RunPlan {
  const found = planRun({ startMs: at("13:00"), utcOffsetMinutes: 0, ...request });
  if (found.outcome === "refused") throw new Error(found.reason.code);
  return found.plan;
}

const clock = (unixMs: number) => new Date(unixMs).toISOString().slice(5, 16).replace("T", " ");
const outline = ({ steps }: RunPlan) =>
  steps.map(({ kind, source, startMs, endMs }) => `${clock(startMs)} to ${clock(endMs)} ${source ?? kind}`);

test("an evening that begins a night on mains goes on until morning: nobody waits for it", () => {
  expect(outline(planned({ startMs: at("17:00"), sources: ["mains"] }))).toEqual([
    "06-04 17:00 to 06-04 17:30 settling",
    "06-04 17:30 to 06-05 07:00 mains",
  ]);
});

describe("a plan of three sources from 13:00", () => {
  const plan = planned({ sources: ["mains", "gas", "dc12"] });

  test("puts gas on the attended afternoon, the night on mains, and lets the boiler cool between them", () => {
    expect(outline(plan)).toEqual([
      "06-04 13:00 to 06-04 13:30 settling",
      "06-04 13:30 to 06-04 18:30 gas",
      "06-04 18:30 to 06-04 21:00 warming-back",
      "06-04 21:00 to 06-05 07:00 mains",
      "06-05 07:00 to 06-05 10:00 warming-back",
      "06-05 10:00 to 06-05 15:00 dc12",
    ]);
  });

  test("says that the order was changed, and why", () => {
    expect(plan.reasons).toEqual([
      { code: "order-changed", asked: ["mains", "gas", "dc12"], planned: ["gas", "mains", "dc12"] },
      { code: "gas-by-day-only", fromHour: 7, toHour: 21 },
    ]);
  });

  test("gives each proof its clock times: onset 30 to 60 min after the switch-on, strength 2 h and the curve 4 h after it", () => {
    const [, gas] = plan.steps;
    expect(gas.proofs.map(({ proof, fromMs, byMs }) => `${proof} ${clock(fromMs)} ${clock(byMs)}`)).toEqual([
      "heat 06-04 13:45 06-04 13:45",
      "onset 06-04 14:00 06-04 14:30",
      "cold 06-04 14:30 06-04 15:00",
      "strength 06-04 16:00 06-04 16:30",
      "dead 06-04 17:30 06-04 17:30",
      "curve 06-04 18:00 06-04 18:30",
    ]);
  });

  test("leaves a proof out that the stretch is too short for", () => {
    const proofsOf = (source: HeatSource) => plan.steps.find((step) => step.source === source)?.proofs ?? [];
    expect(proofsOf("mains").map(({ proof }) => proof)).toContain("better-curve");
    expect(proofsOf("gas").map(({ proof }) => proof)).not.toContain("better-curve");
  });

  test("marks gas as attended and the mains night as overnight", () => {
    const marks = plan.steps.filter(({ isAttended, isOvernight }) => isAttended || isOvernight);
    expect(marks.map(({ source, isAttended, isOvernight }) => ({ source, isAttended, isOvernight }))).toEqual([
      { source: "gas", isAttended: true, isOvernight: false },
      { source: "mains", isAttended: false, isOvernight: true },
    ]);
  });
});

test("an order that costs no more than another is kept as asked", () => {
  expect(planned({ startMs: at("22:00"), sources: ["mains", "gas"] }).reasons.map(({ code }) => code)).toEqual([
    "gas-by-day-only",
  ]);
});

test("a gas stretch alone that begins at night waits for the morning", () => {
  const plan = planned({ startMs: at("22:00"), sources: ["gas"] });
  expect(plan.steps.map(({ source, startMs }) => [source, clock(startMs)])).toEqual([
    [null, "06-04 22:00"],
    ["gas", "06-05 07:00"],
  ]);
  expect(plan.steps[0].reasons).toContainEqual({ code: "waits-for-a-person", untilMs: at("13:00") + 18 * msPerHour });
});

test("what reaches into the night carries the caution for the night, even where someone is always there", () => {
  const attended = { fromHour: 0, toHour: 24 };
  const [, evening] = planned({ startMs: at("19:00"), sources: ["mains"], attended }).steps;
  expect(clock(evening.endMs)).toBe("06-05 00:00");
  expect(evening).toMatchObject({ isOvernight: true, cautions: expect.arrayContaining(["night"]) });
  const [, early] = planned({ startMs: at("03:00"), sources: ["mains"], attended }).steps;
  expect(early.isOvernight).toBe(true);
  const [, day] = planned({ startMs: at("09:00"), sources: ["mains"], attended }).steps;
  expect(day.isOvernight).toBe(false);
});

test("what begins before the attended hours but after the night is a run of the day", () => {
  const [settling, morning] = planned({ startMs: at("06:00"), sources: ["mains"] }).steps;
  expect([clock(morning.startMs), clock(morning.endMs)]).toEqual(["06-04 06:30", "06-04 11:30"]);
  for (const step of [settling, morning]) expect(step.isOvernight).toBe(false);
  expect(morning.reasons.map(({ code }) => code)).not.toContain("night-runs-through");
  const late = planned({ startMs: at("08:00"), sources: ["mains"], attended: { fromHour: 9, toHour: 17 } }).steps[1];
  expect(late.isOvernight).toBe(false);
  const night = planned({ startMs: at("16:00"), sources: ["mains"], attended: { fromHour: 9, toHour: 17 } }).steps[1];
  expect(night).toMatchObject({ isOvernight: true, cautions: expect.arrayContaining(["night"]) });
});

test("the clock of the place decides, not that of Greenwich", () => {
  // 22:00 in Greenwich is 12:00 on a clock ten hours behind: day there.
  const plan = planned({ startMs: at("22:00"), sources: ["gas"], utcOffsetMinutes: -600 });
  expect(clock(plan.steps[1].startMs)).toBe("06-04 22:30");
});

describe("switching over while cold", () => {
  const plan = planned({ startMs: at("09:00"), sources: ["mains", "gas"], isSwitchedWhileCold: true });

  test("sandwiches the other sources between two parts of an electric one, without pauses", () => {
    expect(outline(plan).slice(1)).toEqual([
      "06-04 09:30 to 06-04 14:30 mains",
      "06-04 14:30 to 06-04 17:30 gas",
      "06-04 17:30 to 06-04 20:30 mains",
    ]);
  });

  test("promises of the later stretches only what their fins tell: after 2 h, and as strength after 3 h", () => {
    expect(plan.steps[2].proofs.map(({ proof, byMs }) => `${proof} ${clock(byMs)}`)).toEqual([
      "heat 06-04 14:45",
      "fins 06-04 16:30",
      "strength 06-04 17:30",
    ]);
  });
});

for (const [why, request, code] of [
  [
    "an end before gas and mains can both be over",
    { sources: ["gas", "mains"], untilMs: at("20:00") },
    "needs-more-time",
  ],
  [
    "attended hours too short for gas",
    { sources: ["gas"], attended: { fromHour: 8, toHour: 10 } },
    "gas-needs-longer-day",
  ],
  ["one source to switch over", { sources: ["mains"], isSwitchedWhileCold: true }, "one-source-cannot-switch"],
] as const satisfies readonly (readonly [string, Partial<PlanRequest> & Pick<PlanRequest, "sources">, string])[]) {
  test(`${why} is refused with the reason`, () => {
    const found = planRun({ startMs: at("13:00"), utcOffsetMinutes: 0, ...request });
    expect(found).toMatchObject({ outcome: "refused", reason: { code } });
  });
}

test("the end that a refusal names is one that a plan keeps", () => {
  const asked = { startMs: at("13:00"), utcOffsetMinutes: 0, sources: ["gas", "mains"] } as const;
  const refused = planRun({ ...asked, untilMs: at("20:00") });
  if (refused.outcome !== "refused" || refused.reason.code !== "needs-more-time") throw new Error("not refused");
  expect(planned({ ...asked, untilMs: refused.reason.untilMs }).endMs).toBe(refused.reason.untilMs);
});

const requests = fc.record({
  startMs: fc.integer({ min: 0, max: 14 * 48 }).map((halfHours) => at("00:00") + halfHours * (msPerHour / 2)),
  sources: fc.shuffledSubarray([...heatSources], { minLength: 1 }),
  utcOffsetMinutes: fc.constantFrom(-600, -150, 0, 60, 120, 345),
  attended: fc.constantFrom({ fromHour: 7, toHour: 21 }, { fromHour: 8, toHour: 17 }, { fromHour: 6, toHour: 23 }),
  isSwitchedWhileCold: fc.boolean(),
});

propTest.prop([requests])("no plan burns gas unattended or between 21 and 7 o'clock, whatever is asked", (request) => {
  const found = planRun(request);
  if (found.outcome === "refused") return;
  for (const step of found.plan.steps.filter(({ source }) => source === "gas")) {
    expect(step.isAttended).toBe(true);
    expect(step.cautions).toContain("gas");
    const [from, to] = [step.startMs, step.endMs].map((ms) => hourOfDay(ms, request.utcOffsetMinutes));
    expect(from).toBeGreaterThanOrEqual(Math.max(7, request.attended.fromHour));
    expect(to).toBeLessThanOrEqual(Math.min(21, request.attended.toHour));
    expect(step.endMs - step.startMs).toBeLessThanOrEqual(14 * msPerHour);
  }
});

propTest.prop([requests])(
  "every plan runs each source, without holes, and switches only when someone is there",
  (request) => {
    const found = planRun(request);
    if (found.outcome === "refused") return;
    const { steps, startMs, endMs } = found.plan;
    expect(new Set(steps.flatMap(({ source }) => (source === null ? [] : [source])))).toEqual(new Set(request.sources));
    expect(steps[0].startMs).toBe(startMs);
    expect(steps.at(-1)?.endMs).toBe(endMs);
    steps.slice(1).forEach((step, i) => {
      expect(step.startMs).toBe(steps[i].endMs);
    });
    const { fromHour, toHour } = request.attended;
    for (const step of steps.slice(2)) {
      const hour = hourOfDay(step.startMs, request.utcOffsetMinutes);
      expect(hour).toBeGreaterThanOrEqual(fromHour);
      expect(hour).toBeLessThanOrEqual(toHour);
    }
  },
);

propTest.prop([requests])("from a cold boiler there are at least 2 h between two sources", (request) => {
  const found = planRun({ ...request, isSwitchedWhileCold: false });
  if (found.outcome === "refused") return;
  const pauses = found.plan.steps.filter(({ kind }) => kind === "warming-back");
  expect(pauses).toHaveLength(request.sources.length - 1);
  for (const { startMs, endMs } of pauses) expect(endMs - startMs).toBeGreaterThanOrEqual(2 * msPerHour);
});
