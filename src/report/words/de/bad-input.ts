// German: why an input was refused. One sentence each: what was wrong, where, and what to do.

import type { BadInputSayings, Phrases, ShapeProblem, ShapeProblems } from "../../../schema/index.ts";
import { orderAnswers, unitAnswers, unitSigns } from "../import-answers.ts";
import { importWords } from "./import.ts";
import { storeRefusals } from "./store.ts";

/** A file says by its format what it is. */
const otherFile = ", und prüfen Sie, ob es die gemeinte Datei ist";

const decimalCommas = "; wo Dezimalstellen ein Komma haben, trennen Semikolons die Zellen";

/** The first few names. */
const namedSome = (names: readonly string[]) =>
  names
    .slice(0, 4)
    .map((name) => `„${name}“`)
    .join(", ") + (names.length > 4 ? " …" : "");

const sourceNames = "gas, mains, dc12 oder off";

export const badInput: Phrases<BadInputSayings, unknown> = {
  ...storeRefusals,
  "no-such-file": ({ file }) => `Es gibt keine Datei „${file}“; ${oddName(file) ?? "prüfen Sie Namen und Ordner"}.`,
  "unreadable-file": ({ file, errorCode }) => `„${file}“ ließ sich nicht lesen: ${systemReason(errorCode)}.`,
  "is-spreadsheet": ({ file }) =>
    `„${file}“ ist die eigene Datei einer Tabellenkalkulation und nicht zu lesen; öffnen Sie sie dort, speichern Sie sie als CSV, und geben Sie diese Datei an.`,
  "is-no-log": ({ file, is }) => `„${file}“ ist kein Protokoll, sondern ${noLogs[is]}.`,
  "date-order-unfit": ({ file, line, text, told, fits }) =>
    `„${file}“, Zeile ${line}: --date-order ${orderAnswers[told]} passt nicht zu den Daten dieses Protokolls, etwa „${text}“; ${fits.length === 0 ? "lassen Sie es weg" : `lassen Sie es weg, oder geben Sie ${fits.map((order) => orderAnswers[order]).join(" oder ")} an`}.`,
  "empty-log": ({ file }) =>
    `„${file}“ enthält keine Messwerte: Nötig sind eine Kopfzeile und mindestens eine Zeile darunter; prüfen Sie also, ob der Logger fertig geschrieben hat.`,
  "no-time-column": ({ file, header }) =>
    `„${file}“, Zeile 1: In „${header}“ gibt es keine Spalte „time“; fügen Sie eine hinzu, oder sagen Sie von der Datei eines anderen Loggers mit --column "SPALTE=cabinet" und so weiter, was jede ist, oder in einer Zuordnung (--map).`,
  "no-known-column": ({ file, header }) =>
    `„${file}“, Zeile 1: Keine der Spalten in „${header}“ ist bekannt; nennen Sie sie time, evaporator, cabinet, ambient und source, durch Kommas getrennt, oder sagen Sie von der Datei eines anderen Loggers mit --column "SPALTE=cabinet" und so weiter, was jede ist, oder in einer Zuordnung (--map).`,
  "doubled-column": ({ file, column }) =>
    `„${file}“: Die Spalte „${column}“ gibt es zweimal, also ist nicht klar, welche gilt; benennen Sie eine um oder entfernen Sie sie.`,
  "unknown-source": ({ file, line, value, in: where }) => {
    const told = `geben Sie an, was davon gemeint ist, etwa mit --source-word "${value}=off"`;
    const remedies = {
      "own-format": `schreiben Sie ${sourceNames}, oder ${told}`,
      mapped: `es kann ${sourceNames} bedeuten: ${told} oder in „sourceNames“ der Zuordnung (--map)`,
      forecast: `schreiben Sie ${sourceNames}`,
    };
    return `„${file}“, Zeile ${line}: „${value}“ ist keine Energiequelle; ${remedies[where]}.`;
  },
  "ambiguous-dates": ({ file, line, value }) =>
    `„${file}“, Zeile ${line}: In „${value}“ sind Tag und Monat nicht zu unterscheiden; geben Sie „dateOrder“ in einer Zuordnung an (--map), oder schreiben Sie Zeiten wie 2026-06-04T07:00:00Z.`,
  "time-without-offset": ({ file, line, value }) =>
    `„${file}“, Zeile ${line}: Die Zeit „${value}“ nennt ihren Abstand zu UTC nicht; geben Sie „timeZone“ in einer Zuordnung an (--map), oder schreiben Sie Zeiten wie 2026-06-04T07:00:00+02:00.`,
  "not-senml": ({ file, record, problem, text }) => importWords.senml(file, record, problem, text),
  "board-file": ({ file, problem, boards }) => importWords.boardFile(file, problem, boards),
  "two-readings": ({ file, question, others }) => importWords.refuse(file, question, others),
  "wrong-row-length": ({ file, line, cells, expected, rows }) =>
    `„${file}“, Zeile ${line}: ${cells} ${cells === 1 ? "Zelle" : "Zellen"}, wo die Kopfzeile ${expected} hat, und so in ${rows} ${rows === 1 ? "Zeile" : "Zeilen"}; prüfen Sie Trennzeichen und Kopfzeile${cells > expected ? decimalCommas : ""}.`,
  "nothing-readable": ({ file, line, column, value }) =>
    value === ""
      ? `„${file}“ enthält gar keinen Messwert: Bis Zeile ${line} ist jede Zelle leer; prüfen Sie, ob die Fühler angeschlossen waren.`
      : `„${file}“, Zeile ${line}: In der Datei war nichts zu lesen, angefangen mit „${value}“ in Spalte „${column}“; ${remedy(column)}`,
  "not-json": ({ file, line, column }) =>
    line === null
      ? `„${file}“: Das ist kein JSON, was hier gelesen wird; prüfen Sie, ob es die gemeinte Datei ist, und ob sie vollständig ist.`
      : `„${file}“, Zeile ${line}, Spalte ${column}: Das ist kein JSON; suchen Sie dort nach einem fehlenden Komma, Anführungszeichen oder einer Klammer.`,
  "wrong-shape": ({ file, where, problem }) =>
    `„${file}“${where === "" ? "" : `, Feld „${where}“`}: ${shapeSentence(problem)}${where === "format" ? otherFile : ""}.`,
  "newer-format": ({ file, format, known }) =>
    `„${file}“ hat das Format „${format}“, und diese Version von Coldfall kennt höchstens „${known}“; aktualisieren Sie Coldfall, um sie zu lesen.`,
  "looks-like-ohms": ({ file, column, text }) =>
    `„${file}“: Die Spalte „${column}“ (etwa ${text}) sieht nach Ohm aus und wird nie als °C gelesen. Aus Ohm werden °C durch die Kennlinie ihres Fühlers: Lesen Sie die eigene Datei des Boards ein und geben Sie die Kennlinie des Fühlers an, oder lassen Sie den Logger °C schreiben; ist es kein Fühler des Kühlschranks, nehmen Sie die Spalte heraus.`,
  "probe-per-row": ({ file, column, probes }) =>
    `„${file}“ hält je Zeile den Messwert eines einzigen Fühlers, und die Spalte „${column}“ nennt den Fühler (${namedSome(probes)}); so gelesen wären alle Fühler einer. Lassen Sie den Logger für jeden Fühler eine Spalte schreiben, oder ordnen Sie die Tabelle in einer Tabellenkalkulation um: eine Zeile je Zeitpunkt, eine Spalte je Fühler.`,
  "mapping-column-missing": ({ file, column, header }) =>
    `„${file}“: Die Zuordnung nennt eine Spalte „${column}“, aber die Kopfzeile ist „${header}“; berichtigen Sie die Spaltennamen der Zuordnung oder ihr Trennzeichen.`,
  "no-such-column": ({ column, columns, file }) =>
    `${file === undefined ? "Das Protokoll" : `„${file}“`} hat keine Spalte „${column}“; seine Spalten sind ${columns.map((name) => `„${name}“`).join(", ")}.`,
  "cannot-write": ({ file, errorCode }) => `„${file}“ ließ sich nicht schreiben: ${systemReason(errorCode)}.`,
  "no-plan": ({ why }) => why,
  "no-fridge-named": ({ known }) =>
    known.length === 0
      ? "Noch ist kein Kühlschrank angelegt; legen Sie einen mit „coldfall fridges add NAME“ an und nennen Sie ihn mit --fridge."
      : `Sagen Sie mit --fridge, von welchem Kühlschrank das Protokoll ist: ${known
          .slice(0, 8)
          .map((name) => `„${name}“`)
          .join(", ")}${known.length > 8 ? " …" : ""}; „coldfall fridges“ zeigt sie.`,
  "bad-option": ({ option, value, expected }) =>
    `${option}: „${value}“ ist nicht zu gebrauchen; geben Sie an: ${expected}.`,
  "option-alone": ({ option, needed }) =>
    `${option} bewirkt ohne ${needed.join(" oder ")} nichts; geben Sie ${needed.length === 1 ? "auch das" : "auch eines davon"} an, oder lassen Sie ${option} weg.`,
  "option-unfit": ({ option, needs }) => `${option} ${optionNeeds[needs]}; lassen Sie die Option weg.`,
  "unit-stated": ({ file, told, stated }) =>
    `„${file}“ sagt selbst, dass die Temperaturen darin in ${stated.map((unit) => unitSigns[unit]).join(" und ")} sind, und --unit ${unitAnswers[told]} ändert nichts; lassen Sie die Option weg, oder nennen Sie die Einheit in einer Zuordnung (--map), wenn die Datei irrt.`,
  "nothing-said": ({ options }) =>
    `Was zu tun ist, ist nicht gesagt; geben Sie ${options.slice(0, -1).join(", ")} oder ${options.at(-1)} an.`,
  "no-samples": ({ folder }) =>
    `„${folder}“ enthält keine Musterprotokolle; legen Sie die Protokolle jedes Kühlschranks dort in einen eigenen Ordner, Bezugsläufe als known-good-*.csv.`,
  "nothing-cools": ({ files }) =>
    `${files.map((file) => `„${file}“`).join(", ")}: Es wurde kein Abschnitt gefunden, in dem der Kühlschrank kühlt, also gibt es keinen Bezug aufzuheben; werten Sie das Protokoll aus, um zu sehen, was es enthält.`,
  "same-log-twice": ({ file, other }) =>
    `${file === other ? `„${file}“ ist zweimal angegeben, mit dem Namen oder als Lauf aus dem Speicher` : `„${file}“ und „${other}“ sind dasselbe Protokoll`}: Mit sich selbst verglichen oder doppelt gezählt beweist ein Lauf nichts, also lassen Sie eines weg.`,
  "kept-otherwise": ({ file, run, fridge, differs, files }) => {
    const kept = {
      place: "und nicht dort, wo Sie sie jetzt haben wollen",
      readings: "und wurde anders gelesen, als Sie es jetzt angeben; es wurde nichts geändert",
      source: "ohne die Energiequellen, die Sie jetzt angeben; es wurde nichts geändert",
    }[differs];
    const others = files > 1 ? ` (er enthält ${files} Dateien, die Sie dann alle neu einlesen)` : "";
    return `„${file}“ liegt schon im Speicher, im Lauf ${run} von ${fridge}, ${kept}. Damit gilt, was Sie angeben, entfernen Sie diesen Lauf mit „coldfall runs remove ${run}“${others} und lesen Sie die Datei neu ein.`;
  },
  "different-fridges": ({ run, other }) =>
    `Der Lauf „${run}“ gehört zu einem anderen Kühlschrank als der Lauf „${other}“; geben Sie Läufe eines Kühlschranks an.`,
  "fridges-differ": ({ log, fridge, other, otherFridge, isKnownGood }) =>
    `„${log}“ ist vom Kühlschrank „${fridge}“ und „${other}“ vom Kühlschrank „${otherFridge}“; ${isKnownGood ? "sagen Sie --of-kind, wenn beide von derselben Bauart sind, sonst geben" : "geben"} Sie Protokolle eines Kühlschranks an, oder berichtigen Sie das Laufblatt.`,
  "baseline-of-other-fridge": ({ log, fridge, otherFridge }) =>
    `„${log}“ in der Bezugsdatei ist vom Kühlschrank „${otherFridge}“ und nicht von „${fridge}“; nehmen Sie eine Datei mit Läufen von ${fridge} selbst, oder erzeugen Sie sie, wenn beide von derselben Bauart sind, neu mit „coldfall baseline --of-kind“, oder berichtigen Sie das Laufblatt.`,
  "no-such-log": ({ name, store, isStoreMissing = false }) => {
    const dashed = longDash.exec(name);
    if (dashed !== null)
      return `„${name}“ beginnt mit einem langen Strich; Optionen beginnen mit zwei Bindestrichen: --${dashed[1]}.`;
    return isStoreMissing
      ? `„${name}“ ist keine Datei hier und auch kein Lauf: Es gibt keinen Speicher ${store}; nennen Sie den der Werkstatt mit --store.`
      : `„${name}“ ist weder eine Datei hier noch ein Lauf im Speicher ${store}; ${oddName(name) ?? "„coldfall runs“ zeigt die Läufe"}.`;
  },
  "no-such-part": ({ command, part, parts }) =>
    `„coldfall ${command}“ hat keinen Teil „${part}“; es hat ${parts.join(", ")}; „coldfall help ${command}“ zeigt, was sie tun.`,
  "nothing-to-record": () =>
    "Sagen Sie, was aufzuzeichnen ist: --port mit dem Anschluss einer Fühlerplatine oder --replay mit einem Protokoll, eines von beiden.",
  "nothing-recorded": ({ fridge }) =>
    `An ${fridge} wird gerade nichts aufgezeichnet; beginnen Sie erst die Aufzeichnung, oder geben Sie --run mit einem Lauf davon an.`,
  "outside-run": ({ run, at, from, to }) =>
    `${at} liegt außerhalb des Laufs „${run}“, der von ${from} bis ${to} geht; prüfen Sie Tag und Jahr, oder nennen Sie einen anderen Lauf.`,
  "unbelievable-reading": ({ position, value, low, high }) =>
    `„${position}=${value}“ kann nicht stimmen: Ein Fühler dort misst ${low} bis ${high} ${position === "supply" ? "V" : "°C"}; prüfen Sie die Zahl.`,
  "reading-kept": ({ position, kept, given, run, at }) =>
    `„${position}=${given}“: Für ${at} hat der Lauf „${run}“ dort schon ${Number(kept.toFixed(4))} ${position === "supply" ? "V" : "°C"}, und das bleibt; nichts wurde notiert. Geben Sie --at mit dem Zeitpunkt an, zu dem abgelesen wurde, oder schreiben Sie den Unterschied in eine Notiz des Laufs.`,
  "no-probe-placed": ({ board, fridge, probes }) =>
    `Die Fühlerplatine ${board} hat ${probes.length === 0 ? "keinen Fühler angesteckt" : `die Fühler ${probes.join(", ")}, und keiner hat schon einen Platz an ${fridge}`}; geben Sie mit „coldfall probes place PROBE --fridge ${fridge} --position evaporator“ und so weiter an, wo jeder sitzt, und zeichnen Sie dann noch einmal auf.`,
  "no-probe-curve": ({ board, probes }) =>
    `Fühlerplatine ${board}: ${probes.length === 1 ? `Der Fühler ${probes[0]} sendet` : `Die Fühler ${probes.join(", ")} senden`} Ohm oder Millivolt, niemand hat gesagt, was diese bedeuten, und kein anderer Fühler mit einem Platz gibt eine Temperatur; geben Sie es mit „coldfall probes curve ${probes[0]} --thermistor 10000,3950“ an, oder wie das Datenblatt des Fühlers es sagt, und versuchen Sie es dann noch einmal.`,
  "already-recorded": ({ name, holder }) =>
    `${name} wird schon aufgezeichnet, von ${holder}; beenden Sie das zuerst, oder sehen Sie mit „coldfall runs“ zu.`,
  "ambient-or-forecast": () =>
    "Sagen Sie, wofür: entweder --ambient mit einer Temperatur in °C oder --forecast mit einer Datei, nicht beides.",
  "forecast-separator": ({ file }) =>
    `„${file}“: Die Zellen einer Vorhersage sind durch Kommas getrennt, und Dezimalstellen stehen hinter einem Punkt; setzen Sie Kommas zwischen time,ambient,source und zwischen die Zellen darunter, und schreiben Sie 20.5 statt 20,5.`,
  "forecast-column-missing": ({ file, column, header }) =>
    `„${file}“, Zeile 1: Eine Vorhersage braucht die Spalte „${column}“, und die Kopfzeile ist „${header}“; schreiben Sie time,ambient,source und nach Wunsch sun und driving.`,
  "forecast-column-unknown": ({ file, column }) =>
    `„${file}“, Zeile 1: „${column}“ ist keine Spalte einer Vorhersage; das sind time, ambient, source, sun und driving.`,
  "forecast-cell": ({ file, line, column, value }) =>
    `„${file}“, Zeile ${line}: „${value}“ ist als ${column} nicht zu gebrauchen; ${forecastRemedies[column]}.`,
  "forecast-order": ({ file, line, value, before }) =>
    `„${file}“, Zeile ${line}: ${value} kommt nicht nach ${before}; ordnen Sie die Zeilen nach der Zeit, jede Zeit einmal.`,
  "forecast-too-short": ({ file, rows }) =>
    `„${file}“ enthält ${rows === 0 ? "keine Zeile" : "nur eine Zeile"} unter der Kopfzeile; eine Vorhersage braucht mindestens zwei, und die letzte beendet die Reise.`,
  "forecast-too-long": ({ file, line, value, mostDays }) =>
    `„${file}“, Zeile ${line}: ${value} liegt mehr als ${mostDays} Tage nach der ersten Zeile; so weit sagt niemand vorher, also schneiden Sie die Datei dort ab.`,
};

/** A name with bytes that are no UTF-8, as old disks hold them, comes in with this in their place. */
const spoiltName =
  "der Name enthält Zeichen, die sich nicht lesen lassen; benennen Sie die Datei mit einfachen Buchstaben um";

/** What to do about a name that shows by itself what went wrong. */
function oddName(name: string): string | undefined {
  if (name.includes("\ufffd")) return spoiltName;
  if (/[*?]/.test(name)) return "diese Shell lässt * und ? stehen, nennen Sie also jede Datei einzeln";
  if (/^(['"]).*\1$/.test(name))
    return "die Anführungszeichen darum gehören hier zum Namen; lassen Sie sie weg, oder nehmen Sie doppelte";
  return undefined;
}

/** Word processors and web pages make one dash of two hyphens. */
const longDash = /^[\u2012-\u2015\u2212](.*)$/;

const noLogs = {
  store: "ein Speicher: Geben Sie ihn mit --store an, und nennen Sie seine Läufe",
  page: "eine Seite, etwa ein Bericht; geben Sie das Protokoll an, aus dem sie entstand",
  baseline: "eine Bezugsdatei; geben Sie sie mit --baseline an",
  mapping: "eine Zuordnung, die sagt, wie Protokolle zu lesen sind; geben Sie sie mit --map neben dem Protokoll an",
  "run-sheet": "ein Laufblatt; geben Sie es mit --sheet neben dem Protokoll an",
  "fridge-export": "ein Kühlschrank, den ein Speicher herausgab; nehmen Sie ihn mit „coldfall fridges take-in“ auf",
  result: "ein Ergebnis in JSON; geben Sie das Protokoll an, aus dem es entstand",
  json: "eine andere JSON-Datei; ist es ein Laufblatt, geben Sie es mit --sheet neben dem Protokoll an",
  "no-text":
    "die eigene Datei eines Programms und kein Text; lassen Sie den Logger CSV ausgeben, und geben Sie diese Datei an",
} as const;

const optionNeeds = {
  file: "sagt, wie eine Datei zu lesen ist, und die angegebenen Protokolle sind Läufe aus dem Speicher, die behalten, was ihnen gesagt wurde (ändern lässt es sich mit „coldfall sheet“ oder „coldfall source“)",
  "board-file":
    "ist für die eigene Datei einer Fühlerplatine, deren Zeilen keine Uhrzeit tragen, und keines der angegebenen Protokolle ist eine solche",
  "counted-times":
    "ist für ein Protokoll, dessen Zeiten ab seinem Beginn gezählt sind, und keines der angegebenen ist ein solches",
  "relative-senml":
    "ist für eine SenML-Datei mit relativen Zeiten, und keines der angegebenen Protokolle ist eine SenML-Datei",
  "mapped-log":
    "schreibt auf, wie die CSV-Datei eines anderen Loggers verstanden wurde, und dieses Protokoll ist keine: Wie es zu lesen ist, muss niemand sagen",
  "zoneless-times":
    "ist für Zeiten, die ihre Zeitzone nicht nennen, und solche stehen in keinem der angegebenen Protokolle",
  "day-and-month":
    "ist für Daten, die Tag und Monat in der einen oder anderen Reihenfolge schreiben, und solche stehen in keinem der angegebenen Protokolle",
  "untold-sources":
    "ist für Protokolle, die ihre Energiequelle nicht nennen, und jedes angegebene nennt sie (ein falsches berichtigt man im Speicher: coldfall import, dann coldfall source)",
  "other-logger":
    "sagt, wie die CSV-Datei eines anderen Loggers zu lesen ist, und keines der angegebenen Protokolle ist eine solche",
} as const;

const forecastRemedies = {
  time: "schreiben Sie Zeiten wie 2026-07-10T14:00:00+02:00",
  ambient: "schreiben Sie eine Temperatur von -30 bis 60 in °C, mit einem Punkt vor den Dezimalstellen",
  sun: "schreiben Sie sun oder shade, yes oder no, oder lassen Sie die Zelle leer",
  driving: "schreiben Sie yes oder no, oder lassen Sie die Zelle leer",
};

const remedy = (column: string) =>
  column === "time"
    ? "schreiben Sie Zeiten wie 2026-06-04T07:00:00Z."
    : "Zahlen haben einen Punkt vor den Dezimalstellen, und sonst steht nichts in der Zelle.";

/** The system's error codes that people meet; others are shown as they are. */
const systemReasons: ReadonlyMap<string, string> = new Map([
  ["EEXIST", "so eine Datei gibt es schon; wählen Sie einen anderen Namen"],
  ["EACCES", "Ihnen fehlt die Berechtigung; prüfen Sie, wem Datei und Ordner gehören"],
  ["EPERM", "Ihnen fehlt die Berechtigung; prüfen Sie, wem Datei und Ordner gehören"],
  ["EISDIR", "das ist ein Ordner; nennen Sie eine Datei darin"],
  ["ENOTDIR", "ein Teil des Pfades ist eine Datei, kein Ordner; prüfen Sie den Pfad"],
  ["ENOENT", "den Ordner gibt es nicht; legen Sie ihn erst an"],
  ["ENOSPC", "der Datenträger ist voll; schaffen Sie Platz"],
  ["EROFS", "der Datenträger ist schreibgeschützt; wählen Sie einen anderen Ordner"],
  ["ERR_FS_FILE_TOO_LARGE", "sie ist größer als 2 GiB; teilen Sie sie auf"],
]);

const systemReason = (errorCode: string) =>
  systemReasons.get(errorCode) ??
  `das System meldet ${errorCode || "nichts weiter"}; prüfen Sie den Datenträger und versuchen Sie es noch einmal`;

const typeNames: ReadonlyMap<string, string> = new Map([
  ["string", "einen Text in Anführungszeichen"],
  ["number", "eine Zahl ohne Anführungszeichen"],
  ["int", "eine ganze Zahl"],
  ["boolean", "true oder false"],
  ["array", "eine Liste in eckigen Klammern"],
  ["object", "ein Objekt in geschweiften Klammern"],
  ["record", "ein Objekt in geschweiften Klammern"],
]);

const shapes: Phrases<ShapeProblems, unknown> = {
  missing: () => "es fehlt; fügen Sie es hinzu",
  "unknown-field": ({ field }) =>
    `„${field}“ ist kein Feld dieser Datei; berichtigen Sie die Schreibweise oder entfernen Sie es`,
  "wrong-type": ({ expected }) => `schreiben Sie hier ${typeNames.get(expected) ?? expected}`,
  "not-one-of": ({ options }) =>
    options.length === 1
      ? `hier muss „${options[0]}“ stehen`
      : `schreiben Sie eines von ${options.map((o) => `„${o}“`).join(", ")}`,
  "too-small": ({ least, exclusive }) => `es muss ${exclusive ? "mehr als" : "mindestens"} ${least} sein`,
  "too-big": ({ most, exclusive }) => `es muss ${exclusive ? "weniger als" : "höchstens"} ${most} sein`,
  "too-few": ({ least }) => `es muss mindestens ${least} enthalten`,
  "not-an-instant": () => "schreiben Sie eine Zeit wie 2026-06-04T07:00:00Z",
  "unequal-lengths": ({ expected, found }) =>
    `es enthält ${found} Werte, wo es ${expected} Zeitpunkte gibt; die Datei ist beschädigt, erzeugen Sie sie also neu`,
  "breaks-rule": ({ rule }) => `es passt nicht zur Regel ${rule}`,
};

function shapeSentence(problem: ShapeProblem): string {
  // One code picks the phrase that takes exactly this problem's values; TypeScript cannot follow that.
  const phrase = shapes[problem.code] as (values: ShapeProblem, hand: unknown) => string;
  return phrase(problem, undefined);
}
