// German: the morning after, a run on one page.

import type { EnergySource } from "../../../schema/index.ts";
import { onSource } from "./names.ts";

/** What a recorder notes besides readings, by the names it keeps them under. */
const happenings: { readonly [kind: string]: string } = {
  "board-unplugged": "die Fühlerplatine wurde abgezogen, oder ihr Anschluss verschwand",
  "board-silent": "die Fühlerplatine meldete nichts",
  "board-restarted": "die Fühlerplatine startete neu",
  "line-damaged": "eine Zeile der Fühlerplatine kam beschädigt an und wurde weggelassen",
  "lines-missed": "Zeilen der Fühlerplatine fehlen",
  "probe-silent": "ein Fühler meldete nichts",
  "probe-without-position": "ein Fühler ohne Platz an diesem Kühlschrank wurde weggelassen",
  "host-clock-moved": "die Uhr des Rechners wurde verstellt; die der Fühlerplatine hielt die Zeit",
  unwatched: "niemand hat auf Alarme gewacht",
  "gap-of-unknown-length": "eine Lücke, deren Länge niemand kennt",
};

export const morning = {
  title: (fridge: string | null) =>
    fridge === null ? "Die Nacht auf einer Seite" : `Die Nacht von ${fridge} auf einer Seite`,
  timelineHeading: "Was wann geschah",
  stretch: (period: string, source: EnergySource | null, verdict: string | null) =>
    `${period}, ${onSource(source)}${verdict === null ? "" : `: ${verdict}`}.`,
  happening: (period: string, kind: string, position: string | null) =>
    `${period}, ${happenings[kind] ?? kind.replaceAll("-", " ")}${position === null ? "" : ` (${position})`}.`,
  manyHappenings: (period: string, kind: string, times: string) =>
    `${period}, ${times}: ${happenings[kind] ?? kind.replaceAll("-", " ")}.`,
  times: { one: "Mal", other: "Male" },
  goesOn: (moment: string) => `Die Aufzeichnung läuft weiter; dies ist der Stand von ${moment}.`,
  alarmsHeading: "Alarme",
  noAlarms: "Es gab keinen Alarm.",
  noAlarmsInPart: "Es gab keinen Alarm, solange jemand wachte; wann niemand wachte, steht unter dem, was wann geschah.",
  unwatched:
    "Niemand hat gewacht: Alarme gibt es nur, solange „coldfall record“ auf eine Fühlerplatine an einem Anschluss hört oder ein Protokoll abspielt, und solange „coldfall serve“ annimmt, was Fühlerplatinen über das Netz senden; nicht zu Messwerten aus einer Datei oder von Hand.",
  fullReport: (run: string) =>
    `Befunde, Zahlen und Zeichnungen jedes Abschnitts: „coldfall analyse ${run} --html FILE“.`,
};
