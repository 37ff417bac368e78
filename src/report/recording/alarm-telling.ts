// An alarm in words, its caution in the same object: for the terminal, the log, the webhook and the morning page.

import type { Alarm } from "../../science/live/index.ts";
import { type CheckTelling, tellCautions } from "../advice-telling.ts";
import type { Reader } from "../context.ts";
import { type Teller, tellerFor } from "../teller.ts";
import { plain } from "../terminal/text-layout.ts";
import { say, words } from "../words/index.ts";

/** An alarm of a run, live or kept. */
export type ToldAlarm = Pick<
  Alarm,
  "kind" | "reason" | "cautions" | "raisedMs" | "clearedMs" | "acknowledgedMs" | "acknowledgedBy"
>;

export interface AlarmTelling {
  readonly title: string;
  /** "4 June 02:13, cooling stopped: ... " */
  readonly text: string;
  /** Whether it lasts, and who has seen it. */
  readonly state: string;
  readonly caution: CheckTelling["caution"];
}

/** Tells an alarm on the run's clock. */
export const tellAlarm = (alarm: ToldAlarm, reader: Reader): AlarmTelling => tellAlarmWith(alarm, tellerFor(reader));

export function tellAlarmWith(alarm: ToldAlarm, teller: Teller): AlarmTelling {
  const {
    words: { alarms },
    hand,
  } = teller;
  const { kind, reason, cautions, raisedMs, clearedMs, acknowledgedMs, acknowledgedBy } = alarm;
  const title = alarms.names[kind];
  return {
    title,
    text: alarms.raised(hand.moment(raisedMs), title, say(alarms.reasons, reason, hand)),
    state: [
      clearedMs === null ? alarms.lasts : alarms.lasted(hand.moment(clearedMs)),
      acknowledgedMs === null
        ? alarms.unacknowledged
        : alarms.acknowledged(hand.moment(acknowledgedMs), acknowledgedBy),
    ].join(" "),
    caution: tellCautions(cautions, teller),
  };
}

/** An alarm as one paragraph with its cautions in full, such as a log or a message carries it. */
export function alarmText(alarm: ToldAlarm, reader: Reader): string {
  const { text, caution } = tellAlarm(alarm, reader);
  const { report } = words(reader.language);
  const careful =
    caution === null
      ? []
      : [...caution.subjects.map((subject) => `${report.cautionAbout(subject.about)} ${subject.text}`), caution.close];
  return plain([text, ...careful].join(" "));
}
