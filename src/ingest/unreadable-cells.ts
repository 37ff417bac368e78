// Cells that did not become numbers: counted per column and reason, the first of each kept to be shown.

import type { UnreadableCells } from "../schema/index.ts";

type Kind = Pick<UnreadableCells, "position" | "reason">;

/** Counts unreadable cells while a log is read. */
export class UnreadableTally {
  readonly #kinds: { -readonly [K in keyof UnreadableCells]: UnreadableCells[K] }[] = [];

  add(position: Kind["position"], reason: Kind["reason"], line: number, text: string): void {
    const known = this.find(position, reason);
    if (known === undefined) {
      this.#kinds.push({ position, reason, readings: 1, firstLine: line, firstText: showable(text) });
    } else (known as { readings: number }).readings++;
  }

  find(position: Kind["position"], reason: Kind["reason"]): UnreadableCells | undefined {
    return this.#kinds.find((kind) => kind.position === position && kind.reason === reason);
  }

  /** The one met first in the file. */
  first(): UnreadableCells | undefined {
    return this.#kinds.reduce<UnreadableCells | undefined>(
      (first, kind) => (first === undefined || kind.firstLine < first.firstLine ? kind : first),
      undefined,
    );
  }

  list(): readonly UnreadableCells[] {
    return this.#kinds;
  }
}

/** A text from a file, fit for a screen: short, and without characters that could steer a terminal. */
export function showable(text: string): string {
  const plain = text.slice(0, mostShown + 1).replaceAll(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu, "·");
  return plain.length > mostShown ? `${plain.slice(0, mostShown)}…` : plain;
}

const mostShown = 80;
