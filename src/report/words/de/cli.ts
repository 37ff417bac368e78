// German: the help of the command line, and what it tells while it works.

/** PowerShell takes a list with commas apart. */
const together = "was zusammengehört, steht in Anführungszeichen, in PowerShell auch eine Aufzählung mit Kommas";

const care =
  "Coldfall liest nur Temperaturen; es schaltet und zündet nichts und ist kein Gas-, CO- oder Brandmelder.\n" +
  "Netzspannung, Flüssiggas, Flamme, Abgas (CO) und Ammoniak können Menschen verletzen: Es entscheiden die\n" +
  "örtlichen Vorschriften und zugelassene Fachbetriebe für Gas und Elektro.";

export const cli = {
  usageHeading: "Beispiele:",
  care,
  language: "Sprache dessen, was gesagt und geschrieben wird; die Hilfe bleibt englisch",
  fahrenheit: "Temperaturen in Grad Fahrenheit sagen; was Sie eingeben und was in Dateien steht, bleibt in °C",
  store: (usual: string) => `der Speicher der Werkstatt; ohne Angabe ${usual}`,

  program: {
    summary:
      "Beurteilt Absorberkühlschränke mit drei Energiequellen nach aufgezeichneten Temperaturen: sagt für jede Energiequelle, ob sie gut ist, schwach, nicht kühlt oder noch nicht zu beurteilen ist, und warum.",
    examples: [
      "coldfall analyse nacht.csv",
      "coldfall analyse nacht.csv --known-good mai.csv --known-good juni.csv --html nacht.html",
      "coldfall baseline mai.csv juni.csv --out laerche.baseline.json",
      "coldfall help analyse",
    ],
    exitCodes:
      "Rückgabewert 0: es lief, was auch immer herauskam; 2: Eingabe nicht zu gebrauchen, es wurde nichts geschrieben;\n3: ein Fehler des Programms.",
    version: "die Version ausgeben",
    help: "diese Hilfe zeigen",
    helpCommand: "die Hilfe eines Befehls zeigen",
  },

  analyse: {
    summary: "jede Energiequelle des Kühlschranks beurteilen, von dem die Protokolle sind",
    logs: "Protokolle dieses Kühlschranks (CSV: time, evaporator, cabinet, ambient, source), oder Läufe des Speichers nach ihren Kennungen; ein Laufblatt neben einem Protokoll, NAME.sheet.json, wird mitgelesen",
    knownGood: "Protokoll eines Bezugslaufs; mehrfach möglich",
    ofKind: "die Bezugsprotokolle sind von einem anderen Kühlschrank derselben Bauart, nicht von diesem",
    baseline: "Datei mit Bezugsläufen, erzeugt von „coldfall baseline“",
    sheet: "Laufblatt der Protokolle, statt dem neben jedem",
    sourceAt:
      "ab TIME lief der Kühlschrank auf SOURCE (gas, mains, dc12 oder off), für Protokolle ohne Spalte source; mehrfach möglich",
    margin: "zulässiger Verlust an Kühlleistung: unter 1 minus diesem Wert ist eine Energiequelle schwach",
    json: "die Auswertung als JSON ausgeben (coldfall schema analysis)",
    html: "auch einen Bericht mit Zeichnungen in FILE schreiben",
    examples: [
      "coldfall analyse nacht.csv --known-good mai.csv",
      "coldfall analyse nacht.csv --baseline laerche.baseline.json --html nacht.html",
      "coldfall analyse ohne-quelle.csv --source-at 2026-06-04T07:15:00Z=mains --source-at 2026-06-04T15:00:00Z=off",
      "coldfall analyse export.csv --map logger.json --json > nacht.json",
    ],
  },

  baseline: {
    summary: "Bezugsläufe in einer Datei aufheben, für Vergleiche im nächsten Jahr",
    logs: "Protokolle von Läufen, die bekanntermaßen gut sind",
    out: "die Datei, die geschrieben wird",
    held: (onSource: string, stretches: number) => `${onSource} ${stretches === 1 ? "einmal" : `${stretches}-mal`}`,
    saved: (file: string, runs: number, held: readonly string[]) =>
      `${file} enthält ${runs} ${runs === 1 ? "Bezugslauf" : "Bezugsläufe"}: ${held.join(", ")}.`,
    didNotCool: (log: string, onSource: string) =>
      `Im Protokoll ${log} wurde ${onSource} nicht gekühlt: Dieser Abschnitt taugt nicht als Bezug, sehen Sie also seine Auswertung an und lassen Sie das Protokoll im Zweifel weg.`,
    ofKind: "die Läufe sollen für andere Kühlschränke derselben Bauart dienen, nicht nur für diesen",
    examples: [
      "coldfall baseline mai.csv juni.csv --out laerche.baseline.json",
      "coldfall baseline anderer.csv --of-kind --out bauart.baseline.json",
    ],
  },

  compare: {
    summary: "sagen, ob ein Kühlschrank nach einer Wartung besser oder schlechter kühlt als vorher",
    title: "Vorher und nachher",
    before: "Protokoll von vor der Wartung",
    after:
      "Protokoll von nachher, mit denselben Energiequellen; eine, an der niemand gearbeitet hat und die ihr Laufblatt nennt (untouchedSources), dient als Gegenvergleich",
    alsoBefore: "ein weiteres Protokoll von vorher; mehrfach möglich",
    alsoAfter: "ein weiteres Protokoll von nachher; mehrfach möglich",
    knownGood:
      "Protokoll eines Bezugslaufs dieses Kühlschranks, das zeigt, wie sehr er ohnehin von Nacht zu Nacht schwankt; mehrfach möglich",
    margin: "zulässiger Verlust an Kühlleistung: die Hälfte davon nach beiden Seiten ist keine Änderung",
    json: "den Vergleich als JSON ausgeben (coldfall schema comparison)",
    html: "auch einen Bericht mit Zeichnungen in FILE schreiben",
    examples: [
      "coldfall compare davor.csv danach.csv",
      "coldfall compare davor.csv danach.csv --known-good mai.csv --known-good juni.csv --html wartung.html",
      "coldfall compare davor.csv danach.csv --also-after nacht.csv --baseline laerche.baseline.json --json",
    ],
  },

  hotDay: {
    summary: "den Kühlraum bei heißer Umgebung vorhersagen, oder Stunde für Stunde durch eine Reise",
    title: "Hitzetag",
    logs: "Protokolle dieses Kühlschranks, je mehr und je heißer, desto besser; nur Läufe ab 15 °C Umgebung zählen",
    ambient: "Luft um den Kühlschrank, °C",
    forecast:
      "CSV einer Reise: time,ambient,source und nach Wunsch sun (sun oder shade) und driving (yes oder no); jede Zeile gilt bis zur nächsten, die letzte beendet die Reise",
    source:
      "Energiequelle der Antwort; ohne Angabe die des neuesten Abschnitts, bei einer Reise die, mit der sie am längsten läuft",
    load: "am Anfang eingeräumte Ware: Kilogramm und ihre Temperatur, °C",
    begin:
      "Kühlraum zu Beginn der Reise, °C; sonst der letzte Messwert eines Protokolls, das kurz davor endet, oder eingependelt",
    sheet: "Laufblatt der Protokolle, statt dem neben jedem",
    json: "die Vorhersage als JSON ausgeben (coldfall schema hot-day)",
    html: "auch einen Bericht mit Zeichnungen in FILE schreiben",
    expectedAmbient: "eine Temperatur von -20 bis 55 °C",
    expectedBegin: "eine Temperatur von -30 bis 60 °C",
    expectedLoad: "KG=C, etwa 5=22, mit mehr als 0 und höchstens 200 kg bei -30 bis 60 °C",
    examples: [
      "coldfall hot-day nacht.csv mai.csv juni.csv --ambient 35",
      "coldfall hot-day nacht.csv mai.csv --ambient 32 --source mains --load 5=22 --html heiss.html",
      "coldfall hot-day nacht.csv mai.csv juni.csv --forecast reise.csv --json",
    ],
  },

  simulate: {
    summary: "das Protokoll eines erfundenen Kühlschranks schreiben, gut oder mit Fehlern von angegebener Größe",
    out: "das Protokoll, das geschrieben wird",
    fault: "ein Fehler und seine Größe, siehe unten; mehrfach möglich",
    seed: "ein anderer Startwert ist eine andere Nacht desselben Kühlschranks",
    schedule: "Energiequellen nacheinander, jede mit ihren Stunden",
    ambient: "mittlere Lufttemperatur um den Kühlschrank, °C",
    swing: "ganze Schwankung der Lufttemperatur über einen Tag, K",
    start: "wann das Protokoll beginnt; sein Abstand zu UTC wird der des Protokolls",
    every: "Sekunden von Zeile zu Zeile",
    door: "Türöffnung: nach wie vielen Stunden, für wie viele Sekunden; mehrfach möglich",
    outage:
      "die Wärme fällt aus, während die Energiequelle an meldet: nach wie vielen Stunden, für wie viele Stunden; mehrfach möglich",
    thermostat: "Temperatur des Kühlraums, bei der der Thermostat hält, °C; ohne Angabe volle Kühlung",
    nightToNight: "wie sehr die Wärme von Nacht zu Nacht schwankt, Standardabweichung als Anteil",
    probe: (names: readonly string[]) =>
      `eine weitere Spalte, von ${names.join(", ")} eine; flue ist die Außenseite des Abgasrohrs, supply die Spannung an den Klemmen; mehrfach möglich`,
    noSource: "die Spalte source weglassen",
    expectedFault: (names: readonly string[]) => `NAME=SIZE, etwa flue=0.25, mit ${names.join(", ")}`,
    expectedFaultSize: (meaning: string) => `eine mögliche Größe; sie zählt: ${meaning}`,
    idleFault: (fault: string, onSources: readonly string[]) =>
      `${fault} zeigt sich nur ${onSources.join(" oder ")}, und der Ablauf hat keinen solchen Abschnitt: Im Protokoll ist nichts davon zu sehen. Geben Sie --schedule an.`,
    expectedSchedule: "SOURCE=HOURS nacheinander, etwa off=1,mains=8, mit gas, mains, dc12 oder off",
    expectedSeed: "eine ganze Zahl ab 0",
    expectedStart: "eine Zeit wie 2026-06-04T20:00:00Z",
    expectedAmbient: "eine Temperatur von -20 bis 60 °C",
    expectedSwing: "eine Zahl von Kelvin von 0 bis 40",
    expectedEvery: "eine Zahl von Sekunden von 1 bis 3600",
    expectedDoor: "HOURS=SECONDS, etwa 3.5=60",
    expectedOutage: "HOURS=HOURS, etwa 4=2",
    expectedThermostat: "eine Temperatur von -30 bis 30 °C",
    expectedNightToNight: "ein Anteil von 0 bis 0.5",
    faultsHeading: "Fehler, und was ihre Größe zählt:",
    wrote: (file: string, rows: number, stretches: readonly string[]) =>
      `${file}: ein erfundener Lauf, ${rows} ${rows === 1 ? "Zeile" : "Zeilen"}; ${stretches.join("; ")}.`,
    stretch: (onSource: string, hours: number, percent: number | null) =>
      `${onSource} ${hours}\u00a0h${percent === null ? "" : `, wahre Kühlleistung in dieser Nacht ${percent}\u00a0% des Bezugs`}`,
    examples: [
      "coldfall simulate --out gut.csv --seed 1",
      "coldfall simulate --out schwach.csv --seed 4 --fault mains-element=0.25 --ambient 28 --swing 6",
      "coldfall simulate --out heiss.csv --schedule off=1,mains=4 --probe boiler --probe flue",
      "coldfall simulate --out tag.csv --start 2026-06-04T09:00:00Z --schedule off=1,gas=6 --fault flue=0.25",
    ],
  },

  schema: {
    summary: "das JSON-Schema eines Dateiformats von Coldfall ausgeben",
    name: "das Format; ohne Angabe werden alle Namen gezeigt",
    examples: ["coldfall schema", "coldfall schema analysis > analysis.schema.json"],
  },

  completion: {
    summary: "ausgeben, womit die Shell Befehle und Optionen vervollständigt",
    shell: "die Shell",
    examples: [
      "source <(coldfall completion bash)",
      "source <(coldfall completion zsh)",
      "coldfall completion fish | source",
    ],
  },

  expectedOnce: "jedes nur einmal: Zuvor wurde für dasselbe etwas anderes angegeben",
  expectedOneOf: (names: readonly string[]) => `eines von ${names.join(", ")}`,
  /** Behind what an option takes. */
  decimalPoint: (expected: string, meant: string) => `${expected}; Dezimalstellen mit Punkt: ${meant}`,
  expectedMargin: "ein Anteil über 0 und unter 1, etwa 0.15",
  expectedSourceAt: "TIME=SOURCE, etwa 2026-06-04T07:15:00Z=gas, mit gas, mains, dc12 oder off",

  samples: {
    summary: "Beurteilt die Musterprotokolle, gibt die Urteile aus und schreibt eine Seite mit den Zeichnungen.",
    once: "enden, wenn das getan ist (bisher immer so)",
    fridge: (folder: string) => `Erfundener Musterkühlschrank „${folder}“`,
    service: (folder: string) => `Erfundener Musterkühlschrank „${folder}“, vor und nach seiner Wartung`,
    serviced: (folder: string, bySource: readonly string[]) => `${folder}, nach der Wartung: ${bySource.join(", ")}`,
    trip: (folder: string) => `Erfundener Musterkühlschrank „${folder}“, an einem heißen Wochenende`,
    onTrip: (folder: string, above: string | null) =>
      above === null
        ? `${folder}, auf der Reise: nicht zu sagen`
        : `${folder}, auf der Reise: ${above} lang über 8\u00a0°C`,
    inShort: "Kurz:",
    done: (page: string) =>
      `Ganze Berichte, mit dem, was als Nächstes zu prüfen ist, und der Vorsicht dazu, sind in ${page}, in diesem Ordner: Öffnen Sie die Datei im Browser.`,
  },

  reading: (file: string, index: number, count: number) => `lese ${file} (${index} von ${count})`,
  analysing: "werte aus",
  predicting: "sage vorher",
  comparing: "vergleiche",
  wrote: (file: string) => `${file} geschrieben.`,
  ignoredColumns: (log: string, columns: readonly string[], count: number) =>
    `${log}: ${count === 1 ? "Eine Spalte wird" : `${count} Spalten werden`} nicht verwendet (${columns.map((name) => `„${name}“`).join(", ")}${count > columns.length ? ", …" : ""}); die bekannten Namen sind time, evaporator, cabinet, ambient, room, freezer, ventOut, flue, boiler, supply und source.`,
  /** `what` as the option parser says it, without a full stop. */
  parser: {
    unknownOption: (option: string) => `die Option „${option}“ gibt es nicht`,
    unknownCommand: (name: string) => `den Befehl „${name}“ gibt es nicht`,
    didYouMean: (names: string) => ` (gemeint vielleicht ${names}?)`,
    missingArgument: (name: string) => `die Angabe „${name}“ fehlt`,
    withoutValue: (option: string) => `nach der Option „${option}“ fehlt ein Wert`,
    needed: (option: string) => `die Option „${option}“ muss angegeben werden`,
    notTogether: (one: string, other: string) => `die Optionen „${one}“ und „${other}“ schließen sich aus`,
    tooMany: (expected: number, given: number, words: string) =>
      expected === 0
        ? `hier wird nichts erwartet, und „${words}“ wurde angegeben; ${together}`
        : `zu viele Angaben: ${expected} erwartet, ${given} erhalten: ${words}; ${together}`,
    notOneOf: (option: string, value: string, choices: string) => `${option}: „${value}“ ist keines von ${choices}`,
  },
  wrongCommand: (what: string, help: string) =>
    `${what.charAt(0).toUpperCase()}${what.slice(1)}; „${help}“ zeigt, was sich angeben lässt.`,
  internalFault: (detail: string) =>
    `Ein Fehler in Coldfall, nicht in Ihren Dateien; es wurde nichts gefolgert. Bitte melden Sie ihn mit diesen Zeilen:\n${detail}`,
};
