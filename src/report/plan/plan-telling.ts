// A plan in words and in order, before any layout: the printed plan, the page and the JSON all take this one telling.

import type { PlanRefusalSaying, PlanStep, RunPlan } from "../../science/plan/index.ts";
import { type CheckTelling, tellCautions } from "../advice-telling.ts";
import type { Teller } from "../teller.ts";
import { handOf, type Language, say, words } from "../words/index.ts";

export interface PlanTelling {
  readonly title: string;
  readonly when: string;
  readonly reasons: readonly string[];
  readonly steps: readonly PlanStepTelling[];
  readonly checklist: readonly ChecklistTelling[];
  readonly checklistNote: string;
  /** Each caution of the plan once, in full: a page has room for that only. */
  readonly cautions: NonNullable<CheckTelling["caution"]>;
  readonly foot: readonly string[];
}

export interface PlanStepTelling {
  readonly period: string;
  readonly name: string;
  /** "attended the whole time", "overnight". */
  readonly marks: readonly string[];
  readonly proofs: readonly { readonly when: string; readonly text: string }[];
  readonly reasons: readonly string[];
  readonly caution: CheckTelling["caution"];
}

export interface ChecklistTelling {
  readonly title: string;
  readonly text: string;
  /** To fill in by pen. */
  readonly blank: string;
  readonly caution: CheckTelling["caution"];
}

/** Tells a plan in a language, on the clock it was made for. */
export function tellPlan(plan: RunPlan, language: Language): PlanTelling {
  const teller = tellerOf(plan, language);
  const { words: own, hand } = teller;
  const codes = [...plan.steps, ...plan.checklist].flatMap(({ cautions }) => cautions);
  return {
    title: own.plan.title(plan.sources),
    when: own.plan.when(hand.period(plan.startMs, plan.endMs, "with year"), hand.offset()),
    reasons: [
      ...plan.reasons.map((reason) => say(own.plan.reasons, reason, hand)),
      ...(plan.sources.length > 1 ? [own.plan.otherWay(plan.isSwitchedWhileCold)] : []),
    ],
    steps: plan.steps.map((step) => tellStep(step, teller)),
    checklist: plan.checklist.map(({ item, cautions }) => ({
      ...own.plan.checklist[item],
      caution: tellCautions(cautions, teller),
    })),
    checklistNote: own.plan.checklistNote,
    cautions: tellCautions([...new Set(codes)], teller) ?? { subjects: [], close: own.cautionClose },
    foot: [own.report.limits],
  };
}

/** Why there is no plan, as a sentence. */
export const tellPlanRefusal = (reason: PlanRefusalSaying, utcOffsetMinutes: number, language: Language): string =>
  say(words(language).plan.refusals, reason, handOf(language, utcOffsetMinutes));

function tellStep(step: PlanStep, teller: Teller): PlanStepTelling {
  const {
    words: { plan },
    hand,
  } = teller;
  const { kind, source, isAttended, isOvernight } = step;
  return {
    period: hand.period(step.startMs, step.endMs),
    name:
      kind === "stretch" && source !== null
        ? plan.stretch(source)
        : plan.steps[kind === "settling" ? kind : "warming-back"],
    marks: [...(isAttended ? [plan.attended] : []), ...(isOvernight ? [plan.overnight] : [])],
    proofs: step.proofs.map(({ proof, fromMs, byMs }) => ({
      when: fromMs === byMs ? plan.by(hand.clock(byMs)) : plan.between(hand.clock(fromMs), hand.clock(byMs)),
      text: plan.proofs[proof](source),
    })),
    reasons: step.reasons.map((reason) => say(plan.reasons, reason, hand)),
    caution: tellCautions(step.cautions, teller),
  };
}

/** The words and the clock of a plan. */
export const tellerOf = ({ utcOffsetMinutes }: Pick<RunPlan, "utcOffsetMinutes">, language: Language): Teller => ({
  words: words(language),
  hand: handOf(language, utcOffsetMinutes),
});
