// Alarms, each with its caution: what nobody has seen yet stands out, and can be said to be seen wherever it stands.

import type { ComponentChildren } from "preact";
import { useRef } from "preact/hooks";
import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { ask, useAsked } from "../ask.ts";
import { useKept } from "../kept-value.ts";
import { useLive } from "../live.ts";
import { mayChange } from "../role.ts";
import { bench } from "../words.ts";
import { useAttempt } from "./attempt.ts";
import { Caution } from "./caution.tsx";
import { useFocusKept } from "./focus-kept.ts";
import { Go } from "./going.tsx";

type ToldAlarm = AnswerOf<Operations["GET /api/runs/{runId}/now"]>["alarms"][number];
type WaitingAlarm = AnswerOf<Operations["GET /api/alarms"]>["alarms"][number];

/** All alarms that nobody has seen yet. */
export function useWaitingAlarms(): { readonly alarms: readonly WaitingAlarm[]; readonly again: () => void } {
  const { answer, again } = useAsked("waiting alarms", () =>
    ask("GET /api/alarms", { query: { state: "waiting", limit: 200 } }),
  );
  useLive(({ kind }) => {
    if (kind === "alarm" || kind === "missed" || kind === "run") again();
  });
  return { alarms: answer?.alarms ?? [], again };
}

interface WaitingAlarmsProps {
  readonly alarms: readonly WaitingAlarm[];
  readonly again: () => void;
}

/** Alarms of one fridge beside what else is told of it, each with the way to its run. */
export function WaitingAlarms({ alarms, again }: WaitingAlarmsProps) {
  const part = useRef<HTMLDivElement>(null);
  useFocusKept(part, part);
  return (
    <div ref={part} tabIndex={-1}>
      {alarms.map(({ id, runId, text, state, caution }) => (
        <Alarm key={id} alarm={{ id, isWaiting: true, text, state, caution }} again={again}>
          <p>
            <Go to={{ page: "run", runId }}>{bench.now.alarmOf}</Go>
          </p>
        </Alarm>
      ))}
    </div>
  );
}

interface AlarmProps {
  readonly alarm: ToldAlarm;
  readonly again: () => void;
  readonly children?: ComponentChildren;
}

export function Alarm({ alarm, again, children }: AlarmProps) {
  const isChanging = useKept(mayChange);
  const { problem, attempt } = useAttempt();
  const acknowledge = async () => {
    await attempt(() => ask("POST /api/alarms/{alarmId}/acknowledge", { params: { alarmId: alarm.id } }));
    again();
  };
  return (
    <div class={`alarm ${alarm.isWaiting ? "waiting" : ""}`} role={alarm.isWaiting ? "alert" : undefined}>
      <p>
        <b>{alarm.isWaiting ? bench.now.alarm : bench.now.seenAlarm}</b> {alarm.text} {alarm.state}
      </p>
      <Caution caution={alarm.caution} />
      {children}
      {alarm.isWaiting && isChanging ? (
        <button type="button" class="main" onClick={acknowledge}>
          {bench.now.acknowledge}
        </button>
      ) : null}
      {problem === null ? null : <p role="alert">{problem}</p>}
    </div>
  );
}
