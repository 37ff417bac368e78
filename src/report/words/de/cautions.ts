// German: the cautions, by subject. They may be worded better, never weaker: tests hold their meaning.
// All are common practice, no source, and defer to local codes and licensed people (`cautionClose`).

import type { CautionCode } from "../../../science/index.ts";

interface CautionWords {
  readonly about: string;
  readonly text: string;
}

export const cautions: { readonly [C in CautionCode]: CautionWords } = {
  gas: {
    about: "Gas, Flamme, Kohlenmonoxid",
    text:
      "Lassen Sie Gas nie unbeaufsichtigt, nie in geschlossenen Räumen, nie über einer Grube oder einem Abfluss und nie dort brennen, wo Menschen " +
      "schlafen, es sei denn, die örtlichen Vorschriften und ein zugelassener Fachbetrieb lassen diese Aufstellung zu. " +
      "Gelbe oder rußende Flamme, Gasgeruch, jeder Zweifel am Abgasrohr: Gas zu, nicht betreiben. Ein verstopftes Abgasrohr und eine " +
      "schlechte Flamme sind die Fälle, in denen Kohlenmonoxid entsteht.",
  },
  night: {
    about: "Läufe über Nacht",
    text:
      "Über Nacht läuft der Kühlschrank in der Regel auf Strom. Ein Abschnitt auf Gas wird beaufsichtigt und beginnt erst, wenn Flamme, Abgasrohr, " +
      "Dichtheit und Kohlenmonoxid geprüft sind. Ein Kühlschrank, der seine Energiequelle selbst wählt, kann bei Ausfall der 230\u00a0V Gas zünden: " +
      "Schließen Sie vor einer Nacht auf Strom sein Gasventil.",
  },
  "stopped-on-gas": {
    about: "auf Gas ausgefallene Kühlung",
    text:
      "Von hier aus nicht wieder zünden und nicht hineineilen. Bei Gasgeruch: keine Schalter betätigen, keine offene Flamme, draußen bleiben; " +
      "die Flasche nur schließen, wenn sie im Freien zu erreichen ist; den Notruf wählen. Coldfall bemerkt eine erloschene Flamme spät, etwa " +
      "nach einer Stunde, bei taktendem Thermostat nach zwei; es ist kein Warngerät: Zugelassene Gaswarner für Flüssiggas (tief angebracht) und Kohlenmonoxidmelder müssen eingebaut sein.",
  },
  "two-sources": {
    about: "zwei Energiequellen",
    text: "Immer nur eine Energiequelle auf einmal: Zwei zusammen überhitzen den Kocher.",
  },
  "no-cold": {
    about: "Schräglage, und Heizen ohne Kälte",
    text: "Nicht waagerecht, oder seit Stunden ein heißer Kocher und keine Kälte: ausschalten. Heizen ohne Umlauf zerstört das Kühlaggregat.",
  },
  dc12: {
    about: "12\u00a0V",
    text:
      "Die 12-V-Heizpatrone zieht 10 bis 15\u00a0A: Sie leert eine Aufbaubatterie in wenigen Stunden oder schneller und gehört an eine ladende Versorgung. " +
      "Lassen Sie für 12\u00a0V keinen Motor in geschlossenen Räumen laufen (Kohlenmonoxid); nehmen Sie ein abgesichertes Labornetzteil. " +
      "Messleitungen: abgesichert, spannungsbegrenzt, galvanisch getrennt oder differenziell am Kühlschrank; USB darf nie zur Rückleitung der 12\u00a0V werden.",
  },
  mains: {
    about: "Netzspannung 230\u00a0V",
    text:
      "230\u00a0V nur mit Schutzleiter und hinter einem FI-Schutzschalter (RCD), die Heizpatrone von einer Elektrofachkraft geprüft. Erst am Gerät anschließen, " +
      "zuletzt an der Steckdose; trennen in umgekehrter Reihenfolge. Die Fühlerplatine berührt nie die Netzspannung: Volt und Watt werden von einem " +
      "zugelassenen Zwischenstecker-Messgerät abgelesen und eingetippt.",
  },
  "cooling-unit": {
    about: "Kühlaggregat, Ammoniak, Wasserstoff",
    text:
      "Ammoniakgeruch oder gelber Belag: alle hinaus, lüften, keine Flamme (Ammoniak und Wasserstoff brennen), Energiequelle nur abschalten, wenn das " +
      "gefahrlos geht; den Belag nicht berühren. Ein Kühlaggregat nie aufschneiden, anbohren, schweißen oder erhitzen: Es steht unter 14 bis 25\u00a0bar. " +
      "Entsorgung durch einen zugelassenen Betrieb.",
  },
  road: {
    about: "unterwegs",
    text:
      "Gas zu vor Tankstellen, Fähren und Garagen; Gas während der Fahrt nur, wo Gesetz und eingebaute Sicherheitseinrichtungen es erlauben. " +
      "Auf Gas nie etwas vor die Lüftungsgitter.",
  },
  food: {
    about: "Lebensmittel",
    text:
      "Am wärmsten sind Lebensmittel nicht in der Mitte des Kühlraums: Oberste Ablage und Tür sind ein paar Grad wärmer. Coldfall beurteilt nie, ob " +
      "Lebensmittel noch gegessen werden dürfen; es nennt Grenzwerte mit ihrer Quelle.",
  },
};

/** Stands at the end of every caution. */
export const cautionClose =
  "Gängige Praxis, ohne Quelle; es entscheiden die örtlichen Vorschriften und zugelassene Fachbetriebe für Gas und Elektro.";
