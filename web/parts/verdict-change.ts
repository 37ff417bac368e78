// What becomes of a run's verdict after something that it stands on was changed.

import { useEffect, useRef, useState } from "preact/hooks";
import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { bench, handFor, names } from "../words.ts";

type Analysis = AnswerOf<Operations["GET /api/runs/{runId}/verdict"]>;

/**
 * The change as a sentence, from the next verdict that comes after `expect`; null before, and when the verdict has moved on
 * since.
 */
export function useVerdictChange(analysis: Analysis | null) {
  const [sentence, setSentence] = useState<string | null>(null);
  const before = useRef<string | null>(null);
  const told = useRef<string | null>(null);
  const text = analysis === null ? null : verdictText(analysis);
  useEffect(() => {
    if (text === null) return;
    if (before.current !== null) {
      setSentence(before.current === text ? bench.read.sameVerdict : bench.read.newVerdict(before.current, text));
      told.current = text;
      before.current = null;
    } else if (told.current !== text) setSentence(null);
  }, [analysis]);
  return {
    sentence,
    expect: () => {
      before.current = text;
    },
  };
}

const verdictText = ({ sources }: Analysis) =>
  sources
    .map(({ source, verdict, coolingStrength }) =>
      [
        `${names.onSource(source)} ${names.verdictNames[verdict]}`,
        ...(coolingStrength === null ? [] : [handFor(0).brief(coolingStrength)]),
      ].join(", "),
    )
    .join("; ");
