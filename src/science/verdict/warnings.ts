// What the reader should know about the logs as a whole before trusting the verdicts.

import { median } from "simple-statistics";
import type { RunSheet } from "../../schema/index.ts";
import type { RunEvidence, StretchEvidence } from "../evidence/run-evidence.ts";
import { cyclingIn } from "../evidence/settled-depth.ts";
import type { WarningSaying } from "../sayings.ts";
import { isUsable } from "../strength/known-good.ts";

/** A position with more than this share of its readings set aside deserves a word. */
const manyRejected = 0.05;

export function runWarnings(run: RunEvidence): readonly WarningSaying[] {
  const log = run.recording.name;
  const warnings: WarningSaying[] = [];
  const { columns } = run.series;
  if (run.recording.sourceCodes === null && run.recording.sourceMarks.length === 0)
    warnings.push({ code: "source-column-absent", log });
  if (columns.ambient === undefined || !columns.ambient.some(Number.isFinite))
    warnings.push({ code: "no-ambient-probe", log });
  const heated = run.stretches.filter((stretch) => stretch.stretch.heated);
  if (heated.some(isEvaporatorWarmer)) warnings.push({ code: "evaporator-warmer", log });
  for (const stretch of heated) {
    if (warmsWhileOn(stretch)) warnings.push({ code: "warms-while-on", log, source: stretch.source });
  }
  const coldest = heated.filter((stretch) => stretch.ambient < 15);
  if (coldest.length > 0)
    warnings.push({ code: "low-ambient", log, ambient: Math.min(...coldest.map((stretch) => stretch.ambient)) });
  for (const { position, readings } of run.rejections) {
    if (position === "time" || position === "source") continue;
    const share = readings / run.recording.unixMs.length;
    if (share > manyRejected) warnings.push({ code: "many-rejected", log, position, share });
  }
  return warnings;
}

/** Fins warmer than the air they cool, for most of a stretch: probes exchanged, or one of them wrong. */
function isEvaporatorWarmer({ view, offset }: StretchEvidence): boolean {
  const differences = [...view.cabinet.keys()]
    .map((row) => view.cabinet[row] - view.evaporator[row] - offset.kelvin)
    .filter(Number.isFinite);
  return differences.length > 10 && median(differences) < -1;
}

function warmsWhileOn({ view, fitted }: StretchEvidence): boolean {
  if (!("why" in fitted)) return false;
  const values = view.cabinet.filter(Number.isFinite);
  const tenth = Math.max(1, Math.floor(values.length / 10));
  return (
    values.length >= 20 &&
    median(values.subarray(-tenth) as unknown as number[]) - median(values.subarray(0, tenth) as unknown as number[]) >
      2
  );
}

/** Known-good logs that could not serve, and conditions that differ between the sheets. */
export function knownGoodWarnings(
  runs: readonly RunEvidence[],
  knownGood: readonly RunEvidence[],
): readonly WarningSaying[] {
  const unused = knownGood.flatMap((run): WarningSaying[] => {
    const heated = run.stretches.filter((stretch) => stretch.stretch.heated && stretch.source !== null);
    if (heated.some(isUsable)) return [];
    const why =
      heated.length === 0
        ? "no-stretch"
        : heated.some((stretch) => cyclingIn(stretch.view, stretch.events) !== null)
          ? "cycling"
          : "too-short";
    return [{ code: "known-good-not-used", log: run.recording.name, why }];
  });
  return [...unused, ...differentConditions(runs, knownGood)];
}

const compared = [
  "setting",
  "dial",
  "load",
  "vents",
  "fanInside",
  "fanAtRear",
  "gasKind",
] as const satisfies readonly (keyof RunSheet)[];

function differentConditions(
  runs: readonly RunEvidence[],
  knownGood: readonly RunEvidence[],
): readonly WarningSaying[] {
  const values = (group: readonly RunEvidence[], key: keyof RunSheet) =>
    [...new Set(group.map((run) => run.recording.sheet?.[key]).filter((value) => value !== undefined))].map(String);
  return compared.flatMap((condition): WarningSaying[] => {
    const here = values(runs, condition);
    const there = values(knownGood, condition);
    const differ = here.length > 0 && there.length > 0 && here.some((value) => !there.includes(value));
    return differ
      ? [{ code: "different-conditions", condition, here: here.join(", "), knownGood: there.join(", ") }]
      : [];
  });
}
