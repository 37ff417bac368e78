// The run sheet, filled in by thumb: large choices, few keys. What is left open stays open, and the report says so.

import { useState } from "preact/hooks";
import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { type HeatSource, heatSources, isElectric, type RunSheet, sheetLimits } from "../../src/schema/index.ts";
import { ask, sentenceOf } from "../ask.ts";
import { typedNumber } from "../typed-number.ts";
import { bench, localOffset, names } from "../words.ts";
import { clockText } from "./clock-field.tsx";
import { goTo } from "./going.tsx";
import { localInstant } from "./local-instant.ts";
import { NumberField } from "./number-field.tsx";

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
  const [typed, setTyped] = useState<Typed>(() => typedBefore(sheet));
  const set = (field: keyof RunSheet, value: RunSheet[keyof RunSheet]) => {
    const { [field]: _, ...others } = sheet;
    setSheet(value === undefined ? others : { ...others, [field]: value });
  };
  const type = (field: TypedField, text: string) => {
    setTyped({ ...typed, [field]: text });
    const value = typedNumber(text, limitsOf(field));
    // While one cannot be used the form is not sent.
    const number = value === null || Number.isNaN(value) ? undefined : value;
    if (!isVolts(field)) return set(field, number);
    const { [field]: _, ...others } = sheet.supplyVolts ?? {};
    const volts = number === undefined ? others : { ...others, [field]: number };
    set("supplyVolts", Object.keys(volts).length === 0 ? undefined : volts);
  };
  const touch = (source: HeatSource, isUntouched: boolean) => {
    const untouched = heatSources.filter((one) =>
      one === source ? isUntouched : sheet.untouchedSources?.includes(one),
    );
    set("untouchedSources", untouched.length === 0 ? undefined : untouched);
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
          <Choice
            key={field}
            field={field}
            answers={Object.entries<string>(bench.sheet.answers[field])}
            said={sheet[field]}
            say={(value) => set(field, value as RunSheet[typeof field])}
          />
        ))}
        {ticked.filter(asks).map((field) => (
          <Choice
            key={field}
            field={field}
            answers={[
              [true, bench.sheet.yes],
              [false, bench.sheet.no],
            ]}
            said={sheet[field]}
            say={(value) => set(field, value)}
          />
        ))}
        <fieldset class="choice">
          <legend>{bench.sheet.fields.untouchedSources}</legend>
          {heatSources.map((source) => (
            <label key={source}>
              <input
                type="checkbox"
                checked={sheet.untouchedSources?.includes(source) ?? false}
                onChange={(event) => touch(source, event.currentTarget.checked)}
              />
              {names.bareSource(source)}
            </label>
          ))}
        </fieldset>
        <div class="row">
          {numbered.filter(asks).map((field) => (
            <NumberField
              key={field}
              label={bench.sheet.fields[field]}
              text={typed[field]}
              limits={limitsOf(field)}
              type={(text) => type(field, text)}
            />
          ))}
          {electricSources
            .filter((source) => sources.includes(source))
            .map((source) => (
              <NumberField
                key={source}
                label={bench.sheet.supplyVolts[source]}
                text={typed[source]}
                limits={limitsOf(source)}
                type={(text) => type(source, text)}
              />
            ))}
          <label class="field">
            {bench.sheet.fields.uprightSince}
            <input
              type="datetime-local"
              defaultValue={sheet.uprightSince === undefined ? "" : clockHere(Date.parse(sheet.uprightSince))}
              onChange={(event) => set("uprightSince", localInstant(event.currentTarget.value) ?? undefined)}
            />
          </label>
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

/** By this device's clock, as the field wants it. */
const clockHere = (unixMs: number) => clockText(unixMs, localOffset(unixMs));

const electricSources = heatSources.filter(isElectric);

type NumberedField = (typeof numbered)[number];
type ElectricSource = (typeof electricSources)[number];
type TypedField = NumberedField | ElectricSource;
/** What stands in the fields for numbers. */
type Typed = Readonly<Record<TypedField, string>>;

const isVolts = (field: TypedField): field is ElectricSource => field === "mains" || field === "dc12";
const limitsOf = (field: TypedField) => (isVolts(field) ? sheetLimits.supplyVolts : sheetLimits[field]);

const typedBefore = (sheet: RunSheet): Typed =>
  Object.fromEntries(
    [...numbered, ...electricSources].map((field) => [
      field,
      `${(isVolts(field) ? sheet.supplyVolts?.[field] : sheet[field]) ?? ""}`,
    ]),
  ) as Record<TypedField, string>;

interface ChoiceProps<Answer> {
  readonly field: (typeof chosen)[number] | (typeof ticked)[number];
  readonly answers: readonly (readonly [Answer, string])[];
  readonly said: Answer | undefined;
  readonly say: (answer: Answer | undefined) => void;
}

/** A few answers, and the one that nothing was said: a slip of the thumb must not stay on the sheet. */
function Choice<Answer extends string | boolean>({ field, answers, said, say }: ChoiceProps<Answer>) {
  return (
    <fieldset class="choice">
      <legend>{bench.sheet.fields[field]}</legend>
      {[...answers, [undefined, bench.sheet.notSaid] as const].map(([answer, name]) => (
        <label key={`${answer}`}>
          <input type="radio" name={field} checked={said === answer} onChange={() => say(answer)} />
          {name}
        </label>
      ))}
    </fieldset>
  );
}
