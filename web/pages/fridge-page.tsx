// A fridge: its letter. The newest verdict, what is being recorded now, its runs, and what they are compared with.

import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { ask, useAsked } from "../ask.ts";
import { useKept } from "../kept-value.ts";
import { useLive } from "../live.ts";
import { useWaitingAlarms, WaitingAlarms } from "../parts/alarms.tsx";
import { Baselines } from "../parts/baselines.tsx";
import { FridgeDetails } from "../parts/fridge-details.tsx";
import { Go, useTitle, Way } from "../parts/going.tsx";
import { Probes } from "../parts/probes.tsx";
import { NowOn, RecordedNow } from "../parts/recorded-now.tsx";
import { RunsOutOfSight } from "../parts/run-details.tsx";
import { useNewestVerdict, VerdictLines } from "../parts/verdict-line.tsx";
import { Waiting } from "../parts/waiting.tsx";
import { mayChange } from "../role.ts";
import { bench, handFor } from "../words.ts";

export type Run = AnswerOf<Operations["GET /api/runs"]>["runs"][number];

export function FridgePage({ fridgeId }: { readonly fridgeId: string }) {
  const fridge = useAsked(`fridge ${fridgeId}`, () => ask("GET /api/fridges/{fridgeId}", { params: { fridgeId } }));
  const runs = useAsked(`runs ${fridgeId}`, () => ask("GET /api/runs", { query: { fridgeId, limit: 200 } }));
  const verdict = useNewestVerdict(fridgeId);
  const isChanging = useKept(mayChange);
  const waiting = useWaitingAlarms();
  useTitle(fridge.answer?.name ?? bench.waiting);
  useLive((event) => {
    if (event.kind === "missed" || (event.kind === "run" && event.data.run.fridgeId === fridgeId)) {
      runs.again();
      verdict.again();
    }
  });
  /** Those of a run that goes on stand with it. */
  const isOfClosed = (alarm: { readonly fridgeId: string; readonly runId: string }) =>
    alarm.fridgeId === fridgeId &&
    runs.answer?.runs.some(({ id, endedUnixMs }) => id === alarm.runId && endedUnixMs !== null);
  if (fridge.answer === null) return <Waiting asked={fridge} />;
  const { name, kind, notes } = fridge.answer;
  const all = runs.answer?.runs ?? [];
  const open = all.filter(({ endedUnixMs }) => endedUnixMs === null);
  return (
    <>
      <Way />
      <h1>{name}</h1>
      {kind === undefined ? null : <p class="when">{kind}</p>}
      {verdict.answer === null ? (
        <p class="lead">{verdict.problem ?? (verdict.isWaiting ? bench.first.judging : bench.first.notJudged)}</p>
      ) : (
        <>
          <p class="when">{bench.fridge.whose(verdict.answer.run.name, periodOf(verdict.answer.run))}</p>
          <VerdictLines sources={verdict.answer.sources} causes={verdict.answer.causes} />
          <p>
            <Go to={{ page: "run", runId: verdict.answer.run.id }}>{bench.fridge.why}</Go>
          </p>
        </>
      )}
      <WaitingAlarms alarms={waiting.alarms.filter(isOfClosed)} again={waiting.again} />
      {open.map((run) => (
        <RecordedNow key={run.id} run={run} />
      ))}
      {open.length === 0 && isChanging ? <BeginByHand fridgeId={fridgeId} /> : null}
      <section class="no-print" aria-labelledby="next">
        <h2 id="next">{bench.fridge.nextTitle}</h2>
        <ul class="ways">
          <li>
            <Go to={{ page: "before-you-start", fridgeId }}>{bench.fridge.start}</Go> {bench.fridge.startIs}
          </li>
          <li>
            <Go to={{ page: "bring-in", fridgeId }}>{bench.fridge.bringIn}</Go>
            {bench.fridge.bringInIs}
          </li>
          <li>
            <Go to={{ page: "before-and-after", fridgeId, before: "", after: "" }}>{bench.fridge.compare}</Go>{" "}
            {bench.fridge.compareIs}
          </li>
          <li>
            <Go to={{ page: "hot-days", fridgeId }}>{bench.fridge.hotDays}</Go> {bench.fridge.hotDaysIs}
          </li>
        </ul>
      </section>
      <Runs runs={all} />
      {isChanging ? <RunsOutOfSight fridgeId={fridgeId} broughtBack={runs.again} /> : null}
      <Baselines fridgeId={fridgeId} runs={all} />
      <Probes fridgeId={fridgeId} />
      {notes === undefined ? null : (
        <section aria-labelledby="notes">
          <h2 id="notes">{bench.fridge.notes}</h2>
          <p>{notes}</p>
        </section>
      )}
      {isChanging ? <FridgeDetails fridge={fridge.answer} changed={fridge.again} /> : null}
    </>
  );
}

function BeginByHand({ fridgeId }: { readonly fridgeId: string }) {
  return (
    <section class="no-print" aria-labelledby="nothing-now">
      <h2 id="nothing-now">{bench.now.nothingTitle}</h2>
      <p>{bench.now.nothing}</p>
      <details>
        <summary>{bench.now.byHand}</summary>
        <NowOn fridgeId={fridgeId} source={null} />
      </details>
    </section>
  );
}

function Runs({ runs }: { readonly runs: readonly Run[] }) {
  return (
    <section aria-labelledby="runs">
      <h2 id="runs">{bench.fridge.runsTitle}</h2>
      {runs.length === 0 ? <p>{bench.fridge.noRuns}</p> : null}
      <ul class="runs">
        {runs.map((run) => (
          <li key={run.id}>
            <Go to={{ page: "run", runId: run.id }}>{run.name}</Go>{" "}
            <span class="note">
              {bench.fridge.purposes[run.purpose]}, {periodOf(run)}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** "4 June 07:15 to 09:30", or since when it goes on. */
export function periodOf({
  startedUnixMs,
  endedUnixMs,
  utcOffsetMinutes,
}: Pick<Run, "startedUnixMs" | "endedUnixMs" | "utcOffsetMinutes">): string {
  const hand = handFor(utcOffsetMinutes);
  return endedUnixMs === null
    ? bench.fridge.since(hand.moment(startedUnixMs))
    : hand.period(startedUnixMs, endedUnixMs, "with year");
}
