// What a log lacks before a source can be judged by it: told from what the stretches show, and mended at the desk or with
// another probe, where a longer run would only lack the same again.

import type { CheckCode } from "../sayings.ts";
import type { JudgedStretch } from "../verdict/judge-stretch.ts";

/** @param judged stretches that got no verdict. @returns what mends them, what costs least first. */
export function lacksOf(judged: readonly JudgedStretch[]): readonly CheckCode[] {
  const lacks = ([code, isLacking]: (typeof table)[number]) => (judged.some(isLacking) ? [code] : []);
  return table.flatMap(lacks);
}

const table: readonly (readonly [CheckCode, (one: JudgedStretch) => boolean])[] = [
  ["sort-the-log", ({ evidence: { fitted } }) => "why" in fitted && fitted.why.code === "time-unreliable"],
  ["say-the-source", ({ evidence: { source } }) => source === null],
  [
    "exchange-probes",
    ({ strength, finding: { reasons } }) =>
      ("why" in strength && strength.why.code === "fins-warmer-than-air") ||
      reasons.some(({ code }) => code === "strength-unbelievable"),
  ],
  ["add-ambient-probe", ({ evidence: { view } }) => view.ambient === null],
];
