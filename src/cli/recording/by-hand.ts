// `coldfall source` and `coldfall note-reading`: what a person says beside a running log.

import type { Instant } from "../../ingest/index.ts";
import { handOf, plain } from "../../report/index.ts";
import type { EnergySource, Position } from "../../schema/index.ts";
import { noteReadings, runSpokenOf, sayNowOn } from "../../workshop/recording/index.ts";
import { type StoreOptions, withStore } from "../keeping/with-store.ts";
import { wordsFor } from "../language-option.ts";
import type { Terminal } from "../terminal.ts";

/** Where and when. */
export interface ByHandOptions extends StoreOptions {
  readonly fridge: string;
  /** Now unless stated. */
  readonly at?: Instant;
  readonly run?: string;
}

/** @throws BadInput "no-such-record", "nothing-recorded", "outside-run" */
export const saySource = (source: EnergySource, options: ByHandOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const fridge = await store.fridges.named(options.fridge);
    const { run, unixMs } = await sayNowOn(store, fridge, source, {
      ...saidAt(options, terminal),
      ...(options.run === undefined ? {} : { runId: options.run }),
    });
    const { recording, names } = wordsFor(options);
    const since = handOf(options.language ?? "en", run.utcOffsetMinutes).moment(unixMs);
    terminal.print(`${plain(recording.source.said(fridge.name, names.onSource(source), since))}\n`);
  });

/** @throws BadInput "no-such-record", "nothing-recorded", "unbelievable-reading", "outside-run", "reading-kept" */
export const noteByHand = (values: ReadonlyMap<Position, number>, options: ByHandOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const fridge = await store.fridges.named(options.fridge);
    // A run of its own, begun by a single reading, would take all that is recorded next.
    const run = await runSpokenOf(store, fridge, options.run);
    const { utcOffsetMinutes } = run;
    const said = { ...saidAt(options, terminal), utcOffsetMinutes, run };
    const { unixMs, received } = await noteReadings(store, fridge, values, said);
    const { recording } = wordsFor(options);
    const at = handOf(options.language ?? "en", utcOffsetMinutes).moment(unixMs);
    const there = received.repeated > 0 ? ` ${recording.record.repeated(received.repeated)}` : "";
    terminal.print(`${recording.noteReading.noted(received.stored, fridge.name, at)}${there}\n`);
  });

const saidAt = ({ at }: ByHandOptions, terminal: Terminal) => ({
  clockUnixMs: terminal.nowUnixMs(),
  ...(at === undefined ? {} : { unixMs: at.unixMs }),
});
