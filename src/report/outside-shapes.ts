// How single values go out: numbers that may be missing, instants, sentences.

import type { EstimateDocument } from "../schema/index.ts";
import type { Answer } from "../science/index.ts";
import { isKnown } from "../science/index.ts";
import type { Teller } from "./teller.ts";
import { plain } from "./terminal/text-layout.ts";
import { say } from "./words/index.ts";

/** Answers under their names; a number that is not known becomes null with `…Reason` beside it. */
export type Outside<Answers> = { [N in keyof Answers & string]: EstimateDocument | null } & {
  [N in keyof Answers & string as `${N}Reason`]?: string;
};

/** Each answer as JSON holds it. */
export function outside<Answers extends { readonly [name: string]: Answer }>(
  answers: Answers,
  { words: { unknowns }, hand }: Teller,
): Outside<Answers> {
  const entries = Object.entries(answers).flatMap(([name, answer]): [string, EstimateDocument | string | null][] =>
    isKnown(answer)
      ? [[name, { ...answer }]]
      : [
          [name, null],
          [`${name}Reason`, plain(say(unknowns, answer.why, hand))],
        ],
  );
  // Object.fromEntries forgets the names, which are exactly those asked for.
  return Object.fromEntries(entries) as Outside<Answers>;
}

/** RFC 3339 in UTC. */
export const instant = (unixMs: number) => new Date(unixMs).toISOString();
