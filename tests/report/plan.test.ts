import { describe, expect, test } from "vitest";
import { handOf, languageCodes, say, words } from "../../src/report/index.ts";
import { planDocument, planPage, planText } from "../../src/report/plan/index.ts";
import { planDocumentSchema } from "../../src/schema/documents/index.ts";
import {
  type PlanReasonSayings,
  type PlanRefusalSayings,
  type PlanRequest,
  planRun,
  type RunPlan,
} from "../../src/science/plan/index.ts";

function planned(request: Partial<PlanRequest> = {}): RunPlan {
  const found = planRun({
    startMs: Date.parse("2026-06-04T11:00:00Z"),
    sources: ["mains", "gas", "dc12"],
    utcOffsetMinutes: 120,
    ...request,
  });
  if (found.outcome === "refused") throw new Error(found.reason.code);
  return found.plan;
}

const plan = planned();
const text = planText(plan, "en", { colour: false, width: 92 });
const unwrapped = (printed: string) => printed.replaceAll(/\s+/g, " ");

describe("the printed plan", () => {
  test("gives clock times of the place for every part and proof", () => {
    expect(text).toContain("4 June 13:30 to 18:30  on gas, attended the whole time");
    expect(text).toMatch(/14:00 to 14:30 +cold begins \(common practice, no source\)/);
    expect(text).toMatch(/16:00 to 16:30 +strength known/);
    expect(text).toContain("4 June 21:00 to 5 June 07:00  on mains, overnight");
    expect(text).toContain("times are UTC+02:00");
  });

  test("names at every part the cautions that stand in full on the same page", () => {
    const { cautions } = words("en");
    expect(text).toMatch(/on gas, attended[\s\S]*?Caution: see gas, flame, carbon monoxide; two sources/);
    for (const code of ["gas", "night", "mains", "dc12", "two-sources", "no-cold", "food"] as const) {
      expect(unwrapped(text), code).toContain(cautions[code].text.replaceAll("\u00a0", " "));
    }
    expect(unwrapped(text)).toContain(words("en").cautionClose);
  });

  test("says on gas that heat is proven at flue or boiler, not by volts", () => {
    expect(text).toMatch(/on gas[\s\S]*?heat proven \(flue or boiler probe\)/);
  });

  test("has a box and a blank for every item of the checklist", () => {
    expect(text.match(/\[ \]/g)).toHaveLength(plan.checklist.length);
    expect(text).toContain("Tilt: sideways ________°, lengthways ________°");
  });

  test("a plan on mains alone asks nothing about gas", () => {
    const mains = planText(planned({ sources: ["mains"] }), "en", { colour: false, width: 92 });
    expect(mains).not.toMatch(/Flue cap|Gas kind|on gas,|Flame, flue/);
  });
});

test("the document is what its schema says, with the caution in every step and item that has one", () => {
  const document = planDocumentSchema.parse(JSON.parse(JSON.stringify(planDocument(plan, "en"))));
  expect(document.start).toBe("2026-06-04T11:00:00.000Z");
  const gas = document.steps.find(({ source }) => source === "gas");
  expect(gas).toMatchObject({ attended: true, overnight: false });
  expect(gas?.caution).toMatch(/never leave gas burning unattended/i);
  const valve = document.checklist.find(({ item }) => item === "source-by-hand");
  expect(valve?.caution).toMatch(/close its gas valve/);
});

test("the page holds the same sentences as the text, escaped", () => {
  const page = planPage(plan, "en");
  expect(page).toContain("on gas, attended the whole time");
  expect(page.match(/class="box"/g)).toHaveLength(plan.checklist.length);
  expect(page).not.toContain("<script");
});

const reasonSamples: PlanReasonSayings = {
  "settling-shows-offset": {},
  "boiler-must-cool": { hours: 2 },
  "warming-tells-seal-from-load": { hours: 2.75 },
  "waits-for-a-person": { untilMs: 0 },
  "night-runs-through": { source: "mains" },
  "gas-by-day-only": { fromHour: 7, toHour: 20.5 },
  "order-changed": { asked: ["mains", "gas"], planned: ["gas", "mains"] },
  "switched-while-cold": { hours: 3 },
  "back-to-the-first": { source: "dc12" },
  "curve-not-in-time": { source: "mains" },
};
const refusalSamples: PlanRefusalSayings = {
  "gas-needs-longer-day": { fromHour: 8, toHour: 10, neededHours: 3 },
  "needs-more-time": { untilMs: 0, sources: 3, hasGas: true, hasPauses: true },
  "one-source-cannot-switch": {},
  "no-electric-source": {},
  "nothing-fits": {},
};

for (const language of languageCodes) {
  const own = words(language).plan;
  const hand = handOf(language, 0);
  const sentences = [
    ...Object.entries(reasonSamples).map(([code, values]) => say(own.reasons, { code, ...values } as never, hand)),
    ...Object.entries(refusalSamples).map(([code, values]) => say(own.refusals, { code, ...values } as never, hand)),
  ];
  test(`in ${language} every reason and refusal is a whole sentence without a hole in it`, () => {
    for (const sentence of sentences) {
      expect(sentence).toMatch(/^[\p{Lu}\d].*\.$/u);
      expect(sentence).not.toMatch(/undefined|NaN|null|\[object|\bsafe\b|\bsicher\b/);
    }
    expect(say(own.reasons, { code: "gas-by-day-only", fromHour: 7, toHour: 20.5 }, hand)).toMatch(
      /07:00 (and|und) 20:30/,
    );
  });
}
