// English: how another logger's file is understood, what is asked about it, and what became of an import.

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

const separators = { ",": "a comma", ";": "a semicolon", "\t": "a tab" } as const;

const encodings: { readonly [E in TextEncoding]: string } = {
  "utf-8": "UTF-8",
  "utf-16le": "UTF-16, low byte first",
  "utf-16be": "UTF-16, high byte first",
  "windows-1252": "the Windows code page 1252",
};

const meanings: { readonly [M in ColumnMeaning]: string } = {
  time: "the time",
  date: "the date",
  zone: "the time zone",
  elapsed: "the time since the log's start",
  source: "the energy source",
  evaporator: "the evaporator (fins)",
  cabinet: "the cabinet",
  ambient: "the ambient air at the lower vent",
  room: "the room before the door",
  freezer: "the freezer compartment",
  ventOut: "the air leaving the upper vent",
  flue: "the flue",
  boiler: "the boiler",
  supply: "the supply voltage",
  none: "none of the fridge's probes, left out",
};

/** What a word for the energy source can mean. */
const sources: { readonly [S in EnergySource | "none"]: string } = {
  gas: "gas",
  mains: "mains",
  dc12: "12 V DC",
  off: "off",
  none: "no source at all, and the column is left out",
};

const orders: { readonly [O in DateOrder]: string } = {
  "day-month-year": "day, month, year",
  "month-day-year": "month, day, year",
  "year-month-day": "year, month, day",
};

const forms: { readonly [F in NonNullable<LogMapping["timeForm"]>]: string } = {
  "unix-seconds": "seconds since 1970",
  "unix-milliseconds": "milliseconds since 1970",
  "spreadsheet-days": "a spreadsheet's days since 1900",
  "elapsed-milliseconds": "milliseconds since the log's start",
  "elapsed-seconds": "seconds since the log's start",
  "elapsed-minutes": "minutes since the log's start",
  "elapsed-hours": "hours since the log's start",
  "elapsed-clock": "hours, minutes and seconds since the log's start",
};

const elapsedUnits: { readonly [U in ElapsedUnit]: string } = {
  ms: "milliseconds",
  s: "seconds",
  min: "minutes",
  h: "hours",
};

const thousandsMarks: { readonly [M in ThousandsMark]: string } = {
  ",": "a comma",
  ".": "a point",
  " ": "a blank",
  "'": "an apostrophe",
};

/** "3 April 2026 07:00", of a wall clock as it stands or of an instant in UTC. */
function day(ms: number): string {
  if (Number.isNaN(ms)) return "no date at all";
  const written = new Intl.DateTimeFormat("en-GB", { timeZone: "UTC", dateStyle: "long", timeStyle: "short" });
  return written.format(ms).replace(/,? at /, " ");
}

/** Of a duration, coarse: to tell hours from minutes. */
function span(hours: number): string {
  if (hours >= 1) return `${hours.toFixed(hours < 100 ? 1 : 0)} h`;
  return hours * 60 >= 1 ? `${(hours * 60).toPrecision(2)} min` : `${(hours * 3600).toPrecision(2)} s`;
}

const celsius = (value: number) => `${value.toFixed(1).replace("-", "\u2212")} °C`;

const either = (texts: readonly string[]) => joined(texts, "or");

/** Each reading of a question with what the example would then mean; the answer is what the option takes. */
function readings(question: LogQuestion): { readonly answer: string; readonly text: string }[] {
  switch (question.about) {
    case "date-order":
      return question.readings.map(({ answer, wallMs }) => ({ answer: orderAnswers[answer], text: day(wallMs) }));
    case "zone":
      return question.readings.map(({ answer, unixMs }) => ({
        answer: zoneAnswer(answer),
        text: `${day(unixMs)} UTC if its clock ran on ${zoneName(answer)}`,
      }));
    case "unit":
      return question.readings.map(({ answer, celsius: value }) => ({
        answer: unitAnswers[answer],
        text: `${celsius(value)} if it is in ${unitSigns[answer]}`,
      }));
    case "decimal":
      return question.readings.map(({ answer, value }) => ({
        answer: decimalAnswers[answer],
        text: `${value} if decimals stand behind ${answer === "," ? "a comma" : "a point"}`,
      }));
    case "elapsed-unit":
      return question.readings.map(({ answer, hours }) => ({
        answer,
        text: `${span(hours)} if it counts ${elapsedUnits[answer]}`,
      }));
    case "starts-at":
      return [];
    case "column":
      return question.readings.map(({ answer }) => ({ answer, text: meanings[answer] }));
    case "which-column":
      return question.readings.map(({ answer, text }) => ({
        answer,
        text: `column "${answer}" (first cell "${text}")`,
      }));
    case "source-word":
      return question.readings.map(({ answer }) => ({ answer, text: sources[answer] }));
    case "half-of-day":
      return question.readings.map(({ answer, text }) => ({ answer, text: `"${text}"` }));
  }
}

/** The option that answers a question, as it is to be typed. */
function option(question: LogQuestion): string {
  const answers = readings(question).map(({ answer }) => answer);
  switch (question.about) {
    case "date-order":
      return `--date-order ${either(answers)}`;
    case "zone":
      return `--zone with ${answers.length < 2 ? `${answers[0]}, a zone such as Europe/Berlin` : either(answers)} or an offset such as +02:00`;
    case "unit":
      return `--unit ${either(answers)}`;
    case "decimal":
      return `--decimal ${either(answers)}`;
    case "elapsed-unit":
      return `--elapsed-unit ${either(answers)}`;
    case "starts-at":
      return "--starts-at and a time such as 2026-06-07T18:00:00+02:00";
    case "column":
      return `--column "${question.column}=${answers[0]}" (or ${either(answers.slice(1))})`;
    case "which-column":
      return `--column "${answers[0]}=${question.meaning}" (or ${either(answers.slice(1).map((answer) => `"${answer}=${question.meaning}"`))})`;
    case "source-word":
      return `${sourceWord(question.text, answers)}, or --column "${question.column}=none"`;
    case "half-of-day":
      return "";
  }
}

/** What else is to be answered, in short. */
const openBesides = (others: readonly LogQuestion[]) => [
  ...new Set(
    others.map((question) =>
      question.about === "column" ? `--column for "${question.column}"` : (answerOption(question, "")[0] ?? "am or pm"),
    ),
  ),
];

const sourceWord = (word: string, answers: readonly string[]) =>
  `--source-word "${word}=${answers[0]}" (or ${either(answers.slice(1, -1))})`;

const what = (question: LogQuestion): string => {
  switch (question.about) {
    case "date-order":
      return `"${question.text}" can be ${either(readings(question).map(({ text }) => text))}`;
    case "zone":
      if (question.letters !== null)
        return `"${question.letters}" in "${question.text}" can mean several time zones: it is ${readings(question)
          .map(({ text }) => text)
          .join(", and ")}`;
      return `"${question.text}" does not say its time zone: it is ${readings(question)
        .map(({ text }) => text)
        .join(", and ")}${question.readings.length < 2 ? ", and another instant in any other zone" : ""}`;
    case "unit":
      return `"${question.text}" in column "${question.column}" does not say its unit: it is ${readings(question)
        .map(({ text }) => text)
        .join(", and ")}`;
    case "decimal":
      return `"${question.text}" in column "${question.column}" can be ${either(readings(question).map(({ text }) => text))}`;
    case "elapsed-unit":
      return `column "${question.column}" counts from the log's start and does not say in what: "${question.text}" is ${either(readings(question).map(({ text }) => text))}`;
    case "starts-at":
      return `column "${question.column}" counts from the log's start, and the file does not say when that was`;
    case "column":
      return `column "${question.column}" (first reading "${question.text}") can be ${either(readings(question).map(({ text }) => text))}`;
    case "which-column":
      return `${meanings[question.meaning]} can be ${either(readings(question).map(({ text }) => text))}`;
    case "source-word":
      return `column "${question.column}" says which energy source was on, and "${question.text}" is no word that is known here: it can be ${either(readings(question).map(({ text }) => text))}`;
    case "half-of-day":
      return `the clock falls back half a day at "${question.text}" and writes neither am nor pm, so morning and evening cannot be told apart`;
  }
};

const found: Phrases<LogFoundSayings, unknown> = {
  encoding: ({ encoding }) => `Text in ${encodings[encoding]}.`,
  separator: ({ separator }) => `Cells separated by ${separators[separator]}.`,
  "decimal-comma": ({ example }) => `Decimals behind a comma, as in "${example}".`,
  "decimal-point": ({ example }) => `Decimals behind a point, as in "${example}".`,
  thousands: ({ mark, example }) => `Thousands parted by ${thousandsMarks[mark]}, as in "${example}".`,
  "lines-before": ({ lines }) => `${lines === 1 ? "One line" : `${lines} lines`} before the header passed over.`,
  "no-header": () => "No header: the columns are numbered from 1.",
  column: ({ column, meaning, told }) => `Column "${column}": ${meanings[meaning]}${told ? ", as told" : ""}.`,
  "column-left-out": ({ column }) => `Column "${column}" left out.`,
  millivolts: ({ column }) => `Column "${column}" in millivolts, as the file says.`,
  "unit-of": ({ column, unit, from }) => `Column "${column}" in ${unitSigns[unit]}, ${unitReasons[from]}.`,
  "date-order": ({ order, from, example }) => `Dates such as "${example}": ${orders[order]}, ${orderReasons[from]}.`,
  zone: ({ zone, from }) => `Times on ${zoneName(zone)}, ${zoneReasons[from]}.`,
  "zone-letters": ({ letters, zone, from }) =>
    `"${letters}" behind a time: ${zoneName(zone)}, ${from === "told" ? "as told" : "the only time zone with these letters then"}.`,
  "starts-at": ({ unixMs, utcOffsetMinutes }) =>
    `Counted from ${day(unixMs + utcOffsetMinutes * msPerMinute)} ${zoneName(offsetName(utcOffsetMinutes))}, as told.`,
  "time-form": ({ form, example }) => `Times such as "${example}": ${forms[form]}.`,
  "twelve-hours": ({ example }) => `A clock of twelve hours, as in "${example}".`,
  "hour-24": ({ example }) => `"${example}" is the end of that day.`,
  senml: ({ records }) => `A SenML pack of ${records} records.`,
  "board-file": ({ board, starts, damaged }) =>
    `What board ${board} recorded alone, over ${starts === 1 ? "one start" : `${starts} starts`}${damaged === 0 ? "" : `; ${damaged === 1 ? "one line is" : `${damaged} lines are`} damaged and left out`}.`,
  "probe-without-curve": ({ probe, unit }) =>
    `Probe ${probe} sent ${unit === "Ohm" ? "ohms" : "millivolts"}, and nobody said what they mean: no temperatures of it until "coldfall probes curve ${probe}" says so.`,
  "board-start": ({ start, isBeforeNext, slackMinutes }) => {
    const where = isBeforeNext ? "right before the one that follows" : "right after the one before";
    const doubt = slackMinutes === null ? "nobody knows by how much" : `by up to ${slackMinutes} min`;
    return slackMinutes === 0
      ? `Start ${start} is put ${where}.`
      : `Start ${start} is put ${where}; it can have been ${isBeforeNext ? "earlier" : "later"}, ${doubt}.`;
  },
  "senml-unit": ({ unit, records }) =>
    `${records === 1 ? "One reading" : `${records} readings`} left out: ${unit === "" ? "no unit is stated" : `the unit "${unit}" is none of Cel, K and V`}.`,
};

const unitReasons = {
  header: "as the file says",
  cells: "as the cells say",
  "own-format": "since the columns are named as in our own format",
  values: "the only unit in which a probe there can read such values",
  told: "as told",
} as const;

const orderReasons = {
  "year-first": "since the year comes first",
  "above-12": "the only order in which all of them are dates",
  "steady-time": "the only order in which time runs on steadily",
  told: "as told",
} as const;

const zoneReasons = { text: "as each time says", header: "as the file says", told: "as told" } as const;

const senmlProblems: { readonly [P in SenmlProblem]: (text: string) => string } = {
  "no-pack": () => "a SenML file is a JSON list of records",
  "no-record": () => "each record of a SenML file is an object in braces",
  "must-understand": (text) => `the label "${text}" must be understood, and this program does not know it`,
  "wrong-type": (text) => `the label "${text}" holds a value of the wrong type`,
  "several-values": (text) => `it holds several values (${text}) where SenML allows one`,
  "no-value": () => "it holds no value",
  "no-name": (text) =>
    `"${text}" is no name; SenML names begin with a letter or digit and hold only those and - : . / _`,
  "newer-version": (text) => `it is of SenML version ${text}, and this program knows 10 at most`,
  "relative-time": (text) => `the time of "${text}" is relative to now; say with --now at what time that was`,
  "no-reading": () => "no record holds a reading of one of the fridge's probes; name them with --column",
};

export const importWords = {
  senml: (file: string, record: number, problem: SenmlProblem, text: string): string =>
    `"${file}"${record === 0 ? "" : `, record ${record}`}: ${senmlProblems[problem](text)}.`,
  found,
  /** The readings of a question, to be chosen from. */
  readings,
  /** Asked of someone at a terminal. */
  ask: (question: LogQuestion): string => `${capital(what(question))}.`,
  /** Told where nobody is there to ask. */
  refuse: (file: string, question: LogQuestion, others: readonly LogQuestion[] = []): string => {
    const where = `"${file}", line ${question.line}: ${what(question)}`;
    if (question.about === "half-of-day") return `${where}; set the logger to 24 hours, or have it write am and pm.`;
    const answer =
      question.about === "starts-at"
        ? `say when with ${option(question)}`
        : `say which with ${option(question)}, or in a mapping (--map)`;
    const open = openBesides(others);
    return open.length === 0
      ? `${where}; ${answer}.`
      : `${where}; ${answer}. Open besides: ${joined(open, "and")}; "coldfall import" with --preview tells of all.`;
  },
  /** A file that was understood by itself. */
  understood: (log: string, sentences: readonly string[]): string =>
    `${log} is another logger's file, understood from its own text: ${sentences.join(" ")}`,
  heading: (file: string): string => `${file}, as it is understood:`,
  native: (file: string): string => `${file} is in our own format; there is nothing to settle.`,
  mapped: (file: string, map: string): string => `${file} is read as ${map} says.`,
  rowsHeading: "The first rows then read:",
  openHeading: "Still open:",
  answerWith: (question: LogQuestion): string | null =>
    question.about === "half-of-day" ? null : `Answer with ${option(question)}.`,
  askStart: "When was that? A time with its zone, such as 2026-06-07T18:00:00+02:00; nothing to stop: ",
  choose: (count: number, isZone: boolean): string => {
    const number = count === 1 ? "1" : `a number from 1 to ${count}`;
    return `Type ${number}${isZone ? ", or a zone such as Europe/Berlin or +02:00" : ""}; nothing to stop: `;
  },
  row: (line: number, time: string, values: readonly string[]): string => `line ${line}: ${time}  ${values.join(", ")}`,
  /** A reading; null while its unit is open. */
  value: (name: string, value: number | null, unit: string, hand: Hand): string => {
    if (value === null) return `${name} not settled`;
    return Number.isNaN(value) ? `${name} missing` : `${name} ${hand.number(value, 2)} ${unit}`;
  },
  timeOpen: (text: string): string => `"${text}" (not settled)`,
  keptMapping: (fridge: string): string =>
    `Read as the last log of ${fridge} was; --map or options such as --zone say otherwise.`,
  known: (file: string, run: string, fridge: string): string =>
    `${file} is in the store already, in run ${run} of ${fridge}; nothing was changed.`,
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
    const there = repeated === 0 ? "" : `, ${hand.number(repeated, 0)} were there already`;
    const where = isNewRun ? `a new run of ${fridge}, ${run}` : `run ${run} of ${fridge}, which it overlaps`;
    return `${file}: ${hand.number(rows, 0)} rows into ${where}; ${hand.number(stored, 0)} readings are new${there}.`;
  },
  contradicted: (count: number, shown: number): string =>
    `${count === 1 ? "One reading contradicts" : `${count} readings contradict`} what was kept, which stays${shown < count ? `; the first ${shown}` : ""}:`,
  contradiction: (moment: string, name: string, kept: string, refused: string): string =>
    `  ${moment}, ${name}: ${kept} kept, ${refused} in the file`,
  unreadable: (count: number, line: number, text: string): string =>
    `${count === 1 ? "One cell or row" : `${count} cells or rows`} could not be read, the first in line ${line}: "${text}".`,
  /** Of one column; `time` speaks of whole rows. */
  unreadableIn: (column: string | null, count: number, line: number, text: string): string =>
    column === null
      ? `${count === 1 ? "One row" : `${count} rows`} could not be read and will be left out, the first in line ${line}: "${text}".`
      : `${capital(column)}: ${count === 1 ? "one cell" : `${count} cells`} could not be read, the first in line ${line}: "${text}".`,
  wholeHeading: "The whole file:",
  wholeFile: (rows: string, period: string): string => `${rows === "1" ? "One row" : `${rows} rows`}, ${period}.`,
  sourcesTold: (sources: readonly string[]): string =>
    sources.length === 0 ? "It does not say which energy source was on." : `Energy sources: ${sources.join(", ")}.`,
  tellSources: "Tell the energy source with --source-at.",
  rowsOn: (source: string, rows: string): string => `${source} in ${rows === "1" ? "one row" : `${rows} rows`}`,
  notUsed: (columns: readonly string[]): string => `Not used: ${columns.map((name) => `"${name}"`).join(", ")}.`,
  /** Why what a board recorded alone cannot be read as it is. */
  boardFile: (
    file: string,
    problem: "no-anchor" | "several-boards" | "no-reading",
    boards: readonly string[],
  ): string => {
    const which = `"${file}" is what ${boards.length === 1 ? "board" : "boards"} ${boards.join(", ")} recorded alone`;
    switch (problem) {
      case "no-anchor":
        return `${which}, and its lines carry no clock: say with --read-out when its last line was read, such as --read-out 2026-06-07T18:00:00+02:00.`;
      case "several-boards":
        return `${which}; their clocks are not the same, so cut it into a file for each board.`;
      case "no-reading":
        return `${which}, but it holds no temperature in °C; check that probes were plugged in.`;
    }
  },
  askReadOut: "When was its last line read? A time with its zone, such as 2026-06-07T18:00:00+02:00; nothing to stop: ",
  /** Why what is told of one log cannot be told of several. */
  ofOneLog: (option: "--read-out" | "--starts-at" | "--now", files: readonly string[]): string => {
    const such = {
      "--read-out": "the moment at which one board's own file was read out",
      "--starts-at": "the moment at which the count of one log began",
      "--now": "the moment at which one SenML file was written",
    }[option];
    return `${such}, and ${joined(files, "and")} are all such files; bring each into the store with coldfall import and its own ${option}, and name the runs`;
  },

  command: {
    summary: "bring a log into the store: our own format, another logger's CSV, or SenML",
    file: "the log",
    examples: [
      "coldfall import night.csv --fridge Larch",
      "coldfall import export.csv --preview",
      "coldfall import export.csv --fridge Larch --date-order dmy --zone Europe/Berlin",
      'coldfall import export.csv --fridge Larch --column "Probe 1=evaporator" --column "Probe 2=cabinet"',
      "coldfall import counted.csv --fridge Larch --starts-at 2026-06-04T21:30:00+02:00",
    ],
    startsAt:
      "when the count began, for a log whose times are counted from its start (seconds, minutes, hours or h:mm:ss)",
    expectedStartsAt: "a time with its zone, such as 2026-06-07T18:00:00+02:00",
    elapsedUnit: "what a column of elapsed time counts, where its header does not say",
    decimal: "mark before decimals, where the file leaves it open: comma or point",
    json: "print as JSON: how the log is understood with --preview (coldfall schema log-understanding), else what became of it (coldfall schema import)",
    preview: "show how the log is understood, and store nothing",
    fridge: "the fridge it is of; not needed where the store holds only one",
    run: "the run to bring it into; found by its time, or made, without",
    name: "name of a new run; the file's unless stated",
    purpose: "purpose of a new run",
    sheet: "run sheet of a new run, instead of the one beside the log",
    separator: "what separates the cells: comma, semicolon or tab",
    dateOrder: "order of day, month and year: dmy, mdy or ymd",
    unit: "unit of temperatures that the file does not state: C, F or K",
    zone: "zone of times that do not state theirs, or state it in letters that can mean several, such as BST: UTC, an offset such as +02:00, or a name such as Europe/Berlin",
    column: (positions: readonly string[]) =>
      `what a column is, by its header or its number; POSITION is ${positions.join(", ")}, time, date, zone, elapsed (time since the log's start), source or none; may be given several times`,
    sourceWord:
      "which energy source a word in the log means: WORD=SOURCE, such as standby=off, with gas, mains, dc12 or off; may be given several times",
    expectedSourceWord:
      "WORD=SOURCE, such as standby=off, with gas, mains, dc12 or off; gas, mains, dc12 and off mean themselves",
    map: "how to read another logger's CSV: a JSON file that says what its columns mean (coldfall schema log-mapping)",
    saveMap: "write down how the log was understood, for --map",
    now: "what time it was when a SenML file with relative times was written",
    readOut:
      "when the last line of a board's own file was read: the board that recorded alone has no clock; not needed for starts that were recorded here before",
    expectedReadOut: "a time with its zone, such as 2026-06-07T18:00:00+02:00",
    sourceAt: "from TIME on the fridge ran on SOURCE (gas, mains, dc12 or off); may be given several times",
    expectedColumn: (names: readonly string[]) =>
      `COLUMN=POSITION, such as "Probe 2=cabinet", with ${names.join(", ")} or none`,
    expectedZone: "UTC, an offset such as +02:00, or a zone such as Europe/Berlin",
    expectedNow: "a time such as 2026-06-04T07:00:00Z",
    understood: (file: string): string => `How to read it is written down in ${file}.`,
  },
};
