// German: everything the pages of the bench say in a browser. What the server tells (verdicts, reasons, checks,
// cautions) stands in the other files of this folder.

import { mostForecastDays, type ProbeCurve } from "../../../schema/index.ts";
import type { ProofState } from "../../../science/live/index.ts";
import type { CurveCheck } from "../../../science/sensors/index.ts";
import type { Hand } from "../../hand.ts";
import { capital } from "../phrasing.ts";
import { settings, sheetLines, vents } from "./conditions.ts";
import { list, onSource } from "./names.ts";
import { sensorOf, valuesOf } from "./sensors.ts";

/** "eins" to "neun" as they stand before "Kühlschränke" and "Bezugsläufe". */
const few = ["kein", "ein", "zwei", "drei", "vier", "fünf", "sechs", "sieben", "acht", "neun"];
const spelled = (count: number) => few[count] ?? `${count}`;
/** After "mit". */
const runs = (count: number) => (count === 1 ? "einem Bezugslauf" : `${spelled(count)} Bezugsläufen`);

const sheetFields = {
  setting: "Wo der Kühlschrank steht",
  load: "Was darin ist",
  vents: "Lüftungsgitter",
  ventCovers: "Winterabdeckungen vor den Lüftungsgittern",
  flueCap: "Abgaskappe",
  fins: "Rippen innen",
  sealPaperTest: "Papierstreifen in der Türdichtung",
  gasKind: "Gasart",
  sourceChosenByHand: "Energiequelle von Hand gewählt, nicht vom Kühlschrank",
  gasChecked: "Flamme, Abgasrohr, Dichtheit und Kohlenmonoxid vor dem Gas geprüft",
  fanInside: "Lüfter innen läuft",
  fanAtRear: "Lüfter hinten läuft",
  lampGoesOut: "Lampe geht mit der Tür aus",
  tiltSidewaysDegrees: "Schräglage quer, Grad",
  tiltLengthwaysDegrees: "Schräglage längs, Grad",
  gasPressureMbar: "Gasdruck, mbar",
  altitudeMetres: "Höhenlage, m",
  uprightSince: "Steht aufrecht seit",
  untouchedSources: "Von der Wartung nicht berührt",
  fridge: "Kühlschrank, wie ihn das Blatt nennt",
  dial: "Regler auf",
  checkedBy: "Geprüft von",
  notes: "Notizen",
};

const sheetAnswers = {
  setting: settings,
  load: { empty: "nichts", part: "teilweise voll", full: "voll" },
  vents,
  ventCovers: { off: "ab", on: "dran" },
  flueCap: { clear: "frei", blocked: "verstopft", missing: "fehlt" },
  fins: { clear: "frei", frosted: "bereift" },
  sealPaperTest: { drags: "hält ringsum", slips: "rutscht irgendwo" },
  gasKind: { propane: "Propan", butane: "Butan", mixed: "Gemisch" },
};

const signs: { readonly [S in ProofState["state"]]: string } = { proven: "●", expected: "○", "not-coming": "–" };

export const bench = {
  capital,
  waiting: "Einen Moment …",
  tryAgain: "Noch einmal versuchen",
  cannotReach: "Der Dienst der Werkbank hat nicht geantwortet. Gezeigt wird, was zuletzt bekannt war.",
  care: (about: string) => `Vorsicht, ${about}:`,

  number: {
    any: "Hier gehört eine Zahl hin.",
    above: (least: string) => `Hier gehört eine Zahl über ${least} hin.`,
    aboveUpTo: (least: string, most: string) => `Hier gehört eine Zahl über ${least} hin, höchstens ${most}.`,
    between: (least: string, most: string) => `Hier gehört eine Zahl von ${least} bis ${most} hin.`,
  },

  shell: {
    skip: "Zum Inhalt",
    way: "Weg zurück",
    toFridges: "Alle Kühlschränke",
    nowhere: "Unter dieser Adresse gibt es nichts",
    outOfReach: "Der Dienst der Werkbank ist nicht zu erreichen. Neueres, als Sie sehen, ist hier nicht bekannt.",
    lastKnown: (moment: string) =>
      `Der Dienst der Werkbank ist nicht zu erreichen. Sie sehen den letzten bekannten Stand, von ${moment}.`,
    language: "Sprache",
    languageNames: { en: "English", de: "Deutsch" },
    degrees: "Grad",
    degreesNames: { C: "Celsius", F: "Fahrenheit" },
    paper: "Papier",
    paperNames: { system: "wie das System", light: "hell", dark: "dunkel" },
    signOut: "Abmelden",
  },

  signIn: {
    title: "Wer ist da?",
    who: "Ich bin",
    roles: { technician: "der Techniker, der etwas ändert", owner: "der Besitzer, der zusieht" },
    password: "Passwort",
    go: "Anmelden",
  },

  first: {
    likeliest: (cause: string, share: string) => `Wahrscheinlichste Ursache: ${cause}, ${share}.`,
    soundBy: (strength: string) => `Kühlleistung ${strength} des Bezugs.`,
    title: "Die Kühlschränke der Werkstatt",
    lead: (count: number) =>
      count === 1
        ? "Ein Kühlschrank, mit dem, was sein neuester Lauf sagt."
        : `${capital(spelled(count))} Kühlschränke, jeder mit dem, was sein neuester Lauf sagt.`,
    recording: "Wird gerade aufgezeichnet.",
    judging: "Sein neuester Lauf wird gerade beurteilt …",
    notJudged: "Noch ist kein Lauf von ihm beurteilt.",
    empty: "Hier gibt es noch keinen Kühlschrank.",
    samplesAre:
      "Um zu sehen, wie eine fertige Nacht aussieht, holen Sie die Musterprotokolle herein: erfundene Kühlschränke mit echt wirkenden Fehlern, Bezugsläufen und einer Wartung.",
    samples: "Zeigen Sie es mir an den Musterprotokollen",
    removedTitle: "Entfernte Kühlschränke",
    bringBack: (fridge: string) => `${fridge} zurückholen`,
    addTitle: "Noch ein Kühlschrank",
    addFirstTitle: "Ein eigener Kühlschrank",
    addFirst:
      "Geben Sie ihm einen Namen; seine Seite führt weiter: eine Nacht mit Fühlern aufzeichnen oder ein Protokoll hereinholen, das es schon gibt.",
    addName: "Wie die Werkstatt ihn nennt",
    add: "Anlegen",
  },

  job: {
    states: {
      running: "In Arbeit …",
      done: "Fertig.",
      failed: "Es ist nicht gelungen.",
      cancelled: "Abgebrochen; nichts Halbfertiges wurde behalten.",
    },
    progress: "Bisher getan",
    cancel: "Abbrechen",
  },

  fridge: {
    whose: (run: string, when: string) => `Lauf ${run}, ${when}`,
    why: "Warum, und was als Nächstes zu prüfen ist",
    nextTitle: "Was nun?",
    start: "Bevor es losgeht",
    startIs: "mit einem Lauf: der Plan der Nacht mit Uhrzeiten, die Liste zum Abhaken, das Laufblatt.",
    bringIn: "Ein Protokoll hereinholen",
    /** Follows its link without a space. */
    bringInIs: ", das ein anderer Logger geschrieben hat.",
    compare: "Vorher und nachher",
    compareIs: "bei einer Wartung: Hat sie geholfen?",
    hotDays: "Hitzetage",
    hotDaysIs: "für den Besitzer: Reicht die Kühlung bei Hitze oder auf der nächsten Reise?",
    notes: "Notizen",
    runsTitle: "Seine Läufe",
    runsRemovedTitle: "Entfernte Läufe",
    noRuns: "An ihm wurde noch nichts aufgezeichnet.",
    since: (moment: string) => `seit ${moment}`,
    purposes: {
      test: "Prüfung",
      "known-good": "Bezugslauf",
      "before-service": "vor der Wartung",
      "after-service": "nach der Wartung",
    },
  },

  now: {
    title: "Wird gerade aufgezeichnet",
    nothingTitle: "Es wird nichts aufgezeichnet",
    nothing:
      "Ein Lauf beginnt von selbst, wenn eine Fühlerplatine dieses Kühlschranks ihren ersten Messwert schickt oder eine Aufzeichnung an dem Rechner beginnt, an dem sie steckt.",
    byHand: "Von Hand beginnen: sagen, womit der Kühlschrank läuft",
    awaited: "Die ersten Messwerte werden erwartet.",
    wholeRun: (name: string) => `Der ganze Lauf bisher: ${name}`,
    curvesTitle: "Messwerte bisher, und wohin der Kühlraum von hier aus geht",
    ahead: "voraus",
    onsetMark: "Kältebeginn",
    onsetAwaited: "Der Kältebeginn ist noch nicht zu sehen; er wird erwartet.",
    signs,
    alarm: "Alarm.",
    alarmOf: "Zu seinem Lauf",
    seenAlarm: "Gesehen.",
    seenAlarms: "Alarme, die gesehen wurden",
    acknowledge: "Ich habe es gesehen",
    nowOn: "Läuft jetzt",
    switchNames: { gas: "Gas", mains: "230 V", dc12: "12 V", off: "aus" },
    onlyTold: "Sagen Sie es, wenn Sie von Hand umschalten. Von hier aus wird nichts geschaltet oder gezündet.",
    noted: (source: string) => `Notiert: ab jetzt ${source}.`,
  },

  chart: {
    label: (title: string) =>
      `${title}: Pfeiltasten verschieben, Plus und Minus machen den Ausschnitt enger und weiter, 0 zeigt alles; mit der Umschalttaste lesen die Pfeiltasten ab`,
    onlyRead: (title: string) => `${title}: Pfeiltasten lesen ab`,
    hint: "Berühren Sie die Kurven oder zeigen Sie darauf, um sie abzulesen.",
    readings: (moment: string | null, values: readonly string[]) =>
      values.length === 0 ? "Hier keine Messwerte." : `${moment === null ? "Am Ende" : moment}: ${values.join(", ")}.`,
    band: "wo es liegen kann",
    rejected: "beiseitegelegt",
    someRejected: "Kreuze bezeichnen beiseitegelegte Messwerte.",
    rejectedAt: (name: string, moment: string, value: string | null) =>
      `× Beiseitegelegt: ${name} ${moment}${value === null ? "" : `, ${value}`}.`,
    closer: "Näher",
    wider: "Weiter",
    earlier: "Früher",
    later: "Später",
    whole: "Alles",
  },

  run: {
    fridge: "Der Kühlschrank",
    /** @param against "die anderen Energiequellen desselben Laufs" */
    numbersCaption: (against: readonly string[]) => `Kühlleistung und worauf sie beruht; Maßstab: ${list(against)}`,
    // Soft hyphens: on a telephone the column is narrow.
    numbers: {
      strength: "Kühl\u00adleistung",
      deadTime: "Kälte\u00adbeginn nach",
      fall: "Anfangs\u00adgefälle",
      fins: "Rippen\u00addifferenz",
      to5: (degrees: string) => `auf ${degrees}`,
      unknown: "nicht bekannt",
    },
    curves: "Die Kurven",
    curvesTitle: (run: string) => `Messwerte von ${run}`,
    positions: "Gezeigt",
    shown: (readings: number, isReduced: boolean) =>
      isReduced
        ? `In der Zeichnung liegen ${readings.toLocaleString("de-DE")} Messwerte; von jeder kurzen Spanne sind der niedrigste und der höchste gezeigt. Näher zeigt mehr.`
        : `Alle ${readings.toLocaleString("de-DE")} Messwerte dieses Teils sind gezeichnet.`,
    rejected: {
      summary: (readings: number) =>
        readings === 1 ? "Ein Messwert beiseitegelegt" : `${readings.toLocaleString("de-DE")} Messwerte beiseitegelegt`,
      caption: "In der Zeichnung mit × bezeichnet; sie bleiben im Protokoll, nur die Auswertung lässt sie weg",
      when: "wann",
      said: "was der Fühler meldete",
      what: (probe: string, readings: number, values: string | null) =>
        [probe, ...(readings === 1 ? [] : [`${readings} Messwerte`]), ...(values === null ? [] : [values])].join(", "),
      why: "warum",
      noInstant: "nicht bekannt",
    },
    exportsTitle: "Zum Mitnehmen",
    testReport: "Prüfbericht",
    testReportIs: "zum Drucken, für Kunde und Werkstatt.",
    csv: "Messwerte (CSV)",
    json: "Urteil mit allen Zahlen (JSON)",
    svg: "Zeichnung (SVG)",
    png: "Zeichnung (PNG)",
    noPicture: "Der Browser konnte aus dieser Zeichnung kein PNG machen; das SVG zeigt dasselbe.",
    drawingAs: "Diese Zeichnung als Datei:",
  },

  read: {
    title: "Wie dieser Lauf gelesen wird",
    found: "wie aus den Kurven gefunden",
    lead: "Berühren Sie eine Zeile, um zu sagen, dass er anders oder ab einer anderen Zeit lief. Jede Änderung lässt sich zurücknehmen.",
    leadOwner: "Womit der Kühlschrank lief, und wann.",
    ranOn: "Er lief",
    began: "ab",
    apply: "So lesen",
    leftOut: "Weggelassen",
    everyProbe: "jeder Fühler",
    takeBackIn: "Wieder aufnehmen",
    notes: "Notizen",
    removeNote: "Notiz entfernen",
    leaveOut: "Messwerte weglassen",
    leaveOutNow: "Weglassen",
    leaveOutNote:
      "Vorgeschlagen ist, was die Kurven gerade zeigen. Es wird nichts gelöscht; es lässt sich wieder aufnehmen.",
    from: "Von",
    to: "Bis",
    probe: "Fühler",
    reason: "Weil",
    addNote: "Notiz hinzufügen",
    when: "Um",
    noteText: "Notiz",
    keepNote: "Notiz behalten",
    undo: "Letzte Änderung zurücknehmen",
    redo: "Wiederherstellen",
    sameVerdict: "Das Urteil bleibt, wie es war.",
    newVerdict: (before: string, after: string) => `Das Urteil war: ${before}. Jetzt ist es: ${after}.`,
  },

  baselines: {
    title: "Womit er verglichen wird",
    none: "Von diesem Kühlschrank gibt es keinen Bezugslauf. Ein neuer Lauf würde an seinen eigenen Energiequellen untereinander gemessen, was weniger findet.",
    compared: (count: number, isChosen: boolean) =>
      `Ein neuer Lauf würde mit ${runs(count)} dieses Kühlschranks verglichen${isChosen ? ", von Hand gewählt" : ""}.`,
    ofKind: (count: number) => `Ein neuer Lauf würde mit ${runs(count)} seiner Bauart verglichen.`,
    ofFile: "Ein neuer Lauf würde mit einer hereingeholten Bezugsdatei verglichen.",
    chosen: (moment: string) => `Gewählt ${moment}.`,
    spread: "Wie weit sie voneinander abweichen",
    spreadCaption: "Jeder Bezugslauf, Abschnitt für Abschnitt: Was weit von den anderen liegt, ist einen Blick wert.",
    columns: ["Lauf", "Anfangsgefälle", "Rippendifferenz", "Tiefe unter der Umgebung"],
    choose: "Die Bezugsläufe wählen",
    chooseLegend: "Läufe, als der Kühlschrank bekanntermaßen in Ordnung war",
    take: "Mit diesen vergleichen",
    forget: "Die Wahl vergessen",
  },

  probes: {
    title: "Fühler",
    none: "Von keinem Fühler ist bekannt, dass er an diesem Kühlschrank sitzt.",
    probe: (label: string) => `Fühler ${label}`,
    uncalibrated: "Er wurde nie kalibriert.",
    calibrated: (day: string, kelvin: string) => `Kalibriert ${day}, auf ${kelvin} genau.`,
    due: (day: string) => `Wieder bis ${day}.`,
    overdue: (day: string) => `Er war bis ${day} wieder fällig: überfällig.`,
    whatSensor: "Was für ein Sensor er ist",
    sensor: "Er ist",
    kinds: {
      celsius: "ein Sensor, der °C sendet",
      "thermistor-b": "ein Heißleiter (NTC), nach seinem B",
      "thermistor-steinhart-hart": "ein Heißleiter, nach Steinhart und Hart",
      pt100: "ein Pt100",
      "type-k": "ein Thermoelement Typ K",
    },
    ohmsAt25: "Widerstand bei 25 °C, Ω",
    b: "B, K",
    coefficient: (letter: string) => `Koeffizient ${letter}`,
    toleranceClass: "Toleranzklasse",
    coldJunction: (sign: string) => `Wie warm es ist, wo seine Drähte enden, ${sign}; leer, wo das Board es misst`,
    isA: (curve: ProbeCurve, hand: Hand) => `Er ist ${sensorOf(curve, hand)}.`,
    shouldSend: (checks: readonly CurveCheck[], hand: Hand) => `Er sollte ${valuesOf(checks, hand)} senden.`,
    noSuchSensor: "Kein Fühler, den es zu kaufen gibt, hat diese Werte; sie stehen in seinem Datenblatt.",
    holdsForAll: "Das gilt für alle seine Messwerte, auch die schon gespeicherten.",
    keep: "So merken",
    kept: "Gespeichert.",
    otherCurve: "Kalibriert wurde er, als er als anderer Fühler galt; das zählt nicht mehr: neu kalibrieren.",
  },

  details: {
    title: "Zu diesem Kühlschrank",
    change: "Ändern, was von ihm bekannt ist",
    name: "Name",
    kind: "Bauart",
    litres: "Kühlraum, Liter",
    watts: {
      gas: `Nennleistung ${onSource("gas")}, W`,
      mains: `Nennleistung ${onSource("mains")}, W`,
      dc12: `Nennleistung ${onSource("dc12")}, W`,
    },
    keep: "Behalten",
    kept: "Behalten.",
    remove: "Entfernen",
    removeNote: "Seine Läufe gehen mit; er lässt sich zurückholen.",
  },

  aboutRun: {
    title: "Zu diesem Lauf",
    change: "Ändern, was von ihm bekannt ist",
    name: "Name des Laufs",
    kept: "Behalten.",
    end: "Diesen Lauf beenden",
    endNote:
      "Er wird dann beurteilt, wie er dasteht. Ein Board, das weiter sendet, beginnt einen eigenen Lauf; eine Aufzeichnung, die auf einem Rechner gestartet wurde, endet dort binnen Sekunden.",
    endNow: "Jetzt beenden",
    removeNote: "Er zählt nirgends mehr, seine Messwerte bleiben; er lässt sich zurückholen.",
  },

  compare: {
    title: "Vorher und nachher",
    lead: "Wählen Sie einen Lauf von vor der Wartung und einen von nachher.",
    tooFew:
      "Dazu braucht es zwei abgeschlossene Läufe, einen von vor der Wartung und einen von nachher: Zeichnen Sie sie auf, oder holen Sie ihre Protokolle herein.",
    guessed:
      "Kein Lauf ist als nach der Wartung gekennzeichnet: Das sind die beiden neuesten. Sind andere gemeint, wählen Sie sie aus.",
    same: "Das ist zweimal derselbe Lauf; wählen Sie einen anderen.",
    before: "Vorher",
    after: "Nachher",
    pick: "einen Lauf wählen",
    reportIs: "von beiden, zum Drucken für den Kunden.",
    sheet: "Der Lauf von nachher",
    sheetIs: "sagt auf seinem Laufblatt, welche Energiequellen niemand berührt hat.",
  },

  hot: {
    title: "Hitzetage",
    lead: "Reicht die Kühlung? Die Antwort kommt aus allen Läufen dieses Kühlschranks; was sie offenlassen, steht dabei.",
    ambient: (degrees: string) => `Außen, ${degrees}`,
    takes: (range: string) => `Hier gehört eine Temperatur von ${range} hin.`,
    ofTrip: "Wie warm es außen ist, sagt die Reise.",
    source: "Läuft",
    newest: "so wie er lief",
    trip: "Oder eine Reise: eingetippt, eingefügt oder aus einer Datei",
    tripHow: (degrees: string) =>
      `Eine Zeile für jede Änderung: Tag und Zeit, ${degrees} außen, Energiequelle (gas, mains, 12v, off), und wo es passt „sun“ und „driving“. Eine Zeit allein gehört zum selben Tag. Die letzte Zeile beendet die Reise.`,
    tripText: "Die Reise",
    answer: "Wie warm wird es?",
    exampleButton: "Zeigen Sie mir ein Beispiel",
    file: "Oder legen Sie hier eine Datei mit der Vorhersage ab, oder wählen Sie eine: eine Tabelle aus solchen Zeilen. Nennt ihre erste Zeile die Spalten (time, ambient, source, sun, driving), ist sie in °C.",
    noTrip: "Ohne die Reise",
    understood: (rows: number) => `${rows} ${rows === 1 ? "Zeile" : "Zeilen"} verstanden.`,
    example: (year: number, at: (celsius: number) => string, [night, drive, noon]: readonly string[]) =>
      `${year}-07-18 07:00, ${at(22)}, ${night}, parked\n09:00, ${at(26)}, ${drive}, driving\n13:00, ${at(32)}, ${noon}, parked, sun\n19:00, ${at(27)}, ${noon}, parked\n23:00, ${at(22)}, ${night}\n08:00, ${at(22)}, ${night}\n`,
    tripProblems: {
      "no-time": (line: number) =>
        `Zeile ${line} beginnt nicht mit Tag und Zeit, etwa 2026-07-18 09:00. Darunter genügt eine Zeit allein.`,
      "no-ambient": (line: number) => `Zeile ${line} sagt nicht, wie warm es außen ist.`,
      "no-source": (line: number) => `Zeile ${line} sagt nicht, womit der Kühlschrank läuft: gas, mains, 12v oder off.`,
      "not-later": (line: number) => `Zeile ${line} liegt nicht nach der Zeile davor.`,
      "too-long": (line: number) => `Zeile ${line} liegt mehr als ${mostForecastDays} Tage nach der ersten.`,
      "too-few": () => "Eine Reise braucht mindestens zwei Zeilen; die letzte beendet sie.",
      "strange-word": (line: number) =>
        `In Zeile ${line} steht ein Wort, das hier nicht bekannt ist. Bekannt sind gas, mains, 12v, off, sun, shade, driving, parked.`,
    },
  },

  start: {
    title: "Bevor es losgeht",
    lead: "Sagen Sie, wann die Aufzeichnung beginnt und welche Energiequellen sich zeigen sollen; der Plan folgt der guten Gewohnheit: nachts nur auf Strom, Gas nur unter Aufsicht.",
    from: "Aufzeichnung beginnt",
    sources: "Was sich zeigen soll, in der Reihenfolge des Ankreuzens",
    /** @param place 0 for the first. */
    inOrder: (on: string, place: number) => `${on} (${["als Erstes", "als Zweites", "als Drittes"][place]})`,
    pauses: "In Eile",
    switched: "im kalten Zustand umschalten, ohne Pausen",
    print: "Drucken",
    noSource: "Kreuzen Sie mindestens eine Energiequelle an.",
  },

  sheet: {
    title: "Das Laufblatt",
    lead: "Was offen bleibt, nennt der Bericht als nicht geprüft.",
    fields: sheetFields,
    answers: sheetAnswers,
    supplyVolts: {
      mains: "Netzspannung, V, wie ein zugelassenes Steckermessgerät sie anzeigt",
      dc12: "12-V-Versorgung, V, wie das Instrument des Fahrzeugs sie anzeigt",
    },
    notSaid: "nicht angegeben",
    yes: "ja",
    no: "nein",
    open: "Einen Lauf mit diesem Blatt beginnen",
    keep: (run: string) => `Bei ${run} behalten`,
    kept: "Behalten.",
    lines: sheetLines,
    none: "Noch steht nichts darauf. Was es nicht sagt, gilt beim Vergleich von Läufen als gleich, und der Bericht nennt es als nicht geprüft.",
    fillIn: "Ausfüllen",
    correct: "Berichtigen",
    untouchedNote:
      "Beim Lauf nach einer Wartung: Vorher und nachher werden die anderen Energiequellen an dem gemessen, was niemand berührt hat.",
  },

  bringIn: {
    title: "Ein Protokoll hereinholen",
    lead: "Es wird nichts gespeichert, bevor Sie gesehen haben, wie das Protokoll verstanden wird.",
    onlyTechnician: "Nur der Techniker kann Protokolle hereinholen.",
    drop: "Datei hier ablegen, oder auswählen",
    sending: "Die Datei wird gelesen …",
    understood: (name: string) => `Wie ${name} verstanden wird`,
    alreadyIn: "Genau diese Datei ist schon in einem Lauf",
    ownFormat: "Das Protokoll ist in unserem eigenen Format; es war nichts herauszufinden.",
    covers: (period: string) => `Es reicht von ${period} (UTC).`,
    firstRows: "Die ersten Zeilen, wie sie verstanden werden",
    whole: "Die ganze Datei",
    line: "Zeile",
    written: "geschrieben",
    utc: "UTC",
    correct: "Das stimmt nicht",
    fields: {
      unit: "Temperaturen sind in",
      dateOrder: "Tage sind geschrieben als",
      separator: "Spalten sind getrennt durch",
      decimal: "Dezimalstellen stehen hinter",
      elapsedUnit: "Die Zeit seit Beginn zählt",
    },
    choices: {
      unit: { Cel: "Grad Celsius", "[degF]": "Grad Fahrenheit", K: "Kelvin" },
      dateOrder: {
        "year-month-day": "Jahr, Monat, Tag",
        "day-month-year": "Tag, Monat, Jahr",
        "month-day-year": "Monat, Tag, Jahr",
      },
      separator: { ",": "Kommas", ";": "Semikolons", "\t": "Tabulatoren" },
      decimal: { ".": "einem Punkt", ",": "einem Komma" },
      elapsedUnit: { ms: "Millisekunden", s: "Sekunden", min: "Minuten", h: "Stunden" },
    },
    asFound: "wie gefunden",
    column: (name: string) => `Spalte „${name}“ ist`,
    leftOut: "nichts davon, weglassen",
    zone: "Uhr, mit der es geschrieben wurde",
    zoneTakes: (here: string) =>
      `Hier gehört eine Zone mit ihrem Namen in der Zeitzonen-Datenbank hin, etwa ${here}, oder ein Abstand von UTC, etwa +02:00.`,
    startsAt: "Die Zählung begann, nach der Uhr dieses Geräts",
    apply: "So lesen",
    purpose: "Was der Lauf ist",
    name: "Name des Laufs",
    sheet: "Sein Laufblatt, falls es eines gibt (eine Datei neben dem Protokoll)",
    noSheet: "Diese Datei ist kein Laufblatt.",
    go: "Hereinholen",
  },

  report: {
    title: "Prüfbericht",
    toRun: "Zurück zum Lauf",
    pdf: "Als PDF",
    letterhead: "Eigene Worte der Werkstatt als Kopf",
  },
};
