// What is being recorded now: curves that grow, the fitted curve running ahead, what is proven and what is still awaited,
// the energy source with one large control, alarms.

import { Fragment } from "preact";
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { type EnergySource, energySources } from "../../src/schema/index.ts";
import { ask, sentenceOf, useAsked } from "../ask.ts";
import { useKept } from "../kept-value.ts";
import { useLive } from "../live.ts";
import { mayChange } from "../role.ts";
import { bench, localOffset, names } from "../words.ts";
import { Alarm } from "./alarms.tsx";
import { Caution, type CautionText } from "./caution.tsx";
import type { CurveBand, CurveLine } from "./curve-chart.ts";
import { Curves } from "./curves.tsx";
import { useFocusKept } from "./focus-kept.ts";
import { Go, goTo } from "./going.tsx";
import { type DrawnPosition, drawnPositions, type Growth, growing } from "./growing-curve.ts";
import { EndRun } from "./run-details.tsx";

type Run = AnswerOf<Operations["GET /api/runs"]>["runs"][number];
type RunNow = AnswerOf<Operations["GET /api/runs/{runId}/now"]>;

/** Between two looks at the whole picture, ms; readings come in between. */
const lookEveryMs = 15_000;
/** A picture is old when the readings are so far ahead of it, ms of the run's own time. */
const staleMs = 90_000;
/** How often that is looked at, ms. */
const hastyMs = 2500;

export function RecordedNow({ run }: { readonly run: Run }) {
  const now = useAsked(`now ${run.id}`, () => ask("GET /api/runs/{runId}/now", { params: { runId: run.id } }));
  const growth = useGrowth(run.id);
  const newestMs = useRef(0);
  useLive((event) => {
    if (event.kind === "missed") now.again();
    if (event.kind === "alarm" && event.data.alarm.runId === run.id) now.again();
    if ((event.kind === "source" || event.kind === "run-reread") && event.data.runId === run.id) now.again();
    if (event.kind === "readings" && event.data.runId === run.id)
      newestMs.current = Math.max(newestMs.current, ...event.data.unixMs);
  });
  const asOfMs = now.answer?.asOfUnixMs ?? 0;
  useEffect(() => {
    const regular = setInterval(now.again, lookEveryMs);
    // A replay runs through hours in seconds, and the picture of the first readings is not waited for either.
    const hasty = setInterval(() => newestMs.current - asOfMs > staleMs && now.again(), hastyMs);
    return () => {
      clearInterval(regular);
      clearInterval(hasty);
    };
  }, [now.again, asOfMs]);
  const isChanging = useKept(mayChange);
  const part = useRef<HTMLElement>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  // An alarm that was seen goes, and its button with it.
  useFocusKept(part, heading);
  const { answer } = now;
  return (
    <section class="now" aria-labelledby={`now-${run.id}`} ref={part}>
      <h2 id={`now-${run.id}`} tabIndex={-1} ref={heading}>
        {bench.now.title}
      </h2>
      {answer?.alarms.filter(isWaiting).map((alarm) => (
        <Alarm key={alarm.id} alarm={alarm} again={now.again} />
      ))}
      <div role="status">
        {answer === null ? <p>{now.problem ?? bench.now.awaited}</p> : <p class="lead">{answer.headline}</p>}
      </div>
      {answer === null ? null : <Caution caution={answer.caution} />}
      <NowOn
        fridgeId={run.fridgeId}
        runId={run.id}
        source={answer?.source ?? null}
        isCautioned={(answer?.caution ?? null) !== null}
        since={answer?.since}
        again={now.again}
      />
      <LiveCurves growth={growth} now={answer} run={run} />
      {answer === null ? null : <SoFar now={answer} />}
      {answer?.alarms.some((alarm) => !isWaiting(alarm)) ? (
        <details>
          <summary>{bench.now.seenAlarms}</summary>
          {answer.alarms
            .filter((alarm) => !isWaiting(alarm))
            .map((alarm) => (
              <Alarm key={alarm.id} alarm={alarm} again={now.again} />
            ))}
        </details>
      ) : null}
      <p>
        <Go to={{ page: "run", runId: run.id }}>{bench.now.wholeRun(run.name)}</Go>
      </p>
      {isChanging ? <EndRun run={run} ended={() => goTo({ page: "run", runId: run.id })} /> : null}
    </section>
  );
}

const isWaiting = (alarm: RunNow["alarms"][number]) => alarm.isWaiting;

function SoFar({ now }: { readonly now: RunNow }) {
  return (
    <>
      {now.numbers.length === 0 ? null : (
        <dl class="so-far">
          {now.numbers.map(({ name, text }) => (
            <Fragment key={name}>
              <dt>{name}</dt>
              <dd>{text}</dd>
            </Fragment>
          ))}
        </dl>
      )}
      {now.proofs.length === 0 ? null : (
        <ul class="proofs">
          {now.proofs.map(({ name, state, text }) => (
            <li key={name}>
              <span aria-hidden="true">{bench.now.signs[state]}</span> <b>{bench.capital(name)}</b> {text}.
            </li>
          ))}
        </ul>
      )}
      {now.onsetUnixMs === null && now.proofs.length > 0 ? <p>{bench.now.onsetAwaited}</p> : null}
      {now.until === null ? null : <p>{now.until}</p>}
    </>
  );
}

interface NowOnProps {
  readonly fridgeId: string;
  readonly runId?: string;
  readonly source: EnergySource | null;
  /** Whether the cautions of that source stand on the page already. */
  readonly isCautioned?: boolean;
  readonly since?: string;
  readonly again?: () => void;
}

/** One large control: what the fridge runs on from this instant. It switches nothing; it is told. */
export function NowOn({ fridgeId, runId, source, isCautioned = false, since, again }: NowOnProps) {
  const isChanging = useKept(mayChange);
  const [said, setSaid] = useState<string | null>(null);
  /** What was said last, until the picture of the run has it too. */
  const [noted, setNoted] = useState<{ readonly source: EnergySource; readonly caution: CautionText | null } | null>(
    null,
  );
  const say = async (next: EnergySource) => {
    try {
      const utcOffsetMinutes = localOffset(Date.now());
      // Where nothing is being recorded, a run begins with it.
      const into = runId ?? (await ask("POST /api/runs", { body: { fridgeId, purpose: "test", utcOffsetMinutes } })).id;
      const body = { source: next, runId: into };
      const { caution } = await ask("POST /api/fridges/{fridgeId}/source", { params: { fridgeId }, body });
      setNoted({ source: next, caution });
      setSaid(bench.now.noted(names.onSource(next)));
    } catch (error) {
      setSaid(sentenceOf(error));
    }
    again?.();
  };
  useEffect(() => setNoted(null), [source]);
  return (
    <fieldset class="now-on">
      <legend>
        {bench.now.nowOn} {since === undefined ? null : <span class="note">{since}</span>}
      </legend>
      {isChanging ? (
        <>
          <div class="sources">
            {energySources.map((one) => (
              <button key={one} type="button" aria-pressed={one === (noted?.source ?? source)} onClick={() => say(one)}>
                {bench.now.switchNames[one]}
              </button>
            ))}
          </div>
          <p class="note" role="status">
            {said ?? bench.now.onlyTold}
          </p>
          {noted === null || (isCautioned && noted.source === source) ? null : <Caution caution={noted.caution} />}
        </>
      ) : null}
    </fieldset>
  );
}

/** Readings so far, growing as they come. */
function useGrowth(runId: string): Growth {
  const [growth, setGrowth] = useState<Growth>({});
  const load = async () => {
    const asked = drawnPositions.map((position) =>
      ask("GET /api/runs/{runId}/readings", { params: { runId }, query: { position, points: 1500 } }),
    );
    const curves = await Promise.all(asked);
    setGrowth(Object.fromEntries(curves.map(({ position, unixMs, values }) => [position, { unixMs, values }])));
  };
  const loadQuietly = () => load().catch(() => undefined);
  useEffect(() => {
    void loadQuietly();
  }, [runId]);
  useLive((event) => {
    if (event.kind === "missed" || (event.kind === "run-reread" && event.data.runId === runId)) void loadQuietly();
    if (event.kind !== "readings" || event.data.runId !== runId) return;
    const { position, unixMs, values } = event.data;
    if (drawnPositions.some((one) => one === position))
      setGrowth((before) => growing(before, position as DrawnPosition, unixMs, values));
  });
  return growth;
}

interface LiveCurvesProps {
  readonly growth: Growth;
  readonly now: RunNow | null;
  readonly run: Run;
}

function LiveCurves({ growth, now, run }: LiveCurvesProps) {
  const lines = useMemo<readonly CurveLine[]>(() => {
    const seen = drawnPositions.flatMap((position) => {
      const curve = growth[position];
      return curve === undefined || curve.unixMs.length === 0
        ? []
        : [{ name: names.positionNames[position], ink: position, ...curve }];
    });
    const ahead = now?.ahead ?? null;
    return ahead === null
      ? seen
      : [...seen, { name: bench.now.ahead, ink: "fitted", unixMs: ahead.unixMs, values: ahead.middle }];
  }, [growth, now?.ahead]);
  const bands = useMemo<readonly CurveBand[]>(() => {
    const ahead = now?.ahead ?? null;
    return ahead === null ? [] : [{ ink: "band", unixMs: ahead.unixMs, low: ahead.low, high: ahead.high }];
  }, [now?.ahead]);
  if (lines.length === 0) return null;
  const from = Math.min(...lines.map(({ unixMs }) => unixMs[0]));
  const to = Math.max(from + 10 * 60_000, ...lines.map(({ unixMs }) => unixMs[unixMs.length - 1]));
  const whole = { from, to };
  const marks = now?.onsetUnixMs == null ? [] : [{ unixMs: now.onsetUnixMs, letter: bench.now.onsetMark }];
  return (
    <Curves
      title={bench.now.curvesTitle}
      lines={lines}
      bands={bands}
      marks={marks}
      whole={whole}
      span={whole}
      utcOffsetMinutes={run.utcOffsetMinutes}
    />
  );
}
