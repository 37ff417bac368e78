// Every rejected reading of a run: when, of which probe, what it said and why it was not believed. What the crosses in the
// drawing mark, for who cannot see them and for who wants to know.

import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { useKept } from "../kept-value.ts";
import { degrees } from "../settings.ts";
import { bench, handFor, names, temperature } from "../words.ts";
import { Scroll } from "./scroll.tsx";

type Rejected = AnswerOf<Operations["GET /api/runs/{runId}/verdict"]>["rejected"];

export interface RejectedTableProps {
  readonly rejected: Rejected;
  readonly utcOffsetMinutes: number;
}

export function RejectedTable({ rejected, utcOffsetMinutes }: RejectedTableProps) {
  useKept(degrees);
  if (rejected.length === 0) return null;
  const words = bench.run.rejected;
  const hand = handFor(utcOffsetMinutes);
  const total = rejected.reduce((sum, { readings }) => sum + readings, 0);
  return (
    <details class="long">
      <summary>{words.summary(total)}</summary>
      <Scroll name={words.caption}>
        <table>
          <caption>{words.caption}</caption>
          <thead>
            <tr>
              {[words.when, words.said, words.why].map((title) => (
                <th key={title} scope="col">
                  {title}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rowsOf(rejected).map(({ position, reason, part, readings }) => (
              <tr key={`${position} ${reason} ${part?.start}`}>
                <th scope="row">
                  {part === null ? words.noInstant : hand.period(Date.parse(part.start), Date.parse(part.end))}
                </th>
                <td>{words.what(names.positionNames[position], readings, said(part, position))}</td>
                <td>{reason}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
    </details>
  );
}

type Part = Rejected[number]["parts"][number];

interface Row extends Pick<Rejected[number], "position" | "reason" | "readings"> {
  /** null where it is not known when they were taken. */
  readonly part: Part | null;
}

const rowsOf = (rejected: Rejected): readonly Row[] =>
  rejected
    .flatMap(({ position, reason, readings, parts }): Row[] =>
      parts.length === 0
        ? [{ position, reason, readings, part: null }]
        : parts.map((part) => ({ position, reason, readings: part.readings, part })),
    )
    .sort((a, b) => (a.part?.start ?? "").localeCompare(b.part?.start ?? ""));

/** null where whole rows were set aside, or nobody knows. */
function said(part: Part | null, position: Rejected[number]["position"]): string | null {
  if (part === null || part.lowest === null || part.highest === null) return null;
  const written = (value: number) => (position === "supply" ? handFor(0).quantity(value, "V", 1) : temperature(value));
  const [low, high] = [written(part.lowest), written(part.highest)];
  return low === high ? low : handFor(0).range(low, high);
}
