// German: why a number cannot be given. Each a full sentence.

import type { Phrases } from "../../../schema/index.ts";
import type { UnknownSayings } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { conditionPair } from "./conditions.ts";
import { bareSource, onSource } from "./names.ts";

export const unknowns: Phrases<UnknownSayings, Hand> = {
  "no-cabinet": () => "Das Protokoll enthält hier keine Messwerte des Kühlraums.",
  "no-evaporator": () => "Das Protokoll enthält hier keine Messwerte des Verdampfers.",
  "no-ambient": () => "Das Protokoll enthält hier keine Messwerte der Umgebung, auf denen die Anpassung beruht.",
  "no-onset": () => "In diesem Abschnitt setzte nie Kälte ein.",
  "too-early": ({ hoursAfterOnset, neededHours }, hand) =>
    `Erst ${hand.span(hoursAfterOnset)} seit Kältebeginn; nötig sind ${hand.span(neededHours)}.`,
  "too-short": ({ hours, neededHours }, hand) =>
    `Nur ${hand.span(hours)} brauchbare Messwerte; nötig sind ${hand.span(neededHours)}.`,
  "too-few-readings": ({ readings, needed }, hand) =>
    `${readings === 0 ? "Kein brauchbarer Messwert" : `Nur ${hand.count(readings, { one: "brauchbarer Messwert", other: "brauchbare Messwerte" })}`}; nötig sind ${hand.number(needed, 0)}.`,
  "starts-settled": ({ warms }) =>
    warms
      ? "Der Kühlraum erwärmte sich von Anfang an, es gibt also keine Abkühlung, an die sich eine Kurve anpassen ließe."
      : "Der Abschnitt beginnt schon so kalt, dass zu wenig Abkühlung übrig blieb, um eine Kurve anzupassen.",
  "switched-while-cold": () =>
    "Der Kühlschrank wurde im kalten Zustand umgeschaltet: In so einem Abschnitt gibt es weder einen Kältebeginn noch eine Abkühlung zum Anpassen.",
  "held-back-at-switch": () =>
    "Auf einer Seite der Umschaltung bremste der Thermostat, oder Flamme oder Versorgung fielen aus; die Rippen zeigen daher nicht, was diese Energiequelle kann.",
  "fins-warmer-than-air": () =>
    "Der Verdampferfühler zeigt mehr als die Kühlraumluft, die er kühlen soll: Vielleicht sind die beiden Fühler vertauscht, oder einer misst falsch.",
  "time-unreliable": ({ share }, hand) =>
    `${hand.percent(share)} der Zeilen stehen nicht in zeitlicher Reihenfolge, also ist nichts zu glauben, was auf der Zeit beruht: Bringen Sie das Protokoll in Ordnung oder sortieren Sie es, und werten Sie es neu aus.`,
  "warm-boiler": () => "Der Kocher war am Anfang noch warm, also ist die Zeit bis zum Kältebeginn nicht vergleichbar.",
  "open-profile": ({ hours }, hand) =>
    `${hand.span(hours)} der Abkühlung trennen noch nicht, wie schnell sie fällt und wie tief sie ginge.`,
  "soft-start-possible": ({ hours }, hand) =>
    `In ${hand.span(hours)} sähe eine langsam einsetzende Kühlung genauso aus und ergäbe andere Zahlen.`,
  "not-settled": () => "Der Kühlraum hatte sich noch nicht eingependelt.",
  "goods-may-have-cooled": ({ belowAmbient, ambient }, hand) =>
    `Der Kühlraum fiel wie mit warm eingelegter Ware, die am Ende, ${hand.quantity(belowAmbient, "K", 1)} unter der Umgebung (${hand.quantity(ambient, "Cel", 0)}), noch abkühlte: Er hatte sich nicht eingependelt und geht tiefer, sobald sie kalt ist. Lassen Sie ihn leer laufen und tragen Sie das ins Laufblatt ein, oder messen Sie weiter, bis die Ware kalt ist, einen Tag oder länger.`,
  "goods-hide-the-end": ({ celsius }, hand) =>
    `Warm eingelegte Ware kühlte vielleicht noch ab, also lässt sich nicht sagen, wann ${hand.quantity(celsius, "Cel", 0)} erreicht wären.`,
  "no-cycling": () => "Der Thermostat taktete nicht.",
  "no-known-good": ({ source }) => `Es gibt keinen Bezugslauf ${onSource(source)} zum Vergleich.`,
  "known-good-unusable": ({ source }) =>
    `Der Bezugslauf ${onSource(source)} hat keinen Teil gleicher Länge und Art zum Vergleich.`,
  "not-reached": ({ celsius, settles }, hand) =>
    `${hand.quantity(celsius, "Cel", 0)} würden nicht erreicht: Er würde sich bei ${hand.quantity(settles, "Cel", 1)} einpendeln.`,
  "fall-ended": () => "Der Abfall endete vorher: Es fehlte an Wärme, oder der Thermostat hielt.",
  "already-below": ({ celsius }, hand) =>
    `Der Kühlraum lag schon unter ${hand.quantity(celsius, "Cel", 0)}, als der Abschnitt begann.`,
  "not-warming-back": () => "Das zeigt nur ein Abschnitt mit Rückerwärmung.",
  "frost-melting": (_, hand) => `Auf den Rippen schmolz Reif, was die Temperatur nahe ${hand.degrees(0)} festhält.`,
  "ambient-too-low": ({ ambient, needed }, hand) =>
    `Die Umgebung hatte ${hand.quantity(ambient, "Cel", 0)}; ein Lauf unter ${hand.quantity(needed, "Cel", 0)} beweist, dass gekühlt wird, sagt aber nichts über Hitzetage.`,
  "is-off": () => "Der Kühlschrank war aus.",
  "source-unknown": () => "Niemand hat angegeben, welche Energiequelle das war.",
  "no-stretch": () => "Das Protokoll enthält keinen solchen Abschnitt.",
  "source-not-run": ({ source }) =>
    `Der Kühlschrank lief in den gegebenen Protokollen nicht ${onSource(source)}, also lässt sich darüber nichts sagen.`,
  "holds-at-any": ({ celsius, ambient }, hand) =>
    `${hand.quantity(celsius, "Cel", 0)} würden selbst bei ${hand.quantity(ambient, "Cel", 0)} gehalten; darüber wird nichts vorhergesagt.`,
  "holds-at-none": ({ celsius, ambient }, hand) =>
    `${hand.quantity(celsius, "Cel", 0)} würden nicht einmal bei ${hand.quantity(ambient, "Cel", 0)} Umgebung gehalten.`,
  "never-crosses": ({ celsius, settles, falling }, hand) =>
    falling
      ? `Er kommt nicht auf ${hand.quantity(celsius, "Cel", 0)} herunter; er endet bei ${hand.quantity(settles, "Cel", 1)}.`
      : `Er bleibt unter ${hand.quantity(celsius, "Cel", 0)}; er endet bei ${hand.quantity(settles, "Cel", 1)}.`,
  "no-numbers": () => "Die Messwerte geben diese Zahl nicht her.",
  "not-run": ({ source, when }) =>
    `Der Kühlschrank lief ${when === "before" ? "im Protokoll von vorher" : "im Protokoll von nachher"} nicht ${onSource(source)}.`,
  "run-before-unusable": ({ source }) =>
    `Das Protokoll von vorher enthält ${onSource(source)} keine Abkühlung von zwei Stunden ab Kältebeginn zum Vergleich.`,
  "conditions-differ": (differing) =>
    `${conditionPair(differing)}: Dafür gibt es keine ehrliche Breite, also wird beides nicht verglichen. Wiederholen Sie den Lauf unter den Bedingungen der Bezugsläufe, nachts nur auf Strom, Gas nur unter Aufsicht.`,
  "nothing-cooled": () => "Wo eine Energiequelle gar nicht kühlt, gibt es kein Verhältnis.",
  "no-untouched-source": () =>
    "Kein Laufblatt nennt eine Energiequelle, an der niemand gearbeitet hat, also fehlt der Gegenvergleich.",
  "is-untouched-source": () => "An dieser Energiequelle hat niemand gearbeitet: An ihr werden die anderen gemessen.",
  "untouched-not-comparable": ({ source }) =>
    `Die Energiequelle, an der niemand gearbeitet hat (${bareSource(source)}), liefert kein Verhältnis für den Gegenvergleich: Beide müssen in denselben Protokollen laufen, vorher und nachher.`,
};
