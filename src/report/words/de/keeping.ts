// German: the commands that list and change what the store keeps.

export const keeping = {
  /** @param schema where its shape is published; null where it is not */
  json: (schema: string | null) =>
    schema === null ? "als JSON ausgeben" : `als JSON ausgeben (coldfall schema ${schema})`,
  fridge: "der Kühlschrank, nach seinem Namen",
  run: "der Lauf, nach seiner Kennung oder deren Anfang",

  fridges: {
    summary: "die Kühlschränke der Werkstatt zeigen, anlegen, ändern und entfernen",
    examples: [
      "coldfall fridges",
      'coldfall fridges add Lärche --kind "90 Liter, Anschlag rechts" --mains-watts 135 --dc12-watts 120',
      'coldfall fridges edit Lärche --notes "zurück auf Platz 3"',
      "coldfall fridges export Lärche --out laerche.jsonl",
      "coldfall fridges take-in laerche.jsonl",
    ],
    list: "die Kühlschränke zeigen",
    add: "einen Kühlschrank anlegen",
    edit: "ändern, was von einem Kühlschrank bekannt ist",
    remove:
      "einen Kühlschrank mit seinen Läufen entfernen; restore macht es rückgängig, bis der Speicher verdichtet wird",
    restore: "einen entfernten Kühlschrank zurückholen",
    export:
      "alles schreiben, was über einen Kühlschrank gespeichert ist, ein JSON-Objekt pro Zeile, wie es sein Besitzer verlangen kann",
    name: "wie die Werkstatt ihn nennt",
    kind: "die Bauart, in eigenen Worten; Kühlschränke einer Bauart können einen Bezug teilen",
    watts: (source: string) => `Nennleistung ${source}, W`,
    litres: "was der Kühlraum fasst, Liter",
    notes: "was sonst festzuhalten ist",
    rename: "ein neuer Name",
    removedToo: "stattdessen die entfernten",
    out: "die Datei, die geschrieben wird",
    headings: ["Kühlschrank", "Bauart", "Gas W", "230 V W", "12 V W", "Liter", "Notizen"],
    none: "Noch kein Kühlschrank. Legen Sie einen an mit „coldfall fridges add NAME“.",
    added: (name: string) => `${name} ist im Speicher.`,
    changed: (name: string) => `${name} ist geändert.`,
    removed: (name: string) =>
      `${name} ist mit den Läufen entfernt. „coldfall fridges restore ${name}“ macht es rückgängig.`,
    restored: (name: string) => `${name} ist mit den Läufen zurück.`,
    takeIn:
      "einen Kühlschrank übernehmen, den ein anderer Speicher ausgegeben hat: Läufe, Änderungen, Ergebnisse und Fühler, unter denselben Namen",
    takenIn: (
      file: string,
      fridge: string,
      { isNew, newRuns }: { readonly isNew: boolean; readonly newRuns: number },
      {
        stored,
        repeated,
        contradicted,
      }: { readonly stored: number; readonly repeated: number; readonly contradicted: number },
    ) =>
      [
        `${fridge} ist im Speicher, aus ${file}: ${isNew ? "ein neuer Kühlschrank" : "schon bekannt"}, ${newRuns === 1 ? "1 neuer Lauf" : `${newRuns} neue Läufe`}, ${stored} neue Messwerte${repeated > 0 ? `, ${repeated} waren schon da` : ""}.`,
        ...(contradicted > 0
          ? [
              `${contradicted} Messwerte sagen etwas anderes als das, was vom selben Zeitpunkt gespeichert ist, und wurden nicht übernommen.`,
            ]
          : []),
      ].join(" "),
    expectedName: "einen Namen, unter dem die Werkstatt den Kühlschrank kennt",
    expectedWatts: "eine Zahl von Watt zwischen 1 und 2000",
    expectedLitres: "eine Zahl von Litern zwischen 1 und 500",
  },

  runs: {
    summary: "Läufe zeigen, ändern und entfernen",
    examples: [
      "coldfall runs --fridge Lärche",
      "coldfall runs edit 2026-06-04-k7qx3m --purpose known-good",
      "coldfall runs remove 2026-06-04-k7qx3m",
    ],
    list: "die Läufe zeigen, die neuesten zuerst",
    edit: "Name, Zweck oder Notizen eines Laufs ändern",
    remove: "einen Lauf entfernen; restore macht es rückgängig, bis der Speicher verdichtet wird",
    restore: "einen entfernten Lauf zurückholen",
    ofFridge: "nur Läufe dieses Kühlschranks, nach seinem Namen",
    purpose: "wozu er aufgezeichnet wurde; Bezugsläufe (known-good) bilden den Bezug des Kühlschranks",
    onlyPurpose: "nur Läufe mit diesem Zweck",
    name: "wie man den Lauf nennt",
    notes: "was sonst festzuhalten ist",
    removedToo: "stattdessen die entfernten",
    headings: ["Lauf", "Kühlschrank", "Name", "Zweck", "Beginn", "Dauer"],
    none: "Noch kein Lauf. Holen Sie einen mit „coldfall import“ herein, oder zeichnen Sie einen mit „coldfall record“ auf.",
    goesOn: "läuft noch",
    changed: (name: string) => `Der Lauf ${name} ist geändert.`,
    removed: (name: string, id: string) =>
      `Der Lauf ${name} ist entfernt. „coldfall runs restore ${id}“ macht es rückgängig.`,
    restored: (name: string) => `Der Lauf ${name} ist zurück.`,
  },

  sheet: {
    summary: "das Laufblatt eines Laufs zeigen oder ändern: die Bedingungen, unter denen er aufgezeichnet wurde",
    examples: [
      "coldfall sheet 2026-06-04-k7qx3m",
      "coldfall sheet 2026-06-04-k7qx3m --set setting=bench --set tiltSidewaysDegrees=0.5 --set gasKind=propane",
      "coldfall sheet 2026-06-04-k7qx3m --file night.sheet.json",
    ],
    set: "ein Feld und sein Wert; FIELD= ohne etwas dahinter vergisst das Feld; mehrfach möglich",
    file: "das ganze Laufblatt aus einer Datei nehmen (coldfall schema run-sheet)",
    none: "Noch kein Laufblatt.",
    expectedPoint: "eine Zahl mit Dezimalpunkt, etwa tiltSidewaysDegrees=1.5",
    expectedField: (fields: readonly string[]) =>
      `FIELD=VALUE, mit einem von ${fields.join(", ")} (coldfall schema run-sheet)`,
    expectedSet: "FIELD=VALUE mit einem Feld des Laufblatts (coldfall schema run-sheet)",
  },

  probes: {
    summary: "Fühler zeigen, benennen, zuordnen und vergessen",
    examples: [
      "coldfall probes",
      'coldfall probes put 28-0a41 --label "rotes Band" --kind one-wire',
      "coldfall probes place 28-0a41 --fridge Lärche --position evaporator",
      "coldfall probes curve b00020418-a0 --thermistor 10000,3950",
      "coldfall probes calibrate 28-0a41 --ice-point 0.31 --ice-point 0.25",
      "coldfall probes slush 2026-06-04-k7qx3m",
    ],
    list: "die Fühler zeigen, wo sie sitzen und wann sie kalibriert werden müssen",
    expectedId: "die eigene Kennung des Fühlers, etwa 28-0a41",
    put: "einen Fühler anlegen, oder ändern, was von ihm bekannt ist",
    place: "sagen, wo ein Fühler ab jetzt sitzt",
    remove: "einen Fühler vergessen, von dem kein gespeicherter Messwert stammt",
    label: "was auf seinem Kabel steht",
    kind: "wie er misst: one-wire, ntc, pt100 oder thermocouple",
    notes: "was sonst festzuhalten ist",
    position: "wo er sitzt",
    board: "die Fühlerplatine, an der er steckt",
    headings: ["Fühler", "Aufschrift", "Art", "sitzt", "kalibriert", "fällig"],
    none: "Noch kein Fühler. Eine Fühlerplatine nennt ihre Fühler selbst, wenn sie aufgezeichnet wird.",
    kept: (id: string) => `Der Fühler ${id} ist im Speicher.`,
    placed: (id: string, position: string, fridge: string) =>
      `Der Fühler ${id} sitzt ab jetzt an ${fridge}: ${position}.`,
    removed: (id: string) => `Der Fühler ${id} ist vergessen.`,
    never: "nie",
  },

  baselines: {
    summary: "zeigen, wählen und entfernen, womit Kühlschränke verglichen werden",
    examples: [
      "coldfall baselines",
      "coldfall baselines add Lärche 2026-06-04-k7qx3m 2026-06-05-b2ve9p",
      "coldfall baselines add Lärche --file laerche.baseline.json",
    ],
    list: "die Bezüge zeigen; ohne Bezug wird ein Kühlschrank mit allen seinen Bezugsläufen verglichen",
    add: "die Bezugsläufe eines Kühlschranks wählen, oder eine Bezugsdatei",
    remove: "einen Bezug entfernen; der davor gilt wieder",
    runs: "Bezugsläufe, nach Kennung",
    file: "eine Datei von coldfall baseline",
    notes: "was sonst festzuhalten ist",
    headings: ["Bezug", "Kühlschrank", "angelegt", "aus", "in Gebrauch"],
    none: "Kein Bezug ist gewählt: Jeder Kühlschrank wird mit allen seinen Bezugsläufen verglichen.",
    added: (fridge: string) => `${fridge} wird ab jetzt damit verglichen.`,
    removed: (id: string) => `Der Bezug ${id} ist entfernt.`,
    ofRuns: (runs: number) => `${runs} ${runs === 1 ? "Lauf" : "Läufen"}`,
    ofFile: "einer Datei",
    yes: "ja",
    expectedRuns: "Läufe des Kühlschranks oder --file, eines von beiden",
  },

  results: {
    summary: "gespeicherte Ergebnisse zeigen und entfernen",
    examples: ["coldfall results --fridge Lärche", "coldfall results show 4d1zk7qx3m"],
    list: "die Ergebnisse zeigen, die neuesten zuerst",
    show: "ein Ergebnis als JSON ausgeben",
    remove: "ein Ergebnis entfernen; die Messwerte bleiben, es lässt sich also neu erzeugen",
    headings: ["Ergebnis", "Kühlschrank", "Läufe", "Art", "erzeugt"],
    none: "Noch kein Ergebnis.",
    removed: (id: string) => `Das Ergebnis ${id} ist entfernt.`,
  },

  export: {
    summary: "einen Lauf als CSV-Protokoll schreiben, Messwert für Messwert",
    examples: ["coldfall export 2026-06-04-k7qx3m --out night.csv"],
    out: "die Datei, die geschrieben wird",
    raw: "Werte, wie die Fühler sie gaben, vor jeder Kalibrierung",
    wrote: (file: string, readings: number) => `${file} enthält ${readings} ${readings === 1 ? "Zeile" : "Zeilen"}.`,
  },

  store: {
    summary: "den Speicher prüfen, kopieren und aufräumen",
    examples: [
      "coldfall store check",
      "coldfall store backup /media/stick/workshop.coldfall",
      "coldfall store retire --before 2025-01-01",
      "coldfall store compact",
    ],
    check: "alles lesen und die Prüfsummen vergleichen",
    backup:
      "eine stimmige Kopie schreiben, auch während aufgezeichnet wird; die Kopie ist ein Speicher wie jeder andere",
    compact:
      "endgültig löschen, was entfernt wurde, und den Platz freigeben; danach lässt sich nichts mehr rückgängig machen",
    retire: "Läufe entfernen, die vor einem Tag endeten; restore macht es rückgängig, bis der Speicher verdichtet wird",
    before: "der erste Tag, der bleibt, YYYY-MM-DD",
    knownGoodToo: "auch Bezugsläufe; sie bleiben, wenn das nicht angegeben ist",
    file: "die Kopie, die geschrieben wird",
    whole: (runs: number, readings: number) =>
      `Alles in Ordnung: ${runs} ${runs === 1 ? "Lauf" : "Läufe"}, ${readings} ${readings === 1 ? "Messwert" : "Messwerte"}, jede Prüfsumme stimmt.`,
    damaged: (places: number) => `${places} ${places === 1 ? "Stelle ist" : "Stellen sind"} beschädigt:`,
    damagedBlock: (run: string, position: string, from: string, to: string, readings: number) =>
      `Lauf ${run}, ${position}, ${from} bis ${to}: ${readings === 1 ? "einem Messwert" : `${readings} Messwerten`} ist nicht zu trauen`,
    advice: "Was heil ist, lässt sich weiter lesen und ausgeben. Spielen Sie eine Sicherung ein, wenn Sie eine haben.",
    backedUp: (file: string) => `${file} enthält eine Kopie von allem.`,
    compacted: (runs: number, fridges: number) =>
      `Endgültig gelöscht: ${runs} ${runs === 1 ? "entfernter Lauf" : "entfernte Läufe"} und ${fridges} ${fridges === 1 ? "entfernter Kühlschrank" : "entfernte Kühlschränke"}.`,
    retired: (runs: number) => `${runs} ${runs === 1 ? "Lauf ist" : "Läufe sind"} entfernt.`,
    expectedDay: "einen Tag wie 2026-06-04",
  },
};
