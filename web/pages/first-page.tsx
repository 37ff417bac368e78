// The first page: the workshop's fridges, each with its newest verdict. An empty workshop may look at the samples.

import { useState } from "preact/hooks";
import { ask, sentenceOf, useAsked } from "../ask.ts";
import { useKept } from "../kept-value.ts";
import { useLive } from "../live.ts";
import { useWaitingAlarms, WaitingAlarms } from "../parts/alarms.tsx";
import { Go, goTo, useTitle } from "../parts/going.tsx";
import { JobProgress } from "../parts/job-progress.tsx";
import { OutOfSight } from "../parts/out-of-sight.tsx";
import { useNewestVerdict, VerdictLines } from "../parts/verdict-line.tsx";
import { Waiting } from "../parts/waiting.tsx";
import { mayChange } from "../role.ts";
import { bench, handFor } from "../words.ts";

export function FirstPage() {
  useTitle(bench.first.title);
  const fridges = useAsked("fridges", () => ask("GET /api/fridges"));
  const open = useAsked("open runs", () => ask("GET /api/runs", { query: { state: "open", limit: 200 } }));
  const waiting = useWaitingAlarms();
  const isChanging = useKept(mayChange);
  useLive((event) => {
    if (event.kind === "run" || event.kind === "missed") {
      fridges.again();
      open.again();
    }
  });
  if (fridges.answer === null) return <Waiting asked={fridges} title={bench.first.title} />;
  const recorded = new Set(open.answer?.runs.map(({ fridgeId }) => fridgeId));
  const all = fridges.answer.fridges;
  return (
    <>
      <h1>{bench.first.title}</h1>
      {all.length === 0 ? <Empty again={fridges.again} /> : <p class="lead">{bench.first.lead(all.length)}</p>}
      {all.map((fridge) => (
        <section class="fridge" key={fridge.id} aria-labelledby={`fridge-${fridge.id}`}>
          <h2 id={`fridge-${fridge.id}`}>
            <Go to={{ page: "fridge", fridgeId: fridge.id }}>{fridge.name}</Go>
          </h2>
          {recorded.has(fridge.id) ? <p class="recording">{bench.first.recording}</p> : null}
          <WaitingAlarms
            alarms={waiting.alarms.filter(({ fridgeId }) => fridgeId === fridge.id)}
            again={waiting.again}
          />
          <Newest fridgeId={fridge.id} />
        </section>
      ))}
      {isChanging ? <AddFridge isFirst={all.length === 0} /> : null}
      {isChanging ? <FridgesOutOfSight again={fridges.again} /> : null}
    </>
  );
}

function Newest({ fridgeId }: { readonly fridgeId: string }) {
  const { answer, isWaiting, problem, again } = useNewestVerdict(fridgeId);
  useLive((event) => {
    const isOurs = event.kind === "run" && event.data.run.fridgeId === fridgeId && event.data.run.endedUnixMs !== null;
    const isWorkDone = event.kind === "job" && event.data.job.state !== "running";
    if (isOurs || isWorkDone) again();
  });
  if (problem !== null) return <p class="note">{problem}</p>;
  if (answer === null) return <p class="note">{isWaiting ? bench.first.judging : bench.first.notJudged}</p>;
  const { run, sources, causes } = answer;
  return (
    <>
      <p class="when">{bench.fridge.whose(run.name, handFor(run.utcOffsetMinutes).day(run.startedUnixMs))}</p>
      <VerdictLines sources={sources} causes={causes} isBrief />
    </>
  );
}

function Empty({ again }: { readonly again: () => void }) {
  const isChanging = useKept(mayChange);
  const [jobId, setJobId] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const fill = async () => {
    try {
      setJobId((await ask("POST /api/samples")).id);
    } catch (error) {
      setProblem(sentenceOf(error));
    }
  };
  return (
    <>
      <p class="lead">{bench.first.empty}</p>
      <p>{bench.first.samplesAre}</p>
      {isChanging && jobId === null ? (
        <button type="button" class="main" onClick={fill}>
          {bench.first.samples}
        </button>
      ) : null}
      {jobId === null ? null : <JobProgress jobId={jobId} done={again} />}
      <p role="alert">{problem}</p>
    </>
  );
}

/** Removed fridges, to be brought back. */
function FridgesOutOfSight({ again }: { readonly again: () => void }) {
  const removed = useAsked("removed fridges", () => ask("GET /api/fridges", { query: { removed: true } }));
  return (
    <OutOfSight
      title={bench.first.removedTitle}
      things={removed.answer?.fridges ?? []}
      restore={(fridgeId) => ask("POST /api/fridges/{fridgeId}/restore", { params: { fridgeId } })}
      again={() => {
        removed.again();
        again();
      }}
    />
  );
}

function AddFridge({ isFirst }: { readonly isFirst: boolean }) {
  const [name, setName] = useState("");
  const [problem, setProblem] = useState<string | null>(null);
  const add = async (event: Event) => {
    event.preventDefault();
    try {
      const fridge = await ask("POST /api/fridges", { body: { name: name.trim() } });
      goTo({ page: "fridge", fridgeId: fridge.id });
    } catch (error) {
      setProblem(sentenceOf(error));
    }
  };
  return (
    <form class="add no-print" onSubmit={add}>
      <h2>{isFirst ? bench.first.addFirstTitle : bench.first.addTitle}</h2>
      {isFirst ? <p>{bench.first.addFirst}</p> : null}
      <label class="field">
        {bench.first.addName}
        <input required maxLength={200} value={name} onInput={(event) => setName(event.currentTarget.value)} />
      </label>
      <button type="submit">{bench.first.add}</button>
      <p role="alert">{problem}</p>
    </form>
  );
}
