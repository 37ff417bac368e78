// What a reader chose for this browser: degrees, paper, language. It stays here and is nobody else's business.

import { type Degrees, degreesKinds } from "../src/report/for-pages.ts";
import { keptValue } from "./kept-value.ts";

/** "system": light or dark as the system is. */
export const paperKinds = ["system", "light", "dark"] as const;
export type Paper = (typeof paperKinds)[number];

export const languages = ["en", "de"] as const;
export type BenchLanguage = (typeof languages)[number];

/** Chosen, or the first of the browser's languages that we speak. */
export const language: BenchLanguage = languages.find((one) => one === localStorage.getItem("language")) ?? spoken();

/** Words are looked up as the pages load: another language loads them anew. */
export function chooseLanguage(chosen: BenchLanguage): void {
  localStorage.setItem("language", chosen);
  location.reload();
}

function spoken(): BenchLanguage {
  const asked = navigator.languages.map((tag) => tag.split("-")[0]);
  return languages.find((one) => one === asked.find((tag) => languages.some((ours) => ours === tag))) ?? "en";
}

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
  document.documentElement.lang = language;
}

function stored<Kinds extends readonly [string, ...string[]]>(name: string, kinds: Kinds): Kinds[number] {
  const kept = localStorage.getItem(name);
  return kinds.find((kind) => kind === kept) ?? kinds[0];
}
