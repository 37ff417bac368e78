import { expect, test } from "vitest";
import type { PortHappening } from "../../src/ingest/index.ts";
import type { LineUnit } from "../../src/ingest/probe-line.ts";
import type { Position } from "../../src/schema/index.ts";
import { type Arrival, boardArrivals } from "../../src/workshop/recording/index.ts";
import { probeLineText } from "../ingest/probe-line-text.ts";

const now = Date.UTC(2026, 5, 4, 20);

/** What arrives when a board says one reading of that unit, its probe sitting at that position. */
async function arrivalsOf(position: Position, unit: LineUnit, value: number): Promise<readonly Arrival[]> {
  const head = { boardId: "b1", boot: 1, sequence: 1, uptimeMs: 1000 };
  const line = probeLineText({ type: "reading", ...head, probeId: "p1", value, unit });
  async function* happenings(): AsyncGenerator<PortHappening> {
    yield { kind: "bytes", bytes: new TextEncoder().encode(`${line}\n`), hostUnixMs: now };
  }
  const roles = new Map([["p1", position]]);
  const arrivals: Arrival[] = [];
  for await (const arrival of boardArrivals(happenings(), { roles, last: null, say: () => {} })) arrivals.push(arrival);
  return arrivals;
}

test("°C at a position and volts of the supply are readings", async () => {
  expect(await arrivalsOf("cabinet", "Cel", 4.5)).toMatchObject([{ kind: "readings", readings: [{ raw: 4.5 }] }]);
  expect(await arrivalsOf("supply", "V", 12.6)).toMatchObject([{ kind: "readings", readings: [{ raw: 12.6 }] }]);
});

for (const [position, unit, raw] of [
  ["cabinet", "Ohm", 10_000],
  ["flue", "mV", 4.1],
] as const) {
  test(`${raw} ${unit} at ${position} are kept as they came, with their unit: the probe's curve is applied when they are read`, async () => {
    expect(await arrivalsOf(position, unit, raw)).toMatchObject([{ kind: "readings", readings: [{ raw, unit }] }]);
  });
}

for (const [position, unit, value] of [
  ["cabinet", "V", 12.6],
  ["supply", "Ohm", 10_000],
  ["supply", "Cel", 12.6],
] as const) {
  test(`${value} ${unit} at ${position} are told of and never kept as a reading`, async () => {
    const arrivals = await arrivalsOf(position, unit, value);
    expect(arrivals).toMatchObject([
      { kind: "happened", event: { kind: "probe-without-position", details: { unit } } },
    ]);
  });
}
