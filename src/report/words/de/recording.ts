// German: the commands that record.

import { list } from "./names.ts";

interface OfNewRun {
  readonly name?: string | null | undefined;
  readonly purpose?: string | null | undefined;
  readonly hasSheet?: boolean;
}

export const recording = {
  record: {
    summary:
      "einen Kühlschrank mit einer Fühlerplatine aufzeichnen, oder ein Protokoll abspielen, als würde es jetzt aufgezeichnet",
    examples: [
      "coldfall record --fridge Larch --port /dev/ttyUSB0",
      "coldfall record --fridge Larch --replay night.csv --speed 600",
      "coldfall record --fridge Larch --replay night.csv --speed 600 --too-warm 8=2 --quiet 22-6",
    ],
    fridge: "der Kühlschrank, nach seinem Namen; wird angelegt, wenn ihn der Speicher nicht kennt",
    replay:
      "ein Protokoll, das abgespielt wird, als würde es jetzt aufgezeichnet; jeder Messwert behält den Zeitpunkt des Protokolls",
    speed: "wievielmal schneller als das Protokoll",
    purpose: "wozu aufgezeichnet wird; Bezugsläufe (known-good) bilden den Bezug des Kühlschranks",
    sheet: "Laufblatt des Laufs",
    expectedSpeed: "eine Zahl ab 1",
    port: "der serielle Anschluss, an dem eine Fühlerplatine steckt, etwa /dev/ttyUSB0 oder COM3",
    listening: (port: string) => `An ${port} wird auf die Begrüßung einer Fühlerplatine gewartet. Beenden mit Strg+C.`,
    noPort: (port: string) =>
      `Es gibt noch keinen Anschluss ${port}; es wird auf ihn gewartet, stecken Sie also die Fühlerplatine an. „coldfall boards“ zeigt die Anschlüsse, die es gibt.`,
    cannotOpen: (port: string, why: string) =>
      `${port} ist nicht zu öffnen (${why}); es wird jede Sekunde wieder versucht. „coldfall boards“ zeigt die Anschlüsse, die es gibt.`,
    taken: (port: string) =>
      `Auf ${port} hört schon ein anderes Programm, etwa eine andere Aufzeichnung: Beenden Sie sie, oder lassen Sie sie weiterlaufen. Es wird jede Sekunde wieder versucht.`,
    unplugged: (since: string) =>
      `${since}: Die Fühlerplatine wurde abgezogen, oder ihr Anschluss ist weg. Was gekommen ist, bleibt. Stecken Sie sie wieder an, dann geht die Aufzeichnung von selbst weiter.`,
    backAgain: (at: string) => `${at}: Die Fühlerplatine ist wieder da.`,
    lines: ({ good, damaged, missed }: { good: number; damaged: number; missed: number }) =>
      `Zeilen: ${good} gut, ${damaged} beschädigt, ${missed} fehlen.`,
    tooWarm: "Alarm, wenn der Kühlraum länger als HOURS über C °C liegt; ohne Angabe 8=1",
    expectedTooWarm: "C=HOURS, etwa 8=2",
    quiet:
      "Tageszeit, nach der Uhr am Ort, in der Alarme zurückgehalten werden, etwa 22-6; die eines Abschnitts auf Gas werden es nicht, auch nicht, wo niemand gesagt hat, womit er läuft",
    expectedQuiet: "zwei Stunden des Tages, etwa 22-6",
    webhook:
      "wohin Alarme als JSON per HTTP POST gehen, unterschrieben mit dem Geheimnis in COLDFALL_WEBHOOK_SECRET (Kopf coldfall-signature)",
    expectedWebhook: "eine Adresse, die mit http:// oder https:// beginnt",
    structured: "Meldungen als JSON, ein Objekt pro Zeile: für ein Protokoll, das Programme lesen",
    noSecret:
      "COLDFALL_WEBHOOK_SECRET ist nicht gesetzt: Wer die Alarme empfängt, kann sie nicht von gefälschten unterscheiden.",
    newFridge: (name: string, others: readonly string[]) =>
      `${name} ist neu im Speicher${others.length === 0 ? "" : `, der bisher ${list(others)} kennt`}.`,
    begins: (run: string, fridge: string) =>
      `${fridge} wird als Lauf ${run} aufgezeichnet. Beenden mit Strg+C; derselbe Befehl macht weiter.`,
    goesOn: (run: string, fridge: string, since: string) =>
      `Weiter mit Lauf ${run} von ${fridge}, der Messwerte bis ${since} hat.`,
    keepsOwn: (run: string, { name = null, purpose = null, hasSheet = false }: OfNewRun) =>
      [
        ...(name === null ? [] : [`Der Lauf behält seinen Namen; „coldfall runs edit ${run} --name NAME“ ändert ihn.`]),
        ...(purpose === null
          ? []
          : [`Der Lauf behält seinen Zweck; „coldfall runs edit ${run} --purpose ${purpose}“ ändert ihn.`]),
        ...(hasSheet ? [`Der Lauf behält sein Laufblatt; „coldfall sheet ${run} --file DATEI“ ändert es.`] : []),
      ].join(" "),
    ended: (readings: number, run: string) =>
      `${readings === 1 ? "Ein neuer Messwert ist" : `${readings} neue Messwerte sind`} gespeichert. „coldfall report ${run}“ erzählt die Nacht auf einer Seite.`,
    stopped: (readings: number) =>
      `Beendet. ${readings === 1 ? "Ein neuer Messwert ist" : `${readings} neue Messwerte sind`} gespeichert; derselbe Befehl macht weiter.`,
    unsent: (address: string, why: string) =>
      `Ein Alarm ließ sich nicht an ${address} schicken (${why}). Er bleibt aufgehoben und wird wieder versucht, in immer größeren Abständen bis zu einer Stunde; prüfen Sie die Adresse.`,
    sentAfterAll: "Was sich vorher nicht schicken ließ, ist jetzt verschickt.",
    placedOtherwise: (probe: string, boardSays: string, kept: string) =>
      `Nach der Fühlerplatine sitzt der Fühler ${probe} an der Stelle „${boardSays}“; nach dem Speicher sitzt er an „${kept}“, und das gilt. Wurden die Fühler vertauscht, so geben Sie es an: coldfall probes place ${probe} --fridge NAME --position POSITION.`,
    over: (run: string) =>
      `Der Lauf ${run} wurde anderswo beendet oder entfernt, etwa am Arbeitsplatz im Browser; darum endet die Aufzeichnung hier. Derselbe Befehl beginnt einen neuen Lauf.`,
    repeated: (readings: number) => `${readings === 1 ? "Einer war" : `${readings} waren`} schon da.`,
    contradicted: (readings: number) =>
      `${readings === 1 ? "Einer sagte" : `${readings} sagten`} etwas anderes, als zum selben Zeitpunkt gespeichert ist, und ${readings === 1 ? "wurde" : "wurden"} nicht übernommen.`,
  },
  source: {
    summary: "sagen, womit ein Kühlschrank ab jetzt läuft: „jetzt auf Gas“",
    examples: [
      "coldfall source gas --fridge Larch",
      "coldfall source off --fridge Larch --at 2026-06-04T07:15:00+02:00",
    ],
    source: "womit er läuft",
    at: "seit wann, wenn nicht ab jetzt",
    expectedAt: "eine Zeit mit ihrer Zeitzone, etwa 2026-06-04T07:15:00Z",
    said: (fridge: string, onSource: string, since: string) => `${fridge}: ${onSource} seit ${since}.`,
    run: "ein Lauf des Kühlschranks; ohne Angabe der, der gerade aufgezeichnet wird",
  },
  noteReading: {
    summary: "einen von Hand abgelesenen Messwert notieren",
    examples: ["coldfall note-reading cabinet=6.5 ambient=24 --fridge Larch"],
    reading: "POSITION=VALUE in °C (supply in V); mehrere möglich",
    at: "wann abgelesen, wenn nicht jetzt",
    expected: (names: readonly string[]) =>
      `POSITION=VALUE, etwa cabinet=6.5, mit ${names.join(", ")}, Dezimalpunkt, jede Position einmal`,
    noted: (count: number, fridge: string, at: string) =>
      `${count} ${count === 1 ? "Messwert" : "Messwerte"} von ${fridge}, ${at}, notiert.`,
  },
  report: {
    summary: "eine Nacht auf einer Seite erzählen: was wann geschah, die Urteile, was als Nächstes zu prüfen ist",
    examples: ["coldfall report 2026-06-04-k7qx3m", "coldfall report 2026-06-04-k7qx3m --html night.html"],
    html: "die Seite auch in FILE schreiben",
  },
  alarms: {
    summary: "Alarme zeigen und zur Kenntnis nehmen",
    examples: ["coldfall alarms", "coldfall alarms acknowledge 4d1zk7qx3m --by Kim"],
    list: "die Alarme zeigen, die neuesten zuerst",
    acknowledge: "sagen, dass jemand einen Alarm gesehen hat",
    by: "wer ihn gesehen hat",
    ofRun: "nur Alarme dieses Laufs",
    headings: ["Alarm", "Lauf", "Stand", "was"],
    none: "Kein Alarm.",
    state: (isOver: boolean, isSeen: boolean) =>
      `${isOver ? "vorbei" : "dauert an"}, ${isSeen ? "gesehen" : "nicht gesehen"}`,
    acknowledgedBefore: (id: string, at: string, by: string | null) =>
      `Der Alarm ${id} wurde schon ${at}${by === null ? "" : ` von ${by}`} zur Kenntnis genommen; dabei bleibt es.`,
    acknowledged: (id: string) => `Der Alarm ${id} ist zur Kenntnis genommen.`,
  },
};
