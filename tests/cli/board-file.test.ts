// A board that recorded alone: its file imported, and read by `analyse`.

import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { withExitCode } from "../../src/cli/exit-code.ts";
import { type Ask, type ImportOptions, runImport } from "../../src/cli/import.ts";
import { openStore, type Store } from "../../src/store/index.ts";
import { type BoardProbe, boardStart } from "./board-lines.ts";
import { coldfall, recordedTerminal } from "./recorded-terminal.ts";

let folder: string;
let store: string;
const at = (name: string) => join(folder, name);
const readOut = "2026-06-07T18:00:00+02:00";
const readOutMs = Date.parse(readOut);

const probes: readonly BoardProbe[] = [
  { probeId: "28AA", role: "evaporator", celsius: (seconds) => 20 - seconds / 600 },
  { probeId: "28BB", role: "cabinet", celsius: (seconds) => (seconds === 1200 ? null : 22 - seconds / 1200) },
  { probeId: "28CC", role: "ambient", celsius: () => 23 },
];
/** Two starts of an hour and two, a reading a minute. */
const twoStarts = (own = probes) =>
  boardStart({ boot: 1, rounds: 60, everySeconds: 60 }, own) +
  boardStart({ boot: 2, rounds: 120, everySeconds: 60 }, own);

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-board-file-"));
  store = at("workshop.coldfall");
  await using opened = await openStore(store);
  await opened.fridges.add({ name: "Larch" });
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function bringIn(name: string, text: string, options: Partial<ImportOptions> = {}, ask: Ask = null) {
  writeFileSync(at(name), text);
  const terminal = recordedTerminal();
  const exitCode = await withExitCode(terminal, () => runImport(at(name), { store, ...options }, terminal, ask));
  return { exitCode, printed: terminal.printed, told: terminal.told };
}

const told = { readOut: { unixMs: readOutMs, utcOffsetMinutes: 120 } };

async function onStore<T>(work: (opened: Store) => Promise<T>): Promise<T> {
  await using opened = await openStore(store);
  return await work(opened);
}

const onlyRun = (opened: Store) => opened.runs.list().then(({ runs }) => runs[0]);

test("a board's file is recognised, and refused with the reason when nobody says when it was read out", async () => {
  const { exitCode, told: why } = await bringIn("card.txt", twoStarts());
  expect(exitCode).toBe(2);
  expect(why).toMatch(/board b1 recorded alone.*no clock.*--read-out/);
  expect(await onStore(async (opened) => (await opened.runs.list()).runs)).toEqual([]);
});

test("someone at the terminal is asked when the last line was read, and may stop", async () => {
  const questions: string[] = [];
  const answering = (answer: string) => async (question: string) => {
    questions.push(question);
    return answer;
  };
  expect((await bringIn("card.txt", twoStarts(), {}, answering(""))).exitCode).toBe(2);
  expect((await bringIn("card.txt", twoStarts(), {}, answering(readOut))).exitCode).toBe(0);
  expect(questions).toEqual([expect.stringMatching(/last line read/), expect.stringMatching(/last line read/)]);
});

test("with --read-out the last line lies at that instant, and everything before it by the board's own clock", async () => {
  const { exitCode, printed } = await bringIn("card.txt", twoStarts(), told);
  expect({ exitCode, printed }).toMatchObject({ exitCode: 0, printed: expect.stringMatching(/538 readings are new/) });
  await onStore(async (opened) => {
    const run = await onlyRun(opened);
    const { unixMs, values } = await opened.readings.series(run.id, "evaporator");
    expect(unixMs.at(-1)).toBe(readOutMs);
    expect(values.at(-1)).toBe(20 - 7200 / 600);
    expect(unixMs[60]).toBe(readOutMs - 119 * 60_000);
    expect(run.utcOffsetMinutes).toBe(120);
  });
});

test("a restart, and a probe that fell silent, are events of the run", async () => {
  await bringIn("card.txt", twoStarts(), told);
  const events = await onStore(async (opened) => opened.events.list((await onlyRun(opened)).id));
  expect(events.map(({ kind }) => kind)).toEqual(["probe-silent", "board-restarted", "probe-silent"]);
  expect(events[1]).toMatchObject({
    boardId: "b1",
    fromUnixMs: readOutMs - 120 * 60_000 + 60,
    details: { fromBoot: 1, toBoot: 2, reason: "brown-out" },
  });
  expect(events[2]).toMatchObject({ position: "cabinet", details: { probe: "28BB", fault: "garbled", rounds: 1 } });
});

test("a card read out again with more on it needs no time, and only what is new goes in", async () => {
  await bringIn("card.txt", twoStarts(), told);
  const longer = twoStarts() + boardStart({ boot: 2, rounds: 180, everySeconds: 60 }, probes);
  const { exitCode, printed } = await bringIn("again.txt", longer);
  expect(exitCode).toBe(0);
  expect(printed).toMatch(/180 readings are new, 538 were there already/);
  const { runs, kinds } = await onStore(async (opened) => ({
    runs: (await opened.runs.list()).runs.length,
    kinds: (await opened.events.list((await onlyRun(opened)).id)).map(({ kind }) => kind),
  }));
  expect(runs).toBe(1);
  expect(kinds.filter((kind) => kind === "board-restarted")).toHaveLength(1);
});

test("a time told wrongly is put right by removing the run and importing again", async () => {
  await bringIn("card.txt", twoStarts(), { readOut: { unixMs: readOutMs - 86_400_000, utcOffsetMinutes: 120 } });
  await onStore(async (opened) => opened.runs.delete((await onlyRun(opened)).id));
  expect((await bringIn("card.txt", twoStarts(), told)).exitCode).toBe(0);
  const { unixMs } = await onStore(async (opened) => opened.readings.series((await onlyRun(opened)).id, "ambient"));
  expect(unixMs.at(-1)).toBe(readOutMs);
});

test("a calibration of a probe holds for what it measured alone", async () => {
  await bringIn("card.txt", twoStarts(), told);
  const calibrated = ["probes", "calibrate", "28AA", "--ice-point", "0.5", "--store", store];
  expect((await coldfall(calibrated)).exitCode).toBe(0);
  const { values } = await onStore(async (opened) => opened.readings.series((await onlyRun(opened)).id, "evaporator"));
  expect(values[0]).toBeCloseTo(20 - 60 / 600 - 0.5, 9);
});

test("probes of which nobody knows the place are asked for, as another logger's columns are", async () => {
  const nameless = twoStarts(probes.map((probe) => ({ ...probe, role: null })));
  const { exitCode, told: why } = await bringIn("card.txt", nameless, told);
  expect(exitCode).toBe(2);
  expect(why).toMatch(/column "28AA".*--column "28AA=evaporator"/);
  const column = [["28AA", "evaporator"] as const, ["28BB", "cabinet"] as const, ["28CC", "none"] as const];
  expect((await bringIn("card.txt", nameless, { ...told, column })).printed).toMatch(/358 readings are new/);
});

test("a place that the store remembers is taken without asking", async () => {
  await onStore(async (opened) => {
    const [{ id: fridgeId }] = await opened.fridges.list();
    await opened.probes.put({ id: "28AA" });
    await opened.probes.assign({ probeId: "28AA", fridgeId, boardId: "b1", position: "cabinet", sinceUnixMs: 0 });
  });
  const nameless = twoStarts(probes.map((probe) => ({ ...probe, role: null })));
  expect((await bringIn("card.txt", nameless, told)).printed).toMatch(/180 readings are new/);
});

test("lines of two boards in one file are refused, naming both", async () => {
  const two = twoStarts() + boardStart({ boot: 1, rounds: 5, everySeconds: 60, boardId: "b2" }, probes);
  const { exitCode, told: why } = await bringIn("card.txt", two, told);
  expect(exitCode).toBe(2);
  expect(why).toMatch(/b1, b2.*a file for each board/);
});

test("noise before the first line and damaged lines in between do not hide what it is", async () => {
  const damaged = twoStarts().split("\n");
  damaged[20] = damaged[20].replace("b1", "b7");
  const { exitCode, printed } = await bringIn("card.txt", `\u0001\u00ff~~noise\r\n${damaged.join("\r\n")}`, told);
  expect(exitCode).toBe(0);
  expect(printed).toMatch(/537 readings are new/);
});

test("a preview shows how it is understood and stores nothing", async () => {
  const { printed } = await bringIn("card.txt", twoStarts(), { ...told, preview: true });
  expect(printed).toMatch(/board b1 recorded alone, over 2 starts/);
  expect(printed).toMatch(/Start 1 is put right before the one that follows; it can have been earlier/);
  expect(await onStore(async (opened) => (await opened.runs.list()).runs)).toEqual([]);
});

test("analyse reads a board's file with --read-out, and without it says what is missing", async () => {
  writeFileSync(at("card.txt"), twoStarts());
  const without = await coldfall(["analyse", at("card.txt")]);
  expect(without).toMatchObject({ exitCode: 2, told: expect.stringMatching(/--read-out/) });
  const document = JSON.parse((await coldfall(["analyse", at("card.txt"), "--read-out", readOut, "--json"])).printed);
  expect(document.runs?.[0] ?? document.stretches[0]).toBeDefined();
  expect(document.stretches.at(-1).end).toBe(new Date(readOutMs).toISOString());
});

test("a time without its zone is refused", async () => {
  writeFileSync(at("card.txt"), twoStarts());
  const { exitCode, told: why } = await coldfall(["import", at("card.txt"), "--read-out", "2026-06-07 18:00"]);
  expect(exitCode).toBe(2);
  expect(why).toMatch(/--read-out.*with its zone/);
});

// A thermistor of 10 kΩ at 25 °C, B 3950 K (IEC 60539-1), apart from the program's own arithmetic.
const inOhms = {
  unit: "Ohm",
  of: (celsius: number) => 10_000 * Math.exp(3950 * (1 / (celsius + 273.15) - 1 / 298.15)),
} as const;
const withThermistor = probes.map((probe) => (probe.role === "evaporator" ? { ...probe, raw: inOhms } : probe));
const curveOf = (probe: string, ...how: readonly string[]) =>
  coldfall(["probes", "curve", probe, ...how, "--store", store]);
const evaporator = () =>
  onStore(async (opened) => (await opened.readings.series((await onlyRun(opened)).id, "evaporator")).values);

test("a thermistor's ohms become temperatures by the curve that is kept with the probe", async () => {
  expect((await curveOf("28AA", "--thermistor", "10000,3950")).exitCode).toBe(0);
  const { exitCode, printed } = await bringIn("card.txt", twoStarts(withThermistor), told);
  expect({ exitCode, printed }).toMatchObject({ exitCode: 0, printed: expect.stringMatching(/538 readings are new/) });
  // Ohms come with six places, far below a millikelvin.
  expect((await evaporator())[0]).toBeCloseTo(20 - 60 / 600, 6);
});

test("what a wrong curve made is put right by telling the right one, since the ohms themselves are kept", async () => {
  await curveOf("28AA", "--thermistor", "5000,3435");
  await bringIn("card.txt", twoStarts(withThermistor), told);
  expect((await evaporator())[0]).not.toBeCloseTo(19.9, 0);
  await curveOf("28AA", "--thermistor", "10000,3950");
  expect((await evaporator())[0]).toBeCloseTo(19.9, 6);
});

test("ohms without a curve are kept and said to be no temperatures, and are once the curve is told", async () => {
  const preview = await bringIn("card.txt", twoStarts(withThermistor), { ...told, preview: true });
  expect(preview.printed).toMatch(/Probe 28AA sent ohms, and nobody said what they mean.*coldfall probes curve 28AA/);
  const { exitCode, printed } = await bringIn("card.txt", twoStarts(withThermistor), told);
  expect({ exitCode, printed }).toMatchObject({ exitCode: 0, printed: expect.stringMatching(/538 readings are new/) });
  expect(printed).toMatch(/Probe 28AA sends ohms or millivolts.*kept as they come/);
  expect(await evaporator()).toHaveLength(0);
  await curveOf("28AA", "--thermistor", "10000,3950");
  const values = await evaporator();
  expect(values).toHaveLength(180);
  expect(values[0]).toBeCloseTo(19.9, 6);
});

test("a file of nothing but ohms without a curve is refused, naming the probes and the command, and taken afterwards", async () => {
  const only = withThermistor.filter(({ role }) => role === "evaporator");
  const { exitCode, told: why } = await bringIn("card.txt", twoStarts(only), told);
  expect(exitCode).toBe(2);
  expect(why).toMatch(/probe 28AA sends ohms or millivolts.*coldfall probes curve 28AA/);
  expect(await onStore(async (opened) => (await opened.runs.list()).runs)).toEqual([]);
  await curveOf("28AA", "--thermistor", "10000,3950");
  expect((await bringIn("card.txt", twoStarts(only), told)).exitCode).toBe(0);
});

test("a curve for another unit than the probe sends is no curve for it", async () => {
  await curveOf("28AA", "--type-k", "1");
  const { printed } = await bringIn("card.txt", twoStarts(withThermistor), told);
  expect(printed).toMatch(/Probe 28AA sends ohms/);
  expect(await evaporator()).toHaveLength(0);
});

describe("the other commands that read files take --read-out as well", () => {
  /** A night that cools: ten hours towards 18 K below ambient. */
  const cooling: readonly BoardProbe[] = [
    { probeId: "28AA", role: "evaporator", celsius: (seconds) => 23 - 30 * (1 - Math.exp(-seconds / 5400)) },
    { probeId: "28BB", role: "cabinet", celsius: (seconds) => 23 - 20 * (1 - Math.exp(-seconds / 9000)) },
    { probeId: "28CC", role: "ambient", celsius: () => 23 },
  ];
  const night = (boardId: string) => boardStart({ boot: 1, rounds: 600, everySeconds: 60, boardId }, cooling);
  const began = new Date(readOutMs - 600 * 60_000).toISOString();
  const onMains = ["--source-at", `${began}=mains`];
  const told = ["--read-out", readOut];
  const card = () => at("card.txt");

  beforeEach(() => {
    writeFileSync(card(), night("b1"));
    writeFileSync(at("second.txt"), night("b2"));
  });

  for (const [name, command] of [
    ["baseline", () => ["baseline", card(), "--out", at("card.baseline.json"), ...onMains]],
    ["hot-day", () => ["hot-day", card(), "--ambient", "32", ...onMains, "--json"]],
    ["compare", () => ["compare", card(), at("night.csv"), ...onMains, "--json"]],
  ] as const) {
    test(name, async () => {
      await bringIn("card.txt", night("b1"), { readOut: { unixMs: readOutMs - 86_400_000, utcOffsetMinutes: 0 } });
      const run = await onStore(onlyRun);
      expect((await coldfall(["export", run.id, "--out", at("night.csv"), "--store", store])).exitCode).toBe(0);
      const without = await coldfall([...command(), "--store", store]);
      expect(without).toMatchObject({ exitCode: 2, told: expect.stringMatching(/no clock.*--read-out/) });
      const { exitCode, told: said } = await coldfall([...command(), ...told, "--store", store]);
      expect([exitCode, said]).toEqual([0, expect.stringMatching(/board b1 recorded alone/)]);
    });
  }

  test("and refuse one moment for two such files, naming them", async () => {
    const { exitCode, told: why } = await coldfall(["compare", card(), at("second.txt"), ...onMains, ...told]);
    expect(exitCode).toBe(2);
    expect(why).toMatch(/--read-out: .*card\.txt and second\.txt are all such files.*coldfall import/);
  });
});
