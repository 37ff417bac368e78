// The run sheet, filled in by thumb: large choices, few keys. What is left open stays open, and the report says so.

import { useState } from "preact/hooks";
import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import type { HeatSource, RunSheet } from "../../src/schema/index.ts";
import { ask, sentenceOf } from "../ask.ts";
import { bench, localOffset } from "../words.ts";
import { goTo } from "./going.tsx";

type Run = AnswerOf<Operations["GET /api/runs"]>["runs"][number];

interface RunSheetFormProps {
  readonly fridgeId: string;
  readonly sources: readonly HeatSource[];
  /** The run being recorded; null: keeping the sheet opens one. */
  readonly run: Run | null;
  readonly again: () => void;
}

/** Fields with a few answers each. */
const chosen = ["setting", "load", "vents", "ventCovers", "flueCap", "fins", "sealPaperTest", "gasKind"] as const;
const ticked = ["sourceChosenByHand", "gasChecked", "fanInside", "fanAtRear", "lampGoesOut"] as const;
const numbered = ["tiltSidewaysDegrees", "tiltLengthwaysDegrees", "gasPressureMbar", "altitudeMetres"] as const;
const written = ["dial", "checkedBy", "notes"] as const;
const ofGas = new Set<string>(["flueCap", "gasKind", "gasChecked", "gasPressureMbar"]);

export function RunSheetForm({ fridgeId, sources, run, again }: RunSheetFormProps) {
  const [sheet, setSheet] = useState<RunSheet>(run?.sheet ?? {});
  const [said, setSaid] = useState<string | null>(null);
  const set = (field: keyof RunSheet, value: RunSheet[keyof RunSheet]) => {
    const { [field]: _, ...others } = sheet;
    setSheet(value === undefined ? others : { ...others, [field]: value });
  };
  const asks = (field: string) => sources.includes("gas") || !ofGas.has(field);
  const keep = async (event: Event) => {
    event.preventDefault();
    try {
      if (run === null) {
        await ask("POST /api/runs", {
          body: { fridgeId, purpose: "test", utcOffsetMinutes: localOffset(Date.now()), sheet },
        });
        goTo({ page: "fridge", fridgeId });
      } else {
        await ask("PATCH /api/runs/{runId}", { params: { runId: run.id }, body: { sheet } });
        setSaid(bench.sheet.kept);
        again();
      }
    } catch (error) {
      setSaid(sentenceOf(error));
    }
  };
  return (
    <section class="no-print" aria-labelledby="sheet">
      <h2 id="sheet">{bench.sheet.title}</h2>
      <p>{bench.sheet.lead}</p>
      <form class="sheet" onSubmit={keep}>
        {chosen.filter(asks).map((field) => (
          <fieldset class="choice" key={field}>
            <legend>{bench.sheet.fields[field]}</legend>
            {Object.entries(bench.sheet.answers[field]).map(([value, name]) => (
              <label key={value}>
                <input
                  type="radio"
                  name={field}
                  checked={sheet[field] === value}
                  onChange={() => set(field, value as RunSheet[typeof field])}
                />
                {name}
              </label>
            ))}
          </fieldset>
        ))}
        {ticked.filter(asks).map((field) => (
          <fieldset class="choice" key={field}>
            <legend>{bench.sheet.fields[field]}</legend>
            {[true, false].map((value) => (
              <label key={`${value}`}>
                <input type="radio" name={field} checked={sheet[field] === value} onChange={() => set(field, value)} />
                {value ? bench.sheet.yes : bench.sheet.no}
              </label>
            ))}
          </fieldset>
        ))}
        <div class="row">
          {numbered.filter(asks).map((field) => (
            <label class="field" key={field}>
              {bench.sheet.fields[field]}
              <input
                inputMode="decimal"
                defaultValue={`${sheet[field] ?? ""}`}
                onChange={(event) => {
                  const typed = event.currentTarget.value.trim().replace(",", ".");
                  set(field, typed === "" || !Number.isFinite(Number(typed)) ? undefined : Number(typed));
                }}
              />
            </label>
          ))}
          {written.map((field) => (
            <label class="field" key={field}>
              {bench.sheet.fields[field]}
              <input
                maxLength={500}
                defaultValue={sheet[field] ?? ""}
                onChange={(event) => set(field, event.currentTarget.value.trim() || undefined)}
              />
            </label>
          ))}
        </div>
        <button type="submit" class="main">
          {run === null ? bench.sheet.open : bench.sheet.keep(run.name)}
        </button>
        <p role="status">{said}</p>
      </form>
    </section>
  );
}
