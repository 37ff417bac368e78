// What the workshop knows of a fridge, to be changed.

import { useState } from "preact/hooks";
import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { type HeatSource, heatSources } from "../../src/schema/index.ts";
import { ask, sentenceOf } from "../ask.ts";
import { typedNumber } from "../typed-number.ts";
import { bench } from "../words.ts";
import { goTo } from "./going.tsx";
import { NumberField } from "./number-field.tsx";

interface FridgeDetailsProps {
  readonly fridge: AnswerOf<Operations["GET /api/fridges/{fridgeId}"]>;
  readonly changed: () => void;
}

export function FridgeDetails({ fridge, changed }: FridgeDetailsProps) {
  const params = { fridgeId: fridge.id };
  const [said, setSaid] = useState<string | null>(null);
  const [litres, setLitres] = useState(`${fridge.cabinetLitres ?? ""}`);
  const [watts, setWatts] = useState(() => bySource((source) => `${fridge.ratedWatts?.[source] ?? ""}`));
  const keep = async (event: SubmitEvent) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    const text = (name: string) => String(form.get(name) ?? "").trim();
    const rated = heatSources.flatMap((source) => {
      const value = typedNumber(watts[source], above0);
      return value === null ? [] : [[source, value] as const];
    });
    try {
      await ask("PATCH /api/fridges/{fridgeId}", {
        params,
        body: {
          name: text("name"),
          // What was emptied is taken away.
          kind: text("kind") || null,
          notes: text("notes") || null,
          ratedWatts: rated.length === 0 ? null : Object.fromEntries(rated),
          cabinetLitres: typedNumber(litres, above0),
        },
      });
      setSaid(bench.details.kept);
      changed();
    } catch (error) {
      setSaid(sentenceOf(error));
    }
  };
  const remove = async () => {
    try {
      await ask("DELETE /api/fridges/{fridgeId}", { params });
      goTo({ page: "first" });
    } catch (error) {
      setSaid(sentenceOf(error));
    }
  };
  return (
    <section class="no-print" aria-labelledby="details">
      <h2 id="details">{bench.details.title}</h2>
      <details>
        <summary>{bench.details.change}</summary>
        <form class="row" onSubmit={keep}>
          <Field name="name" label={bench.details.name} value={fridge.name} isRequired />
          <Field name="kind" label={bench.details.kind} value={fridge.kind ?? ""} />
          <NumberField label={bench.details.litres} text={litres} limits={above0} type={setLitres} />
          {heatSources.map((source) => (
            <NumberField
              key={source}
              label={bench.details.watts[source]}
              text={watts[source]}
              limits={above0}
              type={(text) => setWatts({ ...watts, [source]: text })}
            />
          ))}
          <label class="field wide">
            {bench.fridge.notes}
            <textarea name="notes" rows={4} maxLength={20_000} defaultValue={fridge.notes ?? ""} />
          </label>
          <button type="submit">{bench.details.keep}</button>
        </form>
        <p>
          <button type="button" class="small" onClick={remove}>
            {bench.details.remove}
          </button>{" "}
          <span class="note">{bench.details.removeNote}</span>
        </p>
        <p role="status">{said}</p>
      </details>
    </section>
  );
}

const above0 = { above: 0 };

const bySource = (of: (source: HeatSource) => string) =>
  Object.fromEntries(heatSources.map((source) => [source, of(source)])) as Record<HeatSource, string>;

interface FieldProps {
  readonly name: string;
  readonly label: string;
  readonly value: string;
  readonly isRequired?: boolean;
}

function Field({ name, label, value, isRequired }: FieldProps) {
  return (
    <label class="field">
      {label}
      <input name={name} defaultValue={value} required={isRequired} maxLength={200} />
    </label>
  );
}
