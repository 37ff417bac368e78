// Before and after, say a service: the runs of one fridge, stretches paired per energy source, and what became better,
// stayed the same or became worse. This file joins the steps; source-change.ts has the verdict on one source.

import { type HeatSource, heatSources, type Recording } from "../../schema/index.ts";
import type { RunEvidence } from "../evidence/run-evidence.ts";
import { isKnown } from "../numbers/estimate.ts";
import { knownGoodBySource, runsInOrder } from "../strength/known-good.ts";
import { priorSpreadOverWeeks, witnessSpread } from "../strength/witness-spread.ts";
import { runWarnings } from "../verdict/warnings.ts";
import type { RunsCompared, SourceChange } from "./change-findings.ts";
import type { ChangeClause, ComparisonWarningSaying } from "./change-sayings.ts";
import { type SheetDifferences, sheetDifferences } from "./sheet-differences.ts";
import { type Compared, deadWhen, sourceChange } from "./source-change.ts";

export interface CompareRunsOptions {
  /** Known-good runs of this fridge, in any order: they tell how much it differs from night to night anyway. */
  readonly knownGood: readonly Recording[];
  /** Allowed loss, as a share; half of it either way is no change worth a word. */
  readonly margin: number;
}

/**
 * Compares runs of one fridge before something was done with runs after it.
 *
 * @param before, after one run or more each, in any order; several are combined.
 * @returns a change for every source that ran on either side; where nothing can be said, `undecided` with the reason.
 */
export function compareRuns(
  before: readonly Recording[],
  after: readonly Recording[],
  options: CompareRunsOptions,
): RunsCompared {
  const { margin } = options;
  const [then, now] = [runsInOrder(before), runsInOrder(after)];
  const knownGood = knownGoodBySource(runsInOrder(options.knownGood));
  const sheets = sheetDifferences(sheetsOf(then), sheetsOf(now));
  const untouched = untouchedIn(now);
  const compared: Compared = {
    before: then,
    after: now,
    knownGood,
    spread: witnessSpread(knownGood, priorSpreadOverWeeks),
    untouched,
    differences: sheets.differences,
    margin,
  };
  const seen = heatSources.filter((source) => [...then, ...now].some((run) => runsOn(run, source)));
  const sources = seen.map((source) => sourceChange(source, compared));
  const clauses = sources.map((change) => clauseOf(change, untouched));
  return {
    margin,
    sources,
    differences: sheets.differences,
    sentence: clauses.length === 0 ? { code: "nothing-compared" } : { code: "changes", clauses },
    warnings: [
      ...orderWarnings(then, now),
      ...[...then, ...now].flatMap(runWarnings),
      ...unnamedSources([...then, ...now]),
      ...sheetWarnings(then, now, sheets),
      ...untouched
        .filter((source) => !seen.includes(source))
        .map((source) => ({ code: "untouched-not-run", source }) as const),
    ],
  };
}

const sheetsOf = (runs: readonly RunEvidence[]) => runs.map((run) => run.recording.sheet);

const runsOn = (run: RunEvidence, source: HeatSource) => run.stretches.some((stretch) => stretch.source === source);

/** Sources that nobody touched, as every sheet of the runs after says that says anything of it. */
function untouchedIn(after: readonly RunEvidence[]): readonly HeatSource[] {
  const lists = sheetsOf(after).flatMap((sheet) => (sheet?.untouchedSources ? [sheet.untouchedSources] : []));
  return lists.length === 0 ? [] : heatSources.filter((source) => lists.every((list) => list.includes(source)));
}

function clauseOf(
  { source, change, coolingStrength, reasons }: SourceChange,
  untouched: readonly HeatSource[],
): ChangeClause {
  return {
    source,
    change,
    ratio: isKnown(coolingStrength) ? coolingStrength : null,
    dead: deadWhen(reasons),
    isUntouched: untouched.includes(source),
  };
}

/** Exchanged logs turn every verdict round, and nothing else in them shows it. */
function orderWarnings(
  before: readonly RunEvidence[],
  after: readonly RunEvidence[],
): readonly ComparisonWarningSaying[] {
  const begins = Math.min(...before.map(({ recording: { unixMs } }) => unixMs[0]));
  const ends = Math.max(...after.map(({ recording: { unixMs } }) => unixMs[unixMs.length - 1]));
  const named = (runs: readonly RunEvidence[]) => runs.map(({ recording }) => recording.name);
  return ends < begins ? [{ code: "after-is-older", before: named(before), after: named(after) }] : [];
}

const unnamedSources = (runs: readonly RunEvidence[]) =>
  runs
    .filter((run) => run.stretches.some(({ stretch, source }) => stretch.heated && source === null))
    .map((run) => ({ code: "source-unnamed", log: run.recording.name }) as const);

/** What no sheet or only one side's states is taken as equal, and said once. */
function sheetWarnings(
  before: readonly RunEvidence[],
  after: readonly RunEvidence[],
  { oneSided }: SheetDifferences,
): readonly ComparisonWarningSaying[] {
  const hasNone = (runs: readonly RunEvidence[]) => sheetsOf(runs).every((sheet) => sheet === null);
  if (hasNone(before) && hasNone(after)) return [{ code: "no-run-sheet", when: "both" }];
  if (hasNone(before)) return [{ code: "no-run-sheet", when: "before" }];
  if (hasNone(after)) return [{ code: "no-run-sheet", when: "after" }];
  return (["before", "after"] as const).flatMap((when) =>
    oneSided[when].length === 0 ? [] : [{ code: "stated-on-one-side", when, conditions: oneSided[when] } as const],
  );
}
