// What a reader chose for this browser: degrees and paper. It stays here and is nobody else's business.

import { keptValue } from "./kept-value.ts";

export const degreesKinds = ["C", "F"] as const;
export type Degrees = (typeof degreesKinds)[number];
/** "system": light or dark as the system is. */
export const paperKinds = ["system", "light", "dark"] as const;
export type Paper = (typeof paperKinds)[number];

export const degrees = keptValue<Degrees>(stored("degrees", degreesKinds));
export const paper = keptValue<Paper>(stored("paper", paperKinds));

/** The workshop's own words at the head of a report. */
export const letterhead = keptValue(localStorage.getItem("letterhead") ?? "");

export function chooseLetterhead(text: string): void {
  localStorage.setItem("letterhead", text);
  letterhead.set(text);
}

export function chooseDegrees(chosen: Degrees): void {
  localStorage.setItem("degrees", chosen);
  degrees.set(chosen);
}

export function choosePaper(chosen: Paper): void {
  localStorage.setItem("paper", chosen);
  paper.set(chosen);
  showPaper();
}

/** Puts the chosen paper under the page; the style sheet does the rest. */
export function showPaper(): void {
  document.documentElement.dataset.paper = paper.get();
}

function stored<Kinds extends readonly [string, ...string[]]>(name: string, kinds: Kinds): Kinds[number] {
  const kept = localStorage.getItem(name);
  return kinds.find((kind) => kind === kept) ?? kinds[0];
}
