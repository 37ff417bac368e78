// German: what happened during a run. Each a full sentence.

import { isElectric, type Phrases } from "../../../schema/index.ts";
import type { EventSayings } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { cautionClose, cautions } from "./cautions.ts";
import { onSource } from "./names.ts";
import { mayHaveStopped } from "./stopped.ts";

const kelvin = (value: number, hand: Hand) => hand.quantity(value, "K", 1);
const minutesLong = (minutes: number, hand: Hand) => hand.span(minutes / 60);

export const events: Phrases<EventSayings, Hand> = {
  "door-opened": ({ riseKelvin, minutes }, hand) =>
    `Der Kühlraum stieg in ${minutesLong(minutes, hand)} um ${kelvin(riseKelvin, hand)}, wie beim Öffnen der Tür.`,
  // The caution stands in the sentence: a flame that went out must never be told without it.
  "cooling-stopped": ({ source, finDifferenceBefore, finDifferenceAfter, doubt }, hand) => {
    const seen = `Die Kühlung ${onSource(source)} fiel aus: Die Rippen waren erst ${kelvin(finDifferenceBefore, hand)}, dann nur noch ${kelvin(finDifferenceAfter, hand)} kälter als die Kühlraumluft.`;
    const why = mayHaveStopped(source, doubt);
    if (isElectric(source)) return `${seen} ${why}`;
    return `${seen} ${why} Vorsicht: ${cautions["stopped-on-gas"].text} ${cautionClose}`;
  },
  "thermostat-cycles": ({ source, duty, periodMinutes, cycles }, hand) => {
    const seen = `${hand.number(cycles, 0)}-mal, alle ${minutesLong(periodMinutes, hand)}, mit Wärme in ${hand.percent(duty)} der Zeit`;
    if (source !== "gas") return `Der Thermostat taktete ${seen}.`;
    return `Die Kühlung kam und ging ${seen}, wie bei einem Thermostat; eine Flamme, die ausging und wieder gezündet wurde, sieht genauso aus.`;
  },
  "no-rows": ({ minutes }, hand) => `Im Protokoll fehlen für ${minutesLong(minutes, hand)} alle Zeilen.`,
  "probe-silent": ({ minutes }, hand) => `Von diesem Fühler kam ${minutesLong(minutes, hand)} lang kein Messwert.`,
  "probe-stuck": ({ celsius, minutes }, hand) =>
    `Der Fühler blieb ${minutesLong(minutes, hand)} lang bei ${hand.quantity(celsius, "Cel", 2)} stehen, während die anderen sich änderten.`,
  "probe-unbelievable": ({ celsius, minutes }, hand) =>
    `Der Fühler zeigte ${minutesLong(minutes, hand)} lang Werte wie ${hand.quantity(celsius, "Cel", 1)}, was nicht sein kann.`,
  "probe-stepped": ({ kelvin: step }, hand) =>
    `Allein dieser Fühler sprang um ${kelvin(step, hand)} und blieb dort, wie wenn er verschoben wird oder abfällt.`,
  "sun-on-ambient": ({ kelvin: rise, minutes }, hand) =>
    `Der Umgebungsfühler zeigte ${minutesLong(minutes, hand)} lang ${kelvin(rise, hand)} zu viel, wie bei Sonne auf dem Fühler.`,
  "exhaust-on-ambient": ({ kelvin: rise, isProven }, hand) =>
    isProven
      ? `Der Umgebungsfühler stieg mit dem Heizen um ${kelvin(rise, hand)} und fiel mit ihm: Er hängt in der warmen Abluft des Kühlschranks. Das wird abgezogen, mit einer Unsicherheit; hängen Sie den Fühler in die Luft, die in das untere Lüftungsgitter einströmt. Hängt er schon dort, kehrt die warme Luft zu ihm zurück: Prüfen Sie die Lüftungsgitter.`
      : `Der Umgebungsfühler änderte sich mit dem Heizen um ${kelvin(rise, hand)}: Vielleicht hängt er in der warmen Abluft des Kühlschranks. Das bleibt offen und macht alles Weitere unsicherer; hängen Sie den Fühler in die Luft, die in das untere Lüftungsgitter einströmt, und zeichnen Sie davor und danach eine Stunde mit ausgeschaltetem Kühlschrank auf.`,
  "clock-jumped": ({ seconds }, hand) =>
    `Die Uhr des Protokolls sprang um ${hand.span(Math.abs(seconds) / 3600)} ${seconds < 0 ? "zurück" : "vor"}.`,
};
