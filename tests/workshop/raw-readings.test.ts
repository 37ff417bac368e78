// A board whose cabinet probe is a thermistor that sends ohms: recorded, watched, and read back as temperatures.

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import type { PortHappening, ProbeLine } from "../../src/ingest/index.ts";
import { usualAlarmLimits } from "../../src/science/live/index.ts";
import { type Fridge, openStore, type Run, type Store } from "../../src/store/index.ts";
import { boardArrivals, boardRoles, NightWatch, recordRun, runToRecord } from "../../src/workshop/recording/index.ts";
import { probeLineText } from "../ingest/probe-line-text.ts";

/** By the definition of B (IEC 60539-1), apart from the program's own arithmetic. */
const ohmsAt = (celsius: number) => 10_000 * Math.exp(3950 * (1 / (celsius + 273.15) - 1 / 298.15));

const begun = Date.UTC(2026, 5, 4, 20);
const head = { boardId: "b1", boot: 1 };
const probeId = "b1-a0";
const hello: Extract<ProbeLine, { type: "hello" }> = {
  type: "hello",
  ...head,
  sequence: 1,
  uptimeMs: 100,
  formatVersion: 1,
  firmware: "1.1.0",
  reason: "asked",
  intervalSeconds: 30,
  probes: [{ probeId, role: "cabinet", unit: "Ohm", resolution: 1 }],
};

let folder = "";
let store: Store;
let fridge: Fridge;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-raw-"));
  store = await openStore(join(folder, "workshop.coldfall"));
  fridge = await store.fridges.add({ name: "Larch" });
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

const curve = { kind: "thermistor-b", curve: { ohmsAt25: 10_000, b: 3950 } } as const;

/** Ten minutes of a cabinet at 4 °C, then 80 at another temperature; a reading every half minute. */
async function* saying(afterwards: number): AsyncGenerator<PortHappening> {
  for (let round = 0; round <= 180; round++) {
    const at = { ...head, sequence: 2 + round, uptimeMs: 1000 + round * 30_000 };
    const value = Math.round(ohmsAt(round < 20 ? 4 : afterwards));
    const line = probeLineText({ type: "reading", ...at, probeId, value, unit: "Ohm" });
    yield { kind: "bytes", bytes: new TextEncoder().encode(`${line}\n`), hostUnixMs: begun + at.uptimeMs };
  }
}

/** Records it, and gives the kinds of the alarms raised. */
async function recorded(afterwards: number): Promise<{ readonly run: Run; readonly alarms: readonly string[] }> {
  const roles = await boardRoles(store, hello, fridge, begun);
  const wanted = { fridgeId: fridge.id, origin: "board", purpose: "test", startedUnixMs: begun } as const;
  const { run } = await runToRecord(store, { ...wanted, utcOffsetMinutes: 0 }, begun);
  const alarms: string[] = [];
  const night = await NightWatch.begin(store, run, {
    limits: usualAlarmLimits,
    baseline: { knownGood: [], baselineKind: "own" },
    lookEveryMs: 5 * 60_000,
    freeMegabytes: () => null,
    whenRaised: ({ kind }) => void alarms.push(kind),
  });
  const arrivals = boardArrivals(saying(afterwards), { roles, last: null, say: () => {} });
  await recordRun(arrivals, store, run.id, (arrival) => night.see(arrival));
  return { run, alarms };
}

test("ohms are stored as they came, and watched and read back as temperatures", async () => {
  await store.probes.put({ id: probeId, curve });
  const { run, alarms } = await recorded(4);
  // Taken for °C, 27,000 would be too warm a cabinet.
  expect(alarms).toEqual([]);
  expect((await store.readings.series(run.id, "cabinet")).values[0]).toBeCloseTo(4, 2);
  for await (const { raw, unit } of store.readings.parts(run.id)) {
    expect([raw[0], unit]).toEqual([Math.round(ohmsAt(4)), "Ohm"]);
  }
  expect(await store.probes.list()).toMatchObject([{ id: probeId, curve }]);
  // The board's resolution is in ohms and no step in kelvin.
  expect((await store.probes.list())[0].resolutionKelvin).toBeUndefined();
});

test("a cabinet that warms to 12 °C, told in ohms, raises its alarm", async () => {
  await store.probes.put({ id: probeId, curve });
  expect((await recorded(12)).alarms).toEqual(["cabinet-warm"]);
});

test("a board of which no probe gives a temperature is refused before anything is recorded, naming the probe", async () => {
  await expect(recorded(4)).rejects.toMatchObject({ saying: { code: "no-probe-curve", probes: [probeId] } });
  // For other ohms than it sends, a curve is none.
  await store.probes.put({ id: probeId, curve: { ...coupleCurve } });
  await expect(recorded(4)).rejects.toMatchObject({ saying: { code: "no-probe-curve" } });
  expect((await store.runs.list()).runs).toEqual([]);
});

const coupleCurve = {
  kind: "type-k",
  toleranceClass: 1,
  coldJunction: { celsius: 0, standardUncertainty: 0.5 },
} as const;
