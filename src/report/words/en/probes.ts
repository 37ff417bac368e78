// English: calibrating and checking probes, and the boards they are plugged into.

import type { ProbeCurve } from "../../../schema/index.ts";
import type { CurveCheck } from "../../../science/sensors/index.ts";
import type { Hand } from "../../hand.ts";
import { list } from "./names.ts";
import { sensorOf, valuesOf } from "./sensors.ts";

const kelvin = (value: number, hand: Hand, decimals = 2) => hand.quantity(Math.abs(value), "K", decimals);
const celsius = (value: number, hand: Hand, decimals = 1) => hand.quantity(value, "Cel", decimals);

/** How a reading lies about what it should be, in whole hundredths. */
const off = (offset: number, hand: Hand) => {
  if (Math.abs(offset) < 0.005) return "right";
  return `${kelvin(offset, hand)} too ${offset > 0 ? "high" : "low"}`;
};

const methods = {
  "ice-point": "ice point",
  "boiling-point": "boiling point",
  "reference-probe": "a reference probe",
  "several-points": "several known temperatures",
  stated: "as stated",
} as const;

export const probes = {
  curve: {
    summary: "say what the ohms or millivolts that a probe sends mean; one that sends °C needs none",
    thermistor: "a thermistor (NTC): its resistance at 25 °C in Ω and its B parameter in K, such as 10000,3950",
    steinhartHart: "a thermistor by the coefficients of Steinhart and Hart, such as 1.129e-3,2.341e-4,8.775e-8",
    pt100: "a Pt100 by IEC 60751, of tolerance class AA, A, B or C",
    typeK: "a type K thermocouple by IEC 60584, of tolerance class 1 or 2",
    coldJunction:
      "with --type-k: how warm it is where the couple's wires end, °C, where nothing measures it; left out, the board's front end refers the millivolts to 0 °C",
    celsius: "it sends °C: no curve",
    expectedThermistor: "OHMS,B such as 10000,3950: 10 Ω to 10 MΩ at 25 °C, B from 1000 to 10000 K",
    expectedCoefficients:
      "A,B,C of a thermistor whose resistance falls from 10 MΩ to 10 Ω as it warms, such as 1.129e-3,2.341e-4,8.775e-8",
    expectedCouple: "1 or 2",
    expectedColdJunction: "a temperature from -40 to 85 in °C",
    withoutCouple: "--type-k beside it; no other probe has a cold junction",
    unknownBefore: (probe: string) =>
      `Probe ${probe} was not known before, and is kept now; if its name is mistyped, take it out with "coldfall probes remove ${probe}".`,
    sendsCelsius: (probe: string) => `Probe ${probe} sends °C; a curve that it had is taken away.`,
    kept: (probe: string, curve: ProbeCurve, checks: readonly CurveCheck[], hand: Hand) =>
      `Probe ${probe} is ${sensorOf(curve, hand)}. It should send ${valuesOf(checks, hand)}. This holds for all its readings, those kept already too.`,
    calibrateAnew: (probe: string, calibrations: number) =>
      `${calibrations === 1 ? "One calibration" : `${calibrations} calibrations`} of ${probe} made with another curve ${calibrations === 1 ? "is" : "are"} no longer used: calibrate it anew.`,
    /** In the list of probes. */
    kinds: {
      "thermistor-b": "thermistor",
      "thermistor-steinhart-hart": "thermistor",
      pt100: "Pt100",
      "type-k": "type K",
    },
    /** When recording begins. */
    lacking: (probes: readonly string[]) =>
      `${probes.length === 1 ? `Probe ${probes[0]} sends` : `The probes ${list(probes)} send`} ohms or millivolts, and nobody said what they mean: kept as they come, but no temperatures until "coldfall probes curve ${probes[0]}" says so.`,
  },
  calibrate: {
    summary: "calibrate a probe: at the ice point, in boiling water, or beside a reference probe",
    ice: "what it reads in a stirred slush of crushed ice and clean water; give it several times for several readings",
    boiling:
      "what it reads in boiling water, with --altitude or --pressure; boiling water and steam scald: long sleeve or tongs, no cable over the pan's edge",
    altitude: "metres above the sea, where the water boils",
    pressure: "air pressure where the water boils, hPa, as a barometer there shows it, not reduced to sea level",
    against: "what a reference probe beside it reads, and what it reads itself, °C; once for each temperature or more",
    uncertainty: "standard uncertainty of the reference probe, K; that of an uncalibrated probe unless stated, 0.29 K",
    made: "the day it was done, YYYY-MM-DD; today unless stated",
    due: "the day from which it should be repeated, YYYY-MM-DD; a year later unless stated",
    expectedReading: "a temperature from -60 to 130 in °C, with a point for the decimals",
    expectedAgainst: "REFERENCE=READ in °C, such as 20.10=20.38",
    expectedAltitude: "metres between -500 and 4000",
    expectedPressure:
      "hPa between 600 and 1100; weather reports give it reduced to sea level, a barometer at the place does not",
    expectedUncertainty: "kelvins above 0 and up to 5",
    onePressure: "one of --altitude and --pressure, since water boils at a lower temperature the higher up",
    withoutBoiling: "--boiling beside it, with what the probe read in the boiling water",
    withoutReference: "--against beside it; ice and boiling water have uncertainties of their own",
    notYet: "today or a day before it",
    dueFirst: "a day after the one it was made on",
    tooClose: (span: string) =>
      `temperatures at least 2 K apart (the readings span ${span}), or a single one with several readings`,
    notSettled: (at: string, scatter: string) =>
      `readings of a settled probe: those at ${at} scatter by ${scatter}; stir, wait ten minutes, read again`,
    tooFar: (at: string) =>
      `what it read at ${at}; a probe more than 5 K off was not there, or is broken, and no calibration mends that`,
    /** What was found, at each known temperature. */
    found: (
      {
        probe,
        method,
        points,
      }: {
        readonly probe: string;
        readonly method: keyof typeof methods;
        readonly points: readonly { readonly reference: number; readonly reading: number; readonly readings: number }[];
      },
      hand: Hand,
    ) => {
      const at = points.map(
        ({ reference, reading, readings }) =>
          `${off(reading - reference, hand)} at ${celsius(reference, hand)} (${hand.count(readings, { one: "reading", other: "readings" })})`,
      );
      const how = points.length === 1 ? "by that offset" : "along a straight line";
      return `Probe ${probe}, ${methods[method]}: it reads ${list(at)}. What it says is corrected ${how}.`;
    },
    uncertain: (
      {
        least,
        widest,
        lowest,
        highest,
      }: {
        readonly least: { readonly atCelsius: number; readonly kelvin: number };
        readonly widest: number;
        readonly lowest: number;
        readonly highest: number;
      },
      hand: Hand,
    ) =>
      `Corrected, it is right within ${kelvin(least.kelvin, hand)} at ${celsius(least.atCelsius, hand)}, and within ${kelvin(widest, hand)} anywhere from ${celsius(lowest, hand, 0)} to ${celsius(highest, hand, 0)} (95\u00a0%, by the GUM).`,
    holdsFor: (day: string) =>
      `It holds for runs that begin after ${day}, until a newer calibration, and for earlier ones that have none before them.`,
    dueAgain: (day: string) => `Due again on ${day}.`,
    overdueAlready: (day: string) => `It was due again on ${day}, so it is overdue already: calibrate the probe anew.`,
    boilingCaution:
      "Boiling water and steam scald: long sleeve or tongs, the pan on a firm stove, no cable over its edge. Not in the vehicle and not on the fridge; with an electric stove, or a gas stove in a ventilated kitchen, attended.",
  },
  standing: {
    dueSoon: (day: string, days: number) => `${day}, in ${days === 1 ? "1 day" : `${days} days`}`,
    overdue: (day: string, days: number) =>
      `${day}, overdue${days === 0 ? "" : ` by ${days === 1 ? "1 day" : `${days} days`}`}`,
    fromTheFuture: (day: string) => `${day}, dated ahead of this computer's clock`,
  },
  /** When recording begins. */
  overdue: (overdue: readonly { readonly probe: string; readonly day: string }[]) =>
    overdue.length === 1
      ? `Probe ${overdue[0].probe} was due for calibration on ${overdue[0].day}; its readings are kept and corrected as before. "coldfall probes calibrate ${overdue[0].probe} --ice-point READ" settles it.`
      : `Probes ${list(overdue.map(({ probe, day }) => `${probe} (${day})`))} were due for calibration; their readings are kept and corrected as before. "coldfall probes calibrate" settles each.`,
  slush: {
    summary: "judge probes by ten minutes in a slush of crushed ice and water, recorded as a run or a log",
    log: "a run, a log, or a file that a board recorded",
    inSlush:
      "a probe that lay in the slush, by its number or position; all of them unless stated; may be given several times",
    headings: ["probe", "finding"],
    none: "It holds no temperature of any probe.",
    unknown: (known: readonly string[]) => `one of its probes: ${known.join(", ")}`,
    findings: {
      good: (probe: string, offset: number, hand: Hand) =>
        `good: it reads ${off(offset, hand)} at the ice point. To keep that: coldfall probes calibrate ${probe} --ice-point ${offset.toFixed(3)}`,
      "far-off": (offset: number, hand: Hand) =>
        `far off: it reads ${off(offset, hand)} at the ice point, and steadily so. Calibrate it, or put it away.`,
      "wet-or-loose": (scatter: number, faults: number, hand: Hand) =>
        `wet or loose: unsteady by ${kelvin(scatter, hand)}${faults > 0 ? `, ${hand.count(faults, { one: "fault", other: "faults" })}` : ""}. Check its plug first; do not dry and reuse a wet one, water in a sleeve comes back in the cold.`,
      "not-settled": (perMinute: number, hand: Hand) =>
        `not settled: it still ${perMinute < 0 ? "falls" : "rises"} by ${kelvin(perMinute, hand)} a minute. Stir, wait, and try again.`,
      "not-in-slush": (instead: string | null) =>
        instead === null
          ? "not in the slush: it reads the room. Its label may be wrong."
          : `not in the slush: it reads the room, and ${instead} reads the slush instead. Their labels are swapped.`,
      "in-slush-unasked": "in the slush, though nobody said so: its label may be wrong.",
      outside: "outside the slush, as it should be.",
      silent: "silent, or read too seldom: it needs 6 readings in the last three minutes, one every 30 s or oftener.",
    },
    caution: "Keep water off the board, its supply and anything on mains.",
  },
  warm: {
    summary: "find in a run or a log which probe was warmed in a hand, and when: which probe is which",
    headings: ["from", "until", "probe", "what"],
    rose: (kelvins: number, hand: Hand) => `warmed by ${kelvin(kelvins, hand, 1)} while the others did not`,
    several: (probes: readonly string[]) =>
      `${list(probes)} warmed together, so none is meant: one probe in the hand at a time`,
    none: "No probe was warmed by 2 K or more while the others were not. Hold one in the hand for a minute, read every 10 s or oftener; in air as warm as a hand, dip it into cold water first.",
    place: (probe: string) => `Say where it sits: coldfall probes place ${probe} --fridge NAME --position POSITION`,
    ownHeat: "A probe at boiler, flue or element warms by itself when the heat comes on.",
    caution:
      "Boiler, flue and vent are hot while the fridge runs and long after, and there may be mains behind the vent: source off, mains unplugged, gas closed, and let it cool before a hand goes near those probes.",
  },
  boards: {
    summary:
      "list ports and boards, give a board its token, find one by its light, set how often it reads, let it record alone and read it out",
    examples: [
      "coldfall boards",
      "coldfall boards light /dev/ttyUSB0 --seconds 5",
      "coldfall boards interval /dev/ttyUSB0 --seconds 10",
      "coldfall boards keep /dev/ttyUSB0",
      "coldfall boards read-out /dev/ttyUSB0 --out larch.txt",
      "coldfall boards token bench-1 --fridge Larch",
    ],
    list: "list this computer's ports, and the boards that were seen",
    token:
      "give a board a token to send readings with over the network (SenML by HTTP POST); the one before is forgotten",
    tokenFridge: "the fridge that it sends readings of",
    light: "flash a board's find-me light: which of these boards is it?",
    interval: "say how often a board reads its probes; it remembers",
    lightSeconds: "for how long, 0 to 3600 s",
    intervalSeconds: "every so many seconds, 1 to 3600",
    expectedSeconds: (least: number) => `a whole number of seconds from ${least} to 3600`,
    expectedBoard: "1 to 32 letters, digits, points and hyphens, as a board's own id",
    port: "the serial port, such as /dev/ttyUSB0 or COM3",
    portHeadings: ["port", "what the system says of it"],
    noPort: "No port was found; plug the board in, or give --port to coldfall record all the same.",
    headings: ["board", "label", "fridge", "last seen", "token"],
    none: "No board yet. One is noted when it is first recorded, or when it gets a token.",
    yes: "yes",
    no: "no",
    issued: (board: string) =>
      `The token of ${board}, shown this once; the store keeps only its hash. The token before, if there was one, is no longer taken.`,
    howToSend: (board: string) =>
      `It goes into each request: POST /api/boards/${board}/readings with "Authorization: Bearer TOKEN", the readings as SenML.`,
    placeProbes: (board: string) =>
      `Readings of a probe with no place are refused. For each one: coldfall probes put PROBE, then coldfall probes place PROBE --fridge NAME --position POSITION --board ${board}.`,
    watched:
      'Alarms over what comes this way, such as cooling that stops or a board that falls silent, are raised only while "coldfall serve" runs: while it does not, or its computer sleeps, nobody watches. They come late and replace no gas, carbon monoxide or fire alarm.',
    noFridge: (board: string) =>
      `Nobody said yet which fridge ${board} is on, and its readings are refused until then: coldfall boards token ${board} --fridge NAME, which makes a new token.`,
    flashes: (board: string, seconds: number) =>
      seconds === 0 ? `Board ${board} stops flashing.` : `Board ${board} flashes for ${seconds} s.`,
    reads: (board: string, seconds: number) =>
      `Board ${board} reads its probes every ${seconds === 1 ? "second" : `${seconds} s`} from now on.`,
    refused: (board: string) => `Board ${board} refuses this: its firmware may be older.`,
    cannotOpen: (why: string) => `a port that can be opened ("coldfall boards" lists them); the system says: ${why}`,
    noBoard: "a port with a board that says hello within 15 s; check the lead, and that nothing else records from it",
    memory: {
      keep: "let a board keep its lines in its own memory from now on: it then records alone, without a computer",
      off: "keep no more; what is kept stays",
      readOut: "read a board's memory out into a file, to be imported",
      out: "the file",
      erase: "empty a board's memory, once what it kept is imported",
      keeps: (board: string, isOn: boolean, share: string) =>
        `Board ${board} keeps ${isOn ? "its lines from now on, over restarts, too" : "no more lines; what is kept stays"}. Its memory is ${share} full.`,
      full: (board: string) =>
        `The memory of board ${board} is full, and nothing more is kept: read it out, import it, then erase it.`,
      readingOut: "Reading out, about three minutes a megabyte …",
      isOut: (board: string, lines: number, file: string, readOut: string) =>
        `${lines} lines of board ${board} are in ${file}. Bring them in with: coldfall import ${file} --fridge NAME --read-out ${readOut}. The memory still holds them, until coldfall boards erase.`,
      erasing: "Erasing, which can take some minutes …",
      isEmpty: (board: string) => `The memory of board ${board} is empty.`,
      noMemory: (board: string) =>
        `a port whose board keeps lines; ${board} has no memory, is busy with it, or its firmware is older`,
      notDone: (board: string) => `a port that stays connected until it is done; ${board} did not finish, so try again`,
      aloneCaution:
        "A fridge left alone runs on electricity, its gas valve closed; a gas stretch is attended, after flame, flue, leak and CO have been checked.",
    },
    noAnswer: (board: string) => `a port whose board answers; ${board} said hello, but did not repeat the command`,
  },
};
