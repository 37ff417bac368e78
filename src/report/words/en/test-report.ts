// English: the test report for customer and workshop.

import type { HeatSource, RunSheet } from "../../../schema/index.ts";
import type { Estimate } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { capital } from "../phrasing.ts";
import { settings, vents } from "./conditions.ts";
import { bareSource, onSource } from "./names.ts";

const yesOrNo = (value: boolean) => (value ? "yes" : "no");
const stated = <V>(value: V | undefined, write: (value: V) => string) => (value === undefined ? null : write(value));
const degrees = (value: number, hand: Hand) => `${hand.number(value, 1)}°`;

/** "gas 170 W, mains 135 W" */
const bySource = (
  values: { readonly [S in HeatSource]?: number | undefined },
  unit: "W" | "V",
  hand: Hand,
): string | null => {
  const told = (["gas", "mains", "dc12"] as const).flatMap((source) => {
    const value = values[source];
    return value === undefined
      ? []
      : [`${bareSource(source)} ${hand.quantity(value, unit, Number.isInteger(value) ? 0 : 1)}`];
  });
  return told.length === 0 ? null : told.join(", ");
};

/** Conditions of a run sheet in the order in which one walks round the fridge; null where the sheet does not say. */
const conditions: readonly {
  readonly name: string;
  readonly value: (sheet: RunSheet, hand: Hand) => string | null | undefined;
}[] = [
  { name: "stood", value: ({ setting }) => setting && settings[setting] },
  {
    name: "tilt",
    value: ({ tiltSidewaysDegrees: sideways, tiltLengthwaysDegrees: lengthways }, hand) =>
      [
        ...(sideways === undefined ? [] : [`${degrees(sideways, hand)} sideways`]),
        ...(lengthways === undefined ? [] : [`${degrees(lengthways, hand)} lengthways`]),
      ].join(", ") || null,
  },
  { name: "upright since", value: ({ uprightSince }) => uprightSince?.replace("T", " ") },
  { name: "source chosen by hand", value: ({ sourceChosenByHand: is }) => stated(is, yesOrNo) },
  { name: "vents", value: (sheet) => sheet.vents && vents[sheet.vents] },
  { name: "vent covers", value: ({ ventCovers }) => ventCovers },
  { name: "flue cap", value: ({ flueCap }) => flueCap },
  { name: "gas", value: ({ gasKind }) => gasKind },
  {
    name: "gas pressure",
    value: ({ gasPressureMbar: mbar }, hand) => stated(mbar, (value) => `${hand.number(value, 0)}\u00a0mbar`),
  },
  { name: "altitude", value: ({ altitudeMetres: m }, hand) => stated(m, (value) => `${hand.number(value, 0)}\u00a0m`) },
  { name: "flame, flue, leaks and CO checked", value: ({ gasChecked: is }) => stated(is, yesOrNo) },
  { name: "supply", value: ({ supplyVolts }, hand) => supplyVolts && bySource(supplyVolts, "V", hand) },
  { name: "heat measured", value: ({ measuredWatts }, hand) => measuredWatts && bySource(measuredWatts, "W", hand) },
  { name: "rated heat", value: ({ ratedWatts }, hand) => ratedWatts && bySource(ratedWatts, "W", hand) },
  { name: "rated supply", value: ({ ratedVolts }, hand) => ratedVolts && bySource(ratedVolts, "V", hand) },
  {
    name: "fans",
    value: ({ fanInside, fanAtRear }) =>
      [
        ...(fanInside === undefined ? [] : [`inside ${yesOrNo(fanInside)}`]),
        ...(fanAtRear === undefined ? [] : [`at the rear ${yesOrNo(fanAtRear)}`]),
      ].join(", ") || null,
  },
  { name: "fins at the start", value: ({ fins }) => fins },
  { name: "load", value: ({ load }) => load },
  { name: "door seal, strip of paper", value: ({ sealPaperTest }) => sealPaperTest },
  { name: "lamp goes out", value: ({ lampGoesOut: is }) => stated(is, yesOrNo) },
  { name: "dial", value: ({ dial }) => dial },
  { name: "checked by", value: ({ checkedBy }) => checkedBy },
];

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
  doneHeading: "What was done and noted",
  nothingNoted: "Nothing was noted.",
  note: (when: string | null, text: string) => (when === null ? text : `${capital(when)}: ${text}`),
  noteAt: (moment: string, text: string) => `${moment}: ${text}`,
  sheetHeading: "Run sheet",
  conditions,
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
