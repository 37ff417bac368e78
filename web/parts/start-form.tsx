// When a log's count began, told by the clock of whoever is asked.

import { useState } from "preact/hooks";
import { bench } from "../words.ts";
import { localInstant } from "./local-instant.ts";

interface StartFormProps {
  /** What was told before, as `tell` was given it. */
  readonly told?: string | undefined;
  /** RFC 3339, with its offset. */
  readonly tell: (startsAt: string) => Promise<void>;
}

export function StartForm({ told = "", tell }: StartFormProps) {
  const [typed, setTyped] = useState(told.slice(0, 19));
  const startsAt = localInstant(typed);
  return (
    <form
      class="row"
      onSubmit={(event) => {
        event.preventDefault();
        return startsAt === null ? undefined : tell(startsAt);
      }}
    >
      <label class="field">
        {bench.bringIn.startsAt}
        <input
          type="datetime-local"
          step={1}
          required
          value={typed}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
      </label>
      <button type="submit">{bench.bringIn.apply}</button>
    </form>
  );
}
