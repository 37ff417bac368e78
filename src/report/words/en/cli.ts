// English: the help of the command line, and what it tells while it works.

/** PowerShell takes a list with commas apart. */
const together = "what belongs together goes in quotes, in PowerShell also a list with commas";

const care =
  "Coldfall only reads temperatures; it switches and lights nothing and is no gas, CO or fire alarm.\n" +
  "Mains voltage, LPG, flame, flue gas (CO) and ammonia can hurt people: local codes and licensed gas and\n" +
  "electrical people decide.";

export const cli = {
  usageHeading: "Examples:",
  care,
  language: "language of what is told and written; this help stays English",
  fahrenheit: "tell temperatures in degrees Fahrenheit; what you type and files hold stays in °C",
  store: (usual: string) => `the workshop's store; ${usual} unless stated`,

  program: {
    summary:
      "Judges three-way absorption fridges from logged temperatures: says for each energy source whether it is good, weak, not cooling, or cannot be judged yet, and why.",
    examples: [
      "coldfall analyse night.csv",
      "coldfall analyse night.csv --known-good may.csv --known-good june.csv --html night.html",
      "coldfall baseline may.csv june.csv --out larch.baseline.json",
      "coldfall help analyse",
    ],
    exitCodes:
      "Exit code 0: it ran, whatever it found; 2: input that cannot be used, and nothing was written;\n3: a fault of the program.",
    version: "print the version",
    help: "show this help",
    helpCommand: "show the help of a command",
  },

  analyse: {
    summary: "judge each energy source of the fridge that the logs are of",
    logs: "logs of this fridge (CSV: time, evaporator, cabinet, ambient, source), or runs of the store by their ids; a run sheet beside a log, NAME.sheet.json, is read with it",
    knownGood: "log of a run known to be good; may be given several times",
    ofKind: "the known-good logs are of another fridge of the same kind, not of this one",
    baseline: 'file of known-good runs, made by "coldfall baseline"',
    sheet: "run sheet of the logs, instead of the one beside each",
    sourceAt:
      "from TIME on the fridge ran on SOURCE (gas, mains, dc12 or off), for logs without a source column; may be given several times",
    margin: "allowed loss of cooling strength: below 1 minus this a source is weak",
    json: "print the analysis as JSON (coldfall schema analysis)",
    html: "also write a report with drawings to FILE",
    examples: [
      "coldfall analyse night.csv --known-good may.csv",
      "coldfall analyse night.csv --baseline larch.baseline.json --html night.html",
      "coldfall analyse bare.csv --source-at 2026-06-04T07:15:00Z=mains --source-at 2026-06-04T15:00:00Z=off",
      "coldfall analyse handheld.csv --zone Europe/Berlin --unit C",
      "coldfall analyse export.csv --map logger.json --json > night.json",
    ],
  },

  baseline: {
    summary: "keep known-good runs in one file, for comparisons next year",
    logs: "logs of runs known to be good",
    out: "the file to write",
    held: (onSource: string, stretches: number) => `${onSource} ${stretches === 1 ? "once" : `${stretches} times`}`,
    saved: (file: string, runs: number, held: readonly string[]) =>
      `${file} holds ${runs} known-good ${runs === 1 ? "run" : "runs"}: ${held.join(", ")}.`,
    didNotCool: (log: string, onSource: string) =>
      `${log} did not cool ${onSource}: that stretch is no known-good one, so look at its analysis and leave the log out if in doubt.`,
    ofKind: "the runs are to serve for other fridges of the same kind, not only for this one",
    examples: [
      "coldfall baseline may.csv june.csv --out larch.baseline.json",
      "coldfall baseline other.csv --of-kind --out kind.baseline.json",
    ],
  },

  compare: {
    summary: "say whether a fridge cools better or worse after a service than before it",
    title: "Before and after",
    before: "log from before the service",
    after:
      "log from after it, on the same sources; a source that nobody touched, named in its run sheet (untouchedSources), serves as control",
    alsoBefore: "a further log from before; may be given several times",
    alsoAfter: "a further log from after; may be given several times",
    knownGood:
      "log of a known-good run of this fridge, which tells how much it differs from night to night anyway; may be given several times",
    margin: "allowed loss of cooling strength: half of it either way is no change",
    json: "print the comparison as JSON (coldfall schema comparison)",
    html: "also write a report with drawings to FILE",
    examples: [
      "coldfall compare before.csv after.csv",
      "coldfall compare before.csv after.csv --known-good may.csv --known-good june.csv --html service.html",
      "coldfall compare before.csv after.csv --also-after night.csv --baseline larch.baseline.json --json",
    ],
  },

  hotDay: {
    summary: "predict the cabinet at a hot ambient, or hour by hour through a trip",
    title: "Hot day",
    logs: "logs of this fridge, the more and the hotter the better; only runs at 15 °C ambient or more count",
    ambient: "air around the fridge, °C",
    forecast:
      "CSV of a trip: time,ambient,source and, if wanted, sun (sun or shade) and driving (yes or no); each row holds until the next, the last one ends the trip",
    source:
      "energy source of the answer; that of the newest stretch unless stated, of a trip the one it runs on longest",
    load: "goods put in at the start: kilograms and their temperature, °C",
    begin: "cabinet as the trip begins, °C; otherwise the last reading of a log that ends just before, or settled",
    sheet: "run sheet of the logs, instead of the one beside each",
    json: "print the prediction as JSON (coldfall schema hot-day)",
    html: "also write a report with drawings to FILE",
    expectedAmbient: "a temperature from -20 to 55 °C",
    expectedBegin: "a temperature from -30 to 60 °C",
    expectedLoad: "KG=C, such as 5=22, with more than 0 and at most 200 kg at -30 to 60 °C",
    examples: [
      "coldfall hot-day night.csv may.csv june.csv --ambient 35",
      "coldfall hot-day night.csv may.csv --ambient 32 --source mains --load 5=22 --html hot.html",
      "coldfall hot-day night.csv may.csv june.csv --forecast trip.csv --json",
    ],
  },

  simulate: {
    summary: "write the log of an invented fridge, sound or with faults of a stated size",
    out: "the log to write",
    fault: "a fault and its size, see below; may be given several times",
    seed: "another seed is another night of the same fridge",
    schedule: "energy sources one after the other, each with its hours",
    ambient: "mean air temperature around the fridge, °C",
    swing: "whole swing of the air temperature over a day, K",
    start: "when the log begins; its UTC offset becomes the log's",
    every: "seconds from row to row",
    door: "door opening: after how many hours, for how many seconds; may be given several times",
    outage: "heat fails while the source says on: after how many hours, for how many hours; may be given several times",
    thermostat: "cabinet temperature at which the thermostat holds, °C; full cooling without",
    nightToNight: "how much the heat differs from night to night, standard deviation as a share",
    probe: (names: readonly string[]) =>
      `a further column, of one of ${names.join(", ")}; flue is the outside of the flue pipe, supply the volts at the terminals; may be given several times`,
    noSource: "leave the source column out",
    expectedFault: (names: readonly string[]) => `NAME=SIZE, such as flue=0.25, with ${names.join(", ")}`,
    expectedFaultSize: (meaning: string) => `a size that is possible; it counts: ${meaning}`,
    idleFault: (fault: string, onSources: readonly string[]) =>
      `${fault} shows ${onSources.join(" or ")} only, and the schedule has no such stretch: the log shows nothing of it. Give --schedule.`,
    expectedSchedule: "SOURCE=HOURS one after the other, such as off=1,mains=8, with gas, mains, dc12 or off",
    expectedSeed: "a whole number of 0 or more",
    expectedStart: "a time such as 2026-06-04T20:00:00Z",
    expectedAmbient: "a temperature from -20 to 60 °C",
    expectedSwing: "a number of kelvin from 0 to 40",
    expectedEvery: "a number of seconds from 1 to 3600",
    expectedDoor: "HOURS=SECONDS, such as 3.5=60",
    expectedOutage: "HOURS=HOURS, such as 4=2",
    expectedThermostat: "a temperature from -30 to 30 °C",
    expectedNightToNight: "a share from 0 to 0.5",
    faultsHeading: "Faults, and what their size counts:",
    wrote: (file: string, rows: number, stretches: readonly string[]) =>
      `${file}: an invented run, ${rows} rows; ${stretches.join("; ")}.`,
    stretch: (onSource: string, hours: number, percent: number | null) =>
      `${onSource} ${hours} h${percent === null ? "" : `, true cooling strength that night ${percent} % of known-good`}`,
    examples: [
      "coldfall simulate --out sound.csv --seed 1",
      "coldfall simulate --out weak.csv --seed 4 --fault mains-element=0.25 --ambient 28 --swing 6",
      "coldfall simulate --out hot.csv --schedule off=1,mains=4 --probe boiler --probe flue",
      "coldfall simulate --out day.csv --start 2026-06-04T09:00:00Z --schedule off=1,gas=6 --fault flue=0.25",
    ],
  },

  schema: {
    summary: "print the JSON Schema of a file format of coldfall",
    name: "the format; all names are listed when it is left out",
    examples: ["coldfall schema", "coldfall schema analysis > analysis.schema.json"],
  },

  completion: {
    summary: "print what makes the shell complete commands and options",
    shell: "the shell",
    examples: [
      "source <(coldfall completion bash)",
      "source <(coldfall completion zsh)",
      "coldfall completion fish | source",
    ],
  },

  expectedOnce: "each once: something else was given before for the same",
  expectedOneOf: (names: readonly string[]) => `one of ${names.join(", ")}`,
  /** Behind what an option takes. */
  decimalPoint: (expected: string, meant: string) => `${expected}; decimals take a point: ${meant}`,
  expectedMargin: "a share above 0 and below 1, such as 0.15",
  expectedSourceAt: "TIME=SOURCE, such as 2026-06-04T07:15:00Z=gas, with gas, mains, dc12 or off",

  samples: {
    summary:
      "Judges the sample logs, prints the verdicts, writes one page with the drawings, then serves the bench in a browser.",
    once: "end after the verdicts, without serving",
    fridge: (folder: string) => `Invented sample fridge "${folder}"`,
    service: (folder: string) => `Invented sample fridge "${folder}", before and after its service`,
    serviced: (folder: string, bySource: readonly string[]) => `${folder}, after its service: ${bySource.join(", ")}`,
    trip: (folder: string) => `Invented sample fridge "${folder}", on a hot week-end`,
    onTrip: (folder: string, above: string | null) =>
      above === null ? `${folder}, on its trip: cannot say` : `${folder}, on its trip: above 8\u00a0°C for ${above}`,
    inShort: "In short:",
    done: (page: string) =>
      `Whole reports, with what to check next and its cautions, are in ${page}, in this folder: open it in a browser.`,
  },

  reading: (file: string, index: number, count: number) => `reading ${file} (${index} of ${count})`,
  analysing: "analysing",
  predicting: "predicting",
  comparing: "comparing",
  wrote: (file: string) => `Wrote ${file}.`,
  ignoredColumns: (log: string, columns: readonly string[], count: number) =>
    `${log}: ${count === 1 ? "one column is" : `${count} columns are`} not used (${columns.map((name) => `"${name}"`).join(", ")}${count > columns.length ? ", …" : ""}); the known names are time, evaporator, cabinet, ambient, room, freezer, ventOut, flue, boiler, supply and source.`,
  /** `what` as the option parser says it, without a full stop. */
  /** What the option parser refuses; each becomes the beginning of `wrongCommand`. */
  parser: {
    unknownOption: (option: string) => `unknown option '${option}'`,
    unknownCommand: (name: string) => `unknown command '${name}'`,
    didYouMean: (names: string) => ` (did you mean ${names}?)`,
    missingArgument: (name: string) => `missing required argument '${name}'`,
    withoutValue: (option: string) => `option '${option}' needs a value after it`,
    needed: (option: string) => `option '${option}' must be given`,
    notTogether: (one: string, other: string) => `option '${one}' cannot be used with option '${other}'`,
    tooMany: (expected: number, given: number, words: string) =>
      expected === 0
        ? `nothing is expected here, and "${words}" was given; ${together}`
        : `too many arguments: expected ${expected} but got ${given}: ${words}; ${together}`,
    notOneOf: (option: string, value: string, choices: string) => `${option}: '${value}' is none of ${choices}`,
  },
  wrongCommand: (what: string, help: string) =>
    `${what.charAt(0).toUpperCase()}${what.slice(1)}; run "${help}" to see what can be given.`,
  internalFault: (detail: string) =>
    `A fault in coldfall, not in your files; nothing was concluded. Please report it with these lines:\n${detail}`,
} as const;
