// What the workshop knows of a fridge, to be changed.

import { useState } from "preact/hooks";
import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { heatSources } from "../../src/schema/index.ts";
import { ask, sentenceOf } from "../ask.ts";
import { bench } from "../words.ts";
import { goTo } from "./going.tsx";

interface FridgeDetailsProps {
  readonly fridge: AnswerOf<Operations["GET /api/fridges/{fridgeId}"]>;
  readonly changed: () => void;
}

export function FridgeDetails({ fridge, changed }: FridgeDetailsProps) {
  const params = { fridgeId: fridge.id };
  const [said, setSaid] = useState<string | null>(null);
  const keep = async (event: SubmitEvent) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    const text = (name: string) => String(form.get(name) ?? "").trim();
    const number = (name: string) => (text(name) === "" ? undefined : Number(text(name).replace(",", ".")));
    const watts = heatSources.flatMap((source) => {
      const value = number(source);
      return value === undefined ? [] : [[source, value] as const];
    });
    try {
      await ask("PATCH /api/fridges/{fridgeId}", {
        params,
        body: {
          name: text("name"),
          ...(text("kind") === "" ? {} : { kind: text("kind") }),
          notes: text("notes"),
          ...(watts.length === 0 ? {} : { ratedWatts: Object.fromEntries(watts) }),
          ...(number("litres") === undefined ? {} : { cabinetLitres: number("litres") }),
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
    <section aria-labelledby="details">
      <h2 id="details">{bench.details.title}</h2>
      <details>
        <summary>{bench.details.change}</summary>
        <form class="row" onSubmit={keep}>
          <Field name="name" label={bench.details.name} value={fridge.name} isRequired />
          <Field name="kind" label={bench.details.kind} value={fridge.kind ?? ""} />
          <Field name="litres" label={bench.details.litres} value={`${fridge.cabinetLitres ?? ""}`} isNumber />
          {heatSources.map((source) => (
            <Field
              key={source}
              name={source}
              label={bench.details.watts[source]}
              value={`${fridge.ratedWatts?.[source] ?? ""}`}
              isNumber
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

interface FieldProps {
  readonly name: string;
  readonly label: string;
  readonly value: string;
  readonly isRequired?: boolean;
  readonly isNumber?: boolean;
}

function Field({ name, label, value, isRequired, isNumber }: FieldProps) {
  return (
    <label class="field">
      {label}
      <input
        name={name}
        defaultValue={value}
        required={isRequired}
        maxLength={200}
        inputMode={isNumber ? "decimal" : undefined}
      />
    </label>
  );
}
