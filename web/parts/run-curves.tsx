// The curves of a run, from afar and near: a reduction of the whole first, and a finer one of what the reader narrows down
// to. The service keeps lowest and highest of every short span.

import { useEffect, useMemo, useState } from "preact/hooks";
import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import type { Position } from "../../src/schema/index.ts";
import { ask } from "../ask.ts";
import { bench, names } from "../words.ts";
import type { CurveCrosses, CurveLine, CurveMark, CurveStretch, InkName } from "./curve-chart.ts";
import { Curves } from "./curves.tsx";
import { holds, type Span } from "./span.ts";
import { withGaps } from "./with-gaps.ts";

type Run = AnswerOf<Operations["GET /api/runs/{runId}"]>;
type Curve = AnswerOf<Operations["GET /api/runs/{runId}/readings"]>;

interface Drawn {
  readonly span: Span;
  readonly curves: readonly Curve[];
}

export interface RunCurvesProps {
  readonly run: Run;
  /** Told what is shown, as often as it changes, and what was there first. */
  readonly onSpan: (span: Span) => void;
  /** Told once, when the first curve is there. */
  readonly onDrawn: () => void;
  readonly stretches: readonly CurveStretch[];
  readonly marks: readonly CurveMark[];
  /** Whole rows that were rejected; those of single readings come with the curves. */
  readonly crosses: readonly CurveCrosses[];
  /** Changes when the readings are read anew. */
  readonly revision: number;
}

/** The whole of a run in time; null while it holds nothing. */
export function wholeOf({ extents }: Pick<Run, "extents">): Span | null {
  if (extents.length === 0) return null;
  const from = Math.min(...extents.map(({ firstUnixMs }) => firstUnixMs));
  return { from, to: Math.max(from + 60_000, ...extents.map(({ lastUnixMs }) => lastUnixMs)) };
}

const usual: readonly Position[] = ["cabinet", "evaporator", "ambient"];
const inkOf = (position: Position): InkName =>
  position === "evaporator" || position === "ambient" || position === "cabinet" ? position : "knownGood";
const points = 1200;

/** Whole curves asked for before it was known what the run holds, by run and position; each is used once. */
const askedEarly = new Map<string, Promise<Curve>>();

/** Asks for the usual curves while the rest of the page is still on its way. */
export function askEarly(runId: string): void {
  for (const position of usual) {
    const curve = ask("GET /api/runs/{runId}/readings", { params: { runId }, query: { position, points } });
    // Who takes it sees whether it went well.
    curve.catch(() => undefined);
    askedEarly.set(`${runId} ${position}`, curve);
  }
}

function early(runId: string, position: Position): Promise<Curve> | undefined {
  const key = `${runId} ${position}`;
  const curve = askedEarly.get(key);
  askedEarly.delete(key);
  return curve;
}
/** After the reader stopped moving, ms. */
const restMs = 120;

export function RunCurves({ run, onSpan, onDrawn, stretches, marks, crosses, revision }: RunCurvesProps) {
  const held = run.extents.map(({ position }) => position);
  const [chosen, setChosen] = useState<readonly Position[]>(usual.filter((one) => held.includes(one)));
  const whole = wholeOf(run) ?? { from: run.startedUnixMs, to: run.startedUnixMs + 60_000 };
  const [shown, setShown] = useState<Span | null>(null);
  const span = shown ?? whole;
  const turn = (next: Span) => {
    setShown(next);
    onSpan(next);
  };
  const afar = useDrawn(run.id, chosen, whole, revision);
  useEffect(() => {
    if (afar !== null) onDrawn();
  }, [afar !== null]);
  const isNear = span.to - span.from < 0.8 * (whole.to - whole.from);
  const near = useNear(run.id, chosen, span, whole, isNear, revision);
  const drawn = near !== null && isNear && holds(near.span, span) ? near : afar;
  const lines = useMemo<readonly CurveLine[]>(
    () =>
      (drawn?.curves ?? []).map((curve) => ({
        name: names.positionNames[curve.position],
        ink: inkOf(curve.position),
        ...withGaps(curve),
      })),
    [drawn],
  );
  const rejected = useMemo<readonly CurveCrosses[]>(
    () => [
      ...crosses,
      ...(drawn?.curves ?? []).flatMap((curve) =>
        curve.rejected.readings === 0 ? [] : [{ name: names.positionNames[curve.position], ...curve.rejected }],
      ),
    ],
    [drawn, crosses],
  );
  const isVolts = chosen.length === 1 && chosen[0] === "supply";
  const toggle = (position: Position) => {
    if (position === "supply") return setChosen(isVolts ? usual.filter((one) => held.includes(one)) : ["supply"]);
    const others = chosen.filter((one) => one !== "supply");
    setChosen(others.includes(position) ? others.filter((one) => one !== position) : [...others, position]);
  };
  return (
    <>
      <fieldset class="choice no-print">
        <legend>{bench.run.positions}</legend>
        {held.map((position) => (
          <label key={position}>
            <input type="checkbox" checked={chosen.includes(position)} onChange={() => toggle(position)} />
            {names.positionNames[position]}
          </label>
        ))}
      </fieldset>
      <Curves
        title={bench.run.curvesTitle(run.name)}
        lines={lines}
        stretches={stretches}
        marks={marks}
        crosses={rejected}
        whole={whole}
        span={span}
        onSpan={turn}
        utcOffsetMinutes={run.utcOffsetMinutes}
        unit={isVolts ? "V" : undefined}
        class="tall"
      />
      <p class="note no-print">
        {bench.run.shown(
          drawn?.curves.reduce((sum, { readings }) => sum + readings, 0) ?? 0,
          drawn?.curves.some(({ isReduced }) => isReduced) ?? false,
        )}
      </p>
    </>
  );
}

/** The whole, once. */
function useDrawn(runId: string, positions: readonly Position[], span: Span, revision: number): Drawn | null {
  const [drawn, setDrawn] = useState<Drawn | null>(null);
  useEffect(() => {
    let isWanted = true;
    void fetched(runId, positions, span, null).then((next) => isWanted && next !== null && setDrawn(next));
    return () => {
      isWanted = false;
    };
  }, [runId, positions.join(), span.from, span.to, revision]);
  return drawn;
}

/** What is near, with as much again on either side, so that a small move needs nothing new. */
function useNear(
  runId: string,
  positions: readonly Position[],
  span: Span,
  whole: Span,
  isNear: boolean,
  revision: number,
): Drawn | null {
  const [drawn, setDrawn] = useState<Drawn | null>(null);
  useEffect(() => setDrawn(null), [runId, positions.join(), revision]);
  useEffect(() => {
    const width = span.to - span.from;
    const isFine = drawn !== null && holds(drawn.span, span) && drawn.span.to - drawn.span.from < 4 * width;
    if (!isNear || isFine) return;
    const wide = { from: Math.max(whole.from, span.from - width), to: Math.min(whole.to, span.to + width) };
    const stop = new AbortController();
    const timer = setTimeout(() => {
      void fetched(runId, positions, wide, stop.signal).then((next) => next !== null && setDrawn(next));
    }, restMs);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [runId, positions.join(), span.from, span.to, isNear, drawn, revision]);
  return drawn;
}

/** null where the reader has moved on, or the service is out of reach: what is drawn stays. */
async function fetched(
  runId: string,
  positions: readonly Position[],
  span: Span,
  /** null: the whole is asked for, which may have happened already. */
  signal: AbortSignal | null,
): Promise<Drawn | null> {
  try {
    const asked = positions.map(
      (position) =>
        (signal === null ? early(runId, position) : undefined) ??
        ask("GET /api/runs/{runId}/readings", {
          params: { runId },
          query: { position, from: span.from, to: span.to, points },
          ...(signal === null ? {} : { signal }),
        }),
    );
    return { span, curves: await Promise.all(asked) };
  } catch {
    return null;
  }
}
