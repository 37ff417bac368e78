// German: what the store refuses. One sentence each: what was wrong, where, and what to do.

import type { BadInputSayings, Phrases, StoreRecord } from "../../../schema/index.ts";

type StoreCode =
  | "no-such-record"
  | "not-one-record"
  | "name-taken"
  | "record-in-use"
  | "no-such-store"
  | "not-a-store"
  | Extract<keyof BadInputSayings, `store-${string}`>;

export const storeRefusals: Phrases<Pick<BadInputSayings, StoreCode>, unknown> = {
  "no-such-record": ({ kind, id, known, isRemoved = false }) =>
    isRemoved
      ? `Unter dem Entfernten im Speicher gibt es „${id}“ nicht (${recordNames[kind]}); „coldfall ${listedBy[kind]} --removed“ zeigt, was entfernt wurde.`
      : `Im Speicher gibt es unter „${id}“ nichts dieser Art (${recordNames[kind]}); ${remedy(kind, id, known)}.`,
  "not-one-record": ({ kind, id, known }) =>
    `Mit „${id}“ beginnt mehr als ein Eintrag (${recordNames[kind]}): ${known.join(", ")}; schreiben Sie mehr von dem, den Sie meinen.`,
  "name-taken": ({ kind, name }) =>
    `Den Namen „${name}“ gibt es schon (${recordNames[kind]}); geben Sie diesem hier einen anderen oder benennen Sie erst den anderen um.`,
  "record-in-use": ({ kind, id, runs }) =>
    `„${id}“ (${recordNames[kind]}) kann nicht entfernt werden: ${runs === 1 ? "Ein Lauf enthält" : `${runs} Läufe enthalten`} Messwerte davon, die sich dann nicht mehr berichtigen ließen; löschen Sie diese zuerst.`,
  "store-newer": ({ file, version, known }) =>
    `„${file}“ wurde von einem neueren Coldfall geschrieben (Speicherversion ${version}; dieses hier kennt höchstens ${known}) und blieb daher unberührt; aktualisieren Sie Coldfall, um die Datei zu öffnen.`,
  "no-such-store": ({ file }) =>
    `Es gibt keinen Speicher „${file}“; prüfen Sie den Pfad, oder beginnen Sie dort mit „coldfall fridges add NAME --store DATEI“ einen neuen.`,
  "not-a-store": ({ file }) =>
    `„${file}“ ist kein Speicher von Coldfall und blieb daher unberührt; nennen Sie mit --store die Datei eines Speichers oder eine neue.`,
  "store-busy": ({ file }) =>
    `In „${file}“ schreibt gerade ein anderes Programm, und sie wurde nicht frei; warten Sie, bis das fertig ist, und versuchen Sie es dann noch einmal.`,
  "store-disk-full": ({ file }) =>
    `Der Datenträger mit „${file}“ ist voll; bisher Gespeichertes ist nicht verloren, also schaffen Sie Platz und machen Sie weiter.`,
  "store-unusable": ({ file, reason }) =>
    `„${file}“ ist als Speicher nicht zu gebrauchen: ${reason}; prüfen Sie den Datenträger und Ihre Rechte an Datei und Ordner, oder spielen Sie eine Sicherung ein.`,
  "store-damaged": ({ file, run, position, from, to }) =>
    `„${file}“: Die Messwerte ${position} des Laufs ${run} von ${from} bis ${to} sind beschädigt und wurden nicht verwendet; spielen Sie eine Sicherung ein, und sehen Sie mit „coldfall store check“ den ganzen Schaden.`,
};

const recordNames: Readonly<Record<StoreRecord, string>> = {
  fridge: "Kühlschrank",
  run: "Lauf",
  edit: "Änderung",
  event: "Ereignis",
  result: "Ergebnis",
  baseline: "Bezug",
  probe: "Fühler",
  calibration: "Kalibrierung",
  board: "Fühlerplatine",
  alarm: "Alarm",
  message: "Nachricht",
};

/** The commands that list them. */
const listedBy: { readonly [K in StoreRecord]?: string } = {
  fridge: "fridges",
  run: "runs",
  result: "results",
  baseline: "baselines",
  probe: "probes",
  board: "boards",
  alarm: "alarms",
};

/** "night.csv", or a path. */
const isFileName = (id: string) => /[\\/]|\.[a-z]{2,5}$/i.test(id);

function remedy(kind: StoreRecord, id: string, known: readonly string[] | undefined): string {
  if (kind === "run" && isFileName(id))
    return "Läufe nennt man mit ihren Kennungen („coldfall runs“ zeigt sie), und „coldfall import“ holt eine Datei herein";
  if (known === undefined) {
    const list = listedBy[kind];
    return list === undefined ? "prüfen Sie die Schreibweise" : `„coldfall ${list}“ zeigt, was es gibt`;
  }
  if (known.length === 0 && kind === "fridge")
    return "bisher ist kein Kühlschrank angelegt; legen Sie erst einen mit „coldfall fridges add NAME“ an";
  if (known.length === 0) return "bisher ist nichts davon gespeichert, legen Sie also erst etwas an";
  return `es gibt ${known.map((name) => `„${name}“`).join(", ")}`;
}
