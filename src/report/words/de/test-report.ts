// German: the test report for customer and workshop.

import type { HeatSource } from "../../../schema/index.ts";
import type { Estimate } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { capital } from "../phrasing.ts";
import { bySource, sheetConditions } from "./conditions.ts";
import { bareSource, onSource } from "./names.ts";

export const testReport = {
  title: "Prüfbericht",
  serviceTitle: "Prüfbericht, vor und nach der Wartung",
  /** Of the page's tab and the PDF's window. */
  documentTitle: (title: string, fridge: string | null) => (fridge === null ? title : `${title}: ${fridge}`),
  noName: "Kühlschrank ohne Namen",
  written: (moment: string) => `Geschrieben ${moment}`,
  pageOf: (page: number, pages: number) => `Seite ${page} von ${pages}`,
  whens: { run: "Lauf", before: "vorher", after: "nachher" },

  kind: "Bauart",
  cabinet: "Kühlraum",
  litres: (litres: number, hand: Hand) => `${hand.number(litres, 0)}\u00a0Liter`,
  ratedHeat: "Nennleistung",
  bySource,
  aboutFridge: "zum Kühlschrank",
  runOf: (name: string, id: string | null, period: string | null) =>
    `${name}${period === null ? "" : `, ${period}`}${id === null || id === name ? "" : ` (${id})`}`,

  verdictHeading: "Urteil",
  curvesHeading: "Kurven",
  furtherCurvesHeading: "Weitere Kurven",
  noRoomFor: (drawings: number) =>
    `${drawings === 1 ? "Eine weitere Zeichnung hat" : `${drawings} weitere Zeichnungen haben`} hier keinen Platz: siehe Bericht am Bildschirm.`,
  doneHeading: "Was getan und notiert wurde",
  nothingNoted: "Es wurde nichts notiert.",
  note: (when: string | null, text: string) => (when === null ? text : `${capital(when)}: ${text}`),
  noteAt: (moment: string, text: string) => `${moment}: ${text}`,
  sheetHeading: "Laufblatt",
  conditions: sheetConditions,
  noSheet: "Es gibt kein Laufblatt.",
  noSheetOf: (when: string) => `Es gibt kein Laufblatt (${when}).`,
  notChecked: (when: string | null, items: string) => `Nicht geprüft${when === null ? "" : ` (${when})`}: ${items}.`,
  allChecked: "Alles auf der Liste wurde abgehakt.",
  differs: (before: string, after: string) => `vorher ${before}, nachher ${after}`,
  notStated: "nicht angegeben",

  controlHeading: "Gegenvergleich",
  noControl:
    "Kein Laufblatt nennt eine Energiequelle, an der niemand gearbeitet hat, also trennt nichts die Arbeit von der Nacht: Auch Reif, Fühler, Umgebung und Beladung können sich geändert haben.",
  untouched: (sources: readonly HeatSource[]) =>
    `Bei der Wartung blieb unberührt: ${sources.map(bareSource).join(" und ")}; was sich dort änderte, kam mit der Nacht, nicht mit der Arbeit.`,
  overControl: (source: HeatSource, control: HeatSource, e: Estimate, hand: Hand) =>
    `${capital(onSource(source))}, gemessen an ${bareSource(control)}: ${hand.brief(e)} von vorher.`,
  controlCannotTell: (source: HeatSource, control: HeatSource, why: string) =>
    `${capital(onSource(source))} lässt sich nicht an ${bareSource(control)} messen. ${why}`,

  afterHeading: "Der Kühlschrank nach der Wartung",
  lessLikely: (causes: readonly string[]) => `weniger wahrscheinlich: ${causes.join("; ")}`,
  scrapHeading: "Noch nicht bewiesen, bevor etwas weggeworfen wird",
  scrapNote:
    "Das Kühlaggregat ist unter den Ursachen, und nach einem einzigen Lauf wird keines aufgegeben. All das muss erst gezeigt sein, und dann entscheidet ein zugelassener Fachbetrieb.",
  signatures: ["Ort und Datum", "für die Werkstatt", "Kunde"] as readonly string[],

  command: {
    pdf: "auch einen Prüfbericht von ein oder zwei A4-Seiten als PDF in FILE schreiben",
    letterhead: "eigene Worte der Werkstatt oben auf dem Prüfbericht",
  },
};
