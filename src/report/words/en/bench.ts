// English: everything the pages of the bench say in a browser. What the server tells (verdicts, reasons, checks,
// cautions) stands in the other files of this folder.

import { mostForecastDays, type ProbeCurve } from "../../../schema/index.ts";
import type { ProofState } from "../../../science/live/index.ts";
import type { CurveCheck } from "../../../science/sensors/index.ts";
import type { Hand } from "../../hand.ts";
import { capital } from "../phrasing.ts";
import { settings, sheetLines, vents } from "./conditions.ts";
import { bareSource, list } from "./names.ts";
import { sensorOf, valuesOf } from "./sensors.ts";

const few = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
const spelled = (count: number) => few[count] ?? `${count}`;
const runs = (count: number) => `${spelled(count)} known-good run${count === 1 ? "" : "s"}`;

const sheetFields = {
  setting: "Where the fridge stands",
  load: "What is in it",
  vents: "Vents",
  ventCovers: "Winter covers over the vents",
  flueCap: "Flue cap",
  fins: "Fins inside",
  sealPaperTest: "Paper strip in the door seal",
  gasKind: "Gas",
  sourceChosenByHand: "Source chosen by hand, not by the fridge",
  gasChecked: "Flame, flue, leaks and carbon monoxide checked before gas",
  fanInside: "Fan inside running",
  fanAtRear: "Fan at the rear running",
  lampGoesOut: "Lamp goes out with the door",
  tiltSidewaysDegrees: "Tilt sideways, degrees",
  tiltLengthwaysDegrees: "Tilt lengthways, degrees",
  gasPressureMbar: "Gas pressure, mbar",
  altitudeMetres: "Altitude, m",
  uprightSince: "Upright since",
  untouchedSources: "Not touched by the service",
  fridge: "Fridge, as the sheet names it",
  dial: "Dial at",
  checkedBy: "Checked by",
  notes: "Notes",
} as const;

const sheetAnswers = {
  setting: settings,
  load: { empty: "nothing", part: "partly full", full: "full" },
  vents,
  ventCovers: { off: "off", on: "on" },
  flueCap: { clear: "clear", blocked: "blocked", missing: "missing" },
  fins: { clear: "clear", frosted: "frosted" },
  sealPaperTest: { drags: "drags all round", slips: "slips somewhere" },
  gasKind: { propane: "propane", butane: "butane", mixed: "mixed" },
} as const;

const signs: { readonly [S in ProofState["state"]]: string } = { proven: "●", expected: "○", "not-coming": "–" };

export const bench = {
  capital,
  waiting: "One moment …",
  tryAgain: "Try again",
  cannotReach: "The service of the bench did not answer. What is shown is what was known last.",
  care: (about: string) => `Caution, ${about}:`,

  number: {
    any: "It takes a number.",
    above: (least: string) => `It takes a number above ${least}.`,
    aboveUpTo: (least: string, most: string) => `It takes a number above ${least}, ${most} at the most.`,
    between: (least: string, most: string) => `It takes a number from ${least} to ${most}.`,
  },

  shell: {
    skip: "To the letter",
    way: "Way back",
    toFridges: "All fridges",
    nowhere: "There is nothing at this address",
    outOfReach: "The service of the bench is out of reach. Nothing newer than what you see is known here.",
    lastKnown: (moment: string) =>
      `The service of the bench is out of reach. What you see is the last known state, of ${moment}.`,
    language: "Language",
    languageNames: { en: "English", de: "Deutsch" },
    degrees: "Degrees",
    degreesNames: { C: "Celsius", F: "Fahrenheit" },
    paper: "Paper",
    paperNames: { system: "as the system", light: "light", dark: "dark" },
    signOut: "Sign out",
  },

  signIn: {
    title: "Who is there?",
    who: "I am",
    roles: { technician: "the technician, who changes things", owner: "the owner, who looks" },
    password: "Password",
    go: "Sign in",
  },

  first: {
    likeliest: (cause: string, share: string) => `Likeliest cause: ${cause}, ${share}.`,
    soundBy: (strength: string) => `Cooling strength ${strength} of known-good.`,
    title: "The workshop's fridges",
    lead: (count: number) =>
      count === 1
        ? "One fridge, with what its newest run says."
        : `${capital(spelled(count))} fridges, each with what its newest run says.`,
    recording: "Being recorded now.",
    judging: "Its newest run is being judged …",
    notJudged: "No run of it has been judged yet.",
    empty: "There is no fridge here yet.",
    samplesAre:
      "To see what a finished night looks like, bring in the sample logs: invented fridges with real-looking faults, known-good runs and a service.",
    samples: "Show me with the sample logs",
    removedTitle: "Fridges out of sight",
    bringBack: (fridge: string) => `Bring ${fridge} back`,
    addTitle: "Another fridge",
    addFirstTitle: "A fridge of your own",
    addFirst: "Name it, and its page leads on: record a night with probes, or bring in a log that you have.",
    addName: "What the workshop calls it",
    add: "Add it",
  },

  job: {
    states: {
      running: "Working …",
      done: "Done.",
      failed: "It did not work.",
      cancelled: "Stopped; nothing half done was kept.",
    },
    progress: "Done so far",
    cancel: "Stop",
  },

  fridge: {
    whose: (run: string, when: string) => `Run ${run}, ${when}`,
    why: "Why, and what to check next",
    nextTitle: "What next?",
    start: "Before you start",
    startIs: "a run: the plan of the night with clock times, the checklist, the run sheet.",
    bringIn: "Bring in a log",
    /** Follows its link without a space. */
    bringInIs: " that another logger wrote.",
    compare: "Before and after",
    compareIs: "a service: did it help?",
    hotDays: "Hot days",
    hotDaysIs: "for the owner: does it keep up in the heat, or on the trip ahead?",
    notes: "Notes",
    runsTitle: "Its runs",
    runsRemovedTitle: "Runs out of sight",
    noRuns: "Nothing has been recorded on it yet.",
    since: (moment: string) => `since ${moment}`,
    purposes: {
      test: "test",
      "known-good": "known-good",
      "before-service": "before service",
      "after-service": "after service",
    },
  },

  now: {
    title: "Being recorded now",
    nothingTitle: "Nothing is being recorded",
    nothing:
      "A run begins by itself when a probe board of this fridge sends its first reading, or when a recording is started on the machine it is plugged into.",
    byHand: "Begin one by hand: say what the fridge runs on",
    awaited: "The first readings are awaited.",
    wholeRun: (name: string) => `The whole run so far: ${name}`,
    curvesTitle: "Readings so far, and where the cabinet goes from here",
    ahead: "ahead",
    onsetMark: "cold began",
    onsetAwaited: "The start of cold has not been seen yet; it is awaited.",
    signs,
    alarm: "Alarm.",
    alarmOf: "To the run it is of",
    seenAlarm: "Seen.",
    seenAlarms: "Alarms that were seen",
    acknowledge: "I have seen it",
    nowOn: "Now on",
    switchNames: { gas: "gas", mains: "mains", dc12: "12 V", off: "off" },
    onlyTold: "Say so as you switch over by hand. Nothing is switched or lit from here.",
    noted: (source: string) => `Noted: ${source} from now on.`,
  },

  chart: {
    label: (title: string) =>
      `${title}: arrow keys move it, plus and minus narrow and widen it, 0 shows all; with Shift the arrow keys read it`,
    onlyRead: (title: string) => `${title}: arrow keys read it`,
    hint: "Touch or point at the curves to read them.",
    readings: (moment: string | null, values: readonly string[]) =>
      values.length === 0 ? "No readings here." : `${moment === null ? "At the end" : moment}: ${values.join(", ")}.`,
    band: "where it may lie",
    rejected: "set aside",
    someRejected: "Crosses mark readings set aside.",
    rejectedAt: (name: string, moment: string, value: string | null) =>
      `× Set aside: ${name} ${moment}${value === null ? "" : `, ${value}`}.`,
    closer: "Closer",
    wider: "Wider",
    earlier: "Earlier",
    later: "Later",
    whole: "All of it",
  },

  run: {
    fridge: "The fridge",
    /** @param against "the other sources of the same run" */
    numbersCaption: (against: readonly string[]) => `Strength held against ${list(against)}, and what it stands on`,
    numbers: {
      strength: "cooling strength",
      deadTime: "cold began after",
      fall: "initial fall",
      fins: "fin difference",
      to5: (degrees: string) => `to ${degrees}`,
      unknown: "not known",
    },
    curves: "The curves",
    curvesTitle: (run: string) => `Readings of ${run}`,
    positions: "Shown",
    shown: (readings: number, isReduced: boolean) =>
      isReduced
        ? `${readings.toLocaleString("en-GB")} readings lie in what is drawn; of each short span its lowest and highest are shown. Closer shows more.`
        : `All ${readings.toLocaleString("en-GB")} readings of this part are drawn.`,
    rejected: {
      summary: (readings: number) =>
        readings === 1 ? "One reading set aside" : `${readings.toLocaleString("en-GB")} readings set aside`,
      caption: "Marked × in the drawing; they stay in the log, only the analysis leaves them out",
      when: "when",
      said: "what it said",
      what: (probe: string, readings: number, values: string | null) =>
        [probe, ...(readings === 1 ? [] : [`${readings} readings`]), ...(values === null ? [] : [values])].join(", "),
      why: "why",
      noInstant: "not known",
    },
    exportsTitle: "To take along",
    testReport: "Test report",
    testReportIs: "to print, for customer and workshop.",
    csv: "Readings (CSV)",
    json: "Verdict with all numbers (JSON)",
    svg: "Drawing (SVG)",
    png: "Drawing (PNG)",
    noPicture: "The browser could not make a PNG of this drawing; the SVG shows the same.",
    drawingAs: "This drawing as a file:",
  },

  read: {
    title: "How this run is read",
    found: "as found from the curves",
    lead: "Touch a line to say that it ran on something else, or from another time on. Every change can be taken back.",
    leadOwner: "What the fridge ran on, and when.",
    ranOn: "It ran",
    began: "from",
    apply: "Read it so",
    leftOut: "Left out",
    everyProbe: "every probe",
    takeBackIn: "Take back in",
    notes: "Notes",
    removeNote: "Remove the note",
    leaveOut: "Leave readings out",
    leaveOutNow: "Leave them out",
    leaveOutNote: "What the curves show now is proposed. Nothing is deleted; it can be taken back in.",
    from: "From",
    to: "To",
    probe: "Of",
    reason: "Because",
    addNote: "Add a note",
    when: "At",
    noteText: "Note",
    keepNote: "Keep the note",
    undo: "Take the last change back",
    redo: "Bring it back again",
    sameVerdict: "The verdict stays as it was.",
    newVerdict: (before: string, after: string) => `The verdict was: ${before}. It is now: ${after}.`,
  },

  baselines: {
    title: "What it is compared with",
    none: "There is no known-good run of this fridge. A new run would be judged by its own sources held against each other, which finds less.",
    compared: (count: number, isChosen: boolean) =>
      `A new run would be compared with ${runs(count)} of this fridge${isChosen ? ", chosen by hand" : ""}.`,
    ofKind: (count: number) => `A new run would be compared with ${runs(count)} of its kind.`,
    ofFile: "A new run would be compared with a baseline file that was brought in.",
    chosen: (moment: string) => `Chosen ${moment}.`,
    spread: "How far they differ among themselves",
    spreadCaption: "Each known-good run, stretch by stretch: what lies far from the others is worth a look.",
    columns: ["run", "initial fall", "fin difference", "depth below ambient"],
    choose: "Choose the known-good runs",
    chooseLegend: "Runs when the fridge was known to be good",
    take: "Compare with these",
    forget: "Forget the choice",
  },

  probes: {
    title: "Probes",
    none: "No probe is known to sit on this fridge.",
    probe: (label: string) => `probe ${label}`,
    uncalibrated: "It was never calibrated.",
    calibrated: (day: string, kelvin: string) => `Calibrated ${day}, good to ${kelvin}.`,
    due: (day: string) => `Again by ${day}.`,
    overdue: (day: string) => `It was due again by ${day}: overdue.`,
    whatSensor: "What sensor it is",
    sensor: "It is",
    kinds: {
      celsius: "a sensor that sends °C",
      "thermistor-b": "a thermistor (NTC), by its B",
      "thermistor-steinhart-hart": "a thermistor, by Steinhart and Hart",
      pt100: "a Pt100",
      "type-k": "a type K thermocouple",
    },
    ohmsAt25: "Resistance at 25 °C, Ω",
    b: "B, K",
    coefficient: (letter: string) => `Coefficient ${letter}`,
    toleranceClass: "Tolerance class",
    coldJunction: (sign: string) => `How warm it is where its wires end, ${sign}; empty where the board measures that`,
    isA: (curve: ProbeCurve, hand: Hand) => `It is ${sensorOf(curve, hand)}.`,
    shouldSend: (checks: readonly CurveCheck[], hand: Hand) => `It should send ${valuesOf(checks, hand)}.`,
    noSuchSensor: "No sensor that is sold has these figures; its data sheet has them.",
    holdsForAll: "This holds for all its readings, those kept already too.",
    keep: "Keep it so",
    kept: "Kept.",
    otherCurve: "Its calibration was made while it counted as another sensor, and is not used: calibrate it anew.",
  },

  details: {
    title: "About this fridge",
    change: "Change what is known of it",
    name: "Name",
    kind: "Kind",
    litres: "Cabinet, litres",
    watts: {
      gas: `Rated heat on ${bareSource("gas")}, W`,
      mains: `Rated heat on ${bareSource("mains")}, W`,
      dc12: `Rated heat on ${bareSource("dc12")}, W`,
    },
    keep: "Keep",
    kept: "Kept.",
    remove: "Take it out of sight",
    removeNote: "Its runs go with it; it can be brought back.",
  },

  aboutRun: {
    title: "About this run",
    change: "Change what is known of it",
    name: "Name of the run",
    kept: "Kept.",
    end: "End this run",
    endNote:
      "It is judged as it then stands. A board that goes on sending begins a run of its own; a recording that was started on a machine stops there within seconds.",
    endNow: "End it now",
    removeNote: "It counts nowhere any more, its readings stay; it can be brought back.",
  },

  compare: {
    title: "Before and after",
    lead: "Pick a run from before the service and one from after it.",
    tooFew:
      "It takes two finished runs, one from before the service and one from after it: record them, or bring in their logs.",
    guessed: "No run is marked as after a service: these are the two newest. Pick others if they are not meant.",
    same: "That is the same run twice; pick another one.",
    before: "Before",
    after: "After",
    pick: "pick a run",
    reportIs: "of both, to print for the customer.",
    sheet: "The run from after it",
    sheetIs: "says on its run sheet which sources nobody touched.",
  },

  hot: {
    title: "Hot days",
    lead: "Does the fridge keep up? From all its runs, with what they cannot tell said too.",
    ambient: (degrees: string) => `Outside, ${degrees}`,
    takes: (range: string) => `It takes a temperature from ${range}.`,
    ofTrip: "How warm it is outside, the trip says.",
    source: "Running",
    newest: "as it ran",
    trip: "Or a trip: typed, pasted, or from a file",
    tripHow: (degrees: string) =>
      `A line for each change: day and time, ${degrees} outside, source (gas, mains, 12v, off), and where it fits "sun" and "driving". A time alone belongs to the same day. The last line ends the trip.`,
    tripText: "The trip",
    answer: "How warm does it get?",
    exampleButton: "Show me an example",
    file: "Or drop a forecast file here, or choose it: a table of such lines. With the columns named in its first line (time, ambient, source, sun, driving) it is in °C.",
    noTrip: "Without the trip",
    understood: (rows: number) => `${rows} lines understood.`,
    example: (year: number, at: (celsius: number) => string, [night, drive, noon]: readonly string[]) =>
      `${year}-07-18 07:00, ${at(22)}, ${night}, parked\n09:00, ${at(26)}, ${drive}, driving\n13:00, ${at(32)}, ${noon}, parked, sun\n19:00, ${at(27)}, ${noon}, parked\n23:00, ${at(22)}, ${night}\n08:00, ${at(22)}, ${night}\n`,
    tripProblems: {
      "no-time": (line: number) =>
        `Line ${line} does not begin with a day and a time, such as 2026-07-18 09:00. Below it a time alone is enough.`,
      "no-ambient": (line: number) => `Line ${line} does not say how warm it is outside.`,
      "no-source": (line: number) => `Line ${line} does not say what the fridge runs on: gas, mains, 12v or off.`,
      "not-later": (line: number) => `Line ${line} is not later than the line before it.`,
      "too-long": (line: number) => `Line ${line} lies more than ${mostForecastDays} days after the first.`,
      "too-few": () => "A trip takes two lines at least; the last one ends it.",
      "strange-word": (line: number) =>
        `There is a word in line ${line} that is not known here. Known are gas, mains, 12v, off, sun, shade, driving, parked.`,
    },
  },

  start: {
    title: "Before you start",
    lead: "Say when logging begins and which sources are to be shown; the plan follows the safe habit: nights on electricity, gas attended.",
    from: "Logging begins",
    sources: "To be shown, in the order ticked",
    /** @param place 0 for the first. */
    inOrder: (on: string, place: number) => `${on} (${["first", "second", "third"][place]})`,
    pauses: "In a hurry",
    switched: "switch over while cold, without pauses",
    print: "Print",
    noSource: "Tick one source at least.",
  },

  sheet: {
    title: "The run sheet",
    lead: "What is left open is named on the report as not checked.",
    fields: sheetFields,
    answers: sheetAnswers,
    supplyVolts: {
      mains: "Mains, V, as an approved plug-in meter shows it",
      dc12: "12 V supply, V, as the vehicle's own instrument shows it",
    },
    notSaid: "not said",
    yes: "yes",
    no: "no",
    open: "Open a run with this sheet",
    keep: (run: string) => `Keep it with ${run}`,
    kept: "Kept.",
    lines: sheetLines,
    none: "Nothing stands on it yet. What it does not say is taken as equal when runs are compared, and named on the report as not checked.",
    fillIn: "Fill it in",
    correct: "Correct it",
    untouchedNote:
      "In the run from after a service: before and after, the other sources are held against what nobody touched.",
  },

  bringIn: {
    title: "Bring in a log",
    lead: "Nothing is stored before you have seen how it is understood.",
    onlyTechnician: "Only the technician can bring in logs.",
    drop: "Drop the file here, or choose it",
    sending: "The file is being read …",
    understood: (name: string) => `How ${name} is understood`,
    alreadyIn: "This very file is in a run already",
    ownFormat: "The log is of our own format; nothing had to be found out.",
    covers: (period: string) => `It covers ${period} (UTC).`,
    firstRows: "First rows as they are understood",
    whole: "The whole file",
    line: "line",
    written: "written",
    utc: "UTC",
    correct: "That is not right",
    fields: {
      unit: "Temperatures are in",
      dateOrder: "Days are written",
      separator: "Columns are parted by",
      decimal: "Decimals stand behind",
      elapsedUnit: "Time from the start counts",
    },
    choices: {
      unit: { Cel: "degrees Celsius", "[degF]": "degrees Fahrenheit", K: "kelvin" },
      dateOrder: {
        "year-month-day": "year, month, day",
        "day-month-year": "day, month, year",
        "month-day-year": "month, day, year",
      },
      separator: { ",": "commas", ";": "semicolons", "\t": "tabs" },
      decimal: { ".": "a point", ",": "a comma" },
      elapsedUnit: { ms: "milliseconds", s: "seconds", min: "minutes", h: "hours" },
    },
    asFound: "as found",
    column: (name: string) => `Column "${name}" is`,
    leftOut: "none of them, left out",
    zone: "Clock it was written with",
    zoneTakes: (here: string) =>
      `It takes a zone by its name in the time zone database, such as ${here}, or an offset from UTC, such as +02:00.`,
    startsAt: "Its count began, by this device's clock",
    apply: "Read it so",
    purpose: "What the run is",
    name: "Name of the run",
    sheet: "Its run sheet, if there is one (a file beside the log)",
    noSheet: "That file is no run sheet.",
    go: "Bring it in",
  },

  report: {
    title: "Test report",
    toRun: "Back to the run",
    pdf: "As a PDF",
    letterhead: "The workshop's own words at its head",
  },
} as const;
