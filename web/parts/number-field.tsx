// A field for a number. What cannot be read stays in it, and what it takes is said beside it: nothing typed is ever dropped
// in silence.

import { useId, useLayoutEffect, useRef, useState } from "preact/hooks";
import { type NumberLimits, typedNumber } from "../typed-number.ts";
import { bench, handFor } from "../words.ts";

interface NumberFieldProps {
  readonly label: string;
  /** What stands in it. */
  readonly text: string;
  readonly limits: NumberLimits;
  readonly type: (text: string) => void;
  /** Called when the reader is done with typing. */
  readonly done?: (text: string) => void;
  /** Unless stated, what the limits are. */
  readonly takes?: string;
  readonly isRequired?: boolean;
}

export function NumberField({ label, text, limits, type, done, takes, isRequired = false }: NumberFieldProps) {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const [isLeft, setLeft] = useState(false);
  const value = typedNumber(text, limits);
  const isWrong = value === null ? isRequired : Number.isNaN(value);
  const sentence = takes ?? takesOf(limits);
  // A form is not sent while one of its fields says that it cannot be used.
  useLayoutEffect(() => input.current?.setCustomValidity(isWrong ? sentence : ""), [isWrong, sentence]);
  const isShown = isWrong && isLeft;
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        ref={input}
        inputMode="decimal"
        maxLength={30}
        value={text}
        aria-invalid={isShown}
        aria-describedby={isShown ? `${id}-takes` : undefined}
        onInput={(event) => type(event.currentTarget.value)}
        onChange={(event) => {
          setLeft(true);
          done?.(event.currentTarget.value);
        }}
        onInvalid={(event) => {
          // The sentence beside the field stays, a browser's own bubble goes.
          event.preventDefault();
          setLeft(true);
          event.currentTarget.form?.querySelector<HTMLElement>("input:invalid")?.focus();
        }}
      />
      {isShown ? (
        <p class="wrong" id={`${id}-takes`} role="alert">
          {sentence}
        </p>
      ) : null}
    </div>
  );
}

function takesOf({ least, above, most }: NumberLimits): string {
  const shown = (value: number) => handFor(0).number(value, Number.isInteger(value) ? 0 : 1);
  if (above !== undefined)
    return most === undefined ? bench.number.above(shown(above)) : bench.number.aboveUpTo(shown(above), shown(most));
  return least === undefined || most === undefined ? bench.number.any : bench.number.between(shown(least), shown(most));
}
