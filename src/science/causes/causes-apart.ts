// Stretches that point to different causes: the list of causes assumes one at a time, so where two stretches, each looked
// at alone, all but rule out what the other points to, that is said.

import type { Cause } from "../../schema/documents/index.ts";
import type { HeatSource } from "../../schema/index.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import type { WarmingRatio } from "../evidence/warming-ratio.ts";
import type { CauseFinding } from "../findings.ts";
import type { StretchCauses, WarningSaying } from "../sayings.ts";
import { isHeated, judgeSource } from "../verdict/judge-source.ts";
import type { JudgedStretch } from "../verdict/judge-stretch.ts";
import { weighCauses } from "./causes.ts";
import { observationsOf } from "./observations.ts";

/** A stretch points somewhere from this on, and all but rules out what falls below that. */
const pointsTo = 0.5;
const rulesOut = 0.25;

/** @param warmingOf how the run of a stretch warms back against the known-good runs. */
export function causesApart(
  judged: readonly JudgedStretch[],
  warmingOf: (one: JudgedStretch) => WarmingRatio,
  knownGood: ReadonlyMap<HeatSource, readonly StretchEvidence[]>,
  margin: number,
): readonly WarningSaying[] {
  const pointing = judged.flatMap((one) => {
    const { source } = one.evidence;
    if (!isHeated(one) || source === null) return [];
    const causes = weighCauses(
      observationsOf([one], [judgeSource(source, [one], margin)], [warmingOf(one)], knownGood),
    );
    const [leading] = groupsOf(causes);
    return leading !== undefined && leading.share >= pointsTo && leading.name !== "none" && leading.name !== "other"
      ? [{ one, source, leading, causes }]
      : [];
  });
  const apart = pointing.filter((a) =>
    pointing.some((b) => shareOf(b.leading.name, a.causes) < rulesOut && shareOf(a.leading.name, b.causes) < rulesOut),
  );
  // Each different cause once, by the first stretch that points to it.
  const firsts = apart.filter((a, at) => apart.findIndex((b) => b.leading.name === a.leading.name) === at);
  if (firsts.length < 2) return [];
  const stretches = firsts.map(
    ({ one, source, leading }): StretchCauses => ({
      log: one.evidence.run.log,
      source,
      startMs: one.evidence.stretch.startMs,
      causes: leading.causes,
    }),
  );
  return [{ code: "causes-differ", stretches }];
}

interface Group {
  readonly name: string;
  readonly share: number;
  readonly causes: readonly Cause[];
}

/** Causes that no temperature can tell apart count as one; the likeliest group first. */
function groupsOf(causes: readonly CauseFinding[]): readonly Group[] {
  const names = [...new Set(causes.map(nameOf))];
  return names
    .map((name) => ({
      name,
      share: shareOf(name, causes),
      causes: causes.filter((one) => nameOf(one) === name).map(({ cause }) => cause),
    }))
    .sort((a, b) => b.share - a.share);
}

const shareOf = (name: string, causes: readonly CauseFinding[]) =>
  causes.filter((one) => nameOf(one) === name).reduce((sum, { probability }) => sum + probability, 0);

const unit: readonly Cause[] = ["cooling-unit", "not-level", "ventilation"];

/** Of a source, its heat; of all sources, unit, level and air; everything else stands for itself. */
const nameOf = ({ cause, source }: { readonly cause: Cause; readonly source: HeatSource | null }): string =>
  source !== null ? `heat on ${source}` : unit.includes(cause) ? "unit" : cause;
