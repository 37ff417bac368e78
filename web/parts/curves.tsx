// Curves with what a reader does to them: pointer, two fingers, keys and large buttons, a line that says what is where, and
// a key that tells the lines apart by pattern.

import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { inks } from "../../src/report/for-pages.ts";
import { useKept } from "../kept-value.ts";
import { degrees, paper } from "../settings.ts";
import { bench, handFor, temperature } from "../words.ts";
import {
  type CurveBand,
  CurveChart,
  type CurveCrosses,
  type CurveLine,
  type CurveMark,
  type CurveStretch,
} from "./curve-chart.ts";
import { moved, nearest, type Span, zoomed } from "./span.ts";

export interface CurvesProps {
  /** What is drawn, for who cannot see it. */
  readonly title: string;
  readonly lines: readonly CurveLine[];
  readonly bands?: readonly CurveBand[];
  readonly stretches?: readonly CurveStretch[];
  readonly marks?: readonly CurveMark[];
  readonly crosses?: readonly CurveCrosses[];
  readonly whole: Span;
  readonly span: Span;
  readonly utcOffsetMinutes: number;
  readonly unit?: "V";
  /** Told when the reader moves or narrows it; left out, it only shows. */
  readonly onSpan?: (span: Span) => void;
  readonly class?: string;
}

export function Curves(props: CurvesProps) {
  const {
    title,
    lines,
    bands = none,
    stretches = none,
    marks = none,
    crosses = none,
    whole,
    span,
    utcOffsetMinutes,
    unit,
    onSpan,
  } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  const chart = useRef<CurveChart | null>(null);
  const [at, setAt] = useState<number | null>(null);
  const shownDegrees = useKept(degrees);
  const shownPaper = useKept(paper);
  const picture = { lines, bands, stretches, marks, crosses, span, utcOffsetMinutes, at, unit };
  useEffect(() => () => chart.current?.close(), []);
  useLayoutEffect(() => {
    if (canvas.current === null) return;
    if (chart.current === null) chart.current = new CurveChart(canvas.current, picture);
    else chart.current.show(picture);
  });
  useLayoutEffect(() => chart.current?.repaint(), [shownDegrees, shownPaper]);
  useEffect(() => {
    const system = matchMedia("(prefers-color-scheme: dark)");
    const repaint = () => chart.current?.repaint();
    const print = () => chart.current?.paintForPrint();
    system.addEventListener("change", repaint);
    addEventListener("beforeprint", print);
    addEventListener("afterprint", repaint);
    return () => {
      system.removeEventListener("change", repaint);
      removeEventListener("beforeprint", print);
      removeEventListener("afterprint", repaint);
    };
  }, []);
  const hands = useHands(chart, { span, whole, onSpan, at, point: setAt });
  const keysOf = onSpan === undefined ? bench.chart.onlyRead : bench.chart.label;
  const said = [sayings(lines, at, utcOffsetMinutes, unit), ...crossed(crosses, at, span, utcOffsetMinutes, unit)].join(
    " ",
  );
  return (
    <div class={`curves ${props.class ?? ""}`}>
      <Key lines={lines} bands={bands} crosses={crosses} />
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: arrows move the drawing, plus and minus narrow it */}
      <section class="plot" tabIndex={0} aria-label={keysOf(title)} {...hands}>
        <canvas ref={canvas} role="img" aria-label={`${title}. ${said}`} />
      </section>
      <p class="reading-line note" aria-live="polite">
        {at === null ? bench.chart.hint : said}
      </p>
      {onSpan === undefined ? null : <Movers span={span} whole={whole} onSpan={onSpan} />}
    </div>
  );
}

const none: readonly never[] = [];

/** What every line shows at an instant; without one, where each ends. */
function sayings(lines: readonly CurveLine[], at: number | null, utcOffsetMinutes: number, unit?: "V"): string {
  const hand = handFor(utcOffsetMinutes);
  const values = lines.flatMap(({ name, unixMs, values: all }) => {
    const i = at === null ? all.length - 1 : nearest(unixMs, at);
    const tooFar = at !== null && i >= 0 && (at < unixMs[0] || at > unixMs[unixMs.length - 1]);
    if (i < 0 || tooFar || !Number.isFinite(all[i])) return [];
    return [`${name} ${written(all[i], hand, unit)}`];
  });
  return bench.chart.readings(at === null ? null : hand.moment(at), values);
}

/** The rejected reading at the pointer; without one, that there are some. */
function crossed(
  crosses: readonly CurveCrosses[],
  at: number | null,
  { from, to }: Span,
  utcOffsetMinutes: number,
  unit?: "V",
): readonly string[] {
  const hand = handFor(utcOffsetMinutes);
  if (at === null) return crosses.length === 0 ? [] : [bench.chart.someRejected];
  return crosses.flatMap(({ name, unixMs, values }) => {
    const i = nearest(unixMs, at);
    if (i < 0 || Math.abs(unixMs[i] - at) > (to - from) * pointedShare) return [];
    const value = Number.isNaN(values[i]) ? null : written(values[i], hand, unit);
    return [bench.chart.rejectedAt(name, hand.moment(unixMs[i]), value)];
  });
}

/** So near the pointer, as a share of what is shown, a cross is meant. */
const pointedShare = 0.008;

const written = (value: number, hand: ReturnType<typeof handFor>, unit?: "V") =>
  unit === undefined ? temperature(value) : hand.quantity(value, unit, 1);

type KeyProps = Required<Pick<CurvesProps, "lines" | "bands" | "crosses">>;

function Key({ lines, bands, crosses }: KeyProps) {
  return (
    <ul class="key">
      {lines.map(({ name, ink }) => (
        <li key={name}>
          <svg viewBox="0 0 34 10" aria-hidden="true">
            <path
              class={`line ink-${ink}`}
              d="M0 5H34"
              stroke-width={inks[ink].width + 0.4}
              stroke-dasharray={inks[ink].dash.join(" ")}
            />
          </svg>
          {name}
        </li>
      ))}
      {crosses.length === 0 ? null : (
        <li>
          <svg viewBox="0 0 34 10" aria-hidden="true">
            <path class="line ink-rejected" d="M13 1L21 9M21 1L13 9" stroke-width="2" />
          </svg>
          {bench.chart.rejected}
        </li>
      )}
      {bands.length === 0 ? null : (
        <li>
          <svg viewBox="0 0 34 10" aria-hidden="true">
            <path class={`area ink-${bands[0].ink}`} d="M0 0H34V10H0Z" />
          </svg>
          {bench.chart.band}
        </li>
      )}
    </ul>
  );
}

interface MoversProps {
  readonly span: Span;
  readonly whole: Span;
  readonly onSpan: (span: Span) => void;
}

function Movers({ span, whole, onSpan }: MoversProps) {
  const middle = (span.from + span.to) / 2;
  const step = (span.to - span.from) / 2;
  const isWhole = span.from <= whole.from && span.to >= whole.to;
  const button = (text: string, next: Span, isIdle = false) => (
    // Not disabled: pressed to its end it would lose the focus.
    <button type="button" aria-disabled={isIdle} onClick={() => isIdle || onSpan(next)}>
      {text}
    </button>
  );
  return (
    <div class="movers">
      {button(bench.chart.closer, zoomed(span, middle, 0.5, whole))}
      {button(bench.chart.wider, zoomed(span, middle, 2, whole), isWhole)}
      {button(bench.chart.earlier, moved(span, -step, whole), span.from <= whole.from)}
      {button(bench.chart.later, moved(span, step, whole), span.to >= whole.to)}
      {button(bench.chart.whole, whole, isWhole)}
    </div>
  );
}

/** So many presses of an arrow key read what is shown from end to end. */
const readSteps = 60;

interface HandsOptions extends Partial<Pick<MoversProps, "onSpan">> {
  readonly span: Span;
  readonly whole: Span;
  /** What is pointed at, if anything. */
  readonly at: number | null;
  readonly point: (at: number | null) => void;
}

/** Pointer, fingers, wheel and keys. */
function useHands(chart: { readonly current: CurveChart | null }, options: HandsOptions) {
  const now = useRef(options);
  now.current = options;
  const fingers = useRef(new Map<number, number>());
  const acrossOf = (event: PointerEvent | WheelEvent) =>
    event.clientX - (event.currentTarget as HTMLElement).getBoundingClientRect().left;
  const instant = (across: number) => chart.current?.instantAt(across) ?? now.current.span.from;
  const turn = (span: Span) => now.current.onSpan?.(span);
  const onPointerMove = (event: PointerEvent) => {
    const across = acrossOf(event);
    const { span, whole, point } = now.current;
    point(instant(across));
    const before = fingers.current.get(event.pointerId);
    if (before === undefined) return;
    const other = [...fingers.current].find(([id]) => id !== event.pointerId)?.[1];
    fingers.current.set(event.pointerId, across);
    if (other === undefined) turn(moved(span, instant(before) - instant(across), whole));
    else turn(zoomed(span, instant(other), Math.abs(before - other) / Math.max(8, Math.abs(across - other)), whole));
  };
  const lift = (event: PointerEvent) => fingers.current.delete(event.pointerId);
  return {
    onPointerDown: (event: PointerEvent) => {
      fingers.current.set(event.pointerId, acrossOf(event));
      (event.currentTarget as HTMLElement).setPointerCapture(event.pointerId);
    },
    onPointerMove,
    onPointerUp: lift,
    onPointerCancel: lift,
    onPointerLeave: () => now.current.point(null),
    onWheel: (event: WheelEvent) => {
      // A wheel that only passes over the drawing scrolls the letter.
      if (now.current.onSpan === undefined || !(event.ctrlKey || event.metaKey)) return;
      event.preventDefault();
      turn(zoomed(now.current.span, instant(acrossOf(event)), event.deltaY > 0 ? 1.25 : 0.8, now.current.whole));
    },
    onKeyDown: (event: KeyboardEvent) => {
      const { span, whole, onSpan, at, point } = now.current;
      const along = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
      if (along !== undefined && (onSpan === undefined || event.shiftKey) && !event.ctrlKey && !event.metaKey) {
        event.preventDefault();
        const from = at ?? (along > 0 ? span.from : span.to);
        return point(Math.min(Math.max(from + (along * (span.to - span.from)) / readSteps, span.from), span.to));
      }
      if (event.key === "Escape") return point(null);
      const step = (span.to - span.from) / 5;
      const middle = (span.from + span.to) / 2;
      const next: { readonly [key: string]: Span | undefined } = {
        ArrowLeft: moved(span, -step, whole),
        ArrowRight: moved(span, step, whole),
        "+": zoomed(span, middle, 0.7, whole),
        "-": zoomed(span, middle, 1.4, whole),
        "0": whole,
      };
      const wanted = next[event.key];
      if (wanted === undefined || event.ctrlKey || event.metaKey) return;
      event.preventDefault();
      turn(wanted);
    },
  };
}
