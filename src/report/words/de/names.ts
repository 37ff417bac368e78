// German: what each thing is called on screens and paper, and the words between numbers.
//
// One word per thing, in all files of this folder:
//   run                Lauf              known-good run     Bezugslauf (known-good as a measure: der Bezug)
//   stretch            Abschnitt         run sheet          Laufblatt
//   log                Protokoll         reading            Messwert
//   probe              Fühler            probe board        Fühlerplatine
//   cabinet            Kühlraum          evaporator, fins   Verdampfer, Rippen
//   ambient            Umgebung          boiler             Kocher
//   cooling unit       Kühlaggregat      condenser          Verflüssiger
//   flue               Abgasrohr         baffle             Abgaswendel
//   jet, burner        Düse, Brenner     heating element    Heizpatrone
//   vents              Lüftungsgitter    dial               Regler
//   load               Beladung          frost              Reif
//   pull-down          Abkühlung (drawn: Abkühlkurve)       warming back       Rückerwärmung
//   cold began         Kältebeginn       dead time          Totzeit
//   rate constant      Abkühlkonstante   depth              Tiefe
//   initial fall       Anfangsgefälle    to settle          sich einpendeln
//   fin difference     Rippendifferenz (not Rippenabstand, which is how far one fin stands from the next)
//   cooling strength   Kühlleistung, in per cent of the Bezug
//   verdict, cause     Urteil, Ursache   check, caution     Prüfung, Vorsicht
//   mains, 12 V        230 V, 12 V       store              Speicher
//   hot day, trip      Hitzetag, Reise   forecast           Vorhersage

import type { BaselineKind, Cause, EventKind, StartState, Verdict } from "../../../schema/documents/index.ts";
import type { EnergySource, HeatSource, Position } from "../../../schema/index.ts";
import type { RejectionCode } from "../../../science/index.ts";
import type { HandWords } from "../../hand.ts";
import { joined } from "../phrasing.ts";

export const handWords: HandWords = {
  locale: "de-DE",
  units: { Cel: "°C", K: "K", "1/h": "pro Stunde", "K/h": "K pro Stunde", h: "h", V: "V", W: "W", "1": "%" },
  fahrenheitUnits: { Cel: "°F", K: "°F", "K/h": "°F pro Stunde" },
  minutes: "min",
  range: (low, high) => `${low} bis ${high}`,
  noLess: (low) => `${low} oder mehr`,
  noMore: (high) => `${high} oder weniger`,
  unbounded: "keine Grenze gefunden",
  interval: (range) => `95-%-Intervall ${range}`,
  readings: { one: "Messwert", other: "Messwerte" },
};

/** "auf Gas", "aus"; null is a source nobody named. */
const onSources: { readonly [S in EnergySource]: string } = {
  gas: "auf Gas",
  mains: "auf 230\u00a0V",
  dc12: "auf 12\u00a0V",
  off: "aus",
};
export const onSource = (source: EnergySource | null) =>
  source === null ? "mit ungenannter Energiequelle" : onSources[source];

/** "gegen Gas" and the like. */
const bareSources: { readonly [S in EnergySource]: string } = {
  gas: "Gas",
  mains: "230\u00a0V",
  dc12: "12\u00a0V",
  off: "aus",
};
export const bareSource = (source: EnergySource | null) => (source === null ? "ungenannt" : bareSources[source]);

/** What starts the boiler on a source; stands after "nach". */
export const startingOf = (source: HeatSource | null): string => (source === "gas" ? "dem Zünden" : "dem Einschalten");

export const verdictNames: { readonly [V in Verdict]: string } = {
  sound: "gut",
  weak: "schwach",
  "not-cooling": "keine Kühlung",
  undecided: "noch nicht zu sagen",
};

export const baselineNames: { readonly [K in BaselineKind]: string } = {
  own: "Bezugsläufe dieses Kühlschranks",
  kind: "Bezugsläufe seiner Bauart",
  "other-sources": "die anderen Energiequellen desselben Laufs",
  generic: "ein allgemeiner Ersatzwert",
  none: "kein Bezugslauf",
};

export const startStateNames: { readonly [S in StartState]: string } = {
  "cold-boiler": "mit kaltem Kocher gestartet",
  "warm-boiler": "mit noch warmem Kocher gestartet",
  "switched-while-cold": "im kalten Zustand umgeschaltet",
};

export const positionNames: { readonly [P in Position | "time" | "source"]: string } = {
  evaporator: "Verdampfer",
  cabinet: "Kühlraum",
  ambient: "Umgebung",
  room: "Wohnraum",
  freezer: "Gefrierfach",
  ventOut: "oberes Lüftungsgitter",
  flue: "Abgasrohr",
  boiler: "Kocher",
  supply: "Versorgungsspannung",
  time: "Zeit",
  source: "Energiequelle",
};

export const causeNames: { readonly [C in Cause]: string } = {
  burner: "schwacher Brenner (Düse oder Flamme)",
  flue: "verstopftes oder verrußtes Abgasrohr",
  "gas-supply": "schwache Gasversorgung (Druck, Regler, Flasche)",
  "mains-element": "defekte oder schwache 230-V-Heizpatrone",
  "dc12-element": "defekte oder schwache 12-V-Heizpatrone",
  "supply-voltage": "zu niedrige Versorgungsspannung",
  thermostat: "Thermostat oder Regler bremst",
  "boiler-insulation": "Wärmeverlust am Kocher (Isolierung)",
  ventilation: "schlechte Belüftung hinter dem Kühlschrank",
  "not-level": "Kühlschrank steht nicht waagerecht",
  "cooling-unit": "versagendes Kühlaggregat",
  "door-seal": "undichte Türdichtung",
  "warm-load": "warme Beladung (kein Fehler)",
  frost: "Reif auf den Rippen (kein Fehler einer Energiequelle)",
  lamp: "Lampe brennt bei geschlossener Tür",
  probe: "ein Fühler, der verrutscht ist oder falsch misst",
  other: "etwas anderes",
  none: "nichts Auffälliges",
};

export const eventNames: { readonly [K in EventKind]: string } = {
  "door-opening": "Tür geöffnet",
  "cooling-stopped": "Kühlung ausgefallen",
  cycling: "Thermostat taktet",
  gap: "Lücke im Protokoll",
  "probe-fault": "Fühlerfehler",
  "probe-moved": "Fühler verrutscht",
  "sun-on-probe": "Sonne auf dem Umgebungsfühler",
  "exhaust-on-probe": "warme Abluft am Umgebungsfühler",
  "clock-jump": "Zeitsprung der Uhr",
};

/** Completes "12 Messwerte, Kühlraum: ...". */
export const rejections: { readonly [R in RejectionCode]: string } = {
  "power-on-value": "Einschaltwert 85,0 eines Eindraht-Fühlers, keine Temperatur",
  "disconnected-value": "\u2212127, was ein Eindraht-Leser bei abgezogenem Fühler meldet",
  "out-of-range": "außerhalb dessen, was dieser Fühler an einem Kühlschrank messen kann",
  "too-fast": "schneller geändert, als es ein Fühler in Luft oder auf Metall kann",
  spike: "einzelner Ausreißer zwischen ruhigen Nachbarwerten",
  stuck: "blieb auf einem Wert stehen, während die anderen sich änderten",
  "duplicate-instant": "zweiter Messwert zum selben Zeitpunkt",
  "out-of-order": "früher als der Messwert davor",
  "clock-jump": "über einen Zeitsprung der Uhr hinweg aufgezeichnet",
  "not-a-number": "keine Zahl",
  "unreadable-time": "Zeit nicht lesbar",
  "wrong-column-count": "Zeile mit falscher Zahl von Zellen",
  "unknown-source": "Energiequelle unbekannt",
};

/** Several things in one breath. */
export const list = (items: readonly string[]) => joined(items, "und");
