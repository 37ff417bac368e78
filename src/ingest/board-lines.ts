// Bytes from a board, in whatever pieces the port hands them over, become lines; and their sequence numbers tell which
// lines never came and which came twice. What one line says is read in probe-line.ts.

import { LineSequence } from "./board-sequence.ts";
import { type LineDamage, type LineHead, longestLine, type ProbeLine, parseProbeLine } from "./probe-line.ts";

/** A line that arrived. */
export type HeardLine =
  | {
      readonly outcome: "good";
      readonly line: ProbeLine;
      /** It was here before: harmless, and not to be stored again. */
      readonly isRepeat: boolean;
      /** How many lines between the one before and this one have not come (a board may still send them again). */
      readonly missedBefore: number;
    }
  /** Of a later version of the format: counted and skipped. */
  | { readonly outcome: "unknown-type"; readonly type: string; readonly head: LineHead; readonly isRepeat: boolean }
  /** `text` is its beginning, with other bytes than printable ASCII shown as `?`. */
  | { readonly outcome: "damaged"; readonly why: LineDamage; readonly text: string };

/** What has come so far. Each line is in one of the first four. */
export interface LineCounts {
  readonly good: number;
  readonly repeated: number;
  readonly unknownType: number;
  readonly damaged: number;
  readonly damagedBy: Readonly<Record<LineDamage, number>>;
  /** Sequence numbers that have not come, damaged lines among them; falls when the board sends them again. */
  readonly missed: number;
}

/** The last line of a board that is safely kept. */
export type LastKept = Pick<LineHead, "boardId" | "boot" | "sequence">;

const lineFeed = 10;
const carriageReturn = 13;
const shownCharacters = 80;

/**
 * Cuts a board's bytes into lines and counts. It holds at most one unfinished line, however long the noise.
 *
 * A line that was cut when listening began is damaged like any other; its readings come back with a `resend`.
 */
export class BoardLines {
  readonly #piece = new Uint8Array(longestLine);
  #length = 0;
  #isTooLong = false;
  readonly #sequence: LineSequence;
  #good = 0;
  #repeated = 0;
  #unknownType = 0;
  readonly #damagedBy = { "not-text": 0, "too-long": 0, "no-checksum": 0, "checksum-differs": 0, fields: 0 };

  /** @param lastKept where an earlier recording of these boards stopped: what came since counts as missed until it comes. */
  constructor(lastKept: readonly LastKept[] = []) {
    this.#sequence = new LineSequence(lastKept);
  }

  /** Takes the next bytes and gives the lines that they complete, in the order they came. */
  push(bytes: Uint8Array): HeardLine[] {
    const lines: HeardLine[] = [];
    for (const byte of bytes) {
      if (byte === lineFeed) {
        const line = this.#finishLine();
        if (line !== null) lines.push(line);
      } else if (this.#length < longestLine) {
        this.#piece[this.#length++] = byte;
      } else {
        this.#isTooLong = true;
      }
    }
    return lines;
  }

  /** The bytes have ended: gives the last line if it lacks its line end, as a file's may, or was cut off. */
  end(): HeardLine[] {
    const line = this.#finishLine();
    return line === null ? [] : [line];
  }

  get counts(): LineCounts {
    const damaged = Object.values(this.#damagedBy).reduce((sum, count) => sum + count, 0);
    return {
      good: this.#good,
      repeated: this.#repeated,
      unknownType: this.#unknownType,
      damaged,
      damagedBy: { ...this.#damagedBy },
      missed: this.#sequence.missed,
    };
  }

  /** Null for an empty line: a board sends one before its hello, so that noise does not swallow it. */
  #finishLine(): HeardLine | null {
    const hasReturn = this.#length > 0 && this.#piece[this.#length - 1] === carriageReturn;
    const text = String.fromCharCode(...this.#piece.subarray(0, this.#length - (hasReturn ? 1 : 0)));
    const isTooLong = this.#isTooLong;
    this.#length = 0;
    this.#isTooLong = false;
    return text === "" ? null : this.#heard(text, isTooLong);
  }

  #heard(text: string, isTooLong: boolean): HeardLine {
    const parsed = isTooLong ? ({ outcome: "damaged", why: "too-long" } as const) : parseProbeLine(text);
    if (parsed.outcome === "damaged") {
      this.#damagedBy[parsed.why]++;
      return { ...parsed, text: text.slice(0, shownCharacters).replace(/[^\x20-\x7e]/g, "?") };
    }
    const { isRepeat, missedBefore } = this.#sequence.note(parsed.outcome === "good" ? parsed.line : parsed.head);
    if (isRepeat) this.#repeated++;
    else if (parsed.outcome === "good") this.#good++;
    else this.#unknownType++;
    return parsed.outcome === "good" ? { ...parsed, isRepeat, missedBefore } : { ...parsed, isRepeat };
  }
}
