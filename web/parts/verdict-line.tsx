// A verdict in one line for each source: "On gas: weak. ..."

import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { ask, useAsked } from "../ask.ts";
import { bench, names } from "../words.ts";

type Analysis = AnswerOf<Operations["GET /api/runs/{runId}/verdict"]>;
type Verdict = Analysis["sources"][number]["verdict"];

interface SourceVerdict {
  readonly source: Analysis["sources"][number]["source"];
  readonly verdict: Verdict;
  readonly reasons: readonly string[];
}

/** @param isShort leaves the reasons out */
export function VerdictLines({
  sources,
  isShort,
}: {
  readonly sources: readonly SourceVerdict[];
  readonly isShort?: boolean;
}) {
  return (
    <ul class="verdicts">
      {sources.map(({ source, verdict, reasons }) => (
        <li key={source ?? "unnamed"}>
          {bench.capital(names.onSource(source))}:{" "}
          <span class={`verdict ${verdict}`}>{names.verdictNames[verdict as Verdict]}</span>.
          {isShort ? null : ` ${reasons[0] ?? ""}`}
        </li>
      ))}
    </ul>
  );
}

/** The run whose verdict is a fridge's newest, and what it says. */
export interface NewestVerdict {
  readonly runId: string;
  readonly sources: readonly SourceVerdict[];
}

/** The newest verdict on a fridge. Runs that came in since the last one are judged for it. */
export const useNewestVerdict = (fridgeId: string) =>
  useAsked<NewestVerdict | null>(`newest verdict ${fridgeId}`, async () => {
    const { runs } = await ask("GET /api/runs", { query: { fridgeId, state: "closed", limit: 20 } });
    const newest = runs.find(({ purpose }) => purpose !== "known-good");
    if (newest === undefined) return null;
    const { sources } = await ask("GET /api/runs/{runId}/verdict", { params: { runId: newest.id } });
    return { runId: newest.id, sources };
  });
