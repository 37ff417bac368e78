// German: headings, labels and the report's own sentences; what the science says is in the files beside.

import type { BaselineKind } from "../../../schema/documents/index.ts";
import type { HeatSource } from "../../../schema/index.ts";
import type { Estimate } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { capital } from "../phrasing.ts";
import { list, onSource, startingOf } from "./names.ts";

/** The four numbers of a pull-down: name, what it says of this stretch, what it does and does not show. */
const pullDownNumbers = {
  rateConstant: {
    name: "Abkühlkonstante",
    phrase: (e: Estimate, hand: Hand) => `halbiert den Restabstand alle ${hand.number(Math.LN2 / e.value, 1)}\u00a0h`,
    shows: "wie schnell sich der Kühlraum der Temperatur nähert, bei der er sich einpendeln würde.",
    hides:
      "wie stark die Kühlung ist. Ein Brenner mit zu wenig Gas senkt die Konstante nur um etwa ein Zehntel, eine undichte Türdichtung oder warme Beladung hebt sie.",
  },
  depth: {
    name: "Tiefe",
    phrase: (e: Estimate, hand: Hand) => `würde ${hand.value(e)} unter der Umgebung enden`,
    shows: "wie weit unter der Umgebung der Kühlraum enden würde, wenn sich nichts änderte.",
    hides: "warum. Schwache Kühlung, undichte Türdichtung und warme Beladung machen die Tiefe alle kleiner.",
  },
  initialSlope: {
    name: "Anfangsgefälle",
    phrase: (e: Estimate, hand: Hand) => `würde von Umgebungstemperatur aus um ${hand.value(e)} fallen`,
    shows: "die Kühlung, bezogen auf alles, was zu kühlen ist; mit der Rippendifferenz ergibt es die Kühlleistung.",
    hides: "warme Beladung oder eine geöffnete Tür, die es senken, ohne dass etwas defekt ist.",
  },
  deadTime: {
    name: "Totzeit",
    phrase: (e: Estimate, hand: Hand) => `Kältebeginn ${hand.value(e)} nach dem Start`,
    shows: "wie lange der Kocher aus dem Kalten braucht; länger, wo er zu wenig Wärme bekommt.",
    hides: "wie gut danach gekühlt wird.",
  },
};

/** What a strength is a share of. */
const yardsticks: { readonly [K in BaselineKind]: string } = {
  own: "des Bezugs",
  kind: "des Bezugs seiner Bauart",
  "other-sources": "dessen, was die stärkste andere Energiequelle erwarten lässt",
  generic: "des Üblichen",
  none: "von nichts Bekanntem",
};

export const report = {
  reportOn: (logs: string) => `Coldfall zu ${logs}`,
  pageTitle: "Coldfall: wie diese Kühlschränke kühlen",
  when: (period: string, offset: string) => `${period} (${offset})`,
  list,

  headline: (source: HeatSource | null) => capital(onSource(source)),
  strength: (e: Estimate, baseline: BaselineKind, hand: Hand) =>
    `Kühlleistung ${hand.value(e)} ${yardsticks[baseline]} (${hand.interval(e)})`,
  untilItStopped: (strength: string) => `${strength}, bis sie aufhörte und nicht wiederkam`,
  thisNight: (e: Estimate, baseline: BaselineKind, hand: Hand) =>
    `Diese Nacht allein: ${hand.value(e)} ${yardsticks[baseline]} (${hand.interval(e)}).`,
  noStretch:
    "Die Protokolle enthalten keinen Abschnitt, in dem der Kühlschrank beheizt wurde, also gibt es nichts zu beurteilen.",
  warningsHeading: "Zu bedenken",

  sourceHeading: (source: HeatSource | null, verdict: string) => `${capital(onSource(source))}: ${verdict}`,
  stretchHeading: (on: string, period: string) => `${capital(on)}, ${period}`,
  warmingBack: "aus, Rückerwärmung",
  particulars: (parts: readonly string[]) => `${capital(parts.join("; "))}.`,
  lasting: (length: string) => `${length} lang`,
  toldOrFound: { told: "Energiequelle wie angegeben", found: "aus den Kurven gefunden" },
  comparedWith: (baseline: string, runs: string) => `verglichen mit ${runs} (${baseline})`,
  /** @param why a full sentence; after a colon it keeps its capital. */
  notCompared: (why: string) => `nicht verglichen: ${why.replace(/\.$/, "")}`,
  knownGoodRuns: { one: "Lauf", other: "Läufen" },
  inLog: (log: string) => `Protokoll ${log}`,

  /** Opens the table of numbers. */
  numbersSummary: (hasAllowances: boolean) =>
    hasAllowances ? "Die Zahlen dieses Abschnitts und was berücksichtigt wurde" : "Die Zahlen dieses Abschnitts",
  numbersCaption: (hasKnownGood: boolean) =>
    hasKnownGood ? "Die angepasste Abkühlung neben dem Bezug" : "Die angepasste Abkühlung",
  numberColumn: "Größe",
  hereColumn: "dieser Abschnitt",
  knownGoodColumn: "Bezug",
  ratioColumn: "im Vergleich",
  later: (shift: string, minutes: number) =>
    minutes === 0 ? shift : `${shift} ${minutes < 0 ? "(früher)" : "später"}`,
  notKnown: "nicht bekannt",
  pullDownNumbers,
  showsHeading: "Was diese Zahlen zeigen und was nicht",
  shows: ({ name, shows, hides }: { name: string; shows: string; hides: string }) =>
    `${capital(name)} zeigt: ${shows} Zeigt nicht: ${hides}`,
  showsShort: (shows: string, hides: string) => `Zeigt: ${shows} Nicht: ${hides}`,
  fittedTo: (readings: string) =>
    `Angepasst an ${readings}; ± ist der Standardfehler, die Zahlen darunter sind das 95-%-Intervall.`,
  equalLength: (hours: number, hand: Hand) => `Bezug auf dieselben ${hand.span(hours)} ab Kältebeginn gekürzt.`,

  sentence: (text: string) => `${capital(text)}.`,
  /** The same for a text that may be a sentence already. */
  sentenceOf: (text: string) => `${capital(text)}${text.endsWith(".") ? "" : "."}`,
  otherStretchesHeading: "Ausgeschaltet",
  numberMissing: (names: string, why: string) => `${capital(names)}: ${why}`,

  factNames: (hand: Hand) => ({
    to8: `auf ${hand.degrees(8)}`,
    to5: `auf ${hand.degrees(5)}`,
    to0: `auf ${hand.degrees(0)}`,
    fallFirstHour: "erste Stunde",
    shareAbove5: `über ${hand.degrees(5)}`,
    shareAbove8: `über ${hand.degrees(8)}`,
    finDifference: "Rippen",
    belowAmbient: "eingependelt",
    warmingRate: "Rückerwärmung",
    duty: "Heizanteil",
  }),
  reached: (e: Estimate, source: HeatSource | null, hand: Hand) =>
    `erreicht ${hand.value(e)} nach ${startingOf(source)} (${hand.interval(e)})`,
  projected: (e: Estimate, source: HeatSource | null, hand: Hand) =>
    `würde ${hand.value(e)} nach ${startingOf(source)} erreicht (${hand.interval(e)})`,
  facts: {
    fallFirstHour: (e: Estimate, hand: Hand) => `fiel in der Stunde nach Kältebeginn um ${hand.brief(e)}`,
    shareAbove5: (e: Estimate, hand: Hand) => `${hand.value(e)} der Zeit`,
    shareAbove8: (e: Estimate, hand: Hand) => `${hand.value(e)} der Zeit`,
    finDifference: (e: Estimate, hand: Hand) => `${hand.value(e)} kälter als die Kühlraumluft (${hand.interval(e)})`,
    belowAmbient: (e: Estimate, hand: Hand) => `${hand.value(e)} unter der Umgebung (${hand.interval(e)})`,
    warmingRate: (e: Estimate, hand: Hand) =>
      `${hand.brief(e)}: halbiert den Abstand zur Umgebung alle ${hand.number(Math.LN2 / e.value, 1)}\u00a0h`,
    duty: (e: Estimate, hand: Hand) => `heizte ${hand.brief(e)} der Zeit, während der Thermostat taktete`,
  },

  keepsUpHeading: "Reicht die Kühlung?",
  settledHere: (source: HeatSource | null, e: Estimate, against: string, hand: Hand) =>
    `${capital(onSource(source))}, so wie er hier lief, pendelt sich der Kühlraum bei ${hand.brief(e)} ein: ${against}.`,
  settledAt32: (source: HeatSource | null, e: Estimate, against: string, hand: Hand) =>
    `${capital(onSource(source))} würde er sich bei ${hand.degrees(32)} Umgebung bei ${hand.brief(e)} einpendeln: ${against}.`,
  notSettled: (source: HeatSource | null, why: string, hand: Hand) =>
    `${capital(onSource(source))} ist nicht bekannt, wo er sich einpendelt, weder so, wie er hier lief, noch bei ${hand.degrees(32)} Umgebung. ${why}`,
  notSettledHere: (source: HeatSource | null, why: string) =>
    `${capital(onSource(source))}, so wie er hier lief, ist nicht bekannt, wo er sich einpendelt. ${why}`,
  notSettledAt32: (source: HeatSource | null, why: string, hand: Hand) =>
    `${capital(onSource(source))} ist nicht bekannt, wo er sich bei ${hand.degrees(32)} Umgebung einpendelt. ${why}`,
  against8: (hand: Hand) => ({
    below: `kälter als ${hand.degrees(8)}`,
    above: `wärmer als ${hand.degrees(8)}`,
    across: `das kann über oder unter ${hand.degrees(8)} liegen`,
  }),
  /** Limits with their source; whether food may be eaten is never said. */
  foodLimits: (hand: Hand) =>
    `Grenzwerte zum Vergleich: frische Lebensmittel ${hand.range(hand.figure(0, "Cel", 0), hand.degrees(8))}, Ziel ${hand.degrees(4)} (Verordnung (EU) 2019/2016, Anhang IV, Tabelle 3; mobile Geräte fallen nicht ` +
    `darunter); gekühlte Lebensmittel höchstens ${hand.degrees(8)} (Food Safety and Hygiene (England) Regulations 2013, Schedule 4), Kühlschrank auf ` +
    `${hand.degrees(5)} oder darunter (Empfehlung der britischen Food Standards Agency); 40\u00a0°F, das sind 4,4\u00a0°C (Empfehlung von USDA und FDA für Haushalte).`,

  causesHeading: "Wahrscheinliche Ursachen",
  causesNote:
    "Angenommen wird immer nur eine Ursache; Anteile sind gerundet, Ursachen unter einem halben Prozent weggelassen.",
  cause: (name: string, source: HeatSource | null) => (source === null ? name : `${name}, ${onSource(source)}`),
  noCauses: "Über Ursachen lässt sich noch nichts sagen: Bisher war nichts zu sehen, was auf eine deutet.",
  nothingElseUnusual: "nichts Ungewöhnliches, solange geheizt wurde",
  causeColumn: "Ursache",
  shareColumn: "Anteil",

  checksHeading: "Was als Nächstes zu prüfen ist",
  checkNote: (minutes: string) => `Etwa ${minutes} Arbeit; gängige Praxis, ohne Quelle.`,
  tellsApart: (names: string) => `Unterscheidet: ${names}.`,
  cautionAbout: (about: string) => `Vorsicht, ${about}:`,
  /** Of cautions that stand in full further up. */
  cautionAgain: (abouts: readonly string[]) => `Vorsicht wie oben: ${abouts.join("; ")}.`,
  noChecks: "Es ist nichts zu prüfen.",

  condemningHeading: "Bevor ein Kühlaggregat aufgegeben wird",
  condemningNote:
    "Das Kühlaggregat ist unter den Ursachen, und nach einem einzigen Lauf wird keines aufgegeben. All das muss erst gezeigt sein, und dann entscheidet ein zugelassener Fachbetrieb.",
  proof: (name: string, state: string) => `${name}: ${state}`,

  eventsHeading: "Was während des Laufs geschah",
  noEvents: "Es war keine Türöffnung, keine Lücke, kein Takten und kein Fühlerfehler zu sehen.",
  eventAt: (period: string, name: string, position: string | null) =>
    position === null ? `${period}, ${name}.` : `${period}, ${name} (${position}).`,
  rejectedHeading: "Beiseitegelegte Messwerte",
  noRejected: "Kein Messwert musste beiseitegelegt werden.",
  rejectedNote: "Sie bleiben im Protokoll; nur die Auswertung lässt sie weg.",
  rejected: (count: string, position: string, log: string, reason: string) =>
    `${count}, ${position}, Protokoll ${log}: ${reason}.`,
  rejectedWhen: (periods: readonly string[]) => `Wann: ${periods.join("; ")}.`,
  rejectedWhenMore: (periods: readonly string[], further: number, last: string) =>
    `Wann: ${periods.join("; ")}; noch ${further === 1 ? "einmal" : `${further}-mal`} bis ${last}.`,
  readings: { one: "Messwert", other: "Messwerte" },

  knownGoodHeading: "Was ein Bezugslauf beitragen würde",
  knownGoodAdds: (sources: string) =>
    `Ohne Bezugslauf ${sources} enthält der Bericht Anpassungen, Etappen, Ereignisse und ob die Kühlung reicht, aber keine Kühlleistung. ` +
    "Ein Lauf dieses Kühlschranks, solange er bekanntermaßen in Ordnung ist (nachts nur auf Strom, Gas nur unter Aufsicht), ließe die nächste Auswertung gut oder schwach sagen, mit einem " +
    "Intervall; drei machen dieses Intervall schmal genug, um zu nützen.",

  footHeading: "Woher das kommt",
  times: (offset: string) => `Zeiten in ${offset}, wie das Protokoll sie schreibt.`,
  intervals: "Zahlen in Klammern sind 95-%-Intervalle; Zahlen nach ± sind Standardfehler.",
  margin: (share: string) => `Zulässiger Verlust: ${share} der Kühlleistung des Bezugs.`,
  marks: (moment: string, source: string) => `Vermerkt: ${source} ab ${moment}.`,
  method: (version: string, method: string) => `Coldfall ${version}, Methode ${method}.`,
  limits:
    "Coldfall liest nur Temperaturen. Es schaltet und zündet nichts und ist kein Gas-, Kohlenmonoxid- oder Brandmelder; es entscheiden die örtlichen " +
    "Vorschriften und zugelassene Fachbetriebe für Gas und Elektro.",
  input: (role: string, name: string, sha256: string) => `${role} ${name}, SHA-256 ${sha256}`,
  roles: { log: "Protokoll", "known-good": "Bezugsprotokoll", baseline: "Bezugsdatei", sheet: "Laufblatt" },

  chart: {
    temperature: (hand: Hand) => `Temperatur, ${hand.unit("Cel")}`,
    residual: (hand: Hand) => `Messwerte minus Kurve, ${hand.unit("K")}`,
    hours: (source: HeatSource | null) => `Stunden nach ${startingOf(source)}`,
    hoursOff: "Stunden nach dem Ausschalten",
    clock: (offset: string) => `Uhrzeit, ${offset}`,
    lines: {
      cabinet: "Kühlraum",
      evaporator: "Verdampfer",
      ambient: "Umgebung",
      fitted: "angepasst",
      knownGood: "Bezug",
      band: "95-%-Band",
    },
    coldBegan: "Kältebeginn",
    stretchTitle: (heading: string) => `${heading}: Temperaturen und angepasste Kurve`,
    runTitle: (log: string) => `Ganzes Protokoll ${log}`,
    runCaption:
      "Der ganze Lauf. Die Abschnitte sind oben benannt und schattiert, wo der Kühlschrank aus war; Buchstaben bezeichnen die weiter unten aufgeführten Ereignisse.",
    patterns: {
      cabinet: "Messwerte des Kühlraums als durchgezogene Linie",
      fitted: "die angepasste Kurve gestrichelt, ihr 95-%-Band getönt",
      evaporator: "Verdampfer in langen Strichen",
      ambient: "Umgebung gepunktet",
      knownGood: "strichpunktiert, wie weit unter dieser Umgebung die Bezugsläufe lagen, gezählt ab Kältebeginn",
      rejected: "× ein beiseitegelegter Messwert, am Rand, wo er jenseits der Achse liegt",
    },
    caption: (patterns: readonly string[]) => `${capital(patterns.join("; "))}.`,
    missesCaption: "Darunter: was die Anpassung nicht trifft.",
    dataSummary: (rows: string) => `Die Messwerte dieser Zeichnung als Tabelle (ausgedünnt auf höchstens ${rows})`,
    rows: { one: "Zeile", other: "Zeilen" },
    runTableCaption: (hand: Hand) => `Temperaturen in ${hand.unit("Cel")}`,
    tableCaption: (hand: Hand) => `Temperaturen in ${hand.unit("Cel")}; letzte Spalte in ${hand.unit("K")}`,
    columns: {
      hours: "Stunden",
      clock: "Uhrzeit",
      evaporator: "Verdampfer",
      cabinet: "Kühlraum",
      ambient: "Umgebung",
      fitted: "angepasst",
      band: "95-%-Band",
      residual: "minus Kurve",
      stretch: "Abschnitt",
    },
    missing: "–",
    goes: (name: string, from: string, to: string, extra: string) => `${capital(name)} von ${from} auf ${to}${extra}.`,
    lowest: (value: string, hours: string) => `, am kältesten ${value} nach ${hours}`,
    fitsWithin: (kelvin: string) => `Die Anpassung verfehlt die Messwerte um ${kelvin} (quadratisches Mittel).`,
    noReadings: "Keine Messwerte.",
  },
};
