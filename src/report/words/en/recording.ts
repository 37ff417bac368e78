// English: the commands that record.

import { list } from "./names.ts";

export interface OfNewRun {
  readonly name?: string | null | undefined;
  readonly purpose?: string | null | undefined;
  readonly hasSheet?: boolean;
}

export const recording = {
  record: {
    summary: "record a fridge from a probe board, or replay a log as if it were recorded now",
    examples: [
      "coldfall record --fridge Larch --port /dev/ttyUSB0",
      "coldfall record --fridge Larch --replay night.csv --speed 600",
      "coldfall record --fridge Larch --replay night.csv --speed 600 --too-warm 8=2 --quiet 22-6",
    ],
    fridge: "the fridge, by its name; added if the store does not know it",
    replay: "a log to play as if it were recorded now; each reading keeps the log's own instant",
    speed: "how many times faster than the log",
    purpose: "why it is recorded, test unless stated; known-good runs make the fridge's baseline",
    sheet: "run sheet of the run",
    expectedSpeed: "a number of 1 or more",
    port: "the serial port that a board is plugged into, such as /dev/ttyUSB0 or COM3",
    listening: (port: string) => `Listening to ${port} for a board's hello. Stop with Ctrl-C.`,
    noPort: (port: string) =>
      `There is no port ${port} yet; it is waited for, so plug the board in. "coldfall boards" lists the ports there are.`,
    cannotOpen: (port: string, why: string) =>
      `${port} cannot be listened to (${why}); it is tried again every second. "coldfall boards" lists the ports there are.`,
    taken: (port: string) =>
      `${port} is listened to by another program already, such as another recorder: end that one, or let it go on. It is tried again every second.`,
    unplugged: (since: string) =>
      `${since}: the probe board was unplugged, or its port vanished. What came is kept. Plug it in again, and recording goes on by itself.`,
    backAgain: (at: string) => `${at}: the probe board is back.`,
    lines: ({ good, damaged, missed }: { good: number; damaged: number; missed: number }) =>
      `Lines: ${good} good, ${damaged} damaged, ${missed} missing.`,
    tooWarm: "alarm when the cabinet is above C °C for longer than HOURS; 8=1 unless stated",
    expectedTooWarm: "C=HOURS, such as 8=2",
    quiet:
      "hours of the day, by the clock of the place, between which alarms are held back, such as 22-6; those of a gas stretch, or where nobody said what it runs on, are not",
    expectedQuiet: "two hours of the day, such as 22-6",
    webhook:
      "where alarms are sent as JSON by HTTP POST, signed with the secret in COLDFALL_WEBHOOK_SECRET (header coldfall-signature)",
    expectedWebhook: "an address that begins with http:// or https://",
    structured: "messages as JSON, one object a line: for a log that programs read",
    noSecret: "COLDFALL_WEBHOOK_SECRET is not set: whoever receives the alarms cannot tell them from forged ones.",
    newFridge: (name: string, others: readonly string[]) =>
      `${name} is new in the store${others.length === 0 ? "" : `, which so far knows ${list(others)}`}.`,
    begins: (run: string, fridge: string) =>
      `Recording ${fridge} as run ${run}. Stop with Ctrl-C; the same command goes on.`,
    goesOn: (run: string, fridge: string, since: string) =>
      `Going on with run ${run} of ${fridge}, which has readings up to ${since}.`,
    ended: (readings: number, run: string) =>
      `${readings === 1 ? "One new reading is" : `${readings} new readings are`} kept. "coldfall report ${run}" tells the night on one page.`,
    stopped: (readings: number) =>
      `Stopped. ${readings === 1 ? "One new reading is" : `${readings} new readings are`} kept; the same command goes on.`,
    /** What was said of a run that is there already and has its own. */
    keepsOwn: (run: string, { name = null, purpose = null, hasSheet = false }: OfNewRun) =>
      [
        ...(name === null ? [] : [`The run keeps its name; "coldfall runs edit ${run} --name NAME" changes it.`]),
        ...(purpose === null
          ? []
          : [`The run keeps its purpose; "coldfall runs edit ${run} --purpose ${purpose}" changes it.`]),
        ...(hasSheet ? [`The run keeps its run sheet; "coldfall sheet ${run} --file FILE" changes it.`] : []),
      ].join(" "),
    unsent: (address: string, why: string) =>
      `An alarm could not be sent to ${address} (${why}). It is kept and tried again, later and later, at most an hour apart; check the address.`,
    sentAfterAll: "What could not be sent before has been sent.",
    placedOtherwise: (probe: string, boardSays: string, kept: string) =>
      `The board says that probe ${probe} sits at ${boardSays}; in the store it sits at ${kept}, and that counts. If the probes were exchanged, say so: coldfall probes place ${probe} --fridge NAME --position POSITION.`,
    over: (run: string) =>
      `Run ${run} was ended or removed elsewhere, such as on the bench, so recording stops here; the same command begins a new run.`,
    repeated: (readings: number) => `${readings === 1 ? "One was" : `${readings} were`} there already.`,
    contradicted: (readings: number) =>
      `${readings === 1 ? "One" : readings} said something else than what is kept of the same instant, and ${readings === 1 ? "was" : "were"} not taken.`,
  },
  source: {
    summary: 'say what a fridge runs on from now on: "now on gas"',
    examples: [
      "coldfall source gas --fridge Larch",
      "coldfall source off --fridge Larch --at 2026-06-04T07:15:00+02:00",
    ],
    source: "what it runs on",
    at: "since when, if not since now",
    expectedAt: "a time with its zone, such as 2026-06-04T07:15:00Z",
    said: (fridge: string, onSource: string, since: string) => `${fridge}: ${onSource} since ${since}.`,
    run: "a run of the fridge; the one being recorded unless stated",
  },
  noteReading: {
    summary: "note a reading taken by hand",
    examples: ["coldfall note-reading cabinet=6.5 ambient=24 --fridge Larch"],
    reading: "POSITION=VALUE in °C (supply in V); several may be given",
    at: "when it was read, if not now",
    expected: (names: readonly string[]) =>
      `POSITION=VALUE, such as cabinet=6.5, with ${names.join(", ")}, a point for decimals, each position once`,
    noted: (count: number, fridge: string, at: string) =>
      `${count} ${count === 1 ? "reading" : "readings"} of ${fridge} at ${at} noted.`,
  },
  report: {
    summary: "tell a night on one page: what happened when, verdicts, what to check next",
    examples: [
      "coldfall report 2026-06-04-k7qx3m",
      "coldfall report 2026-06-04-k7qx3m --html night.html",
      'coldfall report 2026-06-04-k7qx3m --pdf larch.pdf --letterhead "Bench two"',
    ],
    html: "also write the page to FILE",
  },
  alarms: {
    summary: "list alarms and acknowledge them",
    examples: ["coldfall alarms", "coldfall alarms acknowledge 4d1zk7qx3m --by Kim"],
    list: "list the alarms, newest first",
    acknowledge: "say that somebody has seen an alarm",
    by: "who has seen it",
    ofRun: "only alarms of this run",
    headings: ["alarm", "run", "state", "what"],
    none: "No alarm.",
    state: (isOver: boolean, isSeen: boolean) => `${isOver ? "over" : "lasts"}, ${isSeen ? "seen" : "not seen"}`,
    acknowledgedBefore: (id: string, at: string, by: string | null) =>
      `Alarm ${id} was acknowledged before, at ${at}${by === null ? "" : ` by ${by}`}; that stays.`,
    acknowledged: (id: string) => `Alarm ${id} is acknowledged.`,
  },
};
