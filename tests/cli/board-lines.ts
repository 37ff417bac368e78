// What a board records alone: lines over one start or several, for tests of what reads them.

import type { Position } from "../../src/schema/index.ts";
import { probeLineText } from "../ingest/probe-line-text.ts";

/** A probe of the board: the place it knows, and what it reads at an uptime in seconds; null is a fault. */
export interface BoardProbe {
  readonly probeId: string;
  readonly role: Position | null;
  readonly celsius: (seconds: number) => number | null;
  /** What it sends instead of °C. */
  readonly raw?: { readonly unit: "Ohm" | "mV"; readonly of: (celsius: number) => number };
}

export interface BoardStartWanted {
  readonly boot: number;
  readonly rounds: number;
  readonly everySeconds: number;
  readonly boardId?: string;
}

/** The lines of one start: a hello, then a reading of each probe every so many seconds. */
export function boardStart(
  { boot, rounds, everySeconds, boardId = "b1" }: BoardStartWanted,
  probes: readonly BoardProbe[],
): string {
  const head = { boardId, boot };
  let sequence = 1;
  const listed = probes.map(({ probeId, role, raw }) => ({
    probeId,
    role,
    unit: raw?.unit ?? ("Cel" as const),
    resolution: 0.0625,
  }));
  const lines = [
    probeLineText({
      type: "hello",
      ...head,
      sequence: sequence++,
      uptimeMs: 60,
      formatVersion: 1,
      firmware: "1.0.0",
      reason: boot === 1 ? "power-on" : "brown-out",
      intervalSeconds: everySeconds,
      probes: listed,
    }),
  ];
  for (let round = 1; round <= rounds; round++) {
    const seconds = round * everySeconds;
    for (const { probeId, celsius, raw } of probes) {
      const at = { ...head, sequence: sequence++, uptimeMs: seconds * 1000, probeId };
      const degrees = celsius(seconds);
      const value = degrees === null || raw === undefined ? degrees : raw.of(degrees);
      lines.push(
        value === null
          ? probeLineText({ type: "fault", ...at, fault: "garbled" })
          : probeLineText({ type: "reading", ...at, value, unit: raw?.unit ?? "Cel" }),
      );
    }
  }
  return lines.map((line) => `${line}\n`).join("");
}
