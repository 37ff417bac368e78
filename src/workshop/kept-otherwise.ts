// Whether a file that the store has already would now be read as it is kept: an answer given wrongly the first time must not
// look as if it were put right.

import { type LogPiece, type LogWay, type LookedOver, readLogFilePieces } from "../ingest/index.ts";
import { type Position, positions, sourceUnsaid } from "../schema/index.ts";
import { placeOf, type Run, type Store } from "../store/index.ts";
import { halfStepKept, LogResolution } from "./log-resolution.ts";

type SeriesName = Position | "source";

interface KeptSeries {
  /** Ascending. */
  readonly unixMs: Float64Array;
  readonly values: Float64Array;
  /** How far another may lie from each and still say the same, as finely as these were written. */
  readonly within: Float64Array;
}

/**
 * Whether the run holds something else than this way of reading the file gives: another instant, column, unit or source.
 * Single readings may differ, where another file of the run, or another row, came first.
 */
export async function isKeptOtherwise(
  store: { readonly runs: Pick<Store["runs"], "files">; readonly readings: Pick<Store["readings"], "parts"> },
  run: Run,
  log: LookedOver,
  way: LogWay,
): Promise<boolean> {
  const kept = await keptSeries(store, run);
  const seen = new Map<SeriesName, Seen>();
  const resolution = new LogResolution(way);
  readLogFilePieces(log, way, (piece) => {
    resolution.see(piece);
    for (const name of [...positions, "source"] as const) {
      const values = columnOf(piece, name);
      const within = name === "source" ? sourceWithin : Math.max(probeWithin, resolution.halfStep(name));
      if (values) seen.set(name, compared(name, within, piece.unixMs, values, kept.get(name), seen.get(name)));
    }
  });
  const isAlone = (await store.runs.files(run.id)).length === 1;
  const isLacking = isAlone && [...kept.keys()].some((name) => (seen.get(name)?.readings ?? 0) === 0);
  const isOther = ({ readings, moved, differing }: Seen) => moved > 0 || differing * 2 > readings;
  return isLacking || [...seen.values()].some(isOther);
}

interface Seen {
  readonly readings: number;
  /** At instants of which nothing is kept. */
  readonly moved: number;
  readonly differing: number;
}

function compared(
  name: SeriesName,
  within: number,
  unixMs: Float64Array,
  values: Float64Array | Uint8Array,
  kept: KeptSeries | undefined,
  before: Seen = { readings: 0, moved: 0, differing: 0 },
): Seen {
  let { readings, moved, differing } = before;
  for (const [row, value] of values.entries()) {
    if (Number.isNaN(value) || (name === "source" && value === sourceUnsaid)) continue;
    const place = kept === undefined ? -1 : placeOf(kept.unixMs, unixMs[row]);
    readings++;
    if (kept === undefined || place < 0) moved++;
    else if (Math.abs(kept.values[place] - value) > Math.max(within, kept.within[place])) differing++;
  }
  return { readings, moved, differing };
}

/** No probe is better than this, K. */
const probeWithin = 0.06;
/** A source is the same or another. */
const sourceWithin = 0.5;

const columnOf = ({ columns, sourceCodes }: LogPiece, name: SeriesName) =>
  name === "source" ? sourceCodes : columns[name];

async function keptSeries(
  { readings }: { readonly readings: Pick<Store["readings"], "parts"> },
  run: Run,
): Promise<ReadonlyMap<SeriesName, KeptSeries>> {
  const found = new Map<SeriesName, (readonly [unixMs: number, value: number, within: number])[]>();
  for await (const { position, unixMs, raw } of readings.parts(run.id)) {
    const kept = found.get(position) ?? [];
    found.set(position, kept);
    const within = position === "source" ? 0 : halfStepKept(raw);
    for (const [i, instant] of unixMs.entries()) kept.push([instant, raw[i], within]);
  }
  return new Map(
    Array.from(found, ([name, kept]) => {
      const ordered = kept.toSorted(([one], [other]) => one - other);
      return [
        name,
        {
          unixMs: Float64Array.from(ordered, ([instant]) => instant),
          values: Float64Array.from(ordered, ([, value]) => value),
          within: Float64Array.from(ordered, ([, , within]) => within),
        },
      ] as const;
    }),
  );
}
