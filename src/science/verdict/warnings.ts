// What the reader should know about the logs as a whole before trusting the verdicts.

import { median } from "simple-statistics";
import { msPerMinute, type RunSheet } from "../../schema/index.ts";
import { isLamp } from "../evidence/cabinet-lift.ts";
import { finsWarmerThanAir } from "../evidence/fin-difference.ts";
import type { RunEvidence, StretchEvidence } from "../evidence/run-evidence.ts";
import { cyclingIn } from "../evidence/settled-depth.ts";
import { coolestAmbient } from "../hot-days/depth-law.ts";
import { stopsOf } from "../readings/events/cooling-stopped.ts";
import type { WarningSaying } from "../sayings.ts";
import { isUsable } from "../strength/known-good.ts";
import type { AtOdds } from "../strength/known-good-at-odds.ts";
import { effectOfDifference } from "../strength/sheet-conditions.ts";

/** A position with more than this share of its readings set aside deserves a word. */
const manyRejected = 0.05;

/** What one log gives reason to doubt or to look at, whatever the verdicts. */
export function runWarnings(run: RunEvidence): readonly WarningSaying[] {
  const log = run.recording.name;
  const warnings: WarningSaying[] = [];
  const { columns } = run.series;
  warnings.push(...stopWarnings(run));
  if (run.recording.sourceCodes === null && run.recording.sourceMarks.length === 0)
    warnings.push({ code: "source-column-absent", log });
  if (columns.ambient === undefined || !columns.ambient.some(Number.isFinite))
    warnings.push({ code: "no-ambient-probe", log });
  const heated = run.stretches.filter((stretch) => stretch.stretch.heated);
  if (heated.some(isEvaporatorWarmer)) warnings.push({ code: "evaporator-warmer", log });
  for (const stretch of heated) {
    if (warmsWhileOn(stretch)) warnings.push({ code: "warms-while-on", log, source: stretch.source });
  }
  warnings.push(...tooCool(run));
  const lift = run.stretches[0]?.lift ?? null;
  if (isLamp(lift)) warnings.push({ code: "lamp-suspected", log, kelvin: lift.value });
  for (const { position, readings } of run.rejections) {
    if (position === "time" || position === "source") continue;
    const share = readings / run.recording.unixMs.length;
    if (share > manyRejected) warnings.push({ code: "many-rejected", log, position, share });
  }
  return warnings;
}

/** Where it was cool, a run can prove cooling, and no more. */
function tooCool({ recording, stretches }: RunEvidence): readonly WarningSaying[] {
  const cool = stretches.filter(({ stretch, ambient }) => stretch.heated && ambient < coolestAmbient);
  const coldest = Math.min(...cool.map(({ ambient }) => ambient));
  return cool.length > 0 ? [{ code: "low-ambient", log: recording.name, ambient: coldest }] : [];
}

/** Whatever the verdict on the part that cooled: heat was lost while the source said on. Once for each source. */
function stopWarnings({ recording, events }: RunEvidence): readonly WarningSaying[] {
  const stops = stopsOf(events);
  return [...new Set(stops.map(({ source }) => source))].map((source) => {
    const own = stops.filter((stop) => stop.source === source);
    const minutes = own.reduce((sum, { startMs, endMs }) => sum + (endMs - startMs) / msPerMinute, 0);
    const startMs = Math.min(...own.map((stop) => stop.startMs));
    return { code: "cooling-stopped", log: recording.name, source, times: own.length, startMs, minutes };
  });
}

/** Fins warmer than the air they cool, for most of a stretch: probes exchanged, or one of them wrong. */
function isEvaporatorWarmer({ view, offset }: StretchEvidence): boolean {
  const differences = view.cabinet
    .map((celsius, row) => celsius - view.evaporator[row] - offset.kelvin)
    .filter(Number.isFinite);
  return differences.length > 10 && median(differences as unknown as number[]) < -1;
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

/** Energy sources told by hand for an instant when every log was over: they change nothing, and were meant to. */
export function marksOutside(runs: readonly RunEvidence[]): readonly WarningSaying[] {
  const marks = new Map(
    runs.flatMap(({ recording }) =>
      recording.sourceMarks.map((mark) => [`${mark.unixMs} ${mark.source}`, mark] as const),
    ),
  );
  const ends = Math.max(...runs.map(({ recording }) => recording.unixMs.reduce((a, b) => Math.max(a, b), 0)));
  return [...marks.values()]
    .filter(({ unixMs }) => unixMs > ends)
    .map(({ unixMs, source }) => ({ code: "mark-outside", atMs: unixMs, source }));
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
          : heated.some(finsWarmerThanAir)
            ? "probes-exchanged"
            : "too-short";
    return [{ code: "known-good-not-used", log: run.recording.name, why }];
  });
  return [...unused, ...knownGood.flatMap(tooCool), ...differentConditions(runs, knownGood)];
}

/** Known-good runs that contradict each other. */
export const oddsWarnings = (odds: readonly AtOdds[]): readonly WarningSaying[] =>
  odds.map(({ source, stronger, weaker }) => ({
    code: "known-good-at-odds",
    source,
    stronger: stronger.log,
    weaker: weaker.log,
    share: 1 - Math.exp(weaker.overMean - stronger.overMean),
  }));

/** Conditions as the sheets hold them, by the name that a saying gives them. */
const compared = [
  ["setting", (sheet) => sheet.setting],
  ["dial", (sheet) => sheet.dial?.trim().toLowerCase()],
  ["load", (sheet) => sheet.load],
  ["vents", (sheet) => sheet.vents],
  ["fan-inside", (sheet) => fan(sheet.fanInside)],
  ["fan-at-rear", (sheet) => fan(sheet.fanAtRear)],
  ["gas", (sheet) => sheet.gasKind],
] as const satisfies readonly (readonly [
  Extract<WarningSaying, { code: "different-conditions" }>["condition"],
  (sheet: RunSheet) => string | undefined,
])[];

/** Nobody writes down the fan that was not there. */
const fan = (runs: boolean | undefined) => (runs === true ? "yes" : "no");

function differentConditions(
  runs: readonly RunEvidence[],
  knownGood: readonly RunEvidence[],
): readonly WarningSaying[] {
  return compared.flatMap(([condition, of]): WarningSaying[] => {
    const values = (group: readonly RunEvidence[]) => [
      ...new Set(
        group.flatMap(({ recording: { sheet } }) => {
          const value = sheet === null ? undefined : of(sheet);
          return value === undefined ? [] : [value];
        }),
      ),
    ];
    const here = values(runs);
    const there = values(knownGood);
    const strange = here.find((value) => !there.includes(value));
    if (strange === undefined || there.length === 0) return [];
    const effect = condition === "gas" ? "referred" : effectOfDifference(condition, strange, there[0]);
    return [{ code: "different-conditions", condition, here, knownGood: there, effect }];
  });
}
