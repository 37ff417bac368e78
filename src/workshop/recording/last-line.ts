// Where an interrupted recording of a board stopped: the line to go on from.

import type { SeriesPart, Store } from "../../store/index.ts";
import type { LastLine } from "./board-arrivals.ts";

/** The last line of the board that the run holds; null when it holds none. */
export async function lastLineOf(
  readings: Pick<Store["readings"], "parts">,
  runId: string,
  boardId: string,
): Promise<LastLine | null> {
  let last: LastLine | null = null;
  for await (const part of readings.parts(runId)) {
    const line = part.boardId === boardId ? lastOfPart(part) : null;
    if (line !== null && (last === null || isLater(line, last))) last = line;
  }
  return last;
}

/** Numbers begin anew with each start of the board: only within one do they tell which line came last. */
const isLater = (line: LastLine, than: LastLine) =>
  line.boot === than.boot ? line.sequence > than.sequence : line.unixMs > than.unixMs;

function lastOfPart({ boardId, boot, unixMs, sequence, uptimeMs, hostUnixMs }: SeriesPart): LastLine | null {
  if (boardId === null || sequence === null || uptimeMs === null || hostUnixMs === null) return null;
  const row = unixMs.length - 1;
  if (row < 0 || !Number.isFinite(sequence[row] + uptimeMs[row] + hostUnixMs[row])) return null;
  return {
    boardId,
    boot,
    sequence: sequence[row],
    uptimeMs: uptimeMs[row],
    unixMs: unixMs[row],
    hostUnixMs: hostUnixMs[row],
  };
}
