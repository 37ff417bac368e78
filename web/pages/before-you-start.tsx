// Before you start: the plan of the night with clock times, and the run sheet, filled in by thumb.

import { useState } from "preact/hooks";
import { type HeatSource, heatSources, msPerHour } from "../../src/schema/index.ts";
import { ask, useAsked } from "../ask.ts";
import { useKept } from "../kept-value.ts";
import { clockMs, clockText } from "../parts/clock-field.tsx";
import { goTo, useTitle, Way } from "../parts/going.tsx";
import { Parts, useLetter, wholeLetter } from "../parts/letter.tsx";
import { keepSheet } from "../parts/run-sheet.tsx";
import { RunSheetForm } from "../parts/run-sheet-form.tsx";
import { changedSheet, type SheetChanges } from "../parts/sheet-changes.ts";
import { Waiting } from "../parts/waiting.tsx";
import { mayChange } from "../role.ts";
import { bench, localOffset, names } from "../words.ts";
import type { Run } from "./fridge-page.tsx";

export function BeforeYouStart({ fridgeId }: { readonly fridgeId: string }) {
  useTitle(bench.start.title);
  const isChanging = useKept(mayChange);
  const fridge = useAsked(`fridge ${fridgeId}`, () => ask("GET /api/fridges/{fridgeId}", { params: { fridgeId } }));
  const open = useAsked(`open ${fridgeId}`, () =>
    ask("GET /api/runs", { query: { fridgeId, state: "open", limit: 1 } }),
  );
  const [start, setStart] = useState(() => Math.ceil((Date.now() + msPerHour / 2) / msPerHour) * msPerHour);
  const [sources, setSources] = useState<readonly HeatSource[]>(["mains", "gas"]);
  const [isSwitched, setSwitched] = useState(false);
  const utcOffsetMinutes = localOffset(start);
  const plan = useAsked(sources.length === 0 ? null : `plan ${start} ${sources.join()} ${isSwitched}`, () =>
    ask("GET /api/plan.html", {
      query: { start, sources: sources.join(), utcOffsetMinutes, isSwitchedWhileCold: isSwitched },
    }),
  );
  const parts = useLetter(plan.answer);
  const toggle = (source: HeatSource) =>
    setSources(sources.includes(source) ? sources.filter((one) => one !== source) : [...sources, source]);
  return (
    <>
      <Way fridge={fridge.answer ?? undefined} />
      <h1>{bench.start.title}</h1>
      <p class="lead no-print">{bench.start.lead}</p>
      <div class="row no-print">
        <label class="field">
          {bench.start.from}
          <input
            type="datetime-local"
            value={clockText(start, utcOffsetMinutes)}
            onChange={(event) => {
              const typed = clockMs(event.currentTarget.value, utcOffsetMinutes);
              if (typed !== null) setStart(typed);
            }}
          />
        </label>
        <fieldset class="choice">
          <legend>{bench.start.sources}</legend>
          {heatSources.map((source) => (
            <label key={source}>
              <input type="checkbox" checked={sources.includes(source)} onChange={() => toggle(source)} />
              {sources.includes(source)
                ? bench.start.inOrder(names.onSource(source), sources.indexOf(source))
                : names.onSource(source)}
            </label>
          ))}
        </fieldset>
        <fieldset class="choice">
          <legend>{bench.start.pauses}</legend>
          <label>
            <input type="checkbox" checked={isSwitched} onChange={() => setSwitched(!isSwitched)} />
            {bench.start.switched}
          </label>
        </fieldset>
      </div>
      <p class="no-print">
        <button type="button" onClick={() => print()}>
          {bench.start.print}
        </button>
      </p>
      {sources.length === 0 ? (
        <p role="status">{bench.start.noSource}</p>
      ) : parts === null ? (
        <Waiting asked={plan} />
      ) : (
        <Parts parts={wholeLetter(parts)} class="told plan" />
      )}
      {isChanging && open.answer !== null ? (
        <SheetBefore fridgeId={fridgeId} sources={sources} run={open.answer.runs[0] ?? null} again={open.again} />
      ) : null}
    </>
  );
}

interface SheetBeforeProps {
  readonly fridgeId: string;
  readonly sources: readonly HeatSource[];
  /** The run being recorded; null: keeping the sheet opens one. */
  readonly run: Run | null;
  readonly again: () => void;
}

function SheetBefore({ fridgeId, sources, run, again }: SheetBeforeProps) {
  const [said, setSaid] = useState<string | null>(null);
  const open = async (changes: SheetChanges) => {
    const sheet = changedSheet(null, changes);
    const utcOffsetMinutes = localOffset(Date.now());
    await ask("POST /api/runs", { body: { fridgeId, purpose: "test", utcOffsetMinutes, sheet } });
    goTo({ page: "fridge", fridgeId });
  };
  const keepWith = (runId: string) => async (changes: SheetChanges) => {
    await keepSheet(runId, changes);
    setSaid(bench.sheet.kept);
    again();
  };
  return (
    <section class="no-print" aria-labelledby="sheet">
      <h2 id="sheet">{bench.sheet.title}</h2>
      <RunSheetForm
        sheet={run?.sheet ?? null}
        sources={sources}
        utcOffsetMinutes={run?.utcOffsetMinutes}
        button={run === null ? bench.sheet.open : bench.sheet.keep(run.name)}
        keep={run === null ? open : keepWith(run.id)}
      />
      <p role="status">{said}</p>
    </section>
  );
}
