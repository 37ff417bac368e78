// Hot days and trips told: text, page, letter, JSON.
export type { HotDayContext } from "./hot-day-context.ts";
export { hotDayDocument } from "./hot-day-document.ts";
export { hotDayLetter, hotDayPage } from "./hot-day-page.ts";
export { hotDayText } from "./hot-day-text.ts";
