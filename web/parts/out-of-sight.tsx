// What was taken out of sight, to be brought back.

import { useState } from "preact/hooks";
import { sentenceOf } from "../ask.ts";
import { bench } from "../words.ts";

interface OutOfSightProps {
  readonly title: string;
  readonly things: readonly { readonly id: string; readonly name: string }[];
  /** @throws as `ask` */
  readonly restore: (id: string) => Promise<unknown>;
  /** Whether it was brought back or not: what is shown is looked at anew. */
  readonly again: () => void;
}

/** Nothing where nothing is out of sight. */
export function OutOfSight({ title, things, restore, again }: OutOfSightProps) {
  const [problem, setProblem] = useState<string | null>(null);
  if (things.length === 0) return null;
  const bringBack = async (id: string) => {
    try {
      await restore(id);
      setProblem(null);
    } catch (error) {
      setProblem(sentenceOf(error));
    }
    again();
  };
  return (
    <details>
      <summary>{title}</summary>
      <div class="movers">
        {things.map(({ id, name }) => (
          <button type="button" key={id} onClick={() => bringBack(id)}>
            {bench.first.bringBack(name)}
          </button>
        ))}
      </div>
      <p role="alert">{problem}</p>
    </details>
  );
}
