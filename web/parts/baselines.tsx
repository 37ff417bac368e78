// Known-good runs: which are chosen, how far they differ among themselves, and what a new run would be compared with.

import { useState } from "preact/hooks";
import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { ask, sentenceOf, useAsked } from "../ask.ts";
import { useKept } from "../kept-value.ts";
import { mayChange } from "../role.ts";
import { bench, handFor, localOffset, names } from "../words.ts";
import { Go } from "./going.tsx";
import { Scroll } from "./scroll.tsx";

type Analysis = AnswerOf<Operations["GET /api/runs/{runId}/verdict"]>;
type Estimate = NonNullable<Analysis["stretches"][number]["finDifference"]>;
type Run = AnswerOf<Operations["GET /api/runs"]>["runs"][number];

interface BaselinesProps {
  readonly fridgeId: string;
  readonly runs: readonly Run[];
}

export function Baselines({ fridgeId, runs }: BaselinesProps) {
  const asked = useAsked(`baselines ${fridgeId}`, () =>
    ask("GET /api/fridges/{fridgeId}/baselines", { params: { fridgeId } }),
  );
  const isChanging = useKept(mayChange);
  const inUse = asked.answer?.baselines[0];
  const knownGood = runs.filter(({ purpose }) => purpose === "known-good");
  const compared = inUse === undefined ? knownGood : runs.filter(({ id }) => inUse.runIds?.includes(id));
  return (
    <section aria-labelledby="known-good">
      <h2 id="known-good">{bench.baselines.title}</h2>
      <p>{sentence(inUse, compared.length)}</p>
      {inUse === undefined ? null : (
        <p class="note">
          {bench.baselines.chosen(handFor(localOffset(inUse.madeUnixMs)).moment(inUse.madeUnixMs))} {inUse.notes ?? ""}
        </p>
      )}
      <Spread runs={compared} />
      {isChanging && asked.answer !== null ? (
        <Choose
          fridgeId={fridgeId}
          runs={runs}
          chosen={compared.map(({ id }) => id)}
          baselineId={inUse?.id ?? null}
          again={asked.again}
        />
      ) : null}
    </section>
  );
}

type Baseline = AnswerOf<Operations["GET /api/fridges/{fridgeId}/baselines"]>["baselines"][number];

function sentence(inUse: Baseline | undefined, count: number): string {
  if (inUse?.runIds === null) return bench.baselines.ofFile;
  if (inUse?.kind === "kind") return bench.baselines.ofKind(count);
  return count === 0 ? bench.baselines.none : bench.baselines.compared(count, inUse !== undefined);
}

/** Each known-good run's own numbers, so that one that differs from the others is seen. */
function Spread({ runs }: { readonly runs: readonly Run[] }) {
  const asked = useAsked(runs.length === 0 ? null : `spread ${runs.map(({ id }) => id).join()}`, () =>
    Promise.all(
      runs.slice(0, mostShown).map(async (run) => ({
        run,
        analysis: await ask("GET /api/runs/{runId}/verdict", { params: { runId: run.id } }),
      })),
    ),
  );
  if (asked.answer === null) return null;
  const hand = handFor(0);
  const rows = asked.answer.flatMap(({ run, analysis }) =>
    analysis.stretches.filter(({ source }) => source !== "off" && source !== null).map((stretch) => ({ run, stretch })),
  );
  return (
    <details>
      <summary>{bench.baselines.spread}</summary>
      {/* Outside the table: that scrolls sideways on a phone, and a caption of its width would be cut off. */}
      <p class="note" id="spread-is">
        {bench.baselines.spreadCaption}
      </p>
      <Scroll name={bench.baselines.spread}>
        <table aria-describedby="spread-is">
          <thead>
            <tr>
              {bench.baselines.columns.map((column) => (
                <th scope="col" key={column}>
                  {column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ run, stretch }) => (
              <tr key={`${run.id} ${stretch.start}`}>
                <th scope="row">
                  <Go to={{ page: "run", runId: run.id }}>{run.name}</Go>{" "}
                  <span class="interval">{names.onSource(stretch.source)}</span>
                </th>
                {[stretch.fit.initialSlope, stretch.finDifference, stretch.fit.depth].map((estimate, index) => (
                  <td key={bench.baselines.columns[index + 1]}>
                    {estimate === null ? "–" : <Figure estimate={estimate} hand={hand} />}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
    </details>
  );
}

/** The interval stands under its value; the value may part from its unit, so that a phone shows all columns. */
function Figure({ estimate, hand }: { readonly estimate: Estimate; readonly hand: ReturnType<typeof handFor> }) {
  return (
    <>
      {hand.value(estimate).replaceAll("\u00a0", " ")} <span class="interval">{hand.interval(estimate)}</span>
    </>
  );
}

const mostShown = 6;

interface ChooseProps extends BaselinesProps {
  readonly chosen: readonly string[];
  readonly baselineId: string | null;
  readonly again: () => void;
}

function Choose({ fridgeId, runs, chosen, baselineId, again }: ChooseProps) {
  const [picked, setPicked] = useState<readonly string[] | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const now = picked ?? chosen;
  const toggle = (id: string) => setPicked(now.includes(id) ? now.filter((one) => one !== id) : [...now, id]);
  const doing = async (work: () => Promise<unknown>) => {
    try {
      await work();
      setPicked(null);
      setProblem(null);
      again();
    } catch (error) {
      setProblem(sentenceOf(error));
    }
  };
  const choose = (event: Event) => {
    event.preventDefault();
    return doing(() =>
      ask("POST /api/fridges/{fridgeId}/baselines", { params: { fridgeId }, body: { kind: "own", runIds: now } }),
    );
  };
  const closed = runs.filter(({ endedUnixMs }) => endedUnixMs !== null);
  if (closed.length === 0) return null;
  return (
    <details>
      <summary>{bench.baselines.choose}</summary>
      <form onSubmit={choose}>
        <fieldset class="choice column">
          <legend>{bench.baselines.chooseLegend}</legend>
          {closed.map((run) => (
            <label key={run.id}>
              <input type="checkbox" checked={now.includes(run.id)} onChange={() => toggle(run.id)} />
              {run.name} <span class="note">{bench.fridge.purposes[run.purpose]}</span>
            </label>
          ))}
        </fieldset>
        <div class="movers">
          <button type="submit" disabled={now.length === 0}>
            {bench.baselines.take}
          </button>
          {baselineId === null ? null : (
            <button
              type="button"
              onClick={() => doing(() => ask("DELETE /api/baselines/{baselineId}", { params: { baselineId } }))}
            >
              {bench.baselines.forget}
            </button>
          )}
        </div>
        <p role="alert">{problem}</p>
      </form>
    </details>
  );
}
