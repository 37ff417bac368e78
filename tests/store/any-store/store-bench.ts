// What the tests of every store stand on: a store of a fridge with one open run, and readings for it.

import { expect } from "vitest";
import type { AnalysisDocument } from "../../../src/schema/documents/index.ts";
import type { Position } from "../../../src/schema/index.ts";
import type { NewReading, Run, Store } from "../../../src/store/index.ts";

/** A database for one test. */
export interface Backend {
  /** Opens the store, or opens the same one again. Closing is the test's matter. */
  open(): Promise<Store>;
  /** Takes the database away when all is closed. */
  remove(): Promise<void>;
}

/** The store of one test: opened with a fridge and an open run of it. */
export class StoreBench {
  store!: Store;
  fridgeId!: string;
  run!: Run;
  /** A database for another store beside this one. */
  readonly newBackend: () => Backend;
  #backend!: Backend;

  constructor(newBackend: () => Backend) {
    this.newBackend = newBackend;
  }

  async open(): Promise<void> {
    this.#backend = this.newBackend();
    this.store = await this.#backend.open();
    this.fridgeId = (await this.store.fridges.add({ name: "Bay 5", kind: "tall door", ratedWatts: { gas: 210 } })).id;
    this.run = await this.openRun();
  }

  async remove(): Promise<void> {
    await this.store.close();
    await this.#backend.remove();
  }

  /** Closes the store and opens the same one again. */
  async reopened(): Promise<void> {
    await this.store.close();
    this.store = await this.#backend.open();
  }

  openRun(more: Partial<Parameters<Store["runs"]["open"]>[0]> = {}): Promise<Run> {
    return this.store.runs.open({
      fridgeId: this.fridgeId,
      startedUnixMs: start,
      purpose: "test",
      origin: "board",
      utcOffsetMinutes: 120,
      ...more,
    });
  }
}

export const start = Date.UTC(2026, 5, 4, 7);
export const second = 1000;
export const minute = 60 * second;

/** Readings of one position, one a second, in steps of 1/16 K. */
export function readings(position: Position, count: number, from = 0, more: Partial<NewReading> = {}): NewReading[] {
  return Array.from({ length: count }, (_, i) => ({
    position,
    unixMs: start + (from + i) * second,
    raw: Math.round(320 - (from + i) / 10) / 16,
    ...more,
  }));
}

/** The same, as a board sends them: sequence, uptime and host clock beside. */
export const fromBoard = (position: Position, count: number, from = 0, boot = 0): NewReading[] =>
  readings(position, count, from, { boardId: "board-1", probeId: "28-1", boot }).map((reading, i) => ({
    ...reading,
    sequence: from + i,
    uptimeMs: 5000 + (from + i) * second + (i % 3),
    hostUnixMs: reading.unixMs + ((i * 7) % 13) + 0.25,
  }));

/** Instants so many seconds after the start. */
export const instants = (...seconds: readonly number[]) => Float64Array.from(seconds, (at) => start + at * second);

/** The end of the promise as an object to match; fails when it was kept. */
export async function refusal(promise: Promise<unknown>): Promise<unknown> {
  const outcome = await promise.then(
    () => null,
    (error: unknown) => ({ error }),
  );
  expect(outcome, "should have been refused").not.toBeNull();
  return outcome?.error;
}

/** All of them. */
export async function listed<T>(items: AsyncIterable<T>): Promise<T[]> {
  const list: T[] = [];
  for await (const item of items) list.push(item);
  return list;
}

/** A document of the right kind as far as the store is concerned, which only keeps it. */
export const someDocument = (marker: string) =>
  ({ format: "coldfall-analysis-1", marker }) as unknown as AnalysisDocument;
