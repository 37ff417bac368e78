// Readings that were set aside: where in time they lie, grouped so that thousands can be listed, and the sentence about them.

import { msPerMinute } from "../schema/index.ts";
import type { Rejection } from "../science/index.ts";
import type { Teller } from "./teller.ts";

/** Readings set aside close to each other. */
export interface RejectedPart {
  readonly fromMs: number;
  readonly toMs: number;
  readonly readings: number;
  /** What they said, °C or V; null where whole rows were set aside. */
  readonly lowest: number | null;
  readonly highest: number | null;
}

/** What lies nearer to each other is one part: ten minutes, as long as a gap in a log must be. */
const togetherMs = 10 * msPerMinute;
/** Or more, so that readings of one sort fall into so many parts at most. */
const mostParts = 100;
/** The sentence names so many parts; the drawing marks them all. */
const namedParts = 3;

/** All readings of one sort, part by part; none where it is not known when they were taken. */
export function rejectedParts({ unixMs, values }: Pick<Rejection, "unixMs" | "values">): readonly RejectedPart[] {
  if (unixMs.length === 0) return [];
  const apartMs = Math.max(togetherMs, (unixMs[unixMs.length - 1] - unixMs[0]) / mostParts);
  const parts: RejectedPart[] = [];
  for (let from = 0, i = 1; i <= unixMs.length; i++) {
    if (i < unixMs.length && unixMs[i] - unixMs[i - 1] < apartMs) continue;
    const said = values.subarray(from, i);
    parts.push({
      fromMs: unixMs[from],
      toMs: unixMs[i - 1],
      readings: i - from,
      lowest: said.length === 0 ? null : said.reduce((a, b) => Math.min(a, b)),
      highest: said.length === 0 ? null : said.reduce((a, b) => Math.max(a, b)),
    });
    from = i;
  }
  return parts;
}

/** How many, of which probe, why, and when. */
export function tellRejected(rejection: Rejection, { words: { report, names }, hand }: Teller): string {
  const { log, position, reason, readings } = rejection;
  const sentence = report.rejected(
    hand.count(readings, report.readings),
    names.positionNames[position],
    log,
    names.rejections[reason],
  );
  const parts = rejectedParts(rejection);
  if (parts.length === 0) return sentence;
  const named = parts.slice(0, namedParts).map(({ fromMs, toMs }) => hand.period(fromMs, toMs));
  const further = parts.length - named.length;
  const last = hand.moment(parts[parts.length - 1].toMs);
  return `${sentence} ${further === 0 ? report.rejectedWhen(named) : report.rejectedWhenMore(named, further, last)}`;
}
