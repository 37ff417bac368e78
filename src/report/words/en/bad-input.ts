// English: why an input was refused. One sentence each: what was wrong, where, and what to do.

import type { BadInputSayings, Phrases, ShapeProblem, ShapeProblems } from "../../../schema/index.ts";
import { orderAnswers, unitAnswers, unitSigns } from "../import-answers.ts";
import { importWords } from "./import.ts";
import { storeRefusals } from "./store.ts";

/** A file says by its format what it is. */
const otherFile = ", and check that it is the file you mean";

const decimalCommas = "; where decimals have a comma, cells are parted by semicolons";

/** The first few names. */
const namedSome = (names: readonly string[]) =>
  names
    .slice(0, 4)
    .map((name) => `"${name}"`)
    .join(", ") + (names.length > 4 ? " …" : "");

const sourceNames = "gas, mains, dc12 or off";

export const badInput: Phrases<BadInputSayings, unknown> = {
  ...storeRefusals,
  "no-such-file": ({ file }) => `There is no file "${file}"; ${oddName(file) ?? "check the name and the folder"}.`,
  "unreadable-file": ({ file, errorCode }) => `"${file}" could not be read: ${systemReason(errorCode)}.`,
  "is-spreadsheet": ({ file }) =>
    `"${file}" is a spreadsheet program's own file, which cannot be read; open it there, save it as CSV, and give that file.`,
  "is-no-log": ({ file, is }) => `"${file}" is no log but ${noLogs[is]}.`,
  "date-order-unfit": ({ file, line, text, told, fits }) =>
    `"${file}", line ${line}: --date-order ${orderAnswers[told]} does not fit the dates of this log, such as "${text}"; ${fits.length === 0 ? "leave it out" : `leave it out, or give ${fits.map((order) => orderAnswers[order]).join(" or ")}`}.`,
  "empty-log": ({ file }) =>
    `"${file}" holds no readings: it needs a header line and at least one row below it, so check that the logger has finished writing it.`,
  "no-time-column": ({ file, header }) =>
    `"${file}", line 1: there is no "time" column in "${header}"; add one, or, of another logger's file, say what each is with --column "COLUMN=cabinet" and the like, or in a mapping (--map).`,
  "no-known-column": ({ file, header }) =>
    `"${file}", line 1: none of the columns in "${header}" is known; name them time, evaporator, cabinet, ambient and source with commas between, or, of another logger's file, say what each is with --column "COLUMN=cabinet" and the like, or in a mapping (--map).`,
  "doubled-column": ({ file, column }) =>
    `"${file}": the column "${column}" is there twice, so it is not clear which one to use; rename or remove one.`,
  "unknown-source": ({ file, line, value, in: where }) => {
    const told = `say which of them it means with --source-word "${value}=off" or the like`;
    const remedies = {
      "own-format": `write ${sourceNames}, or ${told}`,
      mapped: `it can mean ${sourceNames}: ${told}, or in the mapping's "sourceNames" (--map)`,
      forecast: `write ${sourceNames}`,
    };
    return `"${file}", line ${line}: "${value}" is not an energy source; ${remedies[where]}.`;
  },
  "ambiguous-dates": ({ file, line, value }) =>
    `"${file}", line ${line}: in "${value}" day and month cannot be told apart; state "dateOrder" in a mapping (--map), or write times like 2026-06-04T07:00:00Z.`,
  "time-without-offset": ({ file, line, value }) =>
    `"${file}", line ${line}: the time "${value}" does not say its UTC offset; state "timeZone" in a mapping (--map), or write times like 2026-06-04T07:00:00+02:00.`,
  "not-senml": ({ file, record, problem, text }) => importWords.senml(file, record, problem, text),
  "board-file": ({ file, problem, boards }) => importWords.boardFile(file, problem, boards),
  "two-readings": ({ file, question, others }) => importWords.refuse(file, question, others),
  "wrong-row-length": ({ file, line, cells, expected, rows }) =>
    `"${file}", line ${line}: ${counted(cells, "cell")} where the header has ${expected}, and so in ${counted(rows, "row")}; check the separator and the header${cells > expected ? decimalCommas : ""}.`,
  "nothing-readable": ({ file, line, column, value }) =>
    value === ""
      ? `"${file}" holds no reading at all: every cell up to line ${line} is empty; check that the probes were connected.`
      : `"${file}", line ${line}: nothing in the file could be read, beginning with "${value}" in column "${column}"; ${remedy(column)}`,
  "not-json": ({ file, line, column }) =>
    line === null
      ? `"${file}": this is not JSON, which is what is read here; check that it is the file you mean, and whole.`
      : `"${file}", line ${line}, column ${column}: this is not JSON; look for a missing comma, quote or bracket there.`,
  "wrong-shape": ({ file, where, problem }) =>
    `"${file}"${where === "" ? "" : `, field "${where}"`}: ${shapeSentence(problem)}${where === "format" ? otherFile : ""}.`,
  "newer-format": ({ file, format, known }) =>
    `"${file}" is of format "${format}", and this version of coldfall knows "${known}" at most; update coldfall to read it.`,
  "looks-like-ohms": ({ file, column, text }) =>
    `"${file}": the column "${column}" (such as ${text}) looks like ohms and is never read as °C. Ohms become °C by the curve of their probe: bring in the probe board's own file and tell its probe's curve, or have the logger write °C; if it is no probe of the fridge, take the column out.`,
  "probe-per-row": ({ file, column, probes }) =>
    `"${file}" holds one probe's reading per row, and its column "${column}" names the probe (${namedSome(probes)}); read as it is, all probes would be one. Have the logger write a column for each probe, or turn the table in a spreadsheet: one row per time, one column per probe.`,
  "mapping-column-missing": ({ file, column, header }) =>
    `"${file}": the mapping names a column "${column}", but the header is "${header}"; correct the mapping's column names or its separator.`,
  "no-such-column": ({ column, columns, file }) =>
    `There is no column "${column}" in ${file === undefined ? "the log" : `"${file}"`}; its columns are ${columns.map((name) => `"${name}"`).join(", ")}.`,
  "cannot-write": ({ file, errorCode }) => `"${file}" could not be written: ${systemReason(errorCode)}.`,
  "no-plan": ({ why }) => why,
  "no-fridge-named": ({ known }) =>
    known.length === 0
      ? 'No fridge is kept yet; add one with "coldfall fridges add NAME" and name it with --fridge.'
      : `Say which fridge the log is of, with --fridge and one of ${known
          .slice(0, 8)
          .map((name) => `"${name}"`)
          .join(", ")}${known.length > 8 ? " …" : ""}; "coldfall fridges" lists them.`,
  "bad-option": ({ option, value, expected }) => `${option}: "${value}" cannot be used; give ${expected}.`,
  "option-alone": ({ option, needed }) =>
    `${option} changes nothing without ${needed.join(" or ")}; give ${needed.length === 1 ? "that" : "one of them"} too, or leave ${option} out.`,
  "option-unfit": ({ option, needs }) => `${option} ${optionNeeds[needs]}; leave it out.`,
  "unit-stated": ({ file, told, stated }) =>
    `"${file}" says itself that its temperatures are in ${stated.map((unit) => unitSigns[unit]).join(" and ")}, and --unit ${unitAnswers[told]} changes nothing; leave it out, or, if the file is wrong, state the unit in a mapping (--map).`,
  "nothing-said": ({ options }) =>
    `Nothing is said that could be done; give ${options.slice(0, -1).join(", ")} or ${options.at(-1)}.`,
  "no-samples": ({ folder }) =>
    `"${folder}" holds no sample logs; put each fridge's logs into a folder of their own there, known-good ones named known-good-*.csv.`,
  "nothing-cools": ({ files }) =>
    `${files.map((file) => `"${file}"`).join(", ")}: no stretch in which the fridge cools was found, so there is nothing known-good to keep; analyse the log to see what it holds.`,
  "same-log-twice": ({ file, other }) =>
    `${file === other ? `"${file}" is given twice, under its name or as a run of the store` : `"${file}" and "${other}" are the same log`}: compared with itself or counted twice a run proves nothing, so leave one out.`,
  "kept-otherwise": ({ file, run, fridge, differs, files }) => {
    const kept = {
      place: "and not where you want it now",
      readings: "and was read otherwise than what you say now; nothing was changed",
      source: "without the energy sources that you tell now; nothing was changed",
    }[differs];
    const others = files > 1 ? ` (it holds ${files} files, all of which you then import again)` : "";
    return `"${file}" is in the store already, in run ${run} of ${fridge}, ${kept}. To have it as you say, remove that run with "coldfall runs remove ${run}"${others}, and import the file again.`;
  },
  "different-fridges": ({ run, other }) =>
    `Run "${run}" is of another fridge than run "${other}"; give runs of one fridge.`,
  "fridges-differ": ({ log, fridge, other, otherFridge, isKnownGood }) =>
    `"${log}" is of the fridge "${fridge}" and "${other}" of the fridge "${otherFridge}"; ${isKnownGood ? "say --of-kind if these are fridges of the same kind, else give" : "give"} logs of one fridge, or correct the run sheet.`,
  "baseline-of-other-fridge": ({ log, fridge, otherFridge }) =>
    `"${log}" in the baseline file is of the fridge "${otherFridge}" and not of "${fridge}"; take a file of ${fridge}'s own runs, or, if these are fridges of the same kind, make it anew with "coldfall baseline --of-kind", or correct the run sheet.`,
  "no-such-log": ({ name, store, isStoreMissing = false }) => {
    const dashed = longDash.exec(name);
    if (dashed !== null) return `"${name}" begins with a long dash; options begin with two hyphens: --${dashed[1]}.`;
    return isStoreMissing
      ? `"${name}" is no file here, and no run either: there is no store ${store}; name the workshop's with --store.`
      : `"${name}" is neither a file here nor a run in the store ${store}; ${oddName(name) ?? '"coldfall runs" lists the runs'}.`;
  },
  "no-such-part": ({ command, part, parts }) =>
    `"coldfall ${command}" has no part "${part}"; it has ${parts.join(", ")}; run "coldfall help ${command}" to see what they do.`,
  "nothing-to-record": () =>
    "Say what to record: give --port with a board's port, or --replay with a log, one of the two.",
  "nothing-recorded": ({ fridge }) =>
    `Nothing is being recorded on ${fridge}; start recording first, or give --run with a run of it.`,
  "outside-run": ({ run, at, from, to }) =>
    `${at} lies outside of run "${run}", which goes from ${from} to ${to}; check the date and the year, or name another run.`,
  "unbelievable-reading": ({ position, value, low, high }) =>
    `"${position}=${value}" cannot be true: there a probe reads from ${low} to ${high} ${position === "supply" ? "V" : "°C"}; check the number.`,
  "reading-kept": ({ position, kept, given, run, at }) =>
    `"${position}=${given}": at ${at} run "${run}" holds ${Number(kept.toFixed(4))} ${position === "supply" ? "V" : "°C"} there already, and that stays; nothing was noted. Give --at with the instant at which it was read, or write the difference into a note of the run.`,
  "no-probe-placed": ({ board, fridge, probes }) =>
    `Board ${board} has ${probes.length === 0 ? "no probe plugged in" : `the probes ${probes.join(", ")}, and none has a place on ${fridge} yet`}; say where each sits with "coldfall probes place PROBE --fridge ${fridge} --position evaporator" and the like, then record again.`,
  "no-probe-curve": ({ board, probes }) =>
    `Board ${board}: ${probes.length === 1 ? `probe ${probes[0]} sends` : `the probes ${probes.join(", ")} send`} ohms or millivolts, nobody said what they mean, and no other probe with a place gives a temperature; say it with "coldfall probes curve ${probes[0]} --thermistor 10000,3950" or as the probe's data sheet has it, then try again.`,
  "already-recorded": ({ name, holder }) =>
    `${name} is being recorded already, by ${holder}; stop that one first, or look on with "coldfall runs".`,
  "ambient-or-forecast": () =>
    "Say for what: give either --ambient with a temperature in °C, or --forecast with a file, not both.",
  "forecast-separator": ({ file }) =>
    `"${file}": a forecast's cells are parted by commas, and decimals stand behind a point; put commas between time,ambient,source and between the cells below, and write 20.5 for 20,5.`,
  "forecast-column-missing": ({ file, column, header }) =>
    `"${file}", line 1: a forecast needs the column "${column}", and the header is "${header}"; write time,ambient,source and, if wanted, sun and driving.`,
  "forecast-column-unknown": ({ file, column }) =>
    `"${file}", line 1: "${column}" is no column of a forecast; they are time, ambient, source, sun and driving.`,
  "forecast-cell": ({ file, line, column, value }) =>
    `"${file}", line ${line}: "${value}" cannot be used as ${column}; ${forecastRemedies[column]}.`,
  "forecast-order": ({ file, line, value, before }) =>
    `"${file}", line ${line}: ${value} does not come after ${before}; put the rows in order of time, each time once.`,
  "forecast-too-short": ({ file, rows }) =>
    `"${file}" holds ${rows === 0 ? "no row" : "only one row"} below its header; a forecast needs at least two, the last one ending the trip.`,
  "forecast-too-long": ({ file, line, value, mostDays }) =>
    `"${file}", line ${line}: ${value} lies more than ${mostDays} days after the first row; nobody forecasts that far, so cut the file there.`,
};

/** A name with bytes that are no UTF-8, as old disks hold them, comes in with this in their place. */
const spoiltName = "its name holds characters that cannot be read, so rename the file with plain letters";

/** What to do about a name that shows by itself what went wrong. */
function oddName(name: string): string | undefined {
  if (name.includes("\ufffd")) return spoiltName;
  if (/[*?]/.test(name)) return "the shell here leaves * and ? as they are, so name each file";
  if (/^(['"]).*\1$/.test(name))
    return "the quotes around it are part of the name here; leave them out, or use double ones";
  return undefined;
}

/** Word processors and web pages make one dash of two hyphens. */
const longDash = /^[\u2012-\u2015\u2212](.*)$/;

const noLogs = {
  store: "a store: give it with --store, and name its runs",
  page: "a page, such as a report; give the log it was made from",
  baseline: "a baseline file; give it with --baseline",
  mapping: "a mapping, which says how logs are read; give it with --map beside the log",
  "run-sheet": "a run sheet; give it with --sheet beside the log",
  "fridge-export": 'a fridge exported from a store; take it in with "coldfall fridges take-in"',
  result: "a result in JSON; give the log it was made from",
  json: "some other JSON; if it is a run sheet, give it with --sheet beside the log",
  "no-text": "some program's own file, and no text; have the logger export CSV, and give that",
} as const;

const optionNeeds = {
  file: 'says how a file is to be read, and the logs given are runs of the store, which keep what they were told (change that with "coldfall sheet" or "coldfall source")',
  "board-file": "is for a board's own file, whose lines carry no clock, and no log given is one",
  "counted-times": "is for a log whose times are counted from its start, and no log given is one",
  "relative-senml": "is for a SenML file with relative times, and no log given is a SenML file",
  "mapped-log":
    "writes down how another logger's CSV was understood, and this log is none: nobody has to be told how to read it",
  "zoneless-times": "is for times that do not say their time zone, and no log given has such",
  "day-and-month": "is for dates that write day and month in either order, and no log given has such",
  "untold-sources":
    "is for logs that do not say their energy source, and each log given does (one that says it wrongly is corrected in the store: coldfall import, then coldfall source)",
  "other-logger": "says how another logger's CSV is to be read, and no log given is one",
} as const;

const forecastRemedies = {
  time: "write times like 2026-07-10T14:00:00+02:00",
  ambient: "write a temperature from -30 to 60 in °C, with a point for the decimals",
  sun: "write sun or shade, yes or no, or leave the cell empty",
  driving: "write yes or no, or leave the cell empty",
} as const;

const remedy = (column: string) =>
  column === "time"
    ? "write times like 2026-06-04T07:00:00Z."
    : "numbers take a point for the decimals and nothing else in the cell.";

const counted = (count: number, noun: string) => `${count} ${noun}${count === 1 ? "" : "s"}`;

/** The system's error codes that people meet; others are shown as they are. */
const systemReasons: ReadonlyMap<string, string> = new Map([
  ["EEXIST", "there is such a file already; choose another name"],
  ["EACCES", "you have no permission; check the owner of the file and its folder"],
  ["EPERM", "you have no permission; check the owner of the file and its folder"],
  ["EISDIR", "it is a folder; name a file in it"],
  ["ENOTDIR", "part of the path is a file, not a folder; check the path"],
  ["ENOENT", "its folder does not exist; make the folder first"],
  ["ENOSPC", "the disk is full; free some space"],
  ["EROFS", "the disk is read-only; choose another folder"],
  ["ERR_FS_FILE_TOO_LARGE", "it is larger than 2 GiB; cut it into parts"],
]);

const systemReason = (errorCode: string) =>
  systemReasons.get(errorCode) ?? `the system says ${errorCode || "nothing more"}; check the disk and try again`;

const typeNames: ReadonlyMap<string, string> = new Map([
  ["string", "a text in quotes"],
  ["number", "a number without quotes"],
  ["int", "a whole number"],
  ["boolean", "true or false"],
  ["array", "a list in square brackets"],
  ["object", "an object in braces"],
  ["record", "an object in braces"],
]);

const shapes: Phrases<ShapeProblems, unknown> = {
  missing: () => "it is missing; add it",
  "unknown-field": ({ field }) => `"${field}" is not a field of this file; correct its spelling or remove it`,
  "wrong-type": ({ expected }) => `write ${typeNames.get(expected) ?? expected} here`,
  "not-one-of": ({ options }) =>
    options.length === 1 ? `it must be "${options[0]}"` : `write one of ${options.map((o) => `"${o}"`).join(", ")}`,
  "too-small": ({ least, exclusive }) => `it must be ${exclusive ? "more than" : "at least"} ${least}`,
  "too-big": ({ most, exclusive }) => `it must be ${exclusive ? "less than" : "at most"} ${most}`,
  "too-few": ({ least }) => `it must hold at least ${least}`,
  "not-an-instant": () => "write a time like 2026-06-04T07:00:00Z",
  "unequal-lengths": ({ expected, found }) =>
    `it holds ${found} values where there are ${expected} instants; the file is damaged, so make it again`,
  "breaks-rule": ({ rule }) => `it does not fit the rule ${rule}`,
};

function shapeSentence(problem: ShapeProblem): string {
  // One code picks the phrase that takes exactly this problem's values; TypeScript cannot follow that.
  const phrase = shapes[problem.code] as (values: ShapeProblem, hand: unknown) => string;
  return phrase(problem, undefined);
}
