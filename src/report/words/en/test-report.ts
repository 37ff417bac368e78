// English: the test report for customer and workshop.

import type { HeatSource } from "../../../schema/index.ts";
import type { Estimate } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { capital } from "../phrasing.ts";
import { bySource, sheetConditions } from "./conditions.ts";
import { bareSource, onSource } from "./names.ts";

const whens = { run: "run", before: "before", after: "after" } as const;

export const testReport = {
  title: "Test report",
  serviceTitle: "Test report, before and after service",
  /** Of the page's tab and the PDF's window. */
  documentTitle: (title: string, fridge: string | null) => (fridge === null ? title : `${title}: ${fridge}`),
  noName: "Fridge without a name",
  written: (moment: string) => `Written ${moment}`,
  pageOf: (page: number, pages: number) => `page ${page} of ${pages}`,
  whens: whens as { readonly [W in keyof typeof whens]: string },

  kind: "kind",
  cabinet: "cabinet",
  litres: (litres: number, hand: Hand) => `${hand.number(litres, 0)} litres`,
  ratedHeat: "rated heat",
  bySource,
  aboutFridge: "about the fridge",
  runOf: (name: string, id: string | null, period: string | null) =>
    `${name}${period === null ? "" : `, ${period}`}${id === null || id === name ? "" : ` (${id})`}`,

  verdictHeading: "Verdict",
  curvesHeading: "Curves",
  furtherCurvesHeading: "Further curves",
  noRoomFor: (drawings: number) =>
    `${drawings === 1 ? "One more drawing has" : `${drawings} more drawings have`} no room here: see the report on the screen.`,
  doneHeading: "What was done and noted",
  nothingNoted: "Nothing was noted.",
  note: (when: string | null, text: string) => (when === null ? text : `${capital(when)}: ${text}`),
  noteAt: (moment: string, text: string) => `${moment}: ${text}`,
  sheetHeading: "Run sheet",
  conditions: sheetConditions,
  noSheet: "There is no run sheet.",
  noSheetOf: (when: string) => `There is no run sheet from ${when}.`,
  notChecked: (when: string | null, items: string) => `Not checked${when === null ? "" : ` (${when})`}: ${items}.`,
  allChecked: "Everything on the checklist was ticked.",
  differs: (before: string, after: string) => `${before} before, ${after} after`,
  notStated: "not stated",

  controlHeading: "Control source",
  noControl:
    "No run sheet names a source that the service did not touch, so nothing tells the work from the night: frost, probes, ambient and load may have changed too.",
  untouched: (sources: readonly HeatSource[]) =>
    `The service did not touch ${sources.map(bareSource).join(" and ")}; what changed there changed with the night, not with the work.`,
  overControl: (source: HeatSource, control: HeatSource, e: Estimate, hand: Hand) =>
    `${capital(onSource(source))} held against ${bareSource(control)}: ${hand.brief(e)} of before.`,
  controlCannotTell: (source: HeatSource, control: HeatSource, why: string) =>
    `${capital(onSource(source))} cannot be held against ${bareSource(control)}. ${why}`,

  afterHeading: "The fridge after the service",
  lessLikely: (causes: readonly string[]) => `less likely: ${causes.join("; ")}`,
  scrapHeading: "Not yet proven before anything is scrapped",
  scrapNote:
    "The cooling unit is among the causes, and no unit is condemned on one run. All of this must be shown first, and then a licensed fitter decides.",
  signatures: ["place and date", "for the workshop", "customer"] as readonly string[],

  command: {
    pdf: "also write a test report of one or two A4 pages, as PDF, to FILE",
    letterhead: "the workshop's own words at the head of the test report",
  },
};
