// The run sheet, filled in by thumb: large choices, few keys. What is left open stays open, and the report says so.

import { useState } from "preact/hooks";
import { type HeatSource, heatSources, isElectric, type RunSheet, sheetLimits } from "../../src/schema/index.ts";
import { sentenceOf } from "../ask.ts";
import { typedNumber } from "../typed-number.ts";
import { bench, names } from "../words.ts";
import { localInstant, typedInstant } from "./local-instant.ts";
import { NumberField } from "./number-field.tsx";
import { type SheetChanges, withChanges } from "./sheet-changes.ts";

interface RunSheetFormProps {
  /** As it is kept; what was changed by hand since is the form's own. */
  readonly sheet: RunSheet | null;
  readonly sources: readonly HeatSource[];
  /** Of the clock that moments are typed on; this device's unless stated. */
  readonly utcOffsetMinutes?: number;
  /** What the button says. */
  readonly button: string;
  /** Keeps the changes; what it throws is told, and nothing typed is lost. */
  readonly keep: (changes: SheetChanges) => Promise<void>;
}

/** Fields with a few answers each. */
const chosen = ["setting", "load", "vents", "ventCovers", "flueCap", "fins", "sealPaperTest", "gasKind"] as const;
const ticked = ["sourceChosenByHand", "gasChecked", "fanInside", "fanAtRear", "lampGoesOut"] as const;
const numbered = ["tiltSidewaysDegrees", "tiltLengthwaysDegrees", "gasPressureMbar", "altitudeMetres"] as const;
const written = ["fridge", "dial", "checkedBy"] as const;
const ofGas = new Set<string>(["flueCap", "gasKind", "gasChecked", "gasPressureMbar"]);

export function RunSheetForm({ sheet: kept, sources, utcOffsetMinutes, button, keep }: RunSheetFormProps) {
  const [changes, setChanges] = useState<SheetChanges>({});
  const [typed, setTyped] = useState<Typed>({});
  const [problem, setProblem] = useState<string | null>(null);
  const sheet = withChanges(kept, changes);
  const set = (field: keyof RunSheet, value: RunSheet[keyof RunSheet]) => setChanges({ ...changes, [field]: value });
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
  const asks = (field: string) =>
    // Whose run it is the store knows; a name on the sheet is shown where it can be a wrong one.
    field === "fridge" ? kept?.fridge !== undefined : sources.includes("gas") || !ofGas.has(field);
  const send = async (event: Event) => {
    event.preventDefault();
    try {
      await keep(changes);
      setChanges({});
      setTyped({});
      setProblem(null);
    } catch (error) {
      setProblem(sentenceOf(error));
    }
  };
  return (
    <>
      <p>{bench.sheet.lead}</p>
      <form class="sheet" onSubmit={send}>
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
          <p class="note">{bench.sheet.untouchedNote}</p>
        </fieldset>
        <div class="row">
          {numbered.filter(asks).map((field) => (
            <NumberField
              key={field}
              label={bench.sheet.fields[field]}
              text={typed[field] ?? numberText(sheet[field])}
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
                text={typed[source] ?? numberText(sheet.supplyVolts?.[source])}
                limits={limitsOf(source)}
                type={(text) => type(source, text)}
              />
            ))}
          <label class="field">
            {bench.sheet.fields.uprightSince}
            <input
              type="datetime-local"
              max="9999-12-31T23:59"
              defaultValue={kept?.uprightSince === undefined ? "" : typedInstant(kept.uprightSince, utcOffsetMinutes)}
              onChange={(event) =>
                set("uprightSince", localInstant(event.currentTarget.value, utcOffsetMinutes) ?? undefined)
              }
            />
          </label>
          {written.filter(asks).map((field) => (
            <label class="field" key={field}>
              {bench.sheet.fields[field]}
              <input
                maxLength={500}
                value={sheet[field] ?? ""}
                onInput={(event) => set(field, event.currentTarget.value)}
              />
            </label>
          ))}
          <label class="field wide">
            {bench.sheet.fields.notes}
            <textarea
              rows={3}
              maxLength={2000}
              value={sheet.notes ?? ""}
              onInput={(event) => set("notes", event.currentTarget.value)}
            />
          </label>
        </div>
        <button type="submit" class="main">
          {button}
        </button>
        <p role="alert">{problem}</p>
      </form>
    </>
  );
}

const electricSources = heatSources.filter(isElectric);

type NumberedField = (typeof numbered)[number];
type ElectricSource = (typeof electricSources)[number];
type TypedField = NumberedField | ElectricSource;
/** What was typed into the fields for numbers, read or not. */
type Typed = { readonly [Field in TypedField]?: string };

const isVolts = (field: TypedField): field is ElectricSource => field === "mains" || field === "dc12";
const limitsOf = (field: TypedField) => (isVolts(field) ? sheetLimits.supplyVolts : sheetLimits[field]);

const numberText = (value: number | undefined) => `${value ?? ""}`;

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
