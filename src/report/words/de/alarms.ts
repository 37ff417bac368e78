// German: alarms. Their cautions stand in the same object (src/science/live/alarm-conditions.ts).

import type { Phrases } from "../../../schema/index.ts";
import type { AlarmKind, AlarmSayings } from "../../../science/live/index.ts";
import type { Hand } from "../../hand.ts";
import { onSource, positionNames, rejections } from "./names.ts";
import { mayHaveStopped } from "./stopped.ts";

const names: { readonly [K in AlarmKind]: string } = {
  "cooling-stopped": "Kühlung ausgefallen",
  "cabinet-warm": "Kühlraum zu warm",
  "probe-lost": "Fühler ausgefallen",
  "board-silent": "Fühlerplatine stumm",
  "disk-low": "Datenträger fast voll",
  "readings-odd": "unglaubwürdige Messwerte",
};

const reasons: Phrases<AlarmSayings, Hand> = {
  "cooling-stopped": ({ source, sinceMs, doubt }, hand) =>
    `Die Kühlung ${onSource(source)} ist ausgefallen, etwa um ${hand.clock(sinceMs)}. ${mayHaveStopped(source, doubt)}`,
  "cabinet-warm": ({ celsius, limitCelsius, sinceMs }, hand) =>
    `Der Kühlraum hat ${hand.quantity(celsius, "Cel", 1)} und liegt seit ${hand.clock(sinceMs)} über ${hand.quantity(limitCelsius, "Cel", 1)}.`,
  "probe-lost": ({ position, lastMs }, hand) =>
    `Der Fühler „${positionNames[position]}“ meldet seit ${hand.clock(lastMs)} nichts mehr, seine Fühlerplatine aber schon.`,
  "board-silent": ({ board, lastMs }, hand) =>
    `Die Fühlerplatine ${board} meldet seit ${hand.clock(lastMs)} nichts mehr. Was sie inzwischen misst, ist verloren, wenn sie es nicht selbst aufhebt.`,
  "disk-low": ({ freeMegabytes, limitMegabytes }, hand) =>
    `Auf dem Datenträger sind nur noch ${hand.number(freeMegabytes, 0)}\u00a0MB frei, weniger als ${hand.number(limitMegabytes, 0)}\u00a0MB: Schaffen Sie Platz, sonst muss die Aufzeichnung enden.`,
  "readings-odd": ({ position, why, value, sinceMs }, hand) => {
    const read = value === null ? "" : `, zuletzt ${hand.figure(value, "Cel", 1)}`;
    return `Seit ${hand.clock(sinceMs)} liefert der Fühler „${positionNames[position]}“ keinen glaubwürdigen Messwert${read} (${rejections[why]}).`;
  },
};

export const alarms = {
  names,
  reasons,
  raised: (moment: string, name: string, reason: string) => `${moment}, ${name}: ${reason}`,
  lasted: (until: string) => `Vorbei seit ${until}.`,
  lasts: "Dauert noch an.",
  acknowledged: (moment: string, by: string | null) =>
    by === null ? `Zur Kenntnis genommen ${moment}.` : `Zur Kenntnis genommen ${moment} von ${by}.`,
  unacknowledged: "Noch nicht zur Kenntnis genommen.",
  heldBack: "Zurückgehalten, bis die Nacht vorbei ist.",
};
