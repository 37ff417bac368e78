// English: alarms. Their cautions stand in the same object (src/science/live/alarm-conditions.ts).

import type { Phrases } from "../../../schema/index.ts";
import type { AlarmKind, AlarmSayings } from "../../../science/live/index.ts";
import type { Hand } from "../../hand.ts";
import { onSource, positionNames, rejections } from "./names.ts";
import { mayHaveStopped } from "./stopped.ts";

const names: { readonly [K in AlarmKind]: string } = {
  "cooling-stopped": "cooling stopped",
  "cabinet-warm": "cabinet too warm",
  "probe-lost": "probe lost",
  "board-silent": "board silent",
  "disk-low": "disk nearly full",
  "readings-odd": "readings out of reason",
};

const reasons: Phrases<AlarmSayings, Hand> = {
  "cooling-stopped": ({ source, sinceMs, doubt }, hand) =>
    `Cooling has stopped ${onSource(source)}, about ${hand.clock(sinceMs)}. ${mayHaveStopped(source, doubt)}`,
  "cabinet-warm": ({ celsius, limitCelsius, sinceMs }, hand) =>
    `The cabinet is at ${hand.quantity(celsius, "Cel", 1)}, above ${hand.quantity(limitCelsius, "Cel", 1)} since ${hand.clock(sinceMs)}.`,
  "probe-lost": ({ position, lastMs }, hand) =>
    `The ${positionNames[position]} probe has said nothing since ${hand.clock(lastMs)}, though its board has.`,
  "board-silent": ({ board, lastMs }, hand) =>
    `Board ${board} has said nothing since ${hand.clock(lastMs)}. What it measures meanwhile is lost unless it keeps it itself.`,
  "disk-low": ({ freeMegabytes, limitMegabytes }, hand) =>
    `Only ${hand.number(freeMegabytes, 0)}\u00a0MB are free on the disk, less than ${hand.number(limitMegabytes, 0)}\u00a0MB: make room, or recording will have to stop.`,
  "readings-odd": ({ position, why, value, sinceMs }, hand) => {
    const read = value === null ? "" : `, last ${hand.figure(value, "Cel", 1)}`;
    return `Since ${hand.clock(sinceMs)} the ${positionNames[position]} probe gives no believable reading${read} (${rejections[why]}).`;
  },
};

export const alarms = {
  names,
  reasons,
  raised: (moment: string, name: string, reason: string) => `${moment}, ${name}: ${reason}`,
  lasted: (until: string) => `Over since ${until}.`,
  lasts: "It still lasts.",
  acknowledged: (moment: string, by: string | null) =>
    by === null ? `Acknowledged ${moment}.` : `Acknowledged ${moment} by ${by}.`,
  unacknowledged: "Not acknowledged.",
  heldBack: "Held back until the night is over.",
} as const;
