// A log played as if it were recorded now: each reading keeps the log's own instant, only the waiting is shorter.

import { energySources, positions, type Recording, sourceUnsaid } from "../../schema/index.ts";
import type { NewReading } from "../../store/index.ts";
import type { Arrival } from "./arrival.ts";

/** The clock that a replay waits on. Tests hand in one that does not wait. */
export interface ReplayClock {
  now(): number;
  /** Resolves after so many ms, or earlier when recording is to stop. */
  wait(ms: number): Promise<void>;
}

export interface ReplayOptions {
  /** How many times faster than the log; infinite plays it at once. */
  readonly speed: number;
  /** Only rows after this instant, ms since 1970: where an earlier replay stopped. */
  readonly afterUnixMs?: number;
  readonly clock: ReplayClock;
  /** Ends the replay between two rows. */
  readonly signal: AbortSignal;
}

/** So many rows at once at most, so that nothing waits long behind a fast replay. */
const mostRowsAtOnce = 500;
/** Waits shorter than this, ms, are not worth a timer: rows that come due meanwhile go together. */
const shortestWaitMs = 20;

/**
 * Plays a log. Its source column becomes "now on ..." marks; what was told of a log without one does, too.
 *
 * @param log rows in order of time
 */
export async function* replay(log: Recording, options: ReplayOptions): AsyncGenerator<Arrival, void> {
  const { speed, afterUnixMs = Number.NEGATIVE_INFINITY, clock, signal } = options;
  let row = log.unixMs.findIndex((unixMs) => unixMs > afterUnixMs);
  if (row < 0) return;
  const [began, logBegan] = [clock.now(), log.unixMs[row]];
  const dueMs = (index: number) => began + (log.unixMs[index] - logBegan) / speed;
  const codeAt = sourceCodeAt(log);
  let code = codeBefore(codeAt, row);
  while (row < log.unixMs.length && !signal.aborted) {
    const wait = dueMs(row) - clock.now();
    if (wait > 0) await clock.wait(Math.max(wait, shortestWaitMs));
    if (signal.aborted) return;
    const now = clock.now();
    const readings: NewReading[] = [];
    for (let taken = 0; row < log.unixMs.length && taken < mostRowsAtOnce && dueMs(row) <= now; taken++, row++) {
      const next = codeAt(row);
      if (next !== code && next !== sourceUnsaid) {
        if (readings.length > 0) yield { kind: "readings", readings: readings.splice(0) };
        yield { kind: "source", unixMs: log.unixMs[row], source: energySources[next - 1] };
      }
      if (next !== sourceUnsaid) code = next;
      readings.push(...readingsOf(log, row));
    }
    if (readings.length > 0) yield { kind: "readings", readings };
  }
}

/** The code that a row says; by the marks, as everywhere, only where no column does. */
function sourceCodeAt({ unixMs, sourceCodes, sourceMarks }: Recording): (row: number) => number {
  if (sourceCodes !== null) return (row) => sourceCodes[row];
  const marks = sourceMarks.toSorted((one, other) => one.unixMs - other.unixMs);
  return (row) => {
    const mark = marks.findLast((one) => one.unixMs <= unixMs[row]);
    return mark === undefined ? sourceUnsaid : energySources.indexOf(mark.source) + 1;
  };
}

/** The source that was on as the rows before ended; unsaid at the log's beginning. */
function codeBefore(codeAt: (row: number) => number, row: number): number {
  for (let before = row - 1; before >= 0; before--) {
    const code = codeAt(before);
    if (code !== sourceUnsaid) return code;
  }
  return sourceUnsaid;
}

function readingsOf({ unixMs, columns }: Recording, row: number): NewReading[] {
  return positions.flatMap((position) => {
    const raw = columns[position]?.[row] ?? Number.NaN;
    return Number.isFinite(raw) ? [{ position, unixMs: unixMs[row], raw }] : [];
  });
}
