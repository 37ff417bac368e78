// English: the morning after, a run on one page.

import type { EnergySource } from "../../../schema/index.ts";
import { onSource } from "./names.ts";

/** What a recorder notes besides readings, by the names it keeps them under. */
const happenings: { readonly [kind: string]: string } = {
  "board-unplugged": "the probe board was unplugged, or its port vanished",
  "board-silent": "the probe board said nothing",
  "board-restarted": "the probe board restarted",
  "line-damaged": "a line from the board arrived damaged and was left out",
  "lines-missed": "lines from the board are missing",
  "probe-silent": "a probe said nothing",
  "probe-without-position": "a probe without a place on this fridge was left out",
  "host-clock-moved": "the computer's clock was moved; the board's own kept the time",
  unwatched: "nobody watched for alarms",
  "gap-of-unknown-length": "a gap whose length nobody knows",
};

export const morning = {
  title: (fridge: string | null) => (fridge === null ? "The night on one page" : `The night of ${fridge} on one page`),
  timelineHeading: "What happened when",
  stretch: (period: string, source: EnergySource | null, verdict: string | null) =>
    `${period}, ${onSource(source)}${verdict === null ? "" : `: ${verdict}`}.`,
  happening: (period: string, kind: string, position: string | null) =>
    `${period}, ${happenings[kind] ?? kind.replaceAll("-", " ")}${position === null ? "" : ` (${position})`}.`,
  manyHappenings: (period: string, kind: string, times: string) =>
    `${period}, ${times}: ${happenings[kind] ?? kind.replaceAll("-", " ")}.`,
  times: { one: "time", other: "times" },
  goesOn: (moment: string) => `Recording goes on; this is as of ${moment}.`,
  alarmsHeading: "Alarms",
  noAlarms: "No alarm was raised.",
  noAlarmsInPart: "No alarm was raised while somebody watched; when nobody did stands under what happened when.",
  unwatched:
    'Nobody watched: alarms are raised only while "coldfall record" listens to a board on a port or replays a log, and while "coldfall serve" takes in what boards send over the network; not over readings from a file or by hand.',
  fullReport: (run: string) =>
    `Evidence, numbers and drawings of every stretch: "coldfall analyse ${run} --html FILE".`,
} as const;
