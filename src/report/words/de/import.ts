// German: how another logger's file is understood, what is asked about it, and what became of an import.

import type {
  ColumnMeaning,
  DateOrder,
  ElapsedUnit,
  EnergySource,
  LogFoundSayings,
  LogMapping,
  LogQuestion,
  Phrases,
  SenmlProblem,
  TextEncoding,
  ThousandsMark,
} from "../../../schema/index.ts";
import { msPerMinute, offsetName } from "../../../schema/index.ts";
import type { Hand } from "../../hand.ts";
import {
  answerOption,
  decimalAnswers,
  orderAnswers,
  unitAnswers,
  unitSigns,
  zoneAnswer,
  zoneName,
} from "../import-answers.ts";
import { capital, joined } from "../phrasing.ts";

/** After "getrennt durch". */
const separators = { ",": "Komma", ";": "Semikolon", "\t": "Tabulator" };

const encodings: { readonly [E in TextEncoding]: string } = {
  "utf-8": "UTF-8",
  "utf-16le": "UTF-16, niederwertiges Byte zuerst",
  "utf-16be": "UTF-16, höherwertiges Byte zuerst",
  "windows-1252": "Windows-Codepage 1252",
};

const meanings: { readonly [M in ColumnMeaning]: string } = {
  time: "die Zeit",
  date: "das Datum",
  zone: "die Zeitzone",
  elapsed: "die Zeit seit Beginn des Protokolls",
  source: "die Energiequelle",
  evaporator: "der Verdampfer (Rippen)",
  cabinet: "der Kühlraum",
  ambient: "die Umgebungsluft am unteren Lüftungsgitter",
  room: "der Wohnraum vor der Tür",
  freezer: "das Gefrierfach",
  ventOut: "die Luft aus dem oberen Lüftungsgitter",
  flue: "das Abgasrohr",
  boiler: "der Kocher",
  supply: "die Versorgungsspannung",
  none: "keiner der Fühler des Kühlschranks, weggelassen",
};

/** What a word for the energy source can mean. */
const sources: { readonly [S in EnergySource | "none"]: string } = {
  gas: "Gas",
  mains: "Netz",
  dc12: "12 V Gleichstrom",
  off: "aus",
  none: "gar keine Quelle, und die Spalte bleibt weg",
};

const orders: { readonly [O in DateOrder]: string } = {
  "day-month-year": "Tag, Monat, Jahr",
  "month-day-year": "Monat, Tag, Jahr",
  "year-month-day": "Jahr, Monat, Tag",
};

const forms: { readonly [F in NonNullable<LogMapping["timeForm"]>]: string } = {
  "unix-seconds": "Sekunden seit 1970",
  "unix-milliseconds": "Millisekunden seit 1970",
  "spreadsheet-days": "Tage seit 1900 wie in einer Tabellenkalkulation",
  "elapsed-milliseconds": "Millisekunden seit Beginn des Protokolls",
  "elapsed-seconds": "Sekunden seit Beginn des Protokolls",
  "elapsed-minutes": "Minuten seit Beginn des Protokolls",
  "elapsed-hours": "Stunden seit Beginn des Protokolls",
  "elapsed-clock": "Stunden, Minuten und Sekunden seit Beginn des Protokolls",
};

const elapsedUnits: { readonly [U in ElapsedUnit]: string } = {
  ms: "Millisekunden",
  s: "Sekunden",
  min: "Minuten",
  h: "Stunden",
};

/** After "getrennt durch". */
const thousandsMarks: { readonly [M in ThousandsMark]: string } = {
  ",": "Komma",
  ".": "Punkt",
  " ": "Leerzeichen",
  "'": "Apostroph",
};

/** "3. April 2026, 07:00", of a wall clock as it stands or of an instant in UTC. */
function day(ms: number): string {
  if (Number.isNaN(ms)) return "gar kein Datum";
  const written = new Intl.DateTimeFormat("de-DE", { timeZone: "UTC", dateStyle: "long", timeStyle: "short" });
  return written.format(ms).replace(/,? um /, ", ");
}

/** Of a duration, coarse: to tell hours from minutes. */
function span(hours: number): string {
  const [value, unit] =
    hours >= 1
      ? [hours.toFixed(hours < 100 ? 1 : 0), "h"]
      : hours * 60 >= 1
        ? [(hours * 60).toPrecision(2), "min"]
        : [(hours * 3600).toPrecision(2), "s"];
  return `${value.replace(".", ",")}\u00a0${unit}`;
}

const celsius = (value: number) => `${value.toFixed(1).replace("-", "\u2212").replace(".", ",")}\u00a0°C`;

const either = (texts: readonly string[]) => joined(texts, "oder");

/** Each reading of a question with what the example would then mean; the answer is what the option takes. */
function readings(question: LogQuestion): { readonly answer: string; readonly text: string }[] {
  switch (question.about) {
    case "date-order":
      return question.readings.map(({ answer, wallMs }) => ({ answer: orderAnswers[answer], text: day(wallMs) }));
    case "zone":
      return question.readings.map(({ answer, unixMs }) => ({
        answer: zoneAnswer(answer),
        text: `${day(unixMs)} UTC, wenn die Uhr auf ${zoneName(answer)} lief`,
      }));
    case "unit":
      return question.readings.map(({ answer, celsius: value }) => ({
        answer: unitAnswers[answer],
        text: `${celsius(value)}, wenn es in ${unitSigns[answer]} ist`,
      }));
    case "decimal":
      return question.readings.map(({ answer, value }) => ({
        answer: decimalAnswers[answer],
        text: `${String(value).replace(".", ",")}, wenn Dezimalstellen hinter einem ${answer === "," ? "Komma" : "Punkt"} stehen`,
      }));
    case "elapsed-unit":
      return question.readings.map(({ answer, hours }) => ({
        answer,
        text: `${span(hours)}, wenn sie ${elapsedUnits[answer]} zählt`,
      }));
    case "starts-at":
      return [];
    case "column":
      return question.readings.map(({ answer }) => ({ answer, text: meanings[answer] }));
    case "which-column":
      return question.readings.map(({ answer, text }) => ({
        answer,
        text: `Spalte „${answer}“ (erste Zelle „${text}“)`,
      }));
    case "source-word":
      return question.readings.map(({ answer }) => ({ answer, text: sources[answer] }));
    case "half-of-day":
      return question.readings.map(({ answer, text }) => ({ answer, text: `„${text}“` }));
  }
}

/** The option that answers a question, as it is to be typed. */
function option(question: LogQuestion): string {
  const answers = readings(question).map(({ answer }) => answer);
  switch (question.about) {
    case "date-order":
      return `--date-order ${either(answers)}`;
    case "zone":
      return `--zone mit ${answers.length < 2 ? `${answers[0]}, einer Zeitzone wie Europe/Berlin` : either(answers)} oder einem Abstand wie +02:00`;
    case "unit":
      return `--unit ${either(answers)}`;
    case "decimal":
      return `--decimal ${either(answers)}`;
    case "elapsed-unit":
      return `--elapsed-unit ${either(answers)}`;
    case "starts-at":
      return "--starts-at mit einer Zeit wie 2026-06-07T18:00:00+02:00";
    case "column":
      return `--column "${question.column}=${answers[0]}" (oder ${either(answers.slice(1))})`;
    case "which-column":
      return `--column "${answers[0]}=${question.meaning}" (oder ${either(answers.slice(1).map((answer) => `"${answer}=${question.meaning}"`))})`;
    case "source-word":
      return `${sourceWord(question.text, answers)}, oder --column "${question.column}=none"`;
    case "half-of-day":
      return "";
  }
}

/** What else is to be answered, in short. */
const openBesides = (others: readonly LogQuestion[]) => [
  ...new Set(
    others.map((question) =>
      question.about === "column"
        ? `--column für „${question.column}“`
        : (answerOption(question, "")[0] ?? "am oder pm"),
    ),
  ),
];

const sourceWord = (word: string, answers: readonly string[]) =>
  `--source-word "${word}=${answers[0]}" (oder ${either(answers.slice(1, -1))})`;

const texts = (question: LogQuestion) => readings(question).map(({ text }) => text);

const what = (question: LogQuestion): string => {
  switch (question.about) {
    case "date-order":
      return `„${question.text}“ kann bedeuten: ${either(texts(question))}`;
    case "zone":
      if (question.letters !== null)
        return `„${question.letters}“ in „${question.text}“ kann mehrere Zeitzonen bedeuten: Es ist ${texts(question).join(", und ")}`;
      return `„${question.text}“ nennt seine Zeitzone nicht: Es ist ${texts(question).join(", und ")}${question.readings.length < 2 ? ", und in jeder anderen Zeitzone ein anderer Zeitpunkt" : ""}`;
    case "unit":
      return `„${question.text}“ in Spalte „${question.column}“ nennt seine Einheit nicht: Es sind ${texts(question).join(", und ")}`;
    case "decimal":
      return `„${question.text}“ in Spalte „${question.column}“ kann bedeuten: ${either(texts(question))}`;
    case "elapsed-unit":
      return `Spalte „${question.column}“ zählt ab Beginn des Protokolls und sagt nicht, was: „${question.text}“ sind ${either(texts(question))}`;
    case "starts-at":
      return `Spalte „${question.column}“ zählt ab Beginn des Protokolls, und die Datei sagt nicht, wann das war`;
    case "column":
      return `Spalte „${question.column}“ (erster Messwert „${question.text}“) kann sein: ${either(texts(question))}`;
    case "which-column":
      return `${meanings[question.meaning]} kann sein: ${either(texts(question))}`;
    case "source-word":
      return `Spalte „${question.column}“ nennt die Energiequelle, und „${question.text}“ ist kein hier bekanntes Wort dafür; es kann bedeuten: ${either(texts(question))}`;
    case "half-of-day":
      return `die Uhr springt bei „${question.text}“ um einen halben Tag zurück und schreibt weder am noch pm, also sind Morgen und Abend nicht zu unterscheiden`;
  }
};

const found: Phrases<LogFoundSayings, unknown> = {
  encoding: ({ encoding }) => `Text in ${encodings[encoding]}.`,
  separator: ({ separator }) => `Zellen getrennt durch ${separators[separator]}.`,
  "decimal-comma": ({ example }) => `Dezimalstellen hinter einem Komma, wie in „${example}“.`,
  "decimal-point": ({ example }) => `Dezimalstellen hinter einem Punkt, wie in „${example}“.`,
  thousands: ({ mark, example }) => `Tausender getrennt durch ${thousandsMarks[mark]}, wie in „${example}“.`,
  "lines-before": ({ lines }) => `${lines === 1 ? "Eine Zeile" : `${lines} Zeilen`} vor der Kopfzeile übersprungen.`,
  "no-header": () => "Keine Kopfzeile: Die Spalten sind ab 1 nummeriert.",
  column: ({ column, meaning, told }) => `Spalte „${column}“: ${meanings[meaning]}${told ? ", wie angegeben" : ""}.`,
  "column-left-out": ({ column }) => `Spalte „${column}“ weggelassen.`,
  millivolts: ({ column }) => `Spalte „${column}“ in Millivolt, wie die Datei angibt.`,
  "unit-of": ({ column, unit, from }) => `Spalte „${column}“ in ${unitSigns[unit]}, ${unitReasons[from]}.`,
  "date-order": ({ order, from, example }) =>
    `Datumsangaben wie „${example}“: ${orders[order]}, ${orderReasons[from]}.`,
  zone: ({ zone, from }) => `Zeiten in ${zoneName(zone)}, ${zoneReasons[from]}.`,
  "zone-letters": ({ letters, zone, from }) =>
    `„${letters}“ hinter einer Zeit: ${zoneName(zone)}, ${from === "told" ? "wie angegeben" : "die einzige Zeitzone, die dann so heißt"}.`,
  "starts-at": ({ unixMs, utcOffsetMinutes }) =>
    `Gezählt ab ${day(unixMs + utcOffsetMinutes * msPerMinute)} ${zoneName(offsetName(utcOffsetMinutes))}, wie angegeben.`,
  "time-form": ({ form, example }) => `Zeiten wie „${example}“: ${forms[form]}.`,
  "twelve-hours": ({ example }) => `Eine Zwölf-Stunden-Uhr, wie in „${example}“.`,
  "hour-24": ({ example }) => `„${example}“ ist das Ende dieses Tages.`,
  "board-file": ({ board, starts, damaged }) =>
    `Was die Fühlerplatine ${board} allein aufgezeichnet hat, über ${starts === 1 ? "einen Start" : `${starts} Starts`}${damaged === 0 ? "" : `; ${damaged === 1 ? "eine Zeile ist" : `${damaged} Zeilen sind`} beschädigt und weggelassen`}.`,
  "probe-without-curve": ({ probe, unit }) =>
    `Fühler ${probe} sandte ${unit === "Ohm" ? "Ohm" : "Millivolt"}, und niemand hat gesagt, was sie bedeuten: keine Temperaturen von ihm, bis „coldfall probes curve ${probe}“ es sagt.`,
  "board-start": ({ start, isBeforeNext, slackMinutes }) => {
    const where = isBeforeNext ? "unmittelbar vor den folgenden" : "unmittelbar hinter den vorigen";
    const doubt = slackMinutes === null ? "niemand weiß, um wie viel" : `um bis zu ${slackMinutes}\u00a0min`;
    return slackMinutes === 0
      ? `Start ${start} ist ${where} gelegt.`
      : `Start ${start} ist ${where} gelegt; er kann ${isBeforeNext ? "früher" : "später"} gewesen sein, ${doubt}.`;
  },
  senml: ({ records }) => `Ein SenML-Paket mit ${records} ${records === 1 ? "Eintrag" : "Einträgen"}.`,
  "senml-unit": ({ unit, records }) =>
    `${records === 1 ? "Ein Messwert" : `${records} Messwerte`} weggelassen: ${unit === "" ? "Es ist keine Einheit angegeben" : `Die Einheit „${unit}“ ist keine von Cel, K und V`}.`,
};

const unitReasons = {
  header: "wie die Datei sagt",
  cells: "wie die Zellen sagen",
  "own-format": "weil die Spalten wie in unserem eigenen Format heißen",
  values: "die einzige Einheit, in der ein Fühler dort solche Werte messen kann",
  told: "wie angegeben",
};

const orderReasons = {
  "year-first": "weil das Jahr vorn steht",
  "above-12": "die einzige Reihenfolge, in der alle davon ein Datum sind",
  "steady-time": "die einzige Reihenfolge, in der die Zeit gleichmäßig weiterläuft",
  told: "wie angegeben",
};

const zoneReasons = { text: "wie jede Zeit sagt", header: "wie die Datei sagt", told: "wie angegeben" };

const senmlProblems: { readonly [P in SenmlProblem]: (text: string) => string } = {
  "no-pack": () => "Eine SenML-Datei ist eine JSON-Liste von Einträgen",
  "no-record": () => "Jeder Eintrag einer SenML-Datei ist ein Objekt in geschweiften Klammern",
  "must-understand": (text) => `Das Etikett „${text}“ muss verstanden werden, und dieses Programm kennt es nicht`,
  "wrong-type": (text) => `Das Etikett „${text}“ enthält einen Wert der falschen Art`,
  "several-values": (text) => `Er enthält mehrere Werte (${text}), wo SenML einen erlaubt`,
  "no-value": () => "Er enthält keinen Wert",
  "no-name": (text) =>
    `„${text}“ ist kein Name; SenML-Namen beginnen mit Buchstabe oder Ziffer und enthalten nur diese und - : . / _`,
  "newer-version": (text) => `Er ist von SenML-Version ${text}, und dieses Programm kennt höchstens 10`,
  "relative-time": (text) => `Die Zeit von „${text}“ zählt ab jetzt; geben Sie mit --now an, welche Zeit das war`,
  "no-reading": () =>
    "Kein Eintrag enthält einen Messwert eines Fühlers des Kühlschranks; benennen Sie sie mit --column",
};

export const importWords = {
  senml: (file: string, record: number, problem: SenmlProblem, text: string): string =>
    `„${file}“${record === 0 ? "" : `, Eintrag ${record}`}: ${senmlProblems[problem](text)}.`,
  /** Why what a board recorded alone cannot be read as it is. */
  boardFile: (
    file: string,
    problem: "no-anchor" | "several-boards" | "no-reading",
    boards: readonly string[],
  ): string => {
    const which = `„${file}“ ist, was ${boards.length === 1 ? "die Fühlerplatine" : "die Fühlerplatinen"} ${boards.join(", ")} allein aufgezeichnet ${boards.length === 1 ? "hat" : "haben"}`;
    switch (problem) {
      case "no-anchor":
        return `${which}, und die Zeilen tragen keine Uhrzeit: Geben Sie mit --read-out an, wann die letzte Zeile gemessen wurde, etwa --read-out 2026-06-07T18:00:00+02:00.`;
      case "several-boards":
        return `${which}; ihre Uhren sind nicht dieselben, teilen Sie die Datei also nach Fühlerplatinen auf.`;
      case "no-reading":
        return `${which}, aber keine Temperatur in °C steht darin; prüfen Sie, ob Fühler angesteckt waren.`;
    }
  },
  askReadOut:
    "Wann wurde die letzte Zeile gemessen? Eine Zeit mit ihrer Zeitzone, etwa 2026-06-07T18:00:00+02:00; nichts zum Abbrechen: ",
  found,
  /** The readings of a question, to be chosen from. */
  readings,
  /** Asked of someone at a terminal. */
  ask: (question: LogQuestion): string => `${capital(what(question))}.`,
  /** Told where nobody is there to ask. */
  refuse: (file: string, question: LogQuestion, others: readonly LogQuestion[] = []): string => {
    const where = `„${file}“, Zeile ${question.line}: ${capital(what(question))}`;
    if (question.about === "half-of-day")
      return `${where}; stellen Sie den Logger auf 24 Stunden, oder lassen Sie ihn am und pm schreiben.`;
    const answer = `sagen Sie es mit ${option(question)}${question.about === "starts-at" ? "" : ", oder in einer Zuordnung (--map)"}`;
    const open = openBesides(others);
    return open.length === 0
      ? `${where}; ${answer}.`
      : `${where}; ${answer}. Offen ist außerdem: ${joined(open, "und")}; „coldfall import“ mit --preview zeigt alles.`;
  },
  /** A file that was understood by itself. */
  understood: (log: string, sentences: readonly string[]): string =>
    `${log} ist die Datei eines anderen Loggers, verstanden aus ihrem eigenen Text: ${sentences.join(" ")}`,
  heading: (file: string): string => `${file}, so verstanden:`,
  native: (file: string): string => `${file} ist in unserem eigenen Format; es ist nichts zu klären.`,
  mapped: (file: string, map: string): string => `${file} wird gelesen, wie ${map} sagt.`,
  rowsHeading: "Die ersten Zeilen lauten dann:",
  openHeading: "Noch offen:",
  answerWith: (question: LogQuestion): string | null =>
    question.about === "half-of-day" ? null : `Antworten Sie mit ${option(question)}.`,
  askStart: "Wann war das? Eine Zeit mit ihrer Zeitzone, etwa 2026-06-07T18:00:00+02:00; nichts zum Abbrechen: ",
  choose: (count: number, isZone: boolean): string => {
    const number = count === 1 ? "1" : `eine Zahl von 1 bis ${count}`;
    return `Tippen Sie ${number}${isZone ? ", oder eine Zeitzone wie Europe/Berlin oder +02:00" : ""}; nichts zum Abbrechen: `;
  },
  row: (line: number, time: string, values: readonly string[]): string =>
    `Zeile ${line}: ${time}  ${values.join(", ")}`,
  /** A reading; null while its unit is open. */
  value: (name: string, value: number | null, unit: string, hand: Hand): string => {
    if (value === null) return `${name} ungeklärt`;
    return Number.isNaN(value) ? `${name} fehlt` : `${name} ${hand.number(value, 2)}\u00a0${unit}`;
  },
  timeOpen: (text: string): string => `„${text}“ (ungeklärt)`,
  keptMapping: (fridge: string): string =>
    `Gelesen wie das letzte Protokoll von ${fridge}; --map oder Optionen wie --zone ändern das.`,
  known: (file: string, run: string, fridge: string): string =>
    `${file} ist schon im Speicher, im Lauf ${run} von ${fridge}; es wurde nichts geändert.`,
  broughtIn: (
    told: {
      readonly file: string;
      readonly fridge: string;
      readonly run: string;
      readonly isNewRun: boolean;
      readonly rows: number;
      readonly stored: number;
      readonly repeated: number;
    },
    hand: Hand,
  ): string => {
    const { file, fridge, run, isNewRun, rows, stored, repeated } = told;
    const there = repeated === 0 ? "" : `, schon vorhanden: ${hand.number(repeated, 0)}`;
    const where = isNewRun
      ? `in einen neuen Lauf von ${fridge}, ${run}`
      : `in den Lauf ${run} von ${fridge}, mit dem sie sich überschneiden`;
    return `${file}: ${hand.count(rows, { one: "Zeile", other: "Zeilen" })} ${where}; neue Messwerte: ${hand.number(stored, 0)}${there}.`;
  },
  contradicted: (count: number, shown: number): string =>
    `${count === 1 ? "Ein Messwert widerspricht" : `${count} Messwerte widersprechen`} dem Gespeicherten, das bleibt${shown < count ? `; die ersten ${shown}` : ""}:`,
  contradiction: (moment: string, name: string, kept: string, refused: string): string =>
    `  ${moment}, ${name}: ${kept} gespeichert, ${refused} in der Datei`,
  unreadable: (count: number, line: number, text: string): string =>
    `${count === 1 ? "Eine Zelle oder Zeile war" : `${count} Zellen oder Zeilen waren`} nicht zu lesen, die erste in Zeile ${line}: „${text}“.`,
  /** Of one column; `time` speaks of whole rows. */
  unreadableIn: (column: string | null, count: number, line: number, text: string): string =>
    column === null
      ? `${count === 1 ? "Eine Zeile war" : `${count} Zeilen waren`} nicht zu lesen und ${count === 1 ? "fällt" : "fallen"} weg, die erste ist Zeile ${line}: „${text}“.`
      : `${capital(column)}: ${count === 1 ? "Eine Zelle war" : `${count} Zellen waren`} nicht zu lesen, die erste in Zeile ${line}: „${text}“.`,
  wholeHeading: "Die ganze Datei:",
  wholeFile: (rows: string, period: string): string => `${rows === "1" ? "Eine Zeile" : `${rows} Zeilen`}, ${period}.`,
  sourcesTold: (sources: readonly string[]): string =>
    sources.length === 0 ? "Welche Energiequelle an war, sagt sie nicht." : `Energiequellen: ${sources.join(", ")}.`,
  tellSources: "Geben Sie die Energiequelle mit --source-at an.",
  rowsOn: (source: string, rows: string): string => `${source} in ${rows === "1" ? "einer Zeile" : `${rows} Zeilen`}`,
  notUsed: (columns: readonly string[]): string => `Nicht verwendet: ${columns.map((name) => `„${name}“`).join(", ")}.`,
  ofOneLog: (option: "--read-out" | "--starts-at" | "--now", files: readonly string[]): string => {
    const such = {
      "--read-out": "den Moment, in dem eine einzige Datei einer Fühlerplatine ausgelesen wurde",
      "--starts-at": "den Moment, in dem die Zählung eines einzigen Protokolls begann",
      "--now": "den Moment, in dem eine einzige SenML-Datei geschrieben wurde",
    }[option];
    return `${such}, und ${joined(files, "und")} sind alle solche Dateien; holen Sie jede mit „coldfall import“ und ihrem eigenen ${option} in den Speicher, und nennen Sie die Läufe`;
  },

  command: {
    summary: "ein Protokoll in den Speicher holen: unser eigenes Format, die CSV eines anderen Loggers oder SenML",
    file: "das Protokoll",
    examples: [
      "coldfall import night.csv --fridge Larch",
      "coldfall import export.csv --preview",
      "coldfall import export.csv --fridge Larch --date-order dmy --zone Europe/Berlin",
      'coldfall import export.csv --fridge Larch --column "Probe 1=evaporator" --column "Probe 2=cabinet"',
      "coldfall import counted.csv --fridge Larch --starts-at 2026-06-04T21:30:00+02:00",
    ],
    startsAt:
      "wann die Zählung begann, für ein Protokoll, dessen Zeiten ab seinem Beginn zählen (Sekunden, Minuten, Stunden oder h:mm:ss)",
    expectedStartsAt: "eine Zeit mit ihrer Zeitzone, etwa 2026-06-07T18:00:00+02:00",
    elapsedUnit: "was eine Spalte verstrichener Zeit zählt, wo ihre Überschrift es nicht sagt",
    decimal: "Zeichen vor den Dezimalstellen, wo die Datei es offen lässt: comma oder point",
    json: "als JSON ausgeben: mit --preview, wie das Protokoll verstanden wird (coldfall schema log-understanding), sonst, was daraus wurde (coldfall schema import)",
    preview: "zeigen, wie das Protokoll verstanden wird, und nichts speichern",
    fridge: "der Kühlschrank, zu dem es gehört; nicht nötig, wo der Speicher nur einen enthält",
    run: "der Lauf, in den es kommt; ohne Angabe nach der Zeit gefunden oder neu angelegt",
    name: "Name eines neuen Laufs; ohne Angabe der der Datei",
    purpose: "Zweck eines neuen Laufs",
    sheet: "Laufblatt eines neuen Laufs, statt dem neben dem Protokoll",
    separator: "was die Zellen trennt: comma, semicolon oder tab",
    dateOrder: "Reihenfolge von Tag, Monat und Jahr: dmy, mdy oder ymd",
    unit: "Einheit von Temperaturen, die die Datei nicht nennt: C, F oder K",
    zone: "Zeitzone von Zeiten, die keine nennen, oder nur in Buchstaben, die mehrere bedeuten können, etwa BST: UTC, ein Abstand wie +02:00 oder ein Name wie Europe/Berlin",
    column: (positions: readonly string[]) =>
      `was eine Spalte ist, nach ihrer Überschrift oder Nummer; POSITION ist ${positions.join(", ")}, time, date, zone, elapsed (Zeit seit Beginn des Protokolls), source oder none; mehrfach möglich`,
    sourceWord:
      "welche Energiequelle ein Wort im Protokoll meint: WORD=SOURCE, etwa standby=off, mit gas, mains, dc12 oder off; mehrfach möglich",
    expectedSourceWord:
      "WORD=SOURCE, etwa standby=off, mit gas, mains, dc12 oder off; gas, mains, dc12 und off bedeuten sich selbst",
    map: "wie die CSV eines anderen Loggers zu lesen ist: eine JSON-Datei, die sagt, was ihre Spalten bedeuten (coldfall schema log-mapping)",
    saveMap: "aufschreiben, wie das Protokoll verstanden wurde, für --map",
    now: "welche Zeit es war, als eine SenML-Datei mit relativen Zeiten geschrieben wurde",
    readOut:
      "wann die letzte Zeile der eigenen Datei einer Fühlerplatine gemessen wurde: Die Fühlerplatine, die allein aufzeichnet, hat keine Uhr; nicht nötig für Starts, die schon hier aufgezeichnet wurden",
    sourceAt: "ab TIME lief der Kühlschrank auf SOURCE (gas, mains, dc12 oder off); mehrfach möglich",
    expectedColumn: (names: readonly string[]) =>
      `COLUMN=POSITION, etwa "Probe 2=cabinet", mit ${names.join(", ")} oder none`,
    expectedZone: "UTC, ein Abstand wie +02:00 oder eine Zeitzone wie Europe/Berlin",
    expectedReadOut: "eine Zeit mit ihrer Zeitzone, etwa 2026-06-07T18:00:00+02:00",
    expectedNow: "eine Zeit wie 2026-06-04T07:00:00Z",
    understood: (file: string): string => `Wie es zu lesen ist, steht jetzt in ${file}.`,
  },
};
