// What is told of the source beside a recorder reaches the watch of the run: its live picture and its alarms.

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { type Alarm, type AlarmLimits, usualAlarmLimits } from "../../src/science/live/index.ts";
import { type Fridge, openStore, type Run, type Store } from "../../src/store/index.ts";
import { morningOf } from "../../src/workshop/morning.ts";
import { liveEstimateOf, NightWatch, noteReadings, recordRun, sayNowOn } from "../../src/workshop/recording/index.ts";
import { at, begunMs, nightOnMains } from "./night-on-mains.ts";

let folder = "";
let store: Store;
let fridge: Fridge;
let run: Run;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-watch-"));
  store = await openStore(join(folder, "workshop.coldfall"), { groupWaitMs: 1 });
  fridge = await store.fridges.add({ name: "Larch" });
  run = await store.runs.open({
    fridgeId: fridge.id,
    purpose: "test",
    origin: "board",
    startedUnixMs: begunMs,
    utcOffsetMinutes: 0,
  });
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

/** The supply is lost for good at 22:30. */
const night = nightOnMains(6, [{ atHours: 4.5, hours: 2 }]);

/** A recorder that takes its quiet hours from 21 to 6. */
async function begun({
  cameToMs,
  lookEveryMs = 60_000,
  ...limits
}: Partial<AlarmLimits> & { cameToMs?: number; lookEveryMs?: number } = {}) {
  const spoken: Alarm[] = [];
  const watch = await NightWatch.begin(store, run, {
    limits: { ...usualAlarmLimits, heldBack: { fromHour: 21, toHour: 6 }, ...limits },
    baseline: { knownGood: [], baselineKind: "own" },
    lookEveryMs,
    freeMegabytes: () => null,
    whenRaised: (alarm) => void spoken.push(alarm),
    ...(cameToMs === undefined ? {} : { cameToMs }),
  });
  return { watch, spoken };
}

/** Records the hours of the night between two. */
async function record(watch: NightWatch, fromHours: number, toHours: number, of = night): Promise<void> {
  async function* arrivals() {
    for (const [row, unixMs] of of.unixMs.entries()) {
      if (unixMs < at(fromHours) || unixMs >= at(toHours)) continue;
      const readings = (["evaporator", "cabinet", "ambient"] as const).map((position) => ({
        position,
        unixMs,
        raw: of.columns[position]?.[row] ?? 0,
      }));
      yield { kind: "readings", readings } as const;
    }
  }
  await recordRun(arrivals(), store, run.id, (arrival) => watch.see(arrival));
}

const tell = (source: "off" | "mains" | "gas", hours: number) =>
  sayNowOn(store, fridge, source, { clockUnixMs: at(hours), unixMs: at(hours) });

test("gas told on another terminal is what the recorder watches from then on: its alarm does not wait for the morning", async () => {
  await tell("mains", 0.5);
  const { watch, spoken } = await begun();
  await record(watch, 0, 3);
  expect(watch.tell()).toMatchObject({ source: "mains", sinceMs: at(0.5) });
  await tell("gas", 3);
  await record(watch, 3, 3.1);
  expect(watch.tell()).toMatchObject({ source: "gas", sinceMs: at(3) });
  await record(watch, 3.1, 6.5);
  expect(spoken[0]).toMatchObject({ kind: "cooling-stopped", subject: "gas", reason: { source: "gas" } });
  expect(spoken[0].cautions).toContain("stopped-on-gas");
});

test("a source taken back, or told later for an earlier time, is taken up too", async () => {
  await tell("off", 0);
  await tell("mains", 0.5);
  const { watch } = await begun();
  await record(watch, 0, 2);
  const { sourceMarks } = await store.edits.current(run.id);
  await store.edits.make(run.id, { kind: "remove", number: sourceMarks[1].number });
  await record(watch, 2, 2.1);
  expect(watch.tell()).toMatchObject({ source: "off" });
  await tell("gas", 0.6);
  await record(watch, 2.1, 2.2);
  expect(watch.tell()).toMatchObject({ source: "gas", sinceMs: at(0.6) });
  // The readings that came before it was told are the gas stretch's too.
  expect(watch.tell().finding?.startMs).toBeLessThan(at(0.65));
});

test("what is told for later counts from then on", async () => {
  await tell("off", 0);
  await tell("mains", 0.5);
  const { watch } = await begun();
  await record(watch, 0, 0.4);
  expect(watch.tell()).toMatchObject({ source: "off" });
  await record(watch, 0.4, 0.6);
  expect(watch.tell()).toMatchObject({ source: "mains", sinceMs: at(0.5) });
});

test("a recorder that goes on gives its alarms the source that was told before", async () => {
  await tell("mains", 0.5);
  await record((await begun()).watch, 0, 3);
  // Of an earlier version, whose alarms knew no source.
  await store.settings.set(`alarm state ${run.id}`, null);
  const { watch, spoken } = await begun();
  await record(watch, 3, 6.5);
  expect(watch.alarms[0]).toMatchObject({ kind: "cooling-stopped", subject: "mains", cautions: ["night", "mains"] });
  // On mains it waits for the end of the night.
  expect(spoken).toEqual([]);
});

/** No cabinet is too warm, and no board silent. */
const stopsAlone = { cabinetCelsius: 60, boardSilentMinutes: 6000, probeLostMinutes: 6000, lookEveryMs: 300_000 };
/** The supply is lost twice, at 22:30 for 2 h and at 3:30 for good; between the two it cools again. */
const twice = nightOnMains(12, [
  { atHours: 4.5, hours: 2 },
  { atHours: 9.5, hours: 4 },
]);

test("a second stop on gas speaks and is kept on its own, though the first waits to be acknowledged", async () => {
  await tell("gas", 0.5);
  const { watch, spoken } = await begun(stopsAlone);
  await record(watch, 0, 12, twice);
  expect(spoken.map(({ kind }) => kind)).toEqual(["cooling-stopped", "cooling-stopped"]);
  expect(await store.alarms.list({ runId: run.id })).toMatchObject([
    { raisedUnixMs: spoken[1].raisedMs, clearedUnixMs: null },
    { raisedUnixMs: spoken[0].raisedMs, clearedUnixMs: expect.any(Number) },
  ]);
});

test("an alarm that was seen long ago does not make the next of its kind count as seen", async () => {
  await tell("mains", 0.5);
  const { watch, spoken } = await begun({ ...stopsAlone, heldBack: { fromHour: 1, toHour: 6 } });
  await record(watch, 0, 5.9, twice);
  const [first] = await store.alarms.list({ runId: run.id });
  expect(first).toMatchObject({ kind: "cooling-stopped" });
  await store.alarms.acknowledge(first.id, at(6), "Kim");
  await record(watch, 5.9, 12.5, twice);
  expect(watch.alarms).toMatchObject([{ kind: "cooling-stopped", acknowledgedMs: null }]);
  expect(spoken.map(({ raisedMs }) => raisedMs > at(9.5))).toEqual([false, true]);
});

test("the recorder of a second board takes the first board, which it cannot hear, for nothing", async () => {
  const options = {
    limits: usualAlarmLimits,
    baseline: { knownGood: [], baselineKind: "own" },
    lookEveryMs: 60_000,
    freeMegabytes: () => null,
  } as const;
  const spoken: Alarm[] = [];
  const whenRaised = (alarm: Alarm) => void spoken.push(alarm);
  const reading = (boardId: string, position: "cabinet" | "boiler", hours: number) =>
    ({ kind: "readings", readings: [{ position, unixMs: at(hours), raw: 20, boardId }] }) as const;
  const first = await NightWatch.begin(store, run, { ...options, whenRaised, boardId: "b1" });
  await first.see(reading("b1", "cabinet", 0));
  await first.see(reading("b1", "cabinet", 0.1));
  const second = await NightWatch.begin(store, run, { ...options, whenRaised, boardId: "b2" });
  for (let hours = 0.1; hours < 0.5; hours += 0.05) await second.see(reading("b2", "boiler", hours));
  expect(spoken).toEqual([]);
  // But each still knows its own after a restart, and gives it the time that any board has.
  const again = await NightWatch.begin(store, run, { ...options, whenRaised, boardId: "b1" });
  await again.see({ kind: "quiet", unixMs: at(0.5) });
  expect(spoken).toEqual([]);
  await again.see({ kind: "quiet", unixMs: at(0.6) });
  expect(spoken).toMatchObject([{ kind: "board-silent", subject: "b1" }]);
});

test("whether a run was watched at all is known in the morning: readings that come over the network are not", async () => {
  const reading = { position: "cabinet", unixMs: at(0), raw: 5, boardId: "b1" } as const;
  await store.readings.append(run.id, [reading]);
  expect((await morningOf(store, run.id, at(12))).night.isWatched).toBe(false);
  await begun();
  expect((await morningOf(store, run.id, at(12))).night.isWatched).toBe(true);
});

test("an alarm that is held back is kept at once, as over when it is, and speaks in the morning", async () => {
  await tell("mains", 0.5);
  const { watch, spoken } = await begun(stopsAlone);
  await record(watch, 0, 9.4, twice);
  expect(spoken).toEqual([]);
  const [kept] = await store.alarms.list({ runId: run.id });
  expect(kept).toMatchObject({ kind: "cooling-stopped", clearedUnixMs: expect.any(Number) });
  await watch.see({ kind: "quiet", unixMs: at(12.1) });
  expect(spoken).toMatchObject([{ kind: "cooling-stopped", clearedMs: kept.clearedUnixMs }]);
  expect(await store.alarms.list({ runId: run.id })).toEqual([kept]);
});

test("a hand reading of a later instant is not the now that a recorder goes on from", async () => {
  await record((await begun()).watch, 0, 1);
  const later = { clockUnixMs: at(1), unixMs: at(20), utcOffsetMinutes: 0, run };
  await noteReadings(store, fridge, new Map([["cabinet", 5.5]]), later);
  const { watch } = await begun({ cameToMs: at(1) });
  expect(watch.nowMs).toBe(night.unixMs.findLast((unixMs) => unixMs < at(1)));
});

/** A watch over boards of the network: all boards of the run, by when their packs arrive. */
async function beginNetwork() {
  const spoken: Alarm[] = [];
  const watch = await NightWatch.begin(store, run, {
    limits: { ...usualAlarmLimits, firstPauseMinutes: 30 },
    baseline: { knownGood: [], baselineKind: "own" },
    lookEveryMs: 300_000,
    time: "arrivals",
    freeMegabytes: () => null,
    whenRaised: (alarm) => void spoken.push(alarm),
  });
  /** A pack that arrives, of a reading taken so many hours before. */
  const pack = async (hours: number, raw: number, agoHours = 0) => {
    const reading = {
      position: "cabinet",
      unixMs: at(hours - agoHours),
      raw,
      boardId: "b1",
      hostUnixMs: at(hours),
    } as const;
    await store.readings.append(run.id, [reading]);
    await watch.see({ kind: "readings", readings: [reading] });
  };
  return { watch, spoken, pack };
}

test("what a board of the network hands in late changes no alarm, but stands in what is told", async () => {
  const { watch, spoken, pack } = await beginNetwork();
  for (let minute = 0; minute <= 60; minute++) await pack(3 + minute / 60, 5);
  // From three hours before, as after its network was away: warm then. And one comes twice.
  for (let minute = 0; minute <= 90; minute++) await pack(4.1, 12, 4 - minute / 60);
  await watch.see({
    kind: "readings",
    readings: [{ position: "cabinet", unixMs: at(4), raw: 5, boardId: "b1", hostUnixMs: at(4.1) }],
  });
  for (let minute = 0; minute <= 30; minute++) await pack(4.2 + minute / 60, 5);
  expect(spoken).toEqual([]);
  // The very rows that the store holds, none of them twice.
  const { finding } = await liveEstimateOf(store, run);
  expect(finding?.startMs).toBeDefined();
  expect(watch.tell().finding).toEqual(finding);
});

test("a board whose clock is an hour slow, or five minutes fast, is heard when it is heard", async () => {
  const { watch, spoken, pack } = await beginNetwork();
  for (let minute = 0; minute <= 60; minute++)
    await pack(3 + minute / 60, 5, minute < 20 ? 1 : minute < 40 ? -5 / 60 : 0);
  await watch.see({ kind: "quiet", unixMs: at(4) + 4 * 60_000 });
  expect(spoken).toEqual([]);
  await watch.see({ kind: "quiet", unixMs: at(4) + 5 * 60_000 });
  expect(spoken).toMatchObject([{ kind: "board-silent", subject: "b1" }]);
});
