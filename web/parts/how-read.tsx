// How a run is read: since when it ran on which source, what is left out, notes. Each change can be taken back, and the
// verdict that follows from it stands beside it.

import { useRef, useState } from "preact/hooks";
import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { type EnergySource, energySources } from "../../src/schema/index.ts";
import { ask, sentenceOf } from "../ask.ts";
import { bench, handFor, names } from "../words.ts";
import { ClockField } from "./clock-field.tsx";
import { useFocusKept } from "./focus-kept.ts";
import { type EditStep, movedEdge } from "./moved-edge.ts";
import type { Span } from "./span.ts";
import { useVerdictChange } from "./verdict-change.ts";

type Run = AnswerOf<Operations["GET /api/runs/{runId}"]>;
type Edits = AnswerOf<Operations["GET /api/runs/{runId}/edits"]>;
type Analysis = AnswerOf<Operations["GET /api/runs/{runId}/verdict"]>;

interface HowReadProps {
  readonly run: Run;
  readonly edits: Edits;
  readonly analysis: Analysis | null;
  /** What the drawing shows now. */
  readonly spanNow: () => Span;
  readonly mayChange: boolean;
  readonly readAnew: () => void;
}

export function HowRead({ run, edits, analysis, spanNow, mayChange, readAnew }: HowReadProps) {
  const [problem, setProblem] = useState<string | null>(null);
  const told = useVerdictChange(analysis);
  const part = useRef<HTMLElement>(null);
  const outcome = useRef<HTMLParagraphElement>(null);
  useFocusKept(part, outcome);
  const params = { runId: run.id };
  const doing = async (work: () => Promise<unknown>) => {
    try {
      told.expect();
      await work();
      setProblem(null);
      readAnew();
    } catch (error) {
      setProblem(sentenceOf(error));
    }
  };
  const make = (body: EditStep) => doing(() => ask("POST /api/runs/{runId}/edits", { params, body }));
  const hand = handFor(run.utcOffsetMinutes);
  return (
    <section class="how-read" aria-labelledby="how-read" ref={part}>
      <h2 id="how-read">{bench.read.title}</h2>
      <p class="no-print">{mayChange ? bench.read.lead : bench.read.leadOwner}</p>
      <Stretches run={run} edits={edits} analysis={analysis} make={mayChange ? make : null} />
      {edits.exclusions.length === 0 ? null : (
        <>
          <h3>{bench.read.leftOut}</h3>
          <ul>
            {edits.exclusions.map(({ number, fromUnixMs, toUnixMs, position, reason }) => (
              <li key={number}>
                {hand.period(fromUnixMs, toUnixMs)},{" "}
                {position === undefined ? bench.read.everyProbe : names.positionNames[position]}
                {reason === undefined ? "" : `: ${reason}`}{" "}
                {mayChange ? (
                  <Remove name={bench.read.takeBackIn} act={() => make({ kind: "remove", number })} />
                ) : null}
              </li>
            ))}
          </ul>
        </>
      )}
      {edits.notes.length === 0 ? null : (
        <>
          <h3>{bench.read.notes}</h3>
          <ul>
            {edits.notes.map(({ number, unixMs, text }) => (
              <li key={number}>
                {hand.moment(unixMs)}: {text}{" "}
                {mayChange ? (
                  <Remove name={bench.read.removeNote} act={() => make({ kind: "remove", number })} />
                ) : null}
              </li>
            ))}
          </ul>
        </>
      )}
      {mayChange ? (
        <>
          <LeaveOut run={run} spanNow={spanNow} make={make} />
          <AddNote run={run} spanNow={spanNow} make={make} />
          <div class="movers">
            <button
              type="button"
              disabled={!edits.canUndo}
              onClick={() => doing(() => ask("POST /api/runs/{runId}/edits/undo", { params }))}
            >
              {bench.read.undo}
            </button>
            <button
              type="button"
              disabled={!edits.canRedo}
              onClick={() => doing(() => ask("POST /api/runs/{runId}/edits/redo", { params }))}
            >
              {bench.read.redo}
            </button>
          </div>
        </>
      ) : null}
      <p role="status" tabIndex={-1} ref={outcome}>
        {told.sentence}
      </p>
      <p role="alert">{problem}</p>
    </section>
  );
}

type Make = (step: EditStep) => Promise<void>;

interface StretchesProps extends Pick<HowReadProps, "run" | "edits" | "analysis"> {
  /** null: only to look at. */
  readonly make: Make | null;
}

function Stretches({ run, edits, analysis, make }: StretchesProps) {
  const stretches: readonly ReadStretch[] = (analysis?.stretches ?? []).map(({ source, start, end, sourceFrom }) => ({
    source,
    fromMs: Date.parse(start),
    toMs: Date.parse(end),
    sourceFrom,
  }));
  return (
    <ul class="stretches">
      {stretches.map((stretch, index) => (
        <li key={stretch.fromMs}>
          {make === null ? (
            <Line stretch={stretch} utcOffsetMinutes={run.utcOffsetMinutes} />
          ) : (
            <details>
              <summary>
                <Line stretch={stretch} utcOffsetMinutes={run.utcOffsetMinutes} />
              </summary>
              <ChangeStretch
                key={`${stretch.fromMs} ${stretch.source}`}
                stretch={stretch}
                before={index === 0 ? null : stretches[index - 1].source}
                utcOffsetMinutes={run.utcOffsetMinutes}
                edits={edits}
                make={make}
              />
            </details>
          )}
        </li>
      ))}
    </ul>
  );
}

interface ReadStretch {
  readonly source: EnergySource | null;
  readonly fromMs: number;
  readonly toMs: number;
  readonly sourceFrom: "told" | "found";
}

function Line({ stretch, utcOffsetMinutes }: { readonly stretch: ReadStretch; readonly utcOffsetMinutes: number }) {
  const { source, fromMs, toMs, sourceFrom } = stretch;
  return (
    <>
      <b>{bench.capital(names.onSource(source))}</b>, {handFor(utcOffsetMinutes).period(fromMs, toMs)}
      {sourceFrom === "found" ? `, ${bench.read.found}` : ""}
    </>
  );
}

interface ChangeStretchProps {
  readonly stretch: ReadStretch;
  readonly before: EnergySource | null;
  readonly utcOffsetMinutes: number;
  readonly edits: Edits;
  readonly make: Make;
}

function ChangeStretch({ stretch, before, utcOffsetMinutes, edits, make }: ChangeStretchProps) {
  const [fromMs, setFromMs] = useState(stretch.fromMs);
  const [source, setSource] = useState<EnergySource>(stretch.source ?? "off");
  const change = (event: Event) => {
    event.preventDefault();
    return make(movedEdge({ stretch, before, marks: edits.sourceMarks }, { fromMs, source }));
  };
  return (
    <form class="row" onSubmit={change}>
      <label class="field">
        {bench.read.ranOn}
        <select value={source} onChange={(event) => setSource(event.currentTarget.value as EnergySource)}>
          {energySources.map((one) => (
            <option key={one} value={one}>
              {names.onSource(one)}
            </option>
          ))}
        </select>
      </label>
      <ClockField label={bench.read.began} unixMs={fromMs} utcOffsetMinutes={utcOffsetMinutes} onChange={setFromMs} />
      <button type="submit">{bench.read.apply}</button>
    </form>
  );
}

interface ByHandProps {
  readonly run: Run;
  readonly spanNow: () => Span;
  readonly make: Make;
}

function LeaveOut({ run, spanNow, make }: ByHandProps) {
  const [{ from, to }, setSpan] = useState(spanNow);
  const [position, setPosition] = useState("");
  const [reason, setReason] = useState("");
  const leave = async (event: Event) => {
    event.preventDefault();
    const found = run.extents.find((extent) => extent.position === position);
    await make({
      kind: "exclusion",
      fromUnixMs: from,
      toUnixMs: to,
      ...(found === undefined ? {} : { position: found.position }),
      ...(reason.trim() === "" ? {} : { reason: reason.trim() }),
    });
    setReason("");
  };
  return (
    <details onToggle={() => setSpan(spanNow())}>
      <summary>{bench.read.leaveOut}</summary>
      <form class="row" onSubmit={leave}>
        <ClockField
          label={bench.read.from}
          unixMs={from}
          utcOffsetMinutes={run.utcOffsetMinutes}
          onChange={(next) => setSpan({ from: next, to })}
        />
        <ClockField
          label={bench.read.to}
          unixMs={to}
          utcOffsetMinutes={run.utcOffsetMinutes}
          onChange={(next) => setSpan({ from, to: next })}
        />
        <label class="field">
          {bench.read.probe}
          <select value={position} onChange={(event) => setPosition(event.currentTarget.value)}>
            <option value="">{bench.read.everyProbe}</option>
            {run.extents.map((extent) => (
              <option key={extent.position} value={extent.position}>
                {names.positionNames[extent.position]}
              </option>
            ))}
          </select>
        </label>
        <label class="field">
          {bench.read.reason}
          <input maxLength={500} value={reason} onInput={(event) => setReason(event.currentTarget.value)} />
        </label>
        <button type="submit">{bench.read.leaveOutNow}</button>
      </form>
      <p class="note">{bench.read.leaveOutNote}</p>
    </details>
  );
}

function AddNote({ run, spanNow, make }: ByHandProps) {
  const [at, setAt] = useState(() => spanNow().from);
  const [text, setText] = useState("");
  const add = async (event: Event) => {
    event.preventDefault();
    await make({ kind: "note", unixMs: at, text: text.trim() });
    setText("");
  };
  return (
    <details onToggle={() => setAt(spanNow().from)}>
      <summary>{bench.read.addNote}</summary>
      <form class="row" onSubmit={add}>
        <ClockField label={bench.read.when} unixMs={at} utcOffsetMinutes={run.utcOffsetMinutes} onChange={setAt} />
        <label class="field wide">
          {bench.read.noteText}
          <textarea
            required
            maxLength={2000}
            rows={3}
            value={text}
            onInput={(event) => setText(event.currentTarget.value)}
          />
        </label>
        <button type="submit">{bench.read.keepNote}</button>
      </form>
    </details>
  );
}

function Remove({ name, act }: { readonly name: string; readonly act: () => Promise<void> }) {
  return (
    <button type="button" class="small" onClick={act}>
      {name}
    </button>
  );
}
