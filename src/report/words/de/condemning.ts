// German: what must be proven before a cooling unit is condemned, and how far it has been. The cautions of each stand
// beside it in src/science/causes/before-condemning.ts.

import type { HeatSource, Phrases } from "../../../schema/index.ts";
import type { UnitProofCode, UnitProofSayings } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { onSource } from "./names.ts";

export const proofNames: { readonly [P in UnitProofCode]: string } = {
  "tilt-measured": "Er steht waagerecht, in beiden Richtungen gemessen",
  "heat-in-watts": "Eine elektrische Energiequelle nimmt ihre Nennleistung auf",
  "boiler-hot": "Der Kocher wird heiß und bleibt heiß",
  "fan-at-rear-tried": "Zwei Stunden mit einem Lüfter hinten sind versucht",
  "twelve-hours": "Er lief zwölf Stunden ohne Unterbrechung auf Strom",
  "two-nights": "In zwei Nächten kam dasselbe heraus",
};

export const proofStates = { shown: "gezeigt", "not-shown": "noch nicht gezeigt" };

const degrees = (value: number, hand: Hand) => `${hand.number(value, 1)}°`;
const watts = (value: number, hand: Hand) => hand.quantity(value, "W", 0);
const taken = (v: { source: HeatSource; watts: number; rated: number }, hand: Hand) =>
  `${watts(v.watts, hand)} ${onSource(v.source)}, Nennwert oder üblich ${watts(v.rated, hand)}`;

export const proofs: Phrases<UnitProofSayings, Hand> = {
  "tilt-not-measured": () =>
    "Auf einem Laufblatt fehlt die Schräglage in beiden Richtungen: Messen Sie sie mit der Wasserwaage am Kühlaggregat und tragen Sie sie ein.",
  "stood-level": ({ sideways, lengthways }, hand) =>
    `Laut Laufblättern ${degrees(sideways, hand)} quer und ${degrees(lengthways, hand)} längs, innerhalb von 3° und 6°; ältere Kühlaggregate vertragen 2 bis 3° in jeder Richtung.`,
  "stood-tilted": ({ sideways, lengthways }, hand) =>
    `Laut einem Laufblatt ${degrees(sideways, hand)} quer und ${degrees(lengthways, hand)} längs: mehr als 3° oder 6°. Waagerecht stellen, eine Stunde ausgeschaltet lassen, wiederholen.`,
  "watts-not-measured": () =>
    "Auf keinem Laufblatt stehen gemessene Watt: Lesen Sie sie auf 230\u00a0V am zugelassenen Zwischenstecker-Messgerät ab, oder nehmen Sie auf 12\u00a0V Volt mal Ampere am Kühlschrank.",
  "watts-too-few": (values, hand) =>
    `Laut Laufblatt ${taken(values, hand)}: zu wenig Wärme; das muss behoben sein, bevor das Kühlaggregat an der Reihe ist.`,
  "watts-taken": (values, hand) => `Laut Laufblatt ${taken(values, hand)}: Die Wärme ist da.`,
  "boiler-not-seen": () =>
    "Kein Protokoll hat einen Kocherfühler. Einer, der in den letzten Stunden am Mantel des Kochers klemmt, würde es zeigen; der wird heiß, die Hand gehört dort nicht hin.",
  "boiler-not-hot": ({ celsius, needed }, hand) =>
    `Gegen Ende des Abschnitts zeigte der Kocherfühler ${hand.quantity(celsius, "Cel", 0)}; ab ${hand.quantity(needed, "Cel", 0)} gilt er als heiß.`,
  "boiler-was-hot": ({ celsius }, hand) =>
    `Gegen Ende des Abschnitts zeigte der Kocherfühler ${hand.quantity(celsius, "Cel", 0)}: Die Wärme kommt an.`,
  "fan-not-tried": () =>
    "Kein gegebener Lauf hat einen Lüfter hinten auf seinem Laufblatt: Versuchen Sie es zwei Stunden lang, während der Kühlschrank auf Strom läuft; ein Lüfter stört Gasflamme und Abgasrohr.",
  "fan-was-tried": ({ hours, log }, hand) =>
    `Im Protokoll ${log} lief er mit einem Lüfter hinten ${hand.span(hours)} auf Strom.`,
  "ran-too-short": ({ hours, needed }, hand) =>
    hours === 0
      ? "Die gegebenen Protokolle enthalten keinen Abschnitt auf Strom."
      : `Der längste Abschnitt auf Strom dauert ${hand.span(hours)}; nötig sind ${hand.span(needed)}.`,
  "ran-so-long": ({ hours }, hand) => `Der längste Abschnitt auf Strom dauert ${hand.span(hours)}.`,
  "nights-seen": ({ nights }, hand) =>
    `Die gegebenen Protokolle enthalten ${hand.count(nights, { one: "Nacht", other: "Nächte" })} mit vier Stunden oder mehr auf Strom.`,
};
