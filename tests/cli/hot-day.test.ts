import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type HotDayDocument, hotDayDocumentSchema } from "../../src/schema/documents/index.ts";
import { pullDownLog } from "./pull-down-log.ts";
import { coldfall } from "./recorded-terminal.ts";

let folder = "";
const at = (name: string) => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-hot-day-"));
  for (const day of [1, 2]) writeFileSync(at(`run-${day}.csv`), pullDownLog({ strength: 1, day }));
  writeFileSync(
    at("trip.csv"),
    "time,ambient,source,sun,driving\n2026-07-10T08:00:00+02:00,25,mains,shade,no\n2026-07-10T12:00:00+02:00,31,off,sun,no\n2026-07-10T20:00:00+02:00,30,mains,,\n",
  );
});
afterAll(() => rmSync(folder, { recursive: true }));

const logs = () => [at("run-1.csv"), at("run-2.csv")];

async function predicted(...args: readonly string[]): Promise<HotDayDocument> {
  const { exitCode, printed, told } = await coldfall(["hot-day", ...logs(), ...args, "--json"]);
  expect({ exitCode, told }).toEqual({ exitCode: 0, told: "" });
  return hotDayDocumentSchema.parse(JSON.parse(printed));
}

test("at an ambient the answer is that of the newest stretch's source, without hours", async () => {
  const { ambient, source, settled, hours, hoursAbove8, inputs, options } = await predicted("--ambient", "25");
  expect({ ambient, source, hours, hoursAbove8 }).toEqual({
    ambient: 25,
    source: "mains",
    hours: [],
    hoursAbove8: null,
  });
  // The log was written with 27 K below ambient.
  expect(settled?.low).toBeLessThan(-2);
  expect(settled?.high).toBeGreaterThan(-2);
  expect(inputs.map(({ name, role }) => `${role} ${name}`)).toEqual(["log run-1.csv", "log run-2.csv"]);
  expect(options).toMatchObject({ ambient: 25, forecast: null, load: null });
});

test("through a forecast there is a temperature for every hour, and hours above 5 and 8 °C", async () => {
  const { hours, hoursAbove5, hoursAbove8, start, inputs } = await predicted("--forecast", at("trip.csv"));
  expect(hours).toHaveLength(13);
  expect(hours[0].time).toBe("2026-07-10T06:00:00.000Z");
  expect(hours.every(({ cabinet }) => cabinet !== null)).toBe(true);
  expect(hoursAbove5?.value).toBeGreaterThan(hoursAbove8?.value ?? Infinity);
  expect(start?.from).toBe("settled");
  expect(inputs.at(-1)).toMatchObject({ name: "trip.csv", role: "forecast" });
});

test("goods and the start of the trip are options", async () => {
  const { options, start, reasons } = await predicted("--forecast", at("trip.csv"), "--load", "5=22", "--begin", "4");
  expect(options).toMatchObject({ load: { kilograms: 5, celsius: 22 }, begin: 4 });
  expect(start?.cabinet).toBeGreaterThan(4);
  expect(reasons.join(" ")).toContain("5 kg of goods at 22 °C");
});

test("a source that no log ran on is answered with the reason, not with a number", async () => {
  const { settled, settledReason, sentence } = await predicted("--ambient", "32", "--source", "gas");
  expect(settled).toBeNull();
  expect(settledReason).toMatch(/did not run on gas/);
  expect(sentence).toMatch(/cannot be said/);
});

test("the printed answer comes first, and the page is written whole", async () => {
  const { exitCode, printed, told } = await coldfall([
    "hot-day",
    ...logs(),
    "--ambient",
    "30",
    "--html",
    at("hot.html"),
  ]);
  expect(exitCode).toBe(0);
  expect(told).toContain("hot.html");
  expect(printed.split("\n\n")[1]).toMatch(/^At 30 °C outside this fridge holds 8 °C: it settles at .* on mains\./);
  expect(readFileSync(at("hot.html"), "utf8")).toMatch(/<\/html>\n$/);
});

describe("what cannot be used ends with exit code 2 and one sentence, and nothing is written", () => {
  const cases: readonly (readonly [string, readonly string[], RegExp])[] = [
    ["neither ambient nor forecast", [], /either --ambient .* or --forecast/],
    ["both", ["--ambient", "30", "--forecast", "trip.csv"], /not both/],
    ["an ambient that is no number", ["--ambient", "hot"], /--ambient: "hot"/],
    ["an ambient beyond reason", ["--ambient", "99"], /--ambient: "99"/],
    ["a load without temperature", ["--ambient", "30", "--load", "5"], /--load: "5"/],
    ["a load of nothing", ["--ambient", "30", "--load", "0=20"], /--load: "0=20"/],
    ["an unknown source", ["--ambient", "30", "--source", "diesel"], /diesel/],
    ["a forecast that is not there", ["--forecast", "nowhere.csv"], /nowhere\.csv/],
    ["a log in place of a forecast", ["--forecast", "run-1.csv"], /"run-1\.csv|run-1\.csv", line 1/],
  ];
  for (const [name, args, wanted] of cases) {
    test(name, async () => {
      const inFolder = args.map((word) => (word.endsWith(".csv") ? at(word) : word));
      const { exitCode, printed, told } = await coldfall([
        "hot-day",
        ...logs(),
        ...inFolder,
        "--html",
        at("never.html"),
      ]);
      expect({ exitCode, printed }).toEqual({ exitCode: 2, printed: "" });
      expect(told).toMatch(wanted);
      expect(told.trim().split("\n")).toHaveLength(1);
      expect(readdirSync(folder)).not.toContain("never.html");
    });
  }
});

test("its schema is published", async () => {
  const { exitCode, printed } = await coldfall(["schema", "hot-day"]);
  expect(exitCode).toBe(0);
  expect(printed).toContain('"title": "Coldfall hot day"');
});
