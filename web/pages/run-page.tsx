// A run: the verdict first, its likely causes and what to check next, then the curves and how the run is read, which may be
// changed and taken back, and what the verdict stands on.

import { useMemo, useRef, useState } from "preact/hooks";
import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { ask, useAsked } from "../ask.ts";
import { useKept } from "../kept-value.ts";
import { useLive } from "../live.ts";
import type { CurveCrosses, CurveMark, CurveStretch } from "../parts/curve-chart.ts";
import { Exports } from "../parts/exports.tsx";
import { Go, useTitle, Way } from "../parts/going.tsx";
import { HowRead } from "../parts/how-read.tsx";
import { Parts, useLetter } from "../parts/letter.tsx";
import { RejectedTable } from "../parts/rejected-table.tsx";
import { askEarly, RunCurves, wholeOf } from "../parts/run-curves.tsx";
import { RunDetails } from "../parts/run-details.tsx";
import { RunSheetPart } from "../parts/run-sheet.tsx";
import { Scroll } from "../parts/scroll.tsx";
import type { Span } from "../parts/span.ts";
import { Waiting } from "../parts/waiting.tsx";
import { mayChange } from "../role.ts";
import { bench, handFor, names } from "../words.ts";
import { periodOf } from "./fridge-page.tsx";

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
  const crosses = useMemo(() => rejectedRows(verdict.answer), [verdict.answer]);
  if (run.answer === null) return <Waiting asked={run} />;
  const { name, fridgeId, purpose } = run.answer;
  const whole = wholeOf(run.answer);
  return (
    <>
      <Way fridge={{ id: fridgeId, name: parts?.heading ?? bench.run.fridge }} />
      <h1>{name}</h1>
      <p class="when">
        {bench.capital(bench.fridge.purposes[purpose])}, {periodOf(run.answer)}
      </p>
      <p class="no-print">
        <Go to={{ page: "run-report", runId }}>{bench.run.testReport}</Go> {bench.run.testReportIs}
      </p>
      {parts === null ? <Waiting asked={letter} /> : <Parts parts={parts.opening.filter(isNotWhen)} />}
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
            crosses={crosses}
            revision={revision}
          />
          {verdict.answer === null ? null : (
            <MarksKey events={verdict.answer.events} utcOffsetMinutes={run.answer.utcOffsetMinutes} />
          )}
          {verdict.answer === null ? null : (
            <RejectedTable rejected={verdict.answer.rejected} utcOffsetMinutes={run.answer.utcOffsetMinutes} />
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
      {verdict.answer === null ? null : <Numbers analysis={verdict.answer} />}
      <RunSheetPart
        key={`sheet ${run.answer.id}`}
        run={run.answer}
        analysis={verdict.answer}
        mayChange={isChanging}
        readAnew={readAnew}
      />
      {parts === null ? null : <Parts parts={parts.rest} class="told" />}
      <Exports run={run.answer} />
      {isChanging ? <RunDetails key={run.answer.id} run={run.answer} changed={readAnew} /> : null}
    </>
  );
}

/** When the run was, the page has said already. */
const isNotWhen = (part: Element) => !part.matches(".when");

/** What a verdict stands on, the sources side by side; of each source its longest stretch. */
function Numbers({ analysis }: { readonly analysis: Analysis }) {
  const hand = handFor(0);
  const known = analysis.sources.filter(({ coolingStrength }) => coolingStrength !== null);
  if (known.length === 0) return null;
  const caption = bench.run.numbersCaption([...new Set(known.map(({ baseline }) => names.baselineNames[baseline]))]);
  const { strength, deadTime, fall, fins, to5, unknown } = bench.run.numbers;
  const stretches = known.map((source) => longest(source.stretches.map((index) => analysis.stretches[index])));
  const rows: readonly (readonly [string, readonly (Estimate | null)[]])[] = [
    [strength, known.map(({ coolingStrength }) => coolingStrength)],
    [deadTime, stretches.map(({ fit }) => fit.deadTime)],
    [fall, stretches.map(({ fit }) => fit.initialSlope)],
    [fins, stretches.map(({ finDifference }) => finDifference)],
    [to5(hand.degrees(5)), stretches.map(({ milestones }) => milestones.to5)],
  ];
  return (
    <Scroll name={caption}>
      <table class="numbers side-by-side">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <td />
            {known.map(({ source }) => (
              <th key={source} scope="col">
                {names.onSource(source)}
              </th>
            ))}
          </tr>
        </thead>
        {rows.map(([title, values]) => (
          <tbody key={title}>
            <tr>
              <th scope="row">{title}</th>
              {known.map(({ source }, i) => {
                const value = values[i];
                return (
                  <td key={source} data-label={names.onSource(source)}>
                    {value === null ? (
                      unknown
                    ) : (
                      <>
                        {hand.value(value)} <span class="interval">{hand.interval(value)}</span>
                      </>
                    )}
                  </td>
                );
              })}
            </tr>
          </tbody>
        ))}
      </table>
    </Scroll>
  );
}

type Stretch = Analysis["stretches"][number];
type Estimate = NonNullable<Stretch["finDifference"]>;

const longest = (stretches: readonly Stretch[]): Stretch =>
  stretches.reduce((one, other) => (lengthOf(other) > lengthOf(one) ? other : one));
const lengthOf = ({ start, end }: Stretch) => Date.parse(end) - Date.parse(start);

const stretchesOf = (analysis: Analysis | null): readonly CurveStretch[] =>
  (analysis?.stretches ?? []).map(({ source, start, end }) => ({
    fromMs: Date.parse(start),
    toMs: Date.parse(end),
    name: names.onSource(source),
    isOff: source === "off",
  }));

const marksOf = (analysis: Analysis | null): readonly CurveMark[] =>
  (analysis?.events ?? []).map(({ start }, index) => ({ unixMs: Date.parse(start), letter: letterOf(index) }));

/** Whole rows that were rejected: of no probe, so they are marked at the foot of the drawing. */
const rejectedRows = (analysis: Analysis | null): readonly CurveCrosses[] =>
  (analysis?.rejected ?? []).flatMap(({ position, parts }) => {
    if (position !== "time" || parts.length === 0) return [];
    const unixMs = parts.flatMap(({ start, end }) => [Date.parse(start), ...(start === end ? [] : [Date.parse(end)])]);
    return [{ name: names.positionNames[position], unixMs, values: unixMs.map(() => Number.NaN) }];
  });

/** A to Z, then AA, AB ..., as the letter names them. */
function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last;
}

interface MarksKeyProps extends Pick<Analysis, "events"> {
  readonly utcOffsetMinutes: number;
}

/** What the letters in the drawing stand for. */
function MarksKey({ events, utcOffsetMinutes }: MarksKeyProps) {
  if (events.length === 0) return null;
  const hand = handFor(utcOffsetMinutes);
  return (
    <ul class="events">
      {events.map(({ kind, start, end }, index) => (
        <li key={`${kind} ${start}`}>
          <span class="letter">{letterOf(index)}</span> {hand.period(Date.parse(start), Date.parse(end))}:{" "}
          {names.eventNames[kind]}
        </li>
      ))}
    </ul>
  );
}
