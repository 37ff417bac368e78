import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { planDocumentSchema } from "../../src/schema/documents/index.ts";
import { coldfall } from "./recorded-terminal.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-plan-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

const plan = (...args: readonly string[]) => coldfall(["plan", ...args]);

/** The terminal's clock stands at 12:00 on 20 June 2026. */
async function planned(...args: readonly string[]) {
  const { exitCode, printed, told } = await plan(...args, "--json");
  expect({ exitCode, told }).toEqual({ exitCode: 0, told: "" });
  return planDocumentSchema.parse(JSON.parse(printed));
}

test("a clock time is the next one that comes; one just past is meant as now", async () => {
  expect((await planned("--from", "13:00", "--sources", "mains")).start).toBe("2026-06-20T13:00:00.000Z");
  expect((await planned("--from", "9:00", "--sources", "mains")).start).toBe("2026-06-21T09:00:00.000Z");
  expect((await planned("--from", "11:50", "--sources", "mains")).start).toBe("2026-06-20T11:50:00.000Z");
});

test("a day can be given beside the time or with it", async () => {
  const beside = await planned("--from", "13:00", "--date", "2026-06-04", "--sources", "mains,gas,dc12");
  const within = await planned("--from", "2026-06-04T13:00", "--sources", "mains,gas,dc12");
  expect(beside).toEqual(within);
  expect(beside.sources).toEqual(["gas", "mains", "dc12"]);
});

test("the printed plan names gas as attended, and the page is written whole", async () => {
  const page = join(folder, "plan.html");
  const { exitCode, printed, told } = await plan("--from", "13:00", "--sources", "mains,gas", "--html", page);
  expect(exitCode).toBe(0);
  expect(printed).toMatch(/on gas, attended the whole time/);
  expect(told).toContain("plan.html");
  expect(readFileSync(page, "utf8")).toMatch(/<\/html>\s*$/);
});

test("gas is never planned into the night, whatever is asked", async () => {
  const { steps } = await planned("--from", "22:00", "--sources", "gas", "--attended", "00:00-24:00");
  const gas = steps.find(({ source }) => source === "gas");
  expect(gas?.start).toBe("2026-06-21T07:00:00.000Z");
});

for (const [what, args, sentence] of [
  ["a source twice", ["--from", "13:00", "--sources", "gas,gas"], /--sources: "gas,gas" cannot be used/],
  ["an unknown source", ["--from", "13:00", "--sources", "petrol"], /gas, mains and dc12 at most once/],
  ["no clock time", ["--from", "noon", "--sources", "mains"], /--from: "noon" cannot be used; give a clock time/],
  ["a day that is none", ["--from", "13:00", "--date", "tomorrow", "--sources", "mains"], /--date/],
  ["hours the wrong way round", ["--from", "13:00", "--sources", "mains", "--attended", "21:00-07:00"], /--attended/],
  [
    "an end too early",
    ["--from", "13:00", "--sources", "mains", "--until", "14:00"],
    /^No plan: it takes until 20 June 18:30\. Give a later --until or begin earlier\.$/m,
  ],
  [
    "an end too early for gas and mains",
    ["--from", "13:00", "--sources", "gas,mains", "--until", "20:00"],
    /^No plan: it takes until 21 June 07:00, since gas only runs attended by day/,
  ],
  [
    "attended hours too short for gas",
    ["--from", "13:00", "--sources", "gas", "--attended", "08:00-10:00"],
    /leave gas out/,
  ],
] as const) {
  test(`${what} is refused in one sentence, and nothing is written`, async () => {
    const page = join(folder, "refused.html");
    const { exitCode, printed, told } = await plan(...args, "--html", page);
    expect({ exitCode, printed }).toEqual({ exitCode: 2, printed: "" });
    expect(told.replaceAll("\u00a0", " ")).toMatch(sentence);
    expect(told.trimEnd()).not.toContain("\n");
    expect(() => readFileSync(page)).toThrow();
  });
}

test("a plan across the change of the clocks says by how much they then differ", async () => {
  const zone = process.env.TZ;
  process.env.TZ = "Europe/Berlin";
  try {
    const told = async (date: string) =>
      (await plan("--from", "16:00", "--date", date, "--sources", "mains", "--language", "en")).told;
    expect(await told("2026-10-24")).toMatch(
      /^The clocks change while this plan runs.* afterwards clocks show 60 min less/,
    );
    expect(await told("2026-03-28")).toMatch(/clocks show 60 min more than the plan/);
    expect(await told("2026-06-04")).toBe("");
  } finally {
    process.env.TZ = zone;
  }
});
