import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { readLogFile } from "../../src/ingest/index.ts";
import { coldfall } from "./recorded-terminal.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-simulate-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

const simulated = async (name: string, ...args: string[]) => {
  const file = join(folder, name);
  const run = await coldfall(["simulate", "--out", file, "--every", "60", ...args]);
  expect({ ...run, printed: "" }).toEqual({ exitCode: 0, told: "", printed: "" });
  return { file, printed: run.printed, text: readFileSync(file, "utf8"), log: (await readLogFile(file)).recording };
};

test("a simulated run is a log in our own format, as long as asked for", async () => {
  const { log, printed } = await simulated(
    "a.csv",
    "--schedule",
    "off=0.5,mains=2",
    "--start",
    "2026-06-04T09:00:00+02:00",
    "--night-to-night",
    "0",
  );
  expect(log.unixMs[0]).toBe(Date.UTC(2026, 5, 4, 7));
  expect(log.utcOffsetMinutes).toBe(120);
  expect(log.unixMs).toHaveLength(2.5 * 60 + 1);
  expect(Object.keys(log.columns)).toEqual(["evaporator", "cabinet", "ambient"]);
  expect([...new Set(log.sourceCodes)]).toHaveLength(2);
  expect(log.unreadable).toEqual([]);
  expect(printed).toMatch(
    /an invented run, 151 rows; off 0\.5 h; on mains 2 h, true cooling strength that night 100 %/,
  );
});

test("the same seed gives the same bytes, another seed another night", async () => {
  const schedule = ["--schedule", "mains=1"];
  expect((await simulated("a.csv", ...schedule, "--seed", "7")).text).toBe(
    (await simulated("b.csv", ...schedule, "--seed", "7")).text,
  );
  expect((await simulated("c.csv", ...schedule, "--seed", "8")).text).not.toBe(
    (await simulated("d.csv", ...schedule, "--seed", "7")).text,
  );
});

test("a fault takes from the true cooling strength, which is printed", async () => {
  const percentOf = (text: string) => Number(/night (\d+) %/.exec(text)?.[1]);
  const args = ["--schedule", "off=1,mains=4", "--night-to-night", "0"];
  expect(percentOf((await simulated("a.csv", ...args)).printed)).toBe(100);
  expect(percentOf((await simulated("b.csv", ...args, "--fault", "mains-element=0.25")).printed)).toBeLessThan(80);
  expect(percentOf((await simulated("c.csv", ...args, "--fault", "supply-voltage=0.1")).printed)).toBeLessThan(100);
});

test("a fault of a source that the schedule leaves out is told to show nothing", async () => {
  const faults = ["--fault", "flue=0.25", "--fault", "mains-element=0.1", "--fault", "supply-voltage=0.1"];
  const { exitCode, told } = await coldfall(["simulate", "--out", join(folder, "idle.csv"), ...faults]);
  expect([exitCode, told]).toEqual([
    0,
    "flue shows on gas only, and the schedule has no such stretch: the log shows nothing of it. Give --schedule.\n",
  ]);
});

test("doors, outages, thermostat and a missing source column change the log", async () => {
  const args = ["--schedule", "mains=5", "--night-to-night", "0"];
  const plain = (await simulated("a.csv", ...args)).log;
  const cabinetAt = (log: typeof plain, minute: number) => log.columns.cabinet?.[minute] ?? Number.NaN;
  expect(cabinetAt((await simulated("b.csv", ...args, "--door", "3=120")).log, 184)).toBeGreaterThan(
    cabinetAt(plain, 184) + 1,
  );
  expect(cabinetAt((await simulated("c.csv", ...args, "--outage", "2=3")).log, 300)).toBeGreaterThan(
    cabinetAt(plain, 300) + 1,
  );
  expect(cabinetAt((await simulated("d.csv", ...args, "--thermostat", "12")).log, 300)).toBeGreaterThan(
    cabinetAt(plain, 300) + 1,
  );
  expect((await simulated("e.csv", ...args, "--no-source")).log.sourceCodes).toBeNull();
});

describe("what cannot be simulated is refused in one sentence, and nothing is written:", () => {
  for (const [args, sentence] of [
    [["--fault", "flue"], /NAME=SIZE, such as flue=0\.25, with burner, flue/],
    [["--fault", "moon=1"], /--fault: "moon=1"/],
    [["--fault", "flue=2"], /"flue=2" .* it counts: share of the gas heat/],
    [["--fault", "ventilation=1"], /"ventilation=1"/],
    [["--fault", "lamp=-1"], /"lamp=-1"/],
    [["--schedule", "mains"], /SOURCE=HOURS/],
    [["--schedule", "mains=0"], /"mains=0"/],
    [["--schedule", "off=1,steam=2"], /with gas, mains, dc12 or off/],
    [["--seed", "1.5"], /whole number/],
    [["--ambient", "warm"], /-20 to 60/],
    [["--ambient", ""], /-20 to 60/],
    [["--start", "20:00"], /2026-06-04T20:00:00Z/],
    [["--every", "0"], /1 to 3600/],
    [["--door", "3"], /HOURS=SECONDS/],
    [["--outage", "3=0"], /HOURS=HOURS/],
  ] as const) {
    test(args.join(" "), async () => {
      const { exitCode, printed, told } = await coldfall(["simulate", "--out", join(folder, "no.csv"), ...args]);
      expect({ exitCode, printed }).toEqual({ exitCode: 2, printed: "" });
      expect(told).toMatch(sentence);
      expect(told).toMatch(/^--[^\n]+\.\n$/);
      expect(readdirSync(folder)).toEqual([]);
    });
  }
});

test("a further probe is a further column, and changes nothing else", async () => {
  const args = ["--schedule", "off=0.5,gas=1,mains=1", "--seed", "4"];
  const plain = (await simulated("a.csv", ...args)).text.trimEnd().split(/\r?\n/);
  const { log, text } = await simulated("b.csv", ...args, "--probe", "flue", "--probe", "supply", "--probe", "Boiler");
  expect(Object.keys(log.columns).sort()).toEqual(["ambient", "boiler", "cabinet", "evaporator", "flue", "supply"]);
  const lines = text.trimEnd().split(/\r?\n/);
  expect(lines[0]).toBe("time,evaporator,cabinet,ambient,flue,boiler,supply,source");
  const without = lines.map((line) =>
    line
      .split(",")
      .filter((_, at) => at < 4 || at > 6)
      .join(","),
  );
  expect(without).toEqual(plain);
  // On gas nobody measures volts; a thermocouple is read in steps of 0.25 K.
  expect(Number.isNaN(log.columns.supply?.[60])).toBe(true);
  expect(log.columns.supply?.[140]).toBeGreaterThan(200);
  for (const value of log.columns.flue ?? []) expect(value * 4).toBe(Math.round(value * 4));
  expect(log.columns.flue?.[80]).toBeGreaterThan(100);
  const refused = await coldfall(["simulate", "--out", join(folder, "no.csv"), "--probe", "freezer"]);
  expect(refused.told).toMatch(
    /^--probe: "freezer" cannot be used; give one of room, ventOut, flue, boiler, supply\.\n$/,
  );
});
