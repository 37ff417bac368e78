// The main job: logs in, a verdict per energy source out. This file only joins the steps; each has a file of its own.

import type { Recording } from "../schema/index.ts";
import { beforeCondemning } from "./causes/before-condemning.ts";
import { weighCauses } from "./causes/causes.ts";
import { causesApart } from "./causes/causes-apart.ts";
import { chooseChecks } from "./causes/choose-checks.ts";
import { observationsOf, sourcesSuppliedWell } from "./causes/observations.ts";
import { heatWarnings } from "./causes/strength-in-heat.ts";
import { runEvidence } from "./evidence/run-evidence.ts";
import { warmingRatio } from "./evidence/warming-ratio.ts";
import type { Analysis, SourceFinding } from "./findings.ts";
import { knownGoodBySource, runsInOrder } from "./strength/known-good.ts";
import { knownGoodAtOdds } from "./strength/known-good-at-odds.ts";
import { nightSpread } from "./strength/night-spread.ts";
import { isHeated, judgeSource, seenSources } from "./verdict/judge-source.ts";
import { type JudgedStretch, judgeWhole, sourcesRunBy } from "./verdict/judge-stretch.ts";
import { keepsUp } from "./verdict/keeps-up.ts";
import { knownGoodWarnings, marksOutside, oddsWarnings, runWarnings } from "./verdict/warnings.ts";

export interface AnalyseOptions {
  /** Known-good runs, in any order. */
  readonly knownGood: readonly Recording[];
  /** Whether they are of this very fridge or of others of its kind. */
  readonly baselineKind: "own" | "kind";
  /** Allowed loss, as a share. */
  readonly margin: number;
}

/** The allowed loss unless stated otherwise, as a share: this project's choice, no source. */
export const usualMargin = 0.15;

/**
 * Judges every energy source in the given logs.
 *
 * @param logs one or more runs of one fridge.
 * @returns everything found; where there is nothing to judge by, `undecided` with the reason.
 */
export function analyse(logs: readonly Recording[], options: AnalyseOptions): Analysis {
  const { margin, baselineKind } = options;
  const runs = logs.map(runEvidence);
  const knownRuns = runsInOrder(options.knownGood);
  const knownGood = knownGoodBySource(knownRuns);
  const heated = runs.map((run) => run.stretches.filter(({ stretch }) => stretch.heated));
  const atOdds = knownGoodAtOdds(knownGood);
  const yardstick = {
    knownGood,
    atOdds,
    ranKnownGood: sourcesRunBy(knownRuns),
    spread: nightSpread(knownGood, heated),
    baselineKind,
    margin,
  };
  const warming = runs.map((run) => warmingRatio(run, knownRuns));
  const stretches = runs.flatMap((run) => run.stretches);
  const judged = runs.flatMap((run, i) =>
    run.stretches.map((stretch) => judgeWhole(stretch, stretches, yardstick, warming[i])),
  );
  const warmingOf = ({ evidence }: JudgedStretch) =>
    warming[runs.findIndex((run) => run.recording === evidence.run.recording)] ?? null;
  const seen = seenSources(judged);
  const sources = seen.map((source) => judgeSource(source, judged, margin));
  const events = runs.flatMap((run) => run.events);
  // Over the mean of two runs that contradict each other a strength points to nothing.
  const isClear = (source: SourceFinding["source"]) => atOdds.every((odds) => odds.source !== source);
  const observations = observationsOf(
    judged.filter(({ evidence }) => isClear(evidence.source)),
    sources.filter(({ source }) => isClear(source)),
    warming,
    knownGood,
  );
  const causes = weighCauses(observations);
  const suppliedWell = sourcesSuppliedWell(observations);
  return {
    margin,
    sources,
    stretches: judged.map((one) => one.finding),
    keepsUp: seen.map((source) =>
      keepsUp(
        source,
        judged.filter((one) => isHeated(one) && one.evidence.source === source).map((one) => one.evidence),
        yardstick.spread,
        source !== null && knownGood.has(source) ? baselineKind : "generic",
      ),
    ),
    causes,
    nextChecks: chooseChecks({ sources, causes, judged, events, suppliedWell, hasKnownGood: knownRuns.length > 0 }),
    beforeCondemning: beforeCondemning(runs, sources, causes),
    events,
    rejected: runs.flatMap((run) => run.rejections),
    warnings: [
      ...runs.flatMap(runWarnings),
      ...marksOutside(runs),
      ...knownGoodWarnings(runs, knownRuns),
      ...oddsWarnings(atOdds),
      ...heatWarnings(judged),
      ...causesApart(judged, warmingOf, knownGood, margin),
    ],
  };
}
