// What the workshop says of a run, to be changed: its name, what it is; its end, and out of sight with it.

import { useState } from "preact/hooks";
import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { ask, sentenceOf, useAsked } from "../ask.ts";
import { bench } from "../words.ts";
import { goTo } from "./going.tsx";
import { OutOfSight } from "./out-of-sight.tsx";

type Run = AnswerOf<Operations["GET /api/runs"]>["runs"][number];

/** What a run may be, as the pages offer it. */
export const purposes = [
  "test",
  "known-good",
  "before-service",
  "after-service",
] as const satisfies readonly Run["purpose"][];

interface RunDetailsProps {
  readonly run: Run;
  readonly changed: () => void;
}

export function RunDetails({ run, changed }: RunDetailsProps) {
  const params = { runId: run.id };
  const [name, setName] = useState(run.name);
  const [purpose, setPurpose] = useState(run.purpose);
  const [said, setSaid] = useState<string | null>(null);
  const doing = async (work: () => Promise<unknown>, then: () => void) => {
    try {
      await work();
      then();
    } catch (error) {
      setSaid(sentenceOf(error));
    }
  };
  const keep = (event: SubmitEvent) => {
    event.preventDefault();
    return doing(
      () => ask("PATCH /api/runs/{runId}", { params, body: { name: name.trim(), purpose } }),
      () => {
        setSaid(bench.aboutRun.kept);
        changed();
      },
    );
  };
  const remove = () =>
    doing(
      () => ask("DELETE /api/runs/{runId}", { params }),
      () => goTo({ page: "fridge", fridgeId: run.fridgeId }),
    );
  return (
    <section class="no-print" aria-labelledby="about-run">
      <h2 id="about-run">{bench.aboutRun.title}</h2>
      {run.endedUnixMs === null ? <EndRun run={run} ended={changed} /> : null}
      <details>
        <summary>{bench.aboutRun.change}</summary>
        <form onSubmit={keep}>
          <label class="field">
            {bench.aboutRun.name}
            <input required maxLength={200} value={name} onInput={(event) => setName(event.currentTarget.value)} />
          </label>
          <fieldset class="choice">
            <legend>{bench.bringIn.purpose}</legend>
            {purposes.map((one) => (
              <label key={one}>
                <input type="radio" name="purpose" checked={one === purpose} onChange={() => setPurpose(one)} />
                {bench.fridge.purposes[one]}
              </label>
            ))}
          </fieldset>
          <button type="submit">{bench.details.keep}</button>
        </form>
        <p>
          <button type="button" class="small" onClick={remove}>
            {bench.details.remove}
          </button>{" "}
          <span class="note">{bench.aboutRun.removeNote}</span>
        </p>
      </details>
      <p role="status">{said}</p>
    </section>
  );
}

interface EndRunProps {
  readonly run: Run;
  readonly ended: () => void;
}

/** In two steps: what ends a night's run must not be one slip of the thumb. */
export function EndRun({ run, ended }: EndRunProps) {
  const [problem, setProblem] = useState<string | null>(null);
  const end = async () => {
    try {
      await ask("POST /api/runs/{runId}/end", { params: { runId: run.id } });
      ended();
    } catch (error) {
      setProblem(sentenceOf(error));
    }
  };
  return (
    <details>
      <summary>{bench.aboutRun.end}</summary>
      <p>{bench.aboutRun.endNote}</p>
      <button type="button" onClick={end}>
        {bench.aboutRun.endNow}
      </button>
      <p role="alert">{problem}</p>
    </details>
  );
}

interface RunsOutOfSightProps {
  readonly fridgeId: string;
  readonly broughtBack: () => void;
}

/** Removed runs of a fridge, to be brought back. */
export function RunsOutOfSight({ fridgeId, broughtBack }: RunsOutOfSightProps) {
  const removed = useAsked(`removed runs ${fridgeId}`, () =>
    ask("GET /api/runs", { query: { fridgeId, state: "deleted", limit: 200 } }),
  );
  return (
    <OutOfSight
      title={bench.fridge.runsRemovedTitle}
      things={removed.answer?.runs ?? []}
      restore={(runId) => ask("POST /api/runs/{runId}/restore", { params: { runId } })}
      again={() => {
        removed.again();
        broughtBack();
      }}
    />
  );
}
