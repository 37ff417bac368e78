// The one sentence on top of a run that goes on, with the cautions that belong to it.

import { type EnergySource, type HeatSource, msPerHour } from "../../schema/index.ts";
import type { StretchFinding } from "../findings.ts";
import { isKnown } from "../numbers/estimate.ts";
import { usualOnsetHours } from "../plan/proofs.ts";
import type { CautionCode, StopDoubt } from "../sayings.ts";
import { notCoolingHours } from "../verdict/stretch-verdict.ts";
import type { LiveEstimate } from "./live-run.ts";
import type { LiveHead, LiveHeadSaying } from "./live-sayings.ts";

/** @param parts how many sources the run was on so far. */
export function liveHead(estimate: Omit<LiveEstimate, "head">, parts: number): LiveHead {
  const saying = headSaying(estimate, parts);
  const source = estimate.source === "off" ? null : estimate.source;
  return { saying, cautions: cautionsOf(saying, source) };
}

function headSaying(
  { source: on, sinceMs, nowMs, latest, proofs, stopped, finding }: Omit<LiveEstimate, "head">,
  parts: number,
): LiveHeadSaying {
  if (Object.keys(latest).length === 0) return { code: "nothing-yet" };
  if (on === "off") return parts > 1 ? { code: "warming-back", sinceMs } : { code: "settling" };
  const source = on;
  if (finding === null) return { code: "too-little-yet", source };
  if (stopped !== null) return { code: "stopped", source, sinceMs: stopped.startMs, doubt: stopped.doubt };
  if (proofs === null) return { code: "looks-off" };
  const hours = (nowMs - sinceMs) / msPerHour;
  if (finding.verdict === "not-cooling") return { code: "does-not-cool", source, hours };
  // While somebody is still there who can look; and of such probes no other sentence would be true.
  if (mayBeExchanged(finding)) return { code: "probes-exchanged", source };
  const { cold, strength } = proofs;
  if (isKnown(finding.coolingStrength) && finding.verdict !== null) {
    return { code: "strength-so-far", source, strength: finding.coolingStrength, verdict: finding.verdict };
  }
  if (cold.state === "proven") {
    return { code: "makes-cold", source, strengthByMs: strength.state === "expected" ? strength.byMs : null };
  }
  if (cold.state === "expected" && hours <= usualOnsetHours.latest) {
    return { code: "heating-up", source, coldFromMs: cold.fromMs, coldByMs: cold.byMs };
  }
  const deadAtMs = hours < notCoolingHours ? sinceMs + notCoolingHours * msPerHour : null;
  return { code: "no-cold-yet", source, hours, deadAtMs };
}

/** Whether the evaporator probe reads warmer than the air it should cool. */
export const mayBeExchanged = ({ coolingStrength }: StretchFinding): boolean =>
  !isKnown(coolingStrength) && coolingStrength.why.code === "fins-warmer-than-air";

function cautionsOf(saying: LiveHeadSaying, source: HeatSource | null): readonly CautionCode[] {
  const mayBeGas = source === "gas" || source === null;
  switch (saying.code) {
    case "stopped":
      return cautionsOfStop(source, saying.doubt);
    case "does-not-cool":
    case "no-cold-yet":
      return ["no-cold", ...(source === null ? (["gas"] as const) : [source])];
    case "probes-exchanged":
      return ["cooling-unit", mayBeGas ? "gas" : "night"];
    case "heating-up":
    case "makes-cold":
    case "strength-so-far":
      // Whoever goes home leaves a 12 V element on a battery that may not last the night.
      return mayBeGas ? ["gas"] : source === "dc12" ? ["night", "dc12"] : ["night"];
    case "looks-off":
      return ["gas"];
    case "nothing-yet":
    case "too-little-yet":
      return source === null ? [] : cautionsOnSource(source);
    case "settling":
    case "warming-back":
      return [];
  }
}

/** Cooling that stopped; heat that goes on without cold is one thing more to heed. */
export const cautionsOfStop = (source: HeatSource | null, doubt: StopDoubt): readonly CautionCode[] => [
  ...(doubt === "heat-goes-on" ? (["no-cold"] as const) : []),
  ...(source === "gas" || source === null ? (["stopped-on-gas", "gas"] as const) : (["night", source] as const)),
];

/** What is to be heeded from the moment the fridge is switched to a source, before any reading tells more. */
export function cautionsOnSource(source: EnergySource): readonly CautionCode[] {
  switch (source) {
    case "gas":
      return ["gas", "two-sources"];
    case "mains":
      return ["night", "mains", "two-sources"];
    case "dc12":
      return ["dc12", "two-sources"];
    case "off":
      return [];
  }
}
