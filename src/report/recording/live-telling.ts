// A run while it goes on, in words and before any layout: what is proven, the numbers so far, how long it should go on.

import { type EnergySource, msPerHour } from "../../schema/index.ts";
import type { Estimate } from "../../science/index.ts";
import { isKnown } from "../../science/index.ts";
import { cautionsOnSource, type LiveEstimate, type LiveProofs, type ProofState } from "../../science/live/index.ts";
import { type CheckTelling, tellCautions } from "../advice-telling.ts";
import type { Reader } from "../context.ts";
import { hoursBetween } from "../hand.ts";
import { type Teller, tellerFor } from "../teller.ts";
import { say } from "../words/index.ts";

export interface LiveTelling {
  /** "On gas since 07:15 (2 h 10 min)" */
  readonly since: string;
  readonly headline: string;
  readonly caution: CheckTelling["caution"];
  readonly proofs: readonly { readonly name: string; readonly state: ProofState["state"]; readonly text: string }[];
  readonly numbers: readonly NumberLine[];
  /** How long it should go on, and for what; null where there is nothing to say. */
  readonly until: string | null;
}

interface NumberLine {
  readonly name: string;
  readonly text: string;
}

/** Tells a run that goes on, on the run's clock. */
export function tellLive(estimate: LiveEstimate, reader: Reader): LiveTelling {
  const teller = tellerFor(reader);
  const { live } = teller.words;
  const { hand } = teller;
  const { proofs, source, sinceMs, nowMs, head } = estimate;
  return {
    since: live.since(source, hand.clock(sinceMs), hand.span(hoursBetween(sinceMs, nowMs))),
    headline: say(live.heads, head.saying, hand),
    caution: tellCautions(head.cautions, teller),
    proofs:
      proofs === null
        ? []
        : proofNames.map((name) => ({
            name: live.proofNames[name],
            state: proofs[name].state,
            text: proofText(proofs[name], name, teller),
          })),
    numbers: numbersOf(estimate, teller),
    until: untilOf(estimate, teller),
  };
}

/** What is to be heeded on a source, told as somebody says that the fridge runs on it; null where it is off. */
export const tellSourceCaution = (source: EnergySource, reader: Reader): CheckTelling["caution"] =>
  tellCautions(cautionsOnSource(source), tellerFor(reader));

export const proofNames = ["heat", "cold", "strength"] as const satisfies readonly (keyof LiveProofs)[];

/** What is known of one thing to be proven, or when it can be. */
export function proofText(proof: ProofState, name: keyof LiveProofs, { words: { live }, hand }: Teller): string {
  switch (proof.state) {
    case "proven": {
      const by = say(live.proofs, proof.by, hand);
      return name === "strength" ? live.known(hand.clock(proof.atMs), by) : live.proven(hand.clock(proof.atMs), by);
    }
    case "expected": {
      const when =
        name === "strength" || proof.fromMs === proof.byMs
          ? live.expectedBy(hand.clock(proof.byMs))
          : live.expectedBetween(hand.clock(proof.fromMs), hand.clock(proof.byMs));
      return proof.needs === undefined ? when : `${when}; ${say(live.proofs, proof.needs, hand)}`;
    }
    case "not-coming":
      return live.notComing(say(live.proofs, proof.why, hand));
  }
}

/** An interval that rounds to one value says nothing more. */
function briefly(estimate: Estimate, hand: Teller["hand"]): string {
  const { value, low, high } = estimate;
  const minute = (hours: number | null) => (hours === null ? null : Math.round(hours * 60));
  return minute(low) === minute(value) && minute(high) === minute(value) ? hand.value(estimate) : hand.brief(estimate);
}

/** The numbers that are known, each with its interval. */
export function numbersOf(estimate: LiveEstimate, { words: { live, names }, hand }: Teller): readonly NumberLine[] {
  const { onset, slope, rate, settled, to5, sinceMs, source } = estimate;
  const clock = (hours: number) => hand.clock(sinceMs + hours * msPerHour);
  const heat = source === "off" ? null : source;
  return [
    ...(isKnown(onset)
      ? [
          {
            name: live.numbers.onset,
            text: live.onset(clock(onset.value), briefly(onset, hand), names.startingOf(heat)),
          },
        ]
      : []),
    ...(isKnown(slope) ? [{ name: live.numbers.slope, text: hand.brief(slope) }] : []),
    ...(isKnown(rate) ? [{ name: live.numbers.rate, text: hand.brief(rate) }] : []),
    ...(isKnown(settled) ? [{ name: live.numbers.settled, text: hand.brief(settled) }] : []),
    ...(isKnown(to5)
      ? [
          {
            name: live.numbers.to5(hand),
            text: live.at5(
              clock(to5.value),
              to5.high === null
                ? live.orLater(clock(to5.low ?? to5.value))
                : live.between(clock(to5.low ?? to5.value), clock(to5.high)),
            ),
          },
        ]
      : []),
  ];
}

/** How long the stretch should go on, and for what; null where there is nothing to say. */
export function untilOf({ runUntilMs, goals, proofs }: LiveEstimate, { words: { live }, hand }: Teller): string | null {
  if (runUntilMs === null) return proofs !== null && goals.length > 0 ? live.mayEnd : null;
  const next = goals.find(({ isThere, atMs }) => !isThere && atMs === runUntilMs);
  const clock = hand.clock(runUntilMs);
  return next === undefined ? live.waitUntil(clock) : live.runUntil(clock, live.goals[next.goal]);
}
