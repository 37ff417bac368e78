// What a probe sends, to be changed: °C, or ohms or millivolts with their curve. What it should then send where it is easily
// checked is told while one types, so that a slip shows at once.

import { useState } from "preact/hooks";
import type { ProbeCurve } from "../../src/schema/index.ts";
import { coldJunctionAt, curveChecks } from "../../src/science/sensors/index.ts";
import { ask, sentenceOf } from "../ask.ts";
import { bench, degreeSign, handFor, shownCelsius, typedCelsius } from "../words.ts";

const kinds = ["celsius", "thermistor-b", "thermistor-steinhart-hart", "pt100", "type-k"] as const;
type Kind = (typeof kinds)[number];

/** What stands in the fields of the kind that is chosen, by their names. */
type Typed = Readonly<Record<string, string>>;

interface ProbeCurveProps {
  readonly probeId: string;
  readonly curve: ProbeCurve | null;
  readonly changed: () => void;
}

export function ProbeCurveForm({ probeId, curve, changed }: ProbeCurveProps) {
  const [kind, setKind] = useState<Kind>(curve?.kind ?? "celsius");
  const [typed, setTyped] = useState<Typed>(() => typedBefore(curve));
  const [said, setSaid] = useState<string | null>(null);
  const meant = curveOf(kind, typed);
  const checks = meant === null ? null : curveChecks(meant);
  const isWhole = kind === "celsius" || checks !== null;
  const isFilled = fields[kind].every(({ name, isOptional }) => isOptional || (typed[name] ?? "").trim() !== "");
  const keep = async (event: SubmitEvent) => {
    event.preventDefault();
    if (!isWhole) return;
    try {
      await ask("PUT /api/probes/{probeId}", { params: { probeId }, body: { curve: meant } });
      setSaid(bench.probes.kept);
      changed();
    } catch (error) {
      setSaid(sentenceOf(error));
    }
  };
  const type = (name: string, value: string) => {
    setTyped({ ...typed, [name]: value });
    setSaid(null);
  };
  return (
    <details>
      <summary>{bench.probes.whatSensor}</summary>
      <form class="row" onSubmit={keep}>
        <label class="field wide">
          {bench.probes.sensor}
          <select
            value={kind}
            onChange={(event) => {
              setKind(kinds[event.currentTarget.selectedIndex]);
              setSaid(null);
            }}
          >
            {kinds.map((one) => (
              <option key={one} value={one}>
                {bench.probes.kinds[one]}
              </option>
            ))}
          </select>
        </label>
        {fields[kind].map((field) => (
          <CurveInput key={field.name} field={field} value={typed[field.name] ?? ""} type={type} />
        ))}
        {kind === "celsius" ? null : (
          <p class="field wide" aria-live="polite">
            {checks !== null
              ? `${bench.probes.shouldSend(checks, handFor(0))} ${bench.probes.holdsForAll}`
              : isFilled
                ? bench.probes.noSuchSensor
                : null}
          </p>
        )}
        <button type="submit" disabled={!isWhole}>
          {bench.probes.keep}
        </button>
      </form>
      <p role="status">{said}</p>
    </details>
  );
}

interface CurveField {
  readonly name: string;
  readonly label: () => string;
  /** Typed freely without. */
  readonly choices?: readonly string[];
  readonly isOptional?: boolean;
}

const fields: { readonly [K in Kind]: readonly CurveField[] } = {
  celsius: [],
  "thermistor-b": [
    { name: "ohmsAt25", label: () => bench.probes.ohmsAt25 },
    { name: "beta", label: () => bench.probes.b },
  ],
  "thermistor-steinhart-hart": ["a", "b", "c"].map((name) => ({
    name,
    label: () => bench.probes.coefficient(name.toUpperCase()),
  })),
  pt100: [{ name: "platinum", label: () => bench.probes.toleranceClass, choices: ["B", "A", "AA", "C"] }],
  "type-k": [
    { name: "couple", label: () => bench.probes.toleranceClass, choices: ["1", "2"] },
    { name: "junction", label: () => bench.probes.coldJunction(degreeSign()), isOptional: true },
  ],
};

interface CurveInputProps {
  readonly field: CurveField;
  readonly value: string;
  readonly type: (name: string, value: string) => void;
}

function CurveInput({ field: { name, label, choices, isOptional }, value, type }: CurveInputProps) {
  return choices === undefined ? (
    <label class="field">
      {label()}
      <input
        inputMode="decimal"
        maxLength={30}
        required={!isOptional}
        value={value}
        onInput={(event) => type(name, event.currentTarget.value)}
      />
    </label>
  ) : (
    <label class="field">
      {label()}
      <select value={value === "" ? choices[0] : value} onChange={(event) => type(name, event.currentTarget.value)}>
        {choices.map((choice) => (
          <option key={choice}>{choice}</option>
        ))}
      </select>
    </label>
  );
}

/** Null for °C, and while what is typed is no curve. */
function curveOf(kind: Kind, typed: Typed): ProbeCurve | null {
  // Coefficients are written with an exponent, as data sheets have them.
  const number = (name: string) => {
    const text = (typed[name] ?? "").trim().replace(",", ".");
    return text === "" ? Number.NaN : Number(text);
  };
  switch (kind) {
    case "celsius":
      return null;
    case "thermistor-b":
      return { kind, curve: { ohmsAt25: number("ohmsAt25"), b: number("beta") } };
    case "thermistor-steinhart-hart":
      return { kind, curve: { a: number("a"), b: number("b"), c: number("c") } };
    case "pt100":
      return { kind, toleranceClass: (typed.platinum ?? "B") as "AA" | "A" | "B" | "C" };
    case "type-k": {
      const text = (typed.junction ?? "").trim();
      const junction = typedCelsius(text);
      if (text !== "" && !(junction !== null && junction >= -40 && junction <= 85)) return null;
      const toleranceClass = typed.couple === "2" ? 2 : 1;
      return { kind, toleranceClass, coldJunction: coldJunctionAt(junction ?? undefined) };
    }
  }
}

function typedBefore(curve: ProbeCurve | null): Typed {
  switch (curve?.kind) {
    case "thermistor-b":
      return { ohmsAt25: `${curve.curve.ohmsAt25}`, beta: `${curve.curve.b}` };
    case "thermistor-steinhart-hart":
      return { a: `${curve.curve.a}`, b: `${curve.curve.b}`, c: `${curve.curve.c}` };
    case "pt100":
      return { platinum: curve.toleranceClass };
    case "type-k": {
      const { celsius } = curve.coldJunction;
      const isTold = JSON.stringify(curve.coldJunction) !== JSON.stringify(coldJunctionAt());
      return { couple: `${curve.toleranceClass}`, junction: isTold ? `${shownCelsius(celsius)}` : "" };
    }
    case undefined:
      return {};
  }
}
