// The three states before any verdict: heat proven, cold proven, strength known. Each with the clock time at which it
// came, or at which it can come.

import { msPerHour } from "../../schema/index.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import type { StretchFinding } from "../findings.ts";
import { isKnown } from "../numbers/estimate.ts";
import { coldShowsHours, heatShowsHours, switchedFinsHours, usualOnsetHours } from "../plan/proofs.ts";
import { slopeHours } from "../pull-down/pull-down-numbers.ts";
import { meanBetween, type StretchView } from "../readings/stretch-view.ts";
import { finsAloneHours } from "../strength/comparison.ts";
import { notCoolingHours } from "../verdict/stretch-verdict.ts";
import type { LiveProofSaying } from "./live-sayings.ts";

/** How far one proof is. */
export type ProofState =
  | { readonly state: "proven"; readonly atMs: number; readonly by: LiveProofSaying }
  /** It can come between two instants; `needs`: what would bring it sooner. */
  | { readonly state: "expected"; readonly fromMs: number; readonly byMs: number; readonly needs?: LiveProofSaying }
  /** It cannot come in this stretch, or should have come long ago. */
  | { readonly state: "not-coming"; readonly why: LiveProofSaying };

export interface LiveProofs {
  readonly heat: ProofState;
  readonly cold: ProofState;
  readonly strength: ProofState;
}

/** Watts that somebody read at the fridge. */
export interface WattsRead {
  readonly unixMs: number;
  readonly watts: number;
}

/** What boiler and flue probe of the stretch read, row by row as in its view; null without the probe. */
export interface HeatProbes {
  readonly boiler: Float64Array | null;
  readonly flue: Float64Array | null;
}

/** Fewer watts than this heat no boiler: controls and lamp alone draw them. Common practice, no source. */
const leastWatts = 30;
/** A boiler or flue this far above ambient is heated, K. Common practice, no source. */
const hotBoiler = 40;
const warmFlue = 25;
/** Fins that are so much colder than the cabinet air are cooled, K; the doubt of the probes' offset comes on top. */
const leastFins = 1.5;
/** Without fins the cabinet itself must have fallen so much, K. */
const leastFall = 2;
/** A mean over so long stands for a moment, h. */
const momentHours = 0.25;

/**
 * @param evidence of a heated stretch that goes on.
 * @param finding its judgement so far.
 * @param hasKnownGood whether there is a run to compare this source with.
 */
export function liveProofs(
  evidence: StretchEvidence,
  finding: StretchFinding,
  hasKnownGood: boolean,
  seen: HeatProbes & { readonly watts: WattsRead | null },
  nowMs: number,
): LiveProofs {
  const cold = coldProof(evidence, nowMs);
  return {
    cold,
    heat: heatProof(evidence, cold, seen),
    strength: strengthProof(evidence, finding, hasKnownGood, nowMs),
  };
}

function heatProof(
  evidence: StretchEvidence,
  cold: ProofState,
  { boiler, flue, watts }: HeatProbes & { readonly watts: WattsRead | null },
): ProofState {
  const { view, source } = evidence;
  const { startMs } = view.stretch;
  if (watts !== null && watts.watts >= leastWatts) {
    return { state: "proven", atMs: watts.unixMs, by: { code: "heat-by-watts", watts: watts.watts } };
  }
  const byBoiler = firstHot(view, boiler, hotBoiler);
  if (byBoiler !== null)
    return { state: "proven", atMs: byBoiler.atMs, by: { code: "heat-by-boiler", kelvin: byBoiler.kelvin } };
  const byFlue = firstHot(view, flue, warmFlue);
  if (byFlue !== null)
    return { state: "proven", atMs: byFlue.atMs, by: { code: "heat-by-flue", kelvin: byFlue.kelvin } };
  if (cold.state === "proven") return { state: "proven", atMs: cold.atMs, by: { code: "heat-by-cold" } };
  if (boiler !== null || flue !== null)
    return { state: "expected", fromMs: startMs, byMs: startMs + heatShowsHours * msPerHour };
  if (cold.state === "not-coming") return cold;
  const needs: LiveProofSaying =
    source === "gas" || source === null ? { code: "heat-needs-flue-probe" } : { code: "heat-needs-watts", source };
  return { ...cold, needs };
}

/** The first moment at which a probe stands so far above ambient, and was not falling. */
function firstHot(
  view: StretchView,
  values: Float64Array | null,
  leastKelvin: number,
): { atMs: number; kelvin: number } | null {
  if (values === null) return null;
  let before = Number.NaN;
  for (let i = 0; i < values.length; i++) {
    const kelvin = values[i] - (view.ambient?.[i] ?? Number.NaN);
    if (!Number.isFinite(kelvin)) continue;
    // A boiler still hot from before, and cooling down, proves nothing.
    if (kelvin >= leastKelvin && kelvin >= before && view.hours[i] > 0)
      return { atMs: instantOf(view, view.hours[i]), kelvin };
    before = kelvin;
  }
  return null;
}

function coldProof(evidence: StretchEvidence, nowMs: number): ProofState {
  const { view, fitted } = evidence;
  const { startMs, startState } = view.stretch;
  const earliest = startState === "cold-boiler" ? 0 : switchedFinsHours;
  const found = firstColdFins(evidence, earliest) ?? firstColdCabinet(evidence, earliest);
  if (found !== null) return { state: "proven", ...found };
  if (!view.evaporator.some(Number.isFinite) && view.ambient === null && "why" in fitted) {
    return { state: "not-coming", why: { code: "no-fins-no-ambient" } };
  }
  const hours = (nowMs - startMs) / msPerHour;
  if (hours > notCoolingHours) return { state: "not-coming", why: { code: "not-cold-in-time", hours } };
  const [from, by] =
    startState === "cold-boiler"
      ? [usualOnsetHours.earliest + coldShowsHours, usualOnsetHours.latest + coldShowsHours]
      : [switchedFinsHours, switchedFinsHours + coldShowsHours];
  const soonest = Math.max(from, hours);
  return {
    state: "expected",
    fromMs: startMs + soonest * msPerHour,
    // Slow starters exist: what has not come in the usual time may come until a source is called dead.
    byMs: startMs + (hours <= by ? by : notCoolingHours) * msPerHour,
  };
}

type Found = { readonly atMs: number; readonly by: LiveProofSaying } | null;

function firstColdFins({ view, offset }: StretchEvidence, earliest: number): Found {
  const needed = leastFins + 2 * offset.standardError;
  const differs = (row: number) => view.cabinet[row] - view.evaporator[row] - offset.kelvin;
  for (let i = 0; i < view.hours.length; i++) {
    const hours = view.hours[i];
    if (hours < earliest + momentHours || !(differs(i) >= needed)) continue;
    const moment = meanBetween(view, hours - momentHours, hours, differs, 1);
    if (moment !== null && moment.mean >= needed) {
      return { atMs: instantOf(view, hours), by: { code: "cold-by-fins", kelvin: moment.mean } };
    }
  }
  return null;
}

/** Without an evaporator probe, a cabinet whose fall the fit has found. */
function firstColdCabinet({ view, fitted }: StretchEvidence, earliest: number): Found {
  if ("why" in fitted || view.evaporator.some(Number.isFinite)) return null;
  const start = meanBetween(view, 0, momentHours, (row) => view.cabinet[row], 1);
  if (start === null) return null;
  for (let i = 0; i < view.hours.length; i++) {
    const fall = start.mean - view.cabinet[i];
    if (view.hours[i] >= earliest && fall >= leastFall) {
      return { atMs: instantOf(view, view.hours[i]), by: { code: "cold-by-cabinet", kelvin: fall } };
    }
  }
  return null;
}

function strengthProof(
  { view, fitted, source }: StretchEvidence,
  { coolingStrength, verdict }: StretchFinding,
  hasKnownGood: boolean,
  nowMs: number,
): ProofState {
  const { startMs, startState } = view.stretch;
  const onset = "why" in fitted ? null : startMs + fitted.cabinetFit.onsetHours * msPerHour;
  const isSwitched = startState !== "cold-boiler" && onset === null;
  const needed = (isSwitched ? finsAloneHours : slopeHours) * msPerHour;
  if (isKnown(coolingStrength) && verdict !== null) {
    const by = { code: "strength-told", strength: coolingStrength, verdict } as const;
    return { state: "proven", atMs: Math.min(nowMs, (onset ?? startMs) + needed), by };
  }
  if (source === null) return { state: "not-coming", why: { code: "source-not-told" } };
  if (!hasKnownGood) return { state: "not-coming", why: { code: "no-known-good", source } };
  if (onset !== null) return { state: "expected", fromMs: onset + needed, byMs: onset + needed };
  if (isSwitched) return { state: "expected", fromMs: startMs + needed, byMs: startMs + needed };
  const hours = (nowMs - startMs) / msPerHour;
  if (hours > notCoolingHours) return { state: "not-coming", why: { code: "not-cold-in-time", hours } };
  const at = (onsetHours: number) => startMs + Math.max(onsetHours, hours) * msPerHour + needed;
  return { state: "expected", fromMs: at(usualOnsetHours.earliest), byMs: at(usualOnsetHours.latest) };
}

const instantOf = (view: StretchView, hours: number) => view.stretch.startMs + hours * msPerHour;
