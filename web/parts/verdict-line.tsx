// A verdict in one line for each source: "On gas: weak. ..."

import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { ask, useAsked } from "../ask.ts";
import { bench, handFor, names } from "../words.ts";
import { unbroken } from "./unbroken.ts";

type Analysis = AnswerOf<Operations["GET /api/runs/{runId}/verdict"]>;
type SourceVerdict = Pick<Analysis["sources"][number], "source" | "verdict" | "reasons" | "coolingStrength">;

interface VerdictLinesProps {
  readonly sources: readonly SourceVerdict[];
  /** Likeliest first; none where nothing was seen that points to any. */
  readonly causes: Analysis["causes"];
  /** A good one says no more than how strong it is: among many fridges the others are what to look for. */
  readonly isBrief?: boolean;
}

export function VerdictLines({ sources, causes, isBrief = false }: VerdictLinesProps) {
  const leading = causes.find(isToBeSaid);
  return (
    <ul class="verdicts">
      {sources.map(({ source, verdict, reasons, coolingStrength }) => (
        <li key={source ?? "unnamed"}>
          {bench.capital(names.onSource(source))}:{" "}
          <span class={`verdict ${verdict}`}>{names.verdictNames[verdict]}</span>.{" "}
          {isBrief && verdict === "sound" && coolingStrength !== null
            ? bench.first.soundBy(handFor(0).brief(coolingStrength))
            : unbroken(reasons[0] ?? "")}
        </li>
      ))}
      {leading === undefined ? null : (
        <li>{bench.first.likeliest(names.causeNames[leading.cause], handFor(0).percent(leading.probability))}</li>
      )}
    </ul>
  );
}

/** Sources may all be good and a seal leak: what is likelier than everything else together stands beside the verdicts. */
const isToBeSaid = ({ cause, probability }: Analysis["causes"][number]) => cause !== "none" && probability > 0.5;

/** The run whose verdict is a fridge's newest, and what it says. */
export interface NewestVerdict {
  readonly run: AnswerOf<Operations["GET /api/runs/{runId}"]>;
  readonly sources: readonly SourceVerdict[];
  readonly causes: Analysis["causes"];
}

/** The newest verdict on a fridge. Runs that came in since the last one are judged for it. */
export const useNewestVerdict = (fridgeId: string) =>
  useAsked<NewestVerdict | null>(`newest verdict ${fridgeId}`, async () => {
    const { verdict } = await ask("GET /api/fridges/{fridgeId}/verdict", { params: { fridgeId } });
    if (verdict === null) return null;
    const params = { runId: verdict.runIds[0] };
    const [run, { sources, causes }] = await Promise.all([
      ask("GET /api/runs/{runId}", { params }),
      ask("GET /api/runs/{runId}/verdict", { params }),
    ]);
    return { run, sources, causes };
  });
