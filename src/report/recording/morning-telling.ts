// The morning after in words: the analysis' own telling, with what only the recorder knows beside it, in order of time.

import type { Position } from "../../schema/index.ts";
import type { Analysis } from "../../science/index.ts";
import type { ChecklistItem } from "../../science/plan/index.ts";
import { type CheckTelling, tellCautions } from "../advice-telling.ts";
import { type Telling, tellAnalysis } from "../analysis/analysis-telling.ts";
import type { ReportContext } from "../context.ts";
import { type Teller, tellerFor } from "../teller.ts";
import { type AlarmTelling, type ToldAlarm, tellAlarmWith } from "./alarm-telling.ts";

/** What the recorder kept besides readings. */
export interface Night {
  /** The run, as the command line knows it. */
  readonly run: string;
  /** The workshop's name for the fridge; null where nobody named it. */
  readonly fridge: string | null;
  /** When recording ended; null while it goes on. */
  readonly endedMs: number | null;
  /** The newest reading. */
  readonly lastMs: number;
  readonly happenings: readonly Happening[];
  readonly alarms: readonly ToldAlarm[];
  /** Whether anyone watched for alarms: a recorder, or the service over boards of the network; nobody does over a file or a hand. */
  readonly isWatched: boolean;
  /** What nobody ticked before the run: `uncheckedItems`. */
  readonly unchecked: readonly ChecklistItem[];
}

/** Something that is no reading: a restart, missed lines, a clock that was moved. */
export interface Happening {
  /** As the recorder names it, such as "board-restarted". */
  readonly kind: string;
  readonly fromMs: number;
  readonly toMs: number | null;
  readonly position: Position | null;
}

export interface MorningTelling {
  readonly title: string;
  readonly when: string;
  readonly analysis: Telling;
  /** Stretches, events, gaps and what the recorder noted, in order of time. */
  readonly timeline: readonly string[];
  readonly alarms: readonly AlarmTelling[];
  /** In their place where there are none. */
  readonly noAlarms: string;
  readonly unchecked: readonly { readonly text: string; readonly caution: CheckTelling["caution"] }[];
  readonly remarks: readonly string[];
}

/** Of one kind, more than this are told as one line. */
const mostOfAKind = 3;

/** Tells the night. @param analysis of the run's readings. */
export function tellMorning(analysis: Analysis, context: ReportContext, night: Night): MorningTelling {
  const teller = tellerFor(context);
  const { morning, plan } = teller.words;
  const telling = tellAnalysis(analysis, context);
  const timeline = [
    ...stretchEntries(analysis, teller),
    ...analysis.events.map(({ startMs }, i) => ({ startMs, text: telling.events[i] })),
    ...happeningEntries(night.happenings, teller),
  ];
  return {
    title: morning.title(night.fridge),
    when: telling.when,
    analysis: telling,
    timeline: timeline.toSorted((a, b) => a.startMs - b.startMs).map(({ text }) => text),
    alarms: night.alarms.toSorted((a, b) => a.raisedMs - b.raisedMs).map((alarm) => tellAlarmWith(alarm, teller)),
    noAlarms: morning[noAlarmsOf(night)],
    unchecked: night.unchecked.map(({ item, fields, cautions }) => ({
      text: plan.unchecked(plan.checklist[item].title, teller.words.report.list(fields)),
      caution: tellCautions(cautions, teller),
    })),
    remarks: [
      ...(night.endedMs === null ? [morning.goesOn(teller.hand.moment(night.lastMs))] : []),
      morning.fullReport(night.run),
    ],
  };
}

/** A night that nobody watched to its end must not look like a quiet one. */
function noAlarmsOf({ isWatched, happenings }: Night): "noAlarms" | "noAlarmsInPart" | "unwatched" {
  if (!isWatched) return "unwatched";
  return happenings.some(({ kind }) => kind === "unwatched") ? "noAlarmsInPart" : "noAlarms";
}

interface Entry {
  readonly startMs: number;
  readonly text: string;
}

const stretchEntries = ({ stretches }: Analysis, { words: { morning, names }, hand }: Teller): Entry[] =>
  stretches.map(({ startMs, endMs, source, verdict }) => ({
    startMs,
    text: morning.stretch(hand.period(startMs, endMs), source, verdict === null ? null : names.verdictNames[verdict]),
  }));

function happeningEntries(all: readonly Happening[], { words: { morning, names }, hand }: Teller): Entry[] {
  return [...Map.groupBy(all, ({ kind }) => kind)].flatMap(([kind, ofKind]): Entry[] => {
    const startMs = Math.min(...ofKind.map(({ fromMs }) => fromMs));
    const endMs = Math.max(...ofKind.map(({ fromMs, toMs }) => toMs ?? fromMs));
    if (ofKind.length > mostOfAKind) {
      const text = morning.manyHappenings(hand.period(startMs, endMs), kind, hand.count(ofKind.length, morning.times));
      return [{ startMs, text }];
    }
    return ofKind.map(({ fromMs, toMs, position }) => ({
      startMs: fromMs,
      text: morning.happening(
        toMs === null ? hand.moment(fromMs) : hand.period(fromMs, toMs),
        kind,
        position === null ? null : names.positionNames[position],
      ),
    }));
  });
}
