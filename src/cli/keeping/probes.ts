// `coldfall probes`: the probes, where they sit, and when they are due for calibration.

import type { Words } from "../../report/index.ts";
import type { Position } from "../../schema/index.ts";
import type { Probe } from "../../store/index.ts";
import { calibrationStandingOn } from "../../workshop/calibrating.ts";
import { probeList } from "../../workshop/kept-lists.ts";
import { wordsFor } from "../language-option.ts";
import type { Terminal } from "../terminal.ts";
import { dayText } from "./calibrate.ts";
import { table } from "./table.ts";
import { type StoreOptions, withNewStore, withStore } from "./with-store.ts";

const textFor = (options: StoreOptions) => wordsFor(options).keeping.probes;

export const listProbes = (options: StoreOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const list = await probeList(store);
    if (options.json) return terminal.print(`${JSON.stringify(list, null, 2)}\n`);
    const { keeping, probes: more } = wordsFor(options);
    const text = keeping.probes;
    const rows = list.probes.map(({ id, label, kind, curve, roles, calibrations: [newest] }) => [
      id,
      label ?? "",
      kind ?? (curve === null ? "" : more.curve.kinds[curve.kind]),
      roles.map(({ fridge, position }) => `${fridge} ${position}`).join(", "),
      newest === undefined ? text.never : dayText(Date.parse(newest.made)),
      dueText(newest, terminal.nowUnixMs(), more.standing),
    ]);
    terminal.print(table(text.headings, rows, text.none));
  });

/** The day it falls due, with a reminder when that is near or past. */
function dueText(
  newest: { readonly made: string; readonly due: string | null } | undefined,
  nowUnixMs: number,
  text: Words["probes"]["standing"],
): string {
  if (newest === undefined || newest.due === null) return "";
  const standing = calibrationStandingOn({ made: newest.made, due: newest.due }, nowUnixMs);
  const day = dayText(Date.parse(newest.due));
  switch (standing.standing) {
    case "valid":
      return day;
    case "due-soon":
      return text.dueSoon(day, standing.days);
    case "overdue":
      return text.overdue(day, standing.days);
    case "from-the-future":
      return text.fromTheFuture(day);
  }
}

export const putProbe = (
  id: string,
  { label, kind, notes, ...options }: StoreOptions & Omit<Probe, "id">,
  terminal: Terminal,
) =>
  withNewStore(options, async (store) => {
    await store.probes.put({
      id,
      ...(label === undefined ? {} : { label }),
      ...(kind === undefined ? {} : { kind }),
      ...(notes === undefined ? {} : { notes }),
    });
    terminal.print(`${textFor(options).kept(id)}\n`);
  });

export interface PlaceOptions extends StoreOptions {
  readonly fridge: string;
  readonly position: Position;
  readonly board?: string;
}

/** @throws BadInput "no-such-record" */
export const placeProbe = (probeId: string, options: PlaceOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const { id: fridgeId, name } = await store.fridges.named(options.fridge);
    const { position, board: boardId = "" } = options;
    await store.probes.assign({ probeId, fridgeId, boardId, position, sinceUnixMs: terminal.nowUnixMs() });
    terminal.print(`${textFor(options).placed(probeId, position, name)}\n`);
  });

/** @throws BadInput "record-in-use" */
export const removeProbe = (id: string, options: StoreOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    await store.probes.remove(id);
    terminal.print(`${textFor(options).removed(id)}\n`);
  });
