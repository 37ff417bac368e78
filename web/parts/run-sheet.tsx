// The run sheet of a run: what stands on it, and, folded away, the form that fills it in or corrects it, however long ago the
// run ended. The verdict that follows is told beside it.

import { Fragment } from "preact";
import { useRef, useState } from "preact/hooks";
import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { heatSources } from "../../src/schema/index.ts";
import { ask } from "../ask.ts";
import { bench, handFor } from "../words.ts";
import { RunSheetForm } from "./run-sheet-form.tsx";
import { changedSheet, type SheetChanges } from "./sheet-changes.ts";
import { useVerdictChange } from "./verdict-change.ts";

interface RunSheetPartProps {
  readonly run: AnswerOf<Operations["GET /api/runs/{runId}"]>;
  readonly analysis: AnswerOf<Operations["GET /api/runs/{runId}/verdict"]> | null;
  readonly mayChange: boolean;
  readonly readAnew: () => void;
}

export function RunSheetPart({ run, analysis, mayChange, readAnew }: RunSheetPartProps) {
  const [isOpen, setOpen] = useState(false);
  const [isKept, setKept] = useState(false);
  const told = useVerdictChange(analysis);
  const outcome = useRef<HTMLParagraphElement>(null);
  const keep = async (changes: SheetChanges) => {
    await keepSheet(run.id, changes);
    told.expect();
    readAnew();
    setKept(true);
    setOpen(false);
    // The form is long: folded away it leaves the reader at what became of it.
    requestAnimationFrame(() => outcome.current?.focus());
  };
  const hand = handFor(run.utcOffsetMinutes);
  const { sheet } = run;
  const lines = bench.sheet.lines.flatMap(({ name, value }) => {
    const text = sheet === null ? null : value(sheet, hand);
    return text ? [{ name, text }] : [];
  });
  return (
    <section aria-labelledby="sheet">
      <h2 id="sheet">{bench.sheet.title}</h2>
      <p role="status" tabIndex={-1} ref={outcome}>
        {isKept ? [bench.sheet.kept, told.sentence].join(" ") : null}
      </p>
      {lines.length === 0 ? (
        <p>{bench.sheet.none}</p>
      ) : (
        <dl class="says">
          {lines.map(({ name, text }) => (
            <Fragment key={name}>
              <dt>{name}</dt>
              <dd>{text}</dd>
            </Fragment>
          ))}
        </dl>
      )}
      {mayChange ? (
        <details class="no-print" open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
          <summary>{lines.length === 0 ? bench.sheet.fillIn : bench.sheet.correct}</summary>
          <RunSheetForm
            sheet={sheet}
            sources={heatSources}
            utcOffsetMinutes={run.utcOffsetMinutes}
            button={bench.sheet.keep(run.name)}
            keep={keep}
          />
        </details>
      ) : null}
    </section>
  );
}

/** Keeps what was changed by hand; what others wrote on the sheet meanwhile stays. */
export async function keepSheet(runId: string, changes: SheetChanges): Promise<void> {
  const params = { runId };
  const { sheet } = await ask("GET /api/runs/{runId}", { params });
  await ask("PATCH /api/runs/{runId}", { params, body: { sheet: changedSheet(sheet, changes) } });
}
