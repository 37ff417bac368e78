// Before and after a service: two runs picked, the change of each source held against the margin, one sentence for the
// customer.

import { ask, useAsked } from "../ask.ts";
import { Go, showAs, useTitle, Way } from "../parts/going.tsx";
import { Parts, useLetter, wholeLetter } from "../parts/letter.tsx";
import { Waiting } from "../parts/waiting.tsx";
import { bench, handFor } from "../words.ts";
import type { Run } from "./fridge-page.tsx";

interface BeforeAndAfterProps {
  readonly fridgeId: string;
  readonly before: string;
  readonly after: string;
}

export function BeforeAndAfter({ fridgeId, before, after }: BeforeAndAfterProps) {
  useTitle(bench.compare.title);
  const fridge = useAsked(`fridge ${fridgeId}`, () => ask("GET /api/fridges/{fridgeId}", { params: { fridgeId } }));
  const runs = useAsked(`closed ${fridgeId}`, () =>
    ask("GET /api/runs", { query: { fridgeId, state: "closed", limit: 200 } }),
  );
  const all = runs.answer?.runs ?? [];
  const guess = guessed(all);
  const pair = {
    before: before === "" ? (guess?.before ?? "") : before,
    after: after === "" ? (guess?.after ?? "") : after,
  };
  const isGuess = guess !== null && !guess.isMarked && pair.before === guess.before && pair.after === guess.after;
  const isPair = pair.before !== "" && pair.after !== "" && pair.before !== pair.after;
  const letter = useAsked(isPair ? `comparison ${pair.before} ${pair.after}` : null, () =>
    ask("GET /api/comparison.html", { query: pair }),
  );
  const parts = useLetter(letter.answer);
  const pick = (which: "before" | "after") => (id: string) =>
    showAs({ page: "before-and-after", fridgeId, ...pair, [which]: id });
  return (
    <>
      <Way fridge={fridge.answer ?? undefined} />
      <h1>{bench.compare.title}</h1>
      {all.length < 2 ? null : <p class="lead no-print">{bench.compare.lead}</p>}
      {runs.answer === null ? <Waiting asked={runs} /> : null}
      {runs.answer !== null && all.length < 2 ? (
        <>
          <p>{bench.compare.tooFew}</p>
          <p>
            <Go to={{ page: "bring-in", fridgeId }}>{bench.fridge.bringIn}</Go>
          </p>
        </>
      ) : null}
      {all.length < 2 ? null : (
        <div class="row">
          <Pick label={bench.compare.before} runs={all} picked={pair.before} onPick={pick("before")} />
          <Pick label={bench.compare.after} runs={all} picked={pair.after} onPick={pick("after")} />
        </div>
      )}
      {pair.before !== "" && pair.before === pair.after ? <p role="alert">{bench.compare.same}</p> : null}
      {isGuess ? <p class="note">{bench.compare.guessed}</p> : null}
      {isPair && parts === null ? <Waiting asked={letter} /> : null}
      {isPair && parts !== null ? (
        <>
          <p class="no-print">
            <Go to={{ page: "service-report", fridgeId, ...pair }}>{bench.run.testReport}</Go> {bench.compare.reportIs}
          </p>
          <Parts parts={wholeLetter(parts)} class="told" />
          <p>
            <Go to={{ page: "run", runId: pair.after }}>{bench.compare.sheet}</Go> {bench.compare.sheetIs}
          </p>
        </>
      ) : null}
    </>
  );
}

interface PickProps {
  readonly label: string;
  readonly runs: readonly Run[];
  readonly picked: string;
  readonly onPick: (id: string) => void;
}

function Pick({ label, runs, picked, onPick }: PickProps) {
  return (
    <label class="field">
      {label}
      <select value={picked} onChange={(event) => onPick(event.currentTarget.value)}>
        <option value="">{bench.compare.pick}</option>
        {runs.map((run) => (
          <option key={run.id} value={run.id}>
            {run.name}, {handFor(run.utcOffsetMinutes).day(run.startedUnixMs)}
          </option>
        ))}
      </select>
    </label>
  );
}

interface Guess {
  readonly before: string;
  readonly after: string;
  /** Whether the later run says that it is after a service. */
  readonly isMarked: boolean;
}

/**
 * The newest run after a service, or where none says so the newest, and the newest before it; none of them known-good. Runs
 * come newest first.
 */
function guessed(runs: readonly Run[]): Guess | null {
  const ofService = runs.filter(({ purpose }) => purpose !== "known-good");
  const marked = ofService.find(({ purpose }) => purpose === "after-service");
  const after = marked ?? ofService.at(0);
  if (after === undefined) return null;
  const earlier = ofService.filter(({ startedUnixMs }) => startedUnixMs < after.startedUnixMs);
  const before = earlier.find(({ purpose }) => purpose === "before-service") ?? earlier[0];
  return before === undefined ? null : { before: before.id, after: after.id, isMarked: marked !== undefined };
}
