// Probes calibrated and checked from the command line, and boards listed and given tokens.

import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import { afterEach, beforeEach, expect, test } from "vitest";
import { openStore, type Store } from "../../src/store/index.ts";
import { overdueProbes } from "../../src/workshop/calibrating.ts";
import { type BoardProbe, boardStart } from "./board-lines.ts";
import { coldfall } from "./recorded-terminal.ts";

let folder: string;
let store: string;
const at = (name: string) => join(folder, name);

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-probes-"));
  store = at("workshop.coldfall");
  await onStore((opened) => opened.probes.put({ id: "28-0a41", resolutionKelvin: 0.0625 }));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function onStore<T>(work: (opened: Store) => Promise<T>): Promise<T> {
  await using opened = await openStore(store);
  return await work(opened);
}

const run = (...args: readonly string[]) => coldfall([...args, "--store", store]);
const calibrate = (...args: readonly string[]) => run("probes", "calibrate", "28-0a41", ...args);
const kept = () => onStore((opened) => opened.probes.calibrations("28-0a41"));

test("an ice point takes its offset off, with the uncertainty of slush, step and scatter", async () => {
  const { exitCode, printed } = await calibrate("--ice-point", "0.25", "--ice-point", "0.31", "--ice-point", "0.28");
  expect(exitCode).toBe(0);
  expect(printed).toMatch(/28-0a41, ice point: it reads 0\.28 K too high at 0\.0 °C \(3 readings\)/);
  const [{ method, coefficients, standardUncertaintyKelvin, dueUnixMs }] = await kept();
  expect(method).toBe("ice-point");
  expect(coefficients[0]).toBeCloseTo(-0.28, 12);
  expect(coefficients[1]).toBe(1);
  // By hand: mean's 0.03/√3, slush 0.05, step 0.0625/√12 → 0.0558 K at the ice point; 0.005 K/K over 40 K beside it.
  expect(standardUncertaintyKelvin).toBeCloseTo(
    Math.hypot(0.03 / Math.sqrt(3), 0.05, 0.0625 / Math.sqrt(12), 0.005 * 39.72),
    6,
  );
  expect(new Date(dueUnixMs ?? 0).toISOString()).toBe("2027-06-20T12:00:00.000Z");
});

test("ice and boiling water make a line, the water boiling as high as it lies, and the scald is warned of", async () => {
  const { printed } = await calibrate("--ice-point", "0.3", "--boiling", "97.0", "--altitude", "1000");
  const [{ method, coefficients }] = await kept();
  expect(method).toBe("several-points");
  // ISO 2533 gives 898.75 hPa at 1000 m; steam tables (IAPWS-IF97, from memory) 96.69 °C at 900 hPa, 0.030 K less per hPa.
  expect(coefficients[0] + coefficients[1] * 97).toBeCloseTo(96.65, 2);
  expect(coefficients[0] + coefficients[1] * 0.3).toBeCloseTo(0, 9);
  expect(printed).toMatch(/scald/);
});

const curve = (...args: readonly string[]) => run("probes", "curve", "b1-a0", ...args);

test("a curve is told back as what the probe should send where that is easily checked, and stands in the list", async () => {
  // IEC 60751: 100 Ω at 0 °C, 138.5055 Ω at 100 °C, class A within 0.15 K at 0 °C.
  expect((await curve("--pt100", "A")).printed).toMatch(
    /a Pt100 of class A.*100\.00\sΩ at 0\s°C.*138\.51\sΩ at 100\s°C/,
  );
  // By the definition of B: 10 kΩ · exp(3950·(1/273.15 - 1/298.15)).
  expect((await curve("--thermistor", "10000,3950")).printed).toMatch(/33,621\sΩ at 0\s°C.*10,000\sΩ at 25\s°C/);
  // IEC 60584-1: 4.096 mV at 100 °C and 1.000 mV at 25 °C, of a cold junction at 0 °C.
  const couple = (await curve("--type-k", "1", "--cold-junction", "25")).printed;
  expect(couple).toMatch(/−1\.000\smV at 0\s°C.*3\.096\smV at 100\s°C/);
  const list = JSON.parse((await run("probes", "--json")).printed);
  expect(list.probes.find(({ id }: { id: string }) => id === "b1-a0").curve).toEqual({
    kind: "type-k",
    toleranceClass: 1,
    coldJunction: { celsius: 25, standardUncertainty: 3 },
  });
  expect((await run("probes")).printed).toMatch(/b1-a0\s+type K/);
  expect((await curve("--celsius")).printed).toMatch(/sends °C/);
});

for (const [args, why] of [
  [[], /give --thermistor, .* or --celsius/],
  [["--pt100", "A", "--type-k", "1"], /'--pt100 <class>' cannot be used with option '--type-k <class>'/],
  [["--thermistor", "10000"], /--thermistor.*OHMS,B/],
  [["--thermistor", "10000,3.95"], /--thermistor.*OHMS,B/],
  [["--steinhart-hart", "1e-3,2e-4"], /--steinhart-hart.*A,B,C/],
  [["--steinhart-hart", "1.129e-3,-2.341e-4,8.775e-8"], /falls from 10 MΩ/],
  [["--type-k", "3"], /--type-k.*1 or 2/],
  [["--pt100", "A", "--cold-junction", "20"], /--cold-junction.*--type-k beside it/],
] as const) {
  test(`coldfall probes curve ${args.join(" ") || "without a curve"} is refused and keeps nothing`, async () => {
    const { exitCode, told } = await curve(...args);
    expect(exitCode).toBe(2);
    expect(told).toMatch(why);
    expect(await onStore(async (opened) => (await opened.probes.list()).map(({ id }) => id))).toEqual(["28-0a41"]);
  });
}

test("calibrations made with the curve before are said to be over", async () => {
  await curve("--pt100", "A");
  await run("probes", "calibrate", "b1-a0", "--ice-point", "0.2");
  expect((await curve("--pt100", "A")).printed).not.toMatch(/calibrate it anew/);
  expect((await curve("--pt100", "B")).printed).toMatch(/One calibration of b1-a0.*calibrate it anew/);
});

test("no caution about boiling water stands where nothing boils", async () => {
  expect((await calibrate("--ice-point", "0.3")).printed).not.toMatch(/scald/);
});

test("a reference probe at several temperatures makes a line by least squares; its uncertainty is what was stated", async () => {
  const pairs = ["0.1=0.6", "10=10.5", "20=20.5", "30=30.5"].flatMap((pair) => ["--against", pair]);
  await calibrate(...pairs, "--uncertainty", "0.02");
  const [{ method, coefficients, standardUncertaintyKelvin }] = await kept();
  expect(method).toBe("reference-probe");
  expect(coefficients[0]).toBeCloseTo(-0.5, 9);
  expect(coefficients[1]).toBeCloseTo(1, 9);
  expect(standardUncertaintyKelvin).toBeLessThan(0.05);
});

test("a reference probe nobody vouches for is taken as an uncalibrated one", async () => {
  await calibrate("--against", "20=20.4");
  expect((await kept())[0].standardUncertaintyKelvin).toBeGreaterThan(0.29);
});

for (const [args, why] of [
  [[], /give --ice-point, --boiling or --against/],
  [["--boiling", "98"], /one of --altitude and --pressure/],
  [["--boiling", "98", "--altitude", "500", "--pressure", "950"], /one of --altitude and --pressure/],
  [["--ice-point", "0.2", "--altitude", "500"], /--boiling beside it/],
  [["--ice-point", "0.2", "--uncertainty", "0.1"], /uncertainties of their own/],
  [["--boiling", "98", "--pressure", "1200"], /600 and 1100/],
  [["--ice-point", "4,2"], /point for the decimals/],
  [["--ice-point", "21.4"], /more than 5 K off/],
  [["--ice-point", "98.2", "--boiling", "0.3", "--altitude", "500"], /more than 5 K off/],
  [["--ice-point", "0.1", "--ice-point", "3.9"], /settled probe.*scatter/],
  [["--against", "20=20.1", "--against", "20.5=20.7"], /at least 2 K apart/],
  [["--against", "20"], /REFERENCE=READ/],
  [["--ice-point", "0.2", "--made", "2026-06-21"], /today or a day before/],
  [["--ice-point", "0.2", "--made", "2026-06-01", "--due", "2026-05-01"], /a day after/],
] as const) {
  test(`calibrate ${args.join(" ") || "without a reading"} is refused and keeps nothing`, async () => {
    const { exitCode, told } = await calibrate(...args);
    expect(exitCode).toBe(2);
    expect(told).toMatch(why);
    expect(await kept()).toEqual([]);
  });
}

test("a probe that the store does not know is not calibrated", async () => {
  const { exitCode, told } = await run("probes", "calibrate", "28-ffff", "--ice-point", "0.2");
  expect(exitCode).toBe(2);
  expect(told).toMatch(/28-ffff/);
});

test("a calibration made long ago is overdue at once, and the list says since when", async () => {
  const { printed } = await calibrate("--ice-point", "0.2", "--made", "2025-05-01");
  expect(printed).toMatch(/overdue already/);
  expect((await run("probes")).printed).toMatch(/2026-05-01, overdue by 50 days/);
});

test("thirty days before the day the list reminds", async () => {
  await calibrate("--ice-point", "0.2", "--made", "2026-06-01", "--due", "2026-07-10");
  expect((await run("probes")).printed).toMatch(/2026-07-10, in (19|20) days/);
});

test("recording begins with a word about overdue probes alone, by the newest calibration of each", async () => {
  const now = Date.UTC(2026, 5, 20);
  await calibrate("--ice-point", "0.2", "--made", "2025-05-01");
  const overdue = () => onStore((opened) => overdueProbes(opened, ["28-0a41", "28-never"], now));
  expect((await overdue()).map(({ probeId }) => probeId)).toEqual(["28-0a41"]);
  await calibrate("--ice-point", "0.2", "--made", "2026-06-01");
  expect(await overdue()).toEqual([]);
});

// The checks, on what a board recorded

/** Ten minutes, a reading every 5 s. */
const test10 = (probes: readonly BoardProbe[]) => {
  writeFileSync(at("test.txt"), boardStart({ boot: 1, rounds: 120, everySeconds: 5 }, probes));
  return at("test.txt");
};
/** The same numbers in each test, within ± 0.05 K. */
const wobble = (seconds: number) => (((seconds * 7919) % 100) / 100 - 0.5) / 10;
const probe = (probeId: string, celsius: BoardProbe["celsius"]): BoardProbe => ({ probeId, role: null, celsius });
const still = (celsius: number) => (seconds: number) => celsius + wobble(seconds);

test("in the slush a good, a far-off, a wet and an unsettled probe are told apart", async () => {
  const file = test10([
    probe("good", still(0.31)),
    probe("far", still(1.4)),
    probe("wet", (seconds) => (seconds % 20 === 0 ? null : still(0.2)(seconds))),
    probe("slow", (seconds) => 3 - seconds / 300 + wobble(seconds)),
  ]);
  const { printed } = await run("probes", "slush", file);
  expect(printed).toMatch(/good +good: it reads 0\.31 K too high.*calibrate good --ice-point 0\.30\d/);
  expect(printed).toMatch(/far +far off: it reads 1\.40 K too high/);
  expect(printed).toMatch(/wet +wet or loose.*30 faults/);
  expect(printed).toMatch(/slow +not settled: it still falls by 0\.2/);
});

test("two labels swapped are found when it is said which probes lay in the slush", async () => {
  const file = test10([probe("one", still(21)), probe("two", still(0.1)), probe("three", still(0.2))]);
  const { printed } = await run("probes", "slush", file, "--in", "one", "--in", "three");
  expect(printed).toMatch(/one +not in the slush.*two reads the slush instead/);
  expect(printed).toMatch(/two +in the slush, though nobody said so/);
});

test("a probe that stopped before the end is silent, not good", async () => {
  const file = test10([probe("dead", (seconds) => (seconds > 400 ? null : 0.1)), probe("alive", still(0.1))]);
  expect((await run("probes", "slush", file)).printed).toMatch(/dead +silent/);
});

test("a probe named that is not in the log is refused with those that are", async () => {
  const { exitCode, told } = await run("probes", "slush", test10([probe("one", still(0))]), "--in", "two");
  expect(exitCode).toBe(2);
  expect(told).toMatch(/one of its probes: one/);
});

/** Rises by so many kelvins from an instant on for a minute, then slowly back. */
const inHand = (from: number, kelvins: number) => (seconds: number) => {
  const held = Math.min(60, Math.max(0, seconds - from));
  const since = Math.max(0, seconds - from - 60);
  return 20 + (kelvins * held * Math.exp(-since / 120)) / 60 + wobble(seconds);
};

test("probes warmed one after the other are each found, with the time of each", async () => {
  const file = test10([probe("one", inHand(60, 6)), probe("two", inHand(300, 5)), probe("three", still(20))]);
  const { warmings } = JSON.parse((await run("probes", "warm", file, "--json")).printed);
  expect(warmings.map(({ probes }: { probes: string[] }) => probes)).toEqual([["one"], ["two"]]);
  for (const [i, began] of [60, 300].entries()) {
    expect(warmings[i].fromMs).toBeLessThanOrEqual(began * 1000 + 45_000);
    expect(warmings[i].toMs).toBeGreaterThanOrEqual(began * 1000 + 45_000);
  }
  const { printed, told } = await run("probes", "warm", file);
  expect(printed).toMatch(/probes place one --fridge NAME/);
  expect(told).toMatch(/hot while the fridge runs/);
});

test("a probe taken up as the one before is laid down does not make both of them one unclear warming", async () => {
  const file = test10([probe("one", inHand(60, 6)), probe("two", inHand(115, 6)), probe("three", still(20))]);
  const { warmings } = JSON.parse((await run("probes", "warm", file, "--json")).printed);
  expect(warmings.map(({ probes }: { probes: string[] }) => probes)).toEqual([["one"], ["two"]]);
});

test("two probes warmed in the same hand are not guessed between", async () => {
  const file = test10([probe("one", inHand(60, 6)), probe("two", inHand(62, 5)), probe("three", still(20))]);
  const { warmings } = JSON.parse((await run("probes", "warm", file, "--json")).printed);
  expect(warmings.map(({ outcome }: { outcome: string }) => outcome)).toEqual(["several"]);
});

test("a room that warms all probes alike warms none in a hand", async () => {
  const drift = (seconds: number) => 18 + seconds / 60 + wobble(seconds);
  const file = test10([probe("one", drift), probe("two", drift), probe("three", drift)]);
  expect((await run("probes", "warm", file)).printed).toMatch(/^No probe was warmed/);
});

test("the checks read a run of the store by its probes' numbers", async () => {
  const fridge = await onStore((opened) => opened.fridges.add({ name: "Larch" }));
  expect(fridge.name).toBe("Larch");
  const file = test10([
    { ...probe("28AA", inHand(60, 6)), role: "evaporator" },
    { ...probe("28BB", still(20)), role: "cabinet" },
  ]);
  const { printed } = await run("import", file, "--read-out", "2026-06-07T18:00:00+02:00");
  const id = /Larch, (\S+);/.exec(printed)?.[1] ?? "";
  const warmed = await run("probes", "warm", id);
  expect(warmed.printed).toMatch(/2026-06-07 17:5\d.*28AA +warmed by [56]\.\d K/);
  expect((await run("probes", "slush", id, "--in", "28BB")).printed).toMatch(/28BB +not in the slush/);
});

test("every list of the checks and boards as JSON fits its published schema", async () => {
  const file = test10([probe("one", inHand(60, 6)), probe("two", still(0.1))]);
  await run("boards", "token", "bench-1");
  const ajv = addFormats.default(new Ajv2020());
  for (const [schema, args] of [
    ["slush", ["probes", "slush", file]],
    ["warmed", ["probes", "warm", file]],
    ["boards", ["boards"]],
  ] as const) {
    const validate = ajv.compile(JSON.parse((await coldfall(["schema", schema])).printed));
    const printed = JSON.parse((await run(...args, "--json")).printed);
    expect(validate(printed), `${schema}: ${JSON.stringify(validate.errors)}`).toBe(true);
  }
});

// Boards

test("a token is printed once and alone, works, and voids the one before; the store has only its hash", async () => {
  await onStore((opened) => opened.fridges.add({ name: "Larch" }));
  const first = (await run("boards", "token", "bench-1", "--fridge", "larch")).printed.trim();
  const { printed, told } = await run("boards", "token", "bench-1");
  expect(told).toMatch(/shown this once/);
  expect(told).toMatch(/probes put PROBE, then coldfall probes place PROBE .* --board bench-1/);
  expect(told).toMatch(
    /Alarms over what comes this way.*only while "coldfall serve" runs: while it does not, .* nobody watches\./,
  );
  expect(told).not.toContain(printed.trim());
  await onStore(async (opened) => {
    expect(await opened.boards.withToken(first)).toBeNull();
    expect(await opened.boards.withToken(printed.trim())).toMatchObject({ id: "bench-1", hasToken: true });
  });
  expect((await run("boards")).printed).toMatch(/bench-1 +Larch .*yes/);
});

test("no token is made for a fridge that is not there, nor for an id that no board can have", async () => {
  expect((await run("boards", "token", "bench-1", "--fridge", "Oak")).exitCode).toBe(2);
  expect((await run("boards", "token", "bench 1")).exitCode).toBe(2);
  expect(await onStore((opened) => opened.boards.list())).toEqual([]);
});

for (const [part, seconds] of [
  ["light", "3601"],
  ["light", "2.5"],
  ["interval", "0"],
] as const) {
  test(`boards ${part} --seconds ${seconds} is refused before a port is opened`, async () => {
    const { exitCode, told } = await coldfall(["boards", part, at("no-port"), "--seconds", seconds]);
    expect(exitCode).toBe(2);
    expect(told).toMatch(/whole number of seconds/);
  });
}

test("a port that is not there is refused in a sentence with the system's reason", async () => {
  const { exitCode, told } = await coldfall(["boards", "light", at("no-port")]);
  expect(exitCode).toBe(2);
  expect(told).toMatch(/no-port.*the system says: .*No such file/);
});
