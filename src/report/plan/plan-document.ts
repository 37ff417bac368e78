// A plan in its outside shape: src/schema/documents/plan-document.ts.

import type { PlanDocument } from "../../schema/documents/index.ts";
import type { RunPlan } from "../../science/plan/index.ts";
import type { CheckTelling } from "../advice-telling.ts";
import { instant } from "../outside-shapes.ts";
import { program } from "../program.ts";
import { plain } from "../terminal/text-layout.ts";
import type { Language } from "../words/index.ts";
import { tellPlan } from "./plan-telling.ts";

/** The plan as JSON holds it. */
export function planDocument(plan: RunPlan, language: Language): PlanDocument {
  const telling = tellPlan(plan, language);
  return {
    format: "coldfall-plan-1",
    program,
    start: instant(plan.startMs),
    end: instant(plan.endMs),
    utcOffsetMinutes: plan.utcOffsetMinutes,
    attended: { ...plan.attended },
    switchedWhileCold: plan.isSwitchedWhileCold,
    sources: [...plan.sources],
    reasons: telling.reasons.map(plain),
    steps: plan.steps.map((step, i) => ({
      kind: step.kind,
      source: step.source,
      start: instant(step.startMs),
      end: instant(step.endMs),
      attended: step.isAttended,
      overnight: step.isOvernight,
      proofs: step.proofs.map(({ proof, fromMs, byMs }, at) => ({
        proof,
        says: plain(telling.steps[i].proofs[at].text),
        from: instant(fromMs),
        by: instant(byMs),
      })),
      reasons: telling.steps[i].reasons.map(plain),
      caution: cautionText(telling.steps[i].caution),
    })),
    checklist: plan.checklist.map(({ item, fields }, i) => ({
      item,
      title: plain(telling.checklist[i].title),
      text: plain(telling.checklist[i].text),
      fields: [...fields],
      caution: cautionText(telling.checklist[i].caution),
    })),
  };
}

const cautionText = (caution: CheckTelling["caution"]): string | null =>
  caution === null ? null : plain([...caution.subjects.map(({ text }) => text), caution.close].join(" "));
