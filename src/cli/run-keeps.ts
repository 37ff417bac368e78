// What was said of a new run, where the readings go into one that is there already: it keeps its own, and that is told.

import type { Run } from "../store/index.ts";
import { type LanguageOptions, wordsFor } from "./language-option.ts";
import type { Terminal } from "./terminal.ts";

/** As the options of a command say it. */
interface OfNewRun extends LanguageOptions {
  readonly name?: string;
  readonly purpose?: Run["purpose"];
  readonly sheet?: string;
}

export function tellWhatRunKeeps(run: Run, { name, purpose, sheet, ...options }: OfNewRun, terminal: Terminal): void {
  const told = wordsFor(options).recording.record.keepsOwn(run.id, {
    name: name === run.name ? null : name,
    purpose: purpose === run.purpose ? null : purpose,
    hasSheet: sheet !== undefined,
  });
  if (told !== "") terminal.tell(`${told}\n`);
}
