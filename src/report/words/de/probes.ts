// German: calibrating and checking probes, and the boards they are plugged into.

import type { ProbeCurve } from "../../../schema/index.ts";
import type { CurveCheck } from "../../../science/sensors/index.ts";
import type { Hand } from "../../hand.ts";
import { list } from "./names.ts";
import { sensorOf, valuesOf } from "./sensors.ts";

const kelvin = (value: number, hand: Hand, decimals = 2) => hand.quantity(Math.abs(value), "K", decimals);
const celsius = (value: number, hand: Hand, decimals = 1) => hand.quantity(value, "Cel", decimals);

/** How a reading lies about what it should be, in whole hundredths; stands after "er zeigt". */
const off = (offset: number, hand: Hand) => {
  if (Math.abs(offset) < 0.005) return "richtig";
  return `${kelvin(offset, hand)} zu ${offset > 0 ? "viel" : "wenig"}`;
};

const methods = {
  "ice-point": "Eispunkt",
  "boiling-point": "Siedepunkt",
  "reference-probe": "ein Referenzfühler",
  "several-points": "mehrere bekannte Temperaturen",
  stated: "wie angegeben",
};

export const probes = {
  curve: {
    summary:
      "angeben, was die Ohm oder Millivolt bedeuten, die ein Fühler sendet; einer, der °C sendet, braucht nichts",
    thermistor: "ein Heißleiter (NTC): sein Widerstand bei 25 °C in Ω und sein B-Parameter in K, etwa 10000,3950",
    steinhartHart: "ein Heißleiter nach den Koeffizienten von Steinhart und Hart, etwa 1.129e-3,2.341e-4,8.775e-8",
    pt100: "ein Pt100 nach IEC 60751, der Toleranzklasse AA, A, B oder C",
    typeK: "ein Thermoelement Typ K nach IEC 60584, der Toleranzklasse 1 oder 2",
    coldJunction:
      "mit --type-k: wie warm es ist, wo die Drähte des Elements enden, °C, wenn es dort nicht gemessen wird; ohne Angabe bezieht die Messschaltung die Millivolt auf 0 °C",
    celsius: "er sendet °C: keine Kennlinie",
    expectedThermistor: "OHMS,B, etwa 10000,3950: 10 Ω bis 10 MΩ bei 25 °C, B von 1000 bis 10000 K",
    expectedCoefficients:
      "A,B,C eines Heißleiters, dessen Widerstand beim Erwärmen von 10 MΩ auf 10 Ω fällt, etwa 1.129e-3,2.341e-4,8.775e-8",
    expectedCouple: "1 oder 2",
    expectedColdJunction: "eine Temperatur von -40 bis 85 in °C",
    withoutCouple: "--type-k dazu; kein anderer Fühler hat eine Vergleichsstelle",
    unknownBefore: (probe: string) =>
      `Der Fühler ${probe} war bisher nicht bekannt und ist jetzt gespeichert; ist der Name vertippt, nehmen Sie ihn mit „coldfall probes remove ${probe}“ heraus.`,
    sendsCelsius: (probe: string) => `Der Fühler ${probe} sendet °C; eine Kennlinie, die er hatte, ist weggenommen.`,
    kept: (probe: string, curve: ProbeCurve, checks: readonly CurveCheck[], hand: Hand) =>
      `Der Fühler ${probe} ist ${sensorOf(curve, hand)}. Er sollte ${valuesOf(checks, hand)} senden. Das gilt für alle seine Messwerte, auch die schon gespeicherten.`,
    calibrateAnew: (probe: string, calibrations: number) =>
      `${calibrations === 1 ? "Eine Kalibrierung" : `${calibrations} Kalibrierungen`} von ${probe} mit einer anderen Kennlinie ${calibrations === 1 ? "wird" : "werden"} nicht mehr verwendet: Kalibrieren Sie ihn neu.`,
    /** In the list of probes. */
    kinds: {
      "thermistor-b": "Heißleiter",
      "thermistor-steinhart-hart": "Heißleiter",
      pt100: "Pt100-Fühler",
      "type-k": "Typ K",
    },
    /** When recording begins. */
    lacking: (probes: readonly string[]) =>
      `${probes.length === 1 ? `Der Fühler ${probes[0]} sendet` : `Die Fühler ${list(probes)} senden`} Ohm oder Millivolt, und niemand hat gesagt, was sie bedeuten: aufgezeichnet, wie sie kommen, aber keine Temperaturen, bis „coldfall probes curve ${probes[0]}“ es sagt.`,
  },
  calibrate: {
    summary: "einen Fühler kalibrieren: am Eispunkt, in kochendem Wasser oder neben einem Referenzfühler",
    ice: "was er in einem gerührten Brei aus zerstoßenem Eis und sauberem Wasser zeigt; für mehrere Ablesungen mehrfach angeben",
    boiling:
      "was er in kochendem Wasser zeigt, mit --altitude oder --pressure; kochendes Wasser und Dampf verbrühen: lange Ärmel oder Zange, kein Kabel über den Topfrand",
    altitude: "Meter über dem Meer, wo das Wasser kocht",
    pressure: "Luftdruck, wo das Wasser kocht, hPa, wie ihn ein Barometer dort zeigt, nicht auf Meereshöhe umgerechnet",
    against: "was ein Referenzfühler daneben zeigt und was er selbst zeigt, °C; einmal je Temperatur oder öfter",
    uncertainty:
      "Standardunsicherheit des Referenzfühlers, K; ohne Angabe die eines nicht kalibrierten Fühlers, 0,29 K",
    made: "der Tag, an dem es geschah, YYYY-MM-DD; ohne Angabe heute",
    due: "der Tag, ab dem es wiederholt werden soll, YYYY-MM-DD; ohne Angabe ein Jahr später",
    expectedReading: "eine Temperatur von -60 bis 130 in °C, mit einem Punkt vor den Dezimalstellen",
    expectedAgainst: "REFERENCE=READ in °C, etwa 20.10=20.38",
    expectedAltitude: "Meter zwischen -500 und 4000",
    expectedPressure: "hPa zwischen 600 und 1100; Wetterberichte rechnen auf Meereshöhe um, ein Barometer am Ort nicht",
    expectedUncertainty: "Kelvin über 0 und bis 5",
    onePressure: "eines von --altitude und --pressure, denn je höher, desto niedriger siedet Wasser",
    withoutBoiling: "--boiling dazu, mit dem, was der Fühler in kochendem Wasser zeigte",
    withoutReference: "--against dazu; Eis und kochendes Wasser haben ihre eigenen Unsicherheiten",
    notYet: "heute oder einen Tag davor",
    dueFirst: "einen Tag nach dem, an dem kalibriert wurde",
    tooClose: (span: string) =>
      `Temperaturen, die mindestens 2 K auseinanderliegen (die Ablesungen spannen ${span}), oder eine einzige mit mehreren Ablesungen`,
    notSettled: (at: string, scatter: string) =>
      `Ablesungen eines ruhigen Fühlers: die bei ${at} streuen um ${scatter}; rühren, zehn Minuten warten, neu ablesen`,
    tooFar: (at: string) =>
      `was er bei ${at} zeigte; ein Fühler, der mehr als 5 K abweicht, war nicht dort oder ist defekt, und das behebt keine Kalibrierung`,
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
          `bei ${celsius(reference, hand)} ${off(reading - reference, hand)} (${hand.count(readings, { one: "Ablesung", other: "Ablesungen" })})`,
      );
      const how = points.length === 1 ? "um diese Abweichung" : "entlang einer Geraden";
      return `Fühler ${probe}, ${methods[method]}: Er zeigt ${list(at)}. Was er meldet, wird ab jetzt ${how} berichtigt.`;
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
      `Berichtigt stimmt er bei ${celsius(least.atCelsius, hand)} auf ${kelvin(least.kelvin, hand)} und überall von ${celsius(lowest, hand, 0)} bis ${celsius(highest, hand, 0)} auf ${kelvin(widest, hand)} (95\u00a0%, nach GUM).`,
    holdsFor: (day: string) =>
      `Das gilt für Läufe, die nach dem ${day} beginnen, und für frühere, die keine Kalibrierung dieses Fühlers haben.`,
    dueAgain: (day: string) => `Wieder fällig am ${day}.`,
    overdueAlready: (day: string) =>
      `Wieder fällig war das am ${day}, es ist also schon überfällig: Kalibrieren Sie den Fühler neu.`,
    boilingCaution:
      "Kochendes Wasser und Dampf verbrühen: lange Ärmel oder Zange, den Topf auf einen festen Herd, kein Kabel über den Rand. Nicht im Fahrzeug und nicht auf dem Kühlschrank; auf einem Elektroherd, oder auf einem Gasherd in einer gelüfteten Küche, unter Aufsicht.",
  },
  standing: {
    dueSoon: (day: string, left: number) => `${day}, in ${left === 1 ? "1 Tag" : `${left} Tagen`}`,
    overdue: (day: string, over: number) =>
      `${day}, überfällig${over === 0 ? "" : ` seit ${over === 1 ? "1 Tag" : `${over} Tagen`}`}`,
    fromTheFuture: (day: string) => `${day}, datiert vor der Uhr dieses Rechners`,
  },
  /** When recording begins. */
  overdue: (overdue: readonly { readonly probe: string; readonly day: string }[]) =>
    overdue.length === 1
      ? `Der Fühler ${overdue[0].probe} war am ${overdue[0].day} zum Kalibrieren fällig; seine Messwerte werden wie bisher gespeichert und berichtigt. „coldfall probes calibrate ${overdue[0].probe} --ice-point READ“ erledigt das.`
      : `Die Fühler ${list(overdue.map(({ probe, day }) => `${probe} (${day})`))} waren zum Kalibrieren fällig; ihre Messwerte werden wie bisher gespeichert und berichtigt. „coldfall probes calibrate“ erledigt das für jeden.`,
  slush: {
    summary:
      "Fühler nach zehn Minuten in einem Brei aus zerstoßenem Eis und Wasser beurteilen, aufgezeichnet als Lauf oder Protokoll",
    log: "ein Lauf, ein Protokoll oder eine Datei, die eine Fühlerplatine aufgezeichnet hat",
    inSlush: "ein Fühler, der im Brei lag, nach Nummer oder Position; ohne Angabe alle; mehrfach möglich",
    headings: ["Fühler", "Befund"],
    none: "Es enthält keine Temperatur eines Fühlers.",
    unknown: (known: readonly string[]) => `einen seiner Fühler: ${known.join(", ")}`,
    findings: {
      good: (probe: string, offset: number, hand: Hand) =>
        `gut: Er zeigt am Eispunkt ${off(offset, hand)}. Um das festzuhalten: coldfall probes calibrate ${probe} --ice-point ${offset.toFixed(3)}`,
      "far-off": (offset: number, hand: Hand) =>
        `weit daneben: Er zeigt am Eispunkt ${off(offset, hand)}, und zwar beständig. Kalibrieren Sie ihn, oder legen Sie ihn weg.`,
      "wet-or-loose": (scatter: number, faults: number, hand: Hand) =>
        `nass oder lose: unruhig um ${kelvin(scatter, hand)}${faults > 0 ? `, ${hand.count(faults, { one: "Fehler", other: "Fehler" })}` : ""}. Prüfen Sie erst den Stecker; trocknen und verwenden Sie keinen nassen wieder, Wasser in der Hülse kommt in der Kälte zurück.`,
      "not-settled": (perMinute: number, hand: Hand) =>
        `nicht zur Ruhe gekommen: Er ${perMinute < 0 ? "fällt" : "steigt"} noch um ${kelvin(perMinute, hand)} pro Minute. Rühren, warten, noch einmal versuchen.`,
      "not-in-slush": (instead: string | null) =>
        instead === null
          ? "nicht im Brei: Er zeigt den Raum. Vielleicht ist seine Aufschrift falsch."
          : `nicht im Brei: Er zeigt den Raum, und ${instead} zeigt stattdessen den Brei. Die Aufschriften sind vertauscht.`,
      "in-slush-unasked": "im Brei, obwohl es niemand angegeben hat: Vielleicht ist seine Aufschrift falsch.",
      outside: "außerhalb des Breis, wie es sein soll.",
      silent:
        "stumm, oder zu selten gemessen: Nötig sind 6 Messwerte in den letzten drei Minuten, einer alle 30 s oder öfter.",
    },
    caution:
      "Nehmen Sie nur Becher und Eis, aus denen danach niemand trinkt oder isst, und halten Sie Wasser von der Fühlerplatine, ihrer Versorgung und allem mit Netzspannung fern.",
  },
  warm: {
    summary: "in einem Lauf oder Protokoll finden, welcher Fühler wann in der Hand gewärmt wurde: welcher ist welcher",
    headings: ["von", "bis", "Fühler", "was"],
    rose: (kelvins: number, hand: Hand) => `um ${kelvin(kelvins, hand, 1)} erwärmt, die anderen nicht`,
    several: (probes: readonly string[]) =>
      `${list(probes)} erwärmten sich zusammen, also ist keiner gemeint: immer nur einen Fühler in die Hand`,
    none: "Kein Fühler wurde um 2 K oder mehr erwärmt, während die anderen es nicht wurden. Halten Sie einen eine Minute lang in der Hand, mit einem Messwert alle 10 s oder öfter; in handwarmer Luft tauchen Sie ihn vorher in kaltes Wasser.",
    place: (probe: string) =>
      `Geben Sie an, wo er sitzt: coldfall probes place ${probe} --fridge NAME --position POSITION`,
    ownHeat: "Ein Fühler an Kocher, Abgasrohr oder Heizpatrone erwärmt sich von selbst, wenn die Wärme kommt.",
    caution:
      "Kocher, Abgasrohr und Lüftungsgitter sind heiß, während der Kühlschrank läuft, und noch lange danach, und hinter dem Lüftungsgitter kann Netzspannung sein: Energiequelle aus, Netzstecker gezogen, Gas zu, und abkühlen lassen, bevor eine Hand in die Nähe dieser Fühler kommt.",
  },
  boards: {
    summary:
      "Anschlüsse und Fühlerplatinen zeigen, einer ihr Kennwort geben, eine an ihrem Licht finden, den Messabstand einstellen, allein aufzeichnen lassen und auslesen",
    examples: [
      "coldfall boards",
      "coldfall boards light /dev/ttyUSB0 --seconds 5",
      "coldfall boards interval /dev/ttyUSB0 --seconds 10",
      "coldfall boards keep /dev/ttyUSB0",
      "coldfall boards read-out /dev/ttyUSB0 --out larch.txt",
      "coldfall boards token bench-1 --fridge Lärche",
    ],
    list: "die Anschlüsse dieses Rechners zeigen, und die Fühlerplatinen, die gesehen wurden",
    token:
      "einer Fühlerplatine ein Kennwort geben, mit dem sie Messwerte über das Netzwerk schickt (SenML per HTTP POST); das vorige wird vergessen",
    tokenFridge: "der Kühlschrank, dessen Messwerte sie schickt",
    light: "das Suchlicht einer Fühlerplatine blinken lassen: Welche dieser Fühlerplatinen ist es?",
    interval: "sagen, wie oft eine Fühlerplatine ihre Fühler misst; sie merkt es sich",
    lightSeconds: "wie lange, 0 bis 3600 s",
    intervalSeconds: "alle so viele Sekunden, 1 bis 3600",
    expectedSeconds: (least: number) => `eine ganze Zahl von Sekunden von ${least} bis 3600`,
    expectedBoard: "1 bis 32 Buchstaben, Ziffern, Punkte und Bindestriche, wie die Kennung einer Fühlerplatine",
    port: "der serielle Anschluss, etwa /dev/ttyUSB0 oder COM3",
    portHeadings: ["Anschluss", "was das System dazu sagt"],
    noPort:
      "Es wurde kein Anschluss gefunden; stecken Sie die Fühlerplatine ein, oder geben Sie „coldfall record“ trotzdem --port an.",
    headings: ["Fühlerplatine", "Aufschrift", "Kühlschrank", "zuletzt gesehen", "Kennwort"],
    none: "Noch keine Fühlerplatine. Eine wird vermerkt, wenn sie zum ersten Mal aufgezeichnet wird oder ein Kennwort bekommt.",
    yes: "ja",
    no: "nein",
    issued: (board: string) =>
      `Das Kennwort von ${board}, nur dieses eine Mal gezeigt; der Speicher behält nur seinen Hash. Ein früheres gilt nicht mehr.`,
    howToSend: (board: string) =>
      `Es gehört in jede Anfrage: POST /api/boards/${board}/readings mit "Authorization: Bearer TOKEN", die Messwerte als SenML.`,
    placeProbes: (board: string) =>
      `Messwerte eines Fühlers ohne Platz werden abgelehnt. Für jeden: coldfall probes put PROBE, dann coldfall probes place PROBE --fridge NAME --position POSITION --board ${board}.`,
    watched:
      "Alarme zu dem, was so kommt, etwa wenn es nicht mehr kühlt oder eine Fühlerplatine verstummt, gibt es nur, solange „coldfall serve“ läuft: läuft es nicht oder schläft sein Rechner, wacht niemand. Sie kommen spät und ersetzen keinen Gas-, Kohlenmonoxid- oder Brandmelder.",
    noFridge: (board: string) =>
      `Noch hat niemand gesagt, an welchem Kühlschrank ${board} sitzt, und bis dahin werden ihre Messwerte abgelehnt: coldfall boards token ${board} --fridge NAME, was ein neues Kennwort erzeugt.`,
    flashes: (board: string, seconds: number) =>
      seconds === 0
        ? `Die Fühlerplatine ${board} hört auf zu blinken.`
        : `Die Fühlerplatine ${board} blinkt ${seconds}\u00a0s lang.`,
    reads: (board: string, seconds: number) =>
      `Die Fühlerplatine ${board} misst ab jetzt ${seconds === 1 ? "jede Sekunde" : `alle ${seconds}\u00a0s`}.`,
    refused: (board: string) => `Die Fühlerplatine ${board} lehnt das ab: Vielleicht ist ihre Firmware älter.`,
    cannotOpen: (why: string) =>
      `einen Anschluss, der sich öffnen lässt („coldfall boards“ zeigt sie); das System meldet: ${why}`,
    noBoard:
      "einen Anschluss mit einer Fühlerplatine, die sich innerhalb von 15 s meldet; prüfen Sie das Kabel, und dass sonst nichts von ihr aufzeichnet",
    memory: {
      keep: "eine Fühlerplatine ihre Zeilen ab jetzt im eigenen Speicher behalten lassen: Sie zeichnet dann allein auf, ohne Computer",
      off: "nichts mehr behalten; was behalten wurde, bleibt",
      readOut: "den Speicher einer Fühlerplatine in eine Datei auslesen, zum Einlesen",
      out: "die Datei",
      erase: "den Speicher einer Fühlerplatine leeren, wenn das Behaltene eingelesen ist",
      keeps: (board: string, isOn: boolean, share: string) =>
        `Die Fühlerplatine ${board} behält ${isOn ? "ab jetzt ihre Zeilen, auch über Neustarts" : "keine Zeilen mehr; was behalten wurde, bleibt"}. Ihr Speicher ist zu ${share} voll.`,
      full: (board: string) =>
        `Der Speicher der Fühlerplatine ${board} ist voll, und nichts weiter wird behalten: auslesen, einlesen, dann leeren.`,
      readingOut: "Wird ausgelesen, etwa drei Minuten je Megabyte …",
      isOut: (board: string, lines: number, file: string, readOut: string) =>
        `${lines} Zeilen der Fühlerplatine ${board} stehen in ${file}. Einlesen mit: coldfall import ${file} --fridge NAME --read-out ${readOut}. Im Speicher bleiben sie bis coldfall boards erase.`,
      erasing: "Wird geleert, das kann einige Minuten dauern …",
      isEmpty: (board: string) => `Der Speicher der Fühlerplatine ${board} ist leer.`,
      noMemory: (board: string) =>
        `ein Anschluss, dessen Fühlerplatine Zeilen behält; ${board} hat keinen Speicher, ist gerade damit beschäftigt, oder ihre Firmware ist älter`,
      notDone: (board: string) =>
        `ein Anschluss, der verbunden bleibt, bis es fertig ist; ${board} wurde nicht fertig, also noch einmal`,
      aloneCaution:
        "Ein Kühlschrank, der allein gelassen wird, läuft mit Strom, das Gasventil geschlossen; Gasbetrieb wird beaufsichtigt, nachdem Flamme, Abgas, Dichtheit und CO geprüft sind.",
    },
    noAnswer: (board: string) =>
      `einen Anschluss, dessen Fühlerplatine antwortet; ${board} hat sich gemeldet, aber den Befehl nicht wiederholt`,
  },
};
