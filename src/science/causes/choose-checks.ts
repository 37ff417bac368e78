// Which checks come next: those that separate the likeliest causes, most of them per minute of work first.

import type { Cause } from "../../schema/documents/index.ts";
import { type HeatSource, isElectric } from "../../schema/index.ts";
import type { CauseFinding, NextCheck, RunEvent, SourceFinding } from "../findings.ts";
import { stopsOf } from "../readings/events/cooling-stopped.ts";
import type { CheckCode, ReasonSaying } from "../sayings.ts";
import type { JudgedStretch } from "../verdict/judge-stretch.ts";
import { lacksOf } from "./log-lacks.ts";
import { checkFor } from "./next-checks.ts";

/** Checks that tell causes apart; the rest of the table is about recording better. */
const separating = [
  "measure-supply-voltage",
  "measure-element",
  "clean-flue-and-burner",
  "measure-gas-pressure",
  "check-level",
  "fan-at-rear",
  "paper-test-of-seal",
  "wait-for-load",
  "check-lamp",
  "seat-probes",
  "defrost",
  "dial-to-coldest",
] as const satisfies readonly CheckCode[];

/** What makes a fridge warm without any source being weak; from this share on someone is sent to look. */
const excuses: readonly Cause[] = ["door-seal", "warm-load", "frost", "probe", "lamp"];
const likelyExcuse = 0.4;
/** Where no source is called weak, faults of all kinds together must be so likely: with nothing seen they already are at 0.55. */
const likelyTrouble = 0.75;

/** A cause below this is not worth a check yet. */
const worthChecking = 0.05;

/** What the checks are chosen by. */
export interface CheckGrounds {
  /** The headline verdicts. */
  readonly sources: readonly SourceFinding[];
  /** With probabilities that add to 1. */
  readonly causes: readonly CauseFinding[];
  readonly judged: readonly JudgedStretch[];
  readonly events: readonly RunEvent[];
  /** Sources whose volts at the fridge are known, and not low. */
  readonly suppliedWell: ReadonlySet<HeatSource>;
  /** Whether there was anything to compare with. */
  readonly hasKnownGood: boolean;
}

/** The checks worth making next, the most telling first, each with its cautions; none where nothing speaks for a fault. */
export function chooseChecks(grounds: CheckGrounds): readonly NextCheck[] {
  const { sources, causes, judged, events, hasKnownGood } = grounds;
  const checks: NextCheck[] = stopChecks(events);
  const troubled = sources.filter(
    ({ verdict, reasons }) =>
      verdict === "weak" || verdict === "not-cooling" || reasons.some(({ code }) => code === "low-among-sources"),
  );
  if (troubled.length > 0) checks.push(...causeChecks(grounds));
  else if (likelihoodOf(causes, excuses) > likelyExcuse || 1 - likelihoodOf(causes, ["none", "other"]) > likelyTrouble)
    checks.push(...causeChecks(grounds));
  // A unit is never condemned on one run: heat in watts, level and air come first, and then a licensed fitter.
  const unitShare = likelihoodOf(causes, ["cooling-unit", "not-level", "ventilation"]);
  if (troubled.length > 0 && (unitShare > 0.3 || troubled.some((source) => source.verdict === "not-cooling"))) {
    // An electric source that cools as it should has proven unit, level and air: then only the gas side is left.
    const isGasAlone =
      troubled.every(({ source }) => source === "gas") &&
      sources.some(({ source, verdict }) => isElectric(source) && verdict === "sound");
    checks.push(...(isGasAlone ? [] : [checkFor("prove-heat-in-watts")]), checkFor("ask-a-fitter"));
  }
  checks.push(...supplyChecks(judged), ...loadChecks(judged));
  const undecided = sources.filter((source) => source.verdict === "undecided");
  const lacks = (source: SourceFinding) => lacksOf(source.stretches.map((index) => judged[index]));
  // A source that nobody named is worth naming, whatever the verdict.
  const open = sources.filter((source) => source.verdict === "undecided" || source.source === null);
  checks.push(...open.flatMap(lacks).map((code) => checkFor(code)));
  // What a log lacks, a longer one would lack as well.
  const complete = undecided.filter((source) => lacks(source).length === 0);
  if ((!hasKnownGood && sources.length > 0) || complete.some(lacksKnownGood))
    checks.push(checkFor("record-known-good"));
  else if (complete.some(isUnheard)) checks.push(checkFor("record-longer"));
  else if (complete.length > 0) checks.push(checkFor("record-another-night"));
  return checks.filter((check, at) => checks.findIndex((other) => other.check === check.check) === at);
}

/** A stretch too short or too odd for a strength; one whose run sheet forbids to compare it needs another run, not a longer one. */
const isUnheard = ({ coolingStrength }: SourceFinding): boolean =>
  "why" in coolingStrength && coolingStrength.why.code !== "conditions-differ";

/** A supply known to be low is a find of its own: where the source is not good all the same, it comes first to be mended. */
function supplyChecks(judged: readonly JudgedStretch[]): NextCheck[] {
  const low = judged.filter(
    ({ finding: { reasons, verdict } }) => verdict !== "sound" && reasons.some(({ code }) => code === "supply-low"),
  );
  return low.map(({ evidence: { source } }) => checkFor("measure-supply-voltage", source));
}

const unseenLoads: readonly ReasonSaying["code"][] = ["load-not-ruled-out", "load-unseen", "began-cold", "fall-bent"];

/** Where a stretch's reasons say that goods put in warm or cold would look like that, it is told how to find out. */
function loadChecks(judged: readonly JudgedStretch[]): NextCheck[] {
  const maybe = judged.filter(({ finding: { reasons } }) => reasons.some(({ code }) => unseenLoads.includes(code)));
  const sources = new Set(maybe.map(({ evidence: { source } }) => source));
  const [first = null] = sources;
  return sources.size === 0 ? [] : [checkFor("wait-for-load", sources.size === 1 ? first : null)];
}

/** Known-good runs of other sources, or none that can serve. */
const lacksKnownGood = ({ coolingStrength }: SourceFinding): boolean =>
  "why" in coolingStrength && ["no-known-good", "known-good-unusable"].includes(coolingStrength.why.code);

/** Heat that was lost while the source said on comes first: until it is known why, no other run can be trusted. */
function stopChecks(events: readonly RunEvent[]): NextCheck[] {
  const stopped = stopsOf(events).map(({ source }) => source);
  return [
    ...(stopped.some((source) => !isElectric(source)) ? [checkFor("why-flame-went-out", "gas")] : []),
    ...(stopped.some((source) => source !== "gas") ? [checkFor("why-supply-was-lost")] : []),
  ];
}

function causeChecks({ causes, suppliedWell }: CheckGrounds): readonly NextCheck[] {
  const likely = causes.filter(
    ({ cause, probability }) => cause !== "none" && cause !== "other" && probability >= worthChecking,
  );
  return separating
    .map((code) => {
      const { separates } = checkFor(code);
      const hit = likely.filter(
        ({ cause, source }) =>
          separates.includes(cause) && !(isAnswered(code) && source !== null && suppliedWell.has(source)),
      );
      const source = hit.every((cause) => cause.source === hit[0]?.source) ? (hit[0]?.source ?? null) : null;
      const check = checkFor(code, source);
      return { check, worth: hit.reduce((sum, { probability }) => sum + probability, 0) / check.minutes };
    })
    .filter(({ worth }) => worth > 0)
    .sort((a, b) => b.worth - a.worth)
    .slice(0, 4)
    .map(({ check }) => check);
}

/** Where the volts are known, measuring them tells nothing new. */
const isAnswered = (code: CheckCode): boolean => code === "measure-supply-voltage";

const likelihoodOf = (causes: readonly CauseFinding[], which: readonly Cause[]) =>
  causes.filter(({ cause }) => which.includes(cause)).reduce((sum, { probability }) => sum + probability, 0);
