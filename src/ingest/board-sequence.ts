// Which sequence numbers of a board have come: kept as spans without a gap, so that what is missing between them, and
// what comes a second time, is known however the lines arrive.

import type { LineHead } from "./probe-line.ts";

type NumberedLine = Pick<LineHead, "boardId" | "boot" | "sequence">;

/** Sequence numbers from `first` to `last`, all of them here. */
interface Span {
  first: number;
  last: number;
}

/** More gaps than this in one start of a board are noise; the oldest is then given up and stays missed. */
const mostSpans = 1000;

/** The lines of any number of boards by their numbers. */
export class LineSequence {
  /** By board and start. */
  readonly #spans = new Map<string, Span[]>();
  readonly #knownBoards = new Set<string>();
  #givenUp = 0;

  /** @param lastKept everything up to these lines has come. */
  constructor(lastKept: readonly NumberedLine[]) {
    for (const { boardId, boot, sequence } of lastKept) {
      this.#spans.set(`${boardId} ${boot}`, [{ first: 0, last: sequence }]);
      this.#knownBoards.add(boardId);
    }
  }

  /** How many numbers between the first and the last of each start have not come. */
  get missed(): number {
    const gaps = (spans: readonly Span[]) =>
      spans.reduce((sum, span, i) => sum + (i === 0 ? 0 : span.first - spans[i - 1].last - 1), 0);
    return [...this.#spans.values()].reduce((sum, spans) => sum + gaps(spans), this.#givenUp);
  }

  /** Notes a line that has come, and says whether it had come before and how many just before it are missing. */
  note({ boardId, boot, sequence }: NumberedLine): { isRepeat: boolean; missedBefore: number } {
    const spans = this.#spansOf(boardId, boot);
    // Almost always the last one: lines come in order.
    let after = spans.length;
    while (after > 0 && spans[after - 1].first > sequence) after--;
    const before = spans[after - 1];
    if (before !== undefined && sequence <= before.last) return { isRepeat: true, missedBefore: 0 };
    const missedBefore = before === undefined ? 0 : sequence - before.last - 1;
    const next = spans[after];
    if (before !== undefined && before.last + 1 === sequence) before.last = sequence;
    else spans.splice(after++, 0, { first: sequence, last: sequence });
    const joined = spans[after - 1];
    if (next !== undefined && next.first === joined.last + 1) {
      joined.last = next.last;
      spans.splice(after, 1);
    }
    if (spans.length > mostSpans) this.#giveUpOldestGap(spans);
    return { isRepeat: false, missedBefore };
  }

  /** The spans of one start. Of a board heard before, a new start is awaited from its first line on. */
  #spansOf(boardId: string, boot: number): Span[] {
    const start = `${boardId} ${boot}`;
    const spans = this.#spans.get(start) ?? (this.#knownBoards.has(boardId) ? [{ first: 0, last: 0 }] : []);
    this.#spans.set(start, spans);
    this.#knownBoards.add(boardId);
    return spans;
  }

  #giveUpOldestGap(spans: Span[]): void {
    const [oldest, next] = spans;
    this.#givenUp += next.first - oldest.last - 1;
    next.first = oldest.first;
    spans.shift();
  }
}
