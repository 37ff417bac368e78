// A run: the verdict first, the numbers under it, the curves under those, then what the verdict stands on, and how the run
// is read, which may be changed and taken back.

import { useMemo, useRef, useState } from "preact/hooks";
import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { ask, useAsked } from "../ask.ts";
import { useKept } from "../kept-value.ts";
import { useLive } from "../live.ts";
import type { CurveMark, CurveStretch } from "../parts/curve-chart.ts";
import { Exports } from "../parts/exports.tsx";
import { useTitle, Way } from "../parts/going.tsx";
import { HowRead } from "../parts/how-read.tsx";
import { InCelsius, Parts, useLetter } from "../parts/letter.tsx";
import { askEarly, RunCurves, wholeOf } from "../parts/run-curves.tsx";
import type { Span } from "../parts/span.ts";
import { Waiting } from "../parts/waiting.tsx";
import { mayChange } from "../role.ts";
import { bench, handFor, names } from "../words.ts";

export type Analysis = AnswerOf<Operations["GET /api/runs/{runId}/verdict"]>;

export function RunPage({ runId }: { readonly runId: string }) {
  const params = { runId };
  useState(() => askEarly(runId));
  const run = useAsked(`run ${runId}`, () => ask("GET /api/runs/{runId}", { params }));
  // A long run's judgement keeps the service busy: its curve comes first.
  const [isDrawn, setDrawn] = useState(false);
  const judging = isDrawn || (run.answer !== null && run.answer.extents.length === 0);
  const verdict = useAsked(judging ? `verdict ${runId}` : null, () => ask("GET /api/runs/{runId}/verdict", { params }));
  const letter = useAsked(judging ? `letter ${runId}` : null, () =>
    ask("GET /api/runs/{runId}/verdict.html", { params }),
  );
  const edits = useAsked(`edits ${runId}`, () => ask("GET /api/runs/{runId}/edits", { params }));
  const shown = useRef<Span | null>(null);
  const [revision, setRevision] = useState(0);
  const isChanging = useKept(mayChange);
  const parts = useLetter(letter.answer);
  useTitle(run.answer?.name ?? bench.waiting);
  const readAnew = () => {
    for (const asked of [run, verdict, letter, edits]) asked.again();
    setRevision((times) => times + 1);
  };
  useLive((event) => {
    if (event.kind === "missed" || (event.kind === "run-reread" && event.data.runId === runId)) readAnew();
  });
  const stretches = useMemo(() => stretchesOf(verdict.answer), [verdict.answer]);
  const marks = useMemo(() => marksOf(verdict.answer), [verdict.answer]);
  if (run.answer === null) return <Waiting asked={run} />;
  const { name, fridgeId, purpose } = run.answer;
  const whole = wholeOf(run.answer);
  return (
    <>
      <Way fridge={{ id: fridgeId, name: parts?.heading ?? bench.run.fridge }} />
      <h1>{name}</h1>
      <p class="when">{bench.fridge.purposes[purpose]}</p>
      {parts === null ? <Waiting asked={letter} /> : <Parts parts={parts.opening} />}
      {verdict.answer === null ? null : <Numbers analysis={verdict.answer} />}
      {whole === null ? null : (
        <section aria-labelledby="curves">
          <h2 id="curves">{bench.run.curves}</h2>
          <RunCurves
            run={run.answer}
            onSpan={(span) => {
              shown.current = span;
            }}
            onDrawn={() => setDrawn(true)}
            stretches={stretches}
            marks={marks}
            revision={revision}
          />
          {verdict.answer === null ? null : (
            <MarksKey analysis={verdict.answer} utcOffsetMinutes={run.answer.utcOffsetMinutes} />
          )}
        </section>
      )}
      {edits.answer === null || whole === null ? null : (
        <HowRead
          run={run.answer}
          edits={edits.answer}
          analysis={verdict.answer}
          spanNow={() => shown.current ?? whole}
          mayChange={isChanging}
          readAnew={readAnew}
        />
      )}
      {parts === null ? null : <InCelsius />}
      {parts === null ? null : <Parts parts={parts.rest} class="told" />}
      <Exports run={run.answer} />
    </>
  );
}

/** Every source's strength, side by side. */
function Numbers({ analysis }: { readonly analysis: Analysis }) {
  const hand = handFor(0);
  const known = analysis.sources.filter(({ coolingStrength }) => coolingStrength !== null);
  if (known.length === 0) return null;
  return (
    <table>
      <caption>{bench.run.numbersCaption}</caption>
      <thead>
        <tr>
          <th scope="col">{bench.run.source}</th>
          <th scope="col">{bench.run.strength}</th>
          <th scope="col">{bench.run.interval}</th>
        </tr>
      </thead>
      <tbody>
        {known.map(({ source, coolingStrength }) =>
          coolingStrength === null ? null : (
            <tr key={source ?? "unnamed"}>
              <th scope="row">{names.onSource(source)}</th>
              <td>{hand.value(coolingStrength)}</td>
              <td>{hand.interval(coolingStrength)}</td>
            </tr>
          ),
        )}
      </tbody>
    </table>
  );
}

const stretchesOf = (analysis: Analysis | null): readonly CurveStretch[] =>
  (analysis?.stretches ?? []).map(({ source, start, end }) => ({
    fromMs: Date.parse(start),
    toMs: Date.parse(end),
    name: names.onSource(source),
  }));

const marksOf = (analysis: Analysis | null): readonly CurveMark[] =>
  (analysis?.events ?? []).map(({ start }, index) => ({ unixMs: Date.parse(start), letter: letterOf(index) }));

/** A to Z, then AA, AB ..., as the letter names them. */
function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last;
}

interface MarksKeyProps {
  readonly analysis: Analysis;
  readonly utcOffsetMinutes: number;
}

/** What the letters in the drawing stand for, and how many readings were rejected. */
function MarksKey({ analysis: { events, rejected }, utcOffsetMinutes }: MarksKeyProps) {
  const hand = handFor(utcOffsetMinutes);
  return (
    <>
      {events.length === 0 ? null : (
        <ul class="events">
          {events.map(({ kind, start, end }, index) => (
            <li key={`${kind} ${start}`}>
              <span class="letter">{letterOf(index)}</span> {hand.period(Date.parse(start), Date.parse(end))}:{" "}
              {names.eventNames[kind]}
            </li>
          ))}
        </ul>
      )}
      {rejected.map(({ position, reason, readings }) => (
        <p class="note" key={`${position} ${reason}`}>
          {bench.run.rejected(readings, names.positionNames[position], reason)}
        </p>
      ))}
    </>
  );
}
