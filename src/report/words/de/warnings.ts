// German: what holds for the whole analysis and must be known before it is believed.

import { isElectric, type Phrases } from "../../../schema/index.ts";
import type { ConditionEffect, WarningSayings } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { conditionNames, conditionValue } from "./conditions.ts";
import { causeNames, onSource, positionNames } from "./names.ts";

const whyNotUsed: { readonly [W in WarningSayings["known-good-not-used"]["why"]]: string } = {
  "no-stretch": "Es enthält keinen Abschnitt, der kühlt",
  cycling: "Der Thermostat taktete von Anfang an",
  "probes-exchanged": "Seine Rippen zeigen mehr als die Luft, die sie kühlen; zwei Fühler scheinen vertauscht",
  "too-short": "Es ist nach dem Kältebeginn zu kurz",
};

const values = (stated: readonly string[]) => stated.map(conditionValue).join("; ");

const effects: { readonly [E in ConditionEffect]: string } = {
  wider: "Sie werden mit breiterem Intervall verglichen.",
  "slope-silent": "Verglichen werden nur die Rippen, mit breiterem Intervall.",
  "fins-silent": "Verglichen wird nur das Anfangsgefälle, mit breiterem Intervall.",
  refused: "Solche Läufe werden nicht verglichen.",
  referred: "Es wird herausgerechnet, mit breiterem Intervall.",
  told: "Es wird nicht herausgerechnet.",
};

export const warnings: Phrases<WarningSayings, Hand> = {
  "source-column-absent": ({ log }) =>
    `Das Protokoll ${log} sagt nicht, welche Energiequelle an war; die Abschnitte wurden aus den Kurven gefunden. Nennen Sie sie mit --source-at, zu einem Lauf im Speicher mit „coldfall source“.`,
  "warms-while-on": ({ log, source }) => `Im Protokoll ${log} erwärmt sich der Kühlraum ${onSource(source)}.`,
  "evaporator-warmer": ({ log }) =>
    `Im Protokoll ${log} bleibt der Verdampfer wärmer als die Kühlraumluft: Entweder kühlt nichts, oder die Fühler sind vertauscht oder sitzen falsch.`,
  "low-ambient": ({ log, ambient }, hand) =>
    `Das Protokoll ${log} wurde bei ${hand.quantity(ambient, "Cel", 0)} Umgebung aufgezeichnet: Es kann beweisen, dass gekühlt wird, sagt aber nichts über Hitzetage.`,
  "mark-outside": ({ atMs, source }, hand) =>
    `Angegeben wurde „${hand.moment(atMs)}, ${onSource(source)}“, aber kein Protokoll reicht so weit; prüfen Sie den Tag und die Zeitzone hinter der Uhrzeit.`,
  "no-ambient-probe": ({ log }) =>
    `Das Protokoll ${log} hat keinen Umgebungsfühler; Anpassung und Urteil brauchen einen.`,
  "known-good-not-used": ({ log, why }) => `Das Bezugsprotokoll ${log} wurde nicht verwendet: ${whyNotUsed[why]}.`,
  "known-good-at-odds": ({ source, stronger, weaker, share }, hand) =>
    `Die Bezugsläufe ${onSource(source)} widersprechen sich: In ${weaker} kühlte er ${hand.percent(share)} weniger als in ${stronger}. Einer davon war nicht gut, oder etwas anderes war verschieden. Das ist zu klären, bevor nach ihnen geurteilt wird: Bis dahin schließt das Intervall beide ein.`,
  "different-conditions": ({ condition, here, knownGood, effect }) =>
    `Die Laufblätter unterscheiden sich (${conditionNames[condition]}): hier ${values(here)}, im Bezug ${values(knownGood)}. ${effects[effect]}`,
  "weaker-in-heat": ({ coolest, hottest }, hand) =>
    `Je heißer es ist, desto schwächer kühlt er: ${hand.percent(coolest.strength)} des Bezugs bei ${hand.quantity(coolest.ambient, "Cel", 0)} Umgebung, ${hand.percent(hottest.strength)} bei ${hand.quantity(hottest.ambient, "Cel", 0)}. Das deutet eher auf schlechte Belüftung, Sonne auf den Lüftungsgittern oder eine Füllung nahe der Grenze dessen, was sie verflüssigen kann, als auf eine Energiequelle.`,
  "lamp-suspected": ({ log, kelvin }, hand) =>
    `Im Protokoll ${log} würde sich der Kühlraum ausgeschaltet ${hand.quantity(kelvin, "K", 1)} über der Umgebung einpendeln, mehr als die Fühler voneinander abweichen: Etwas darin gibt Wärme ab, wie eine Lampe, die anbleibt, oder der Raum vor der Tür ist wärmer als die Luft am Lüftungsgitter (ein Fühler dort, „room“, würde es zeigen).`,
  "causes-differ": ({ stretches }, hand) =>
    `Die Abschnitte deuten auf verschiedene Ursachen: ${stretches
      .map(
        ({ log, source, startMs, causes }) =>
          `${onSource(source)} ab ${hand.moment(startMs)} (${log}): ${causes.map((cause) => causeNames[cause]).join(" oder ")}`,
      )
      .join(
        "; ",
      )}. Die Liste der Ursachen nimmt immer nur eine an; hier können es zwei sein, oder dazwischen hat sich etwas geändert.`,
  // Of gas, and of a source nobody named, never without what not to do.
  "cooling-stopped": ({ log, source, times, startMs, minutes }, hand) => {
    const spell = hand.span(minutes / 60);
    const when =
      times === 1
        ? `für ${spell} ab ${hand.moment(startMs)}`
        : `${hand.count(times, { one: "Mal", other: "Mal" })}, zusammen ${spell}, zuerst ${hand.moment(startMs)}`;
    const stopped = `Im Protokoll ${log} setzte die Kühlung ${onSource(source)} ${when} aus${source === null ? "" : ", obwohl es die Energiequelle als eingeschaltet führt"}`;
    if (isElectric(source))
      return `${stopped}: Die Versorgung scheint ausgefallen zu sein oder eine Sicherung ausgelöst zu haben. Das ist kein gewöhnlicher Lauf.`;
    const what =
      source === "gas"
        ? "Die Flamme scheint erloschen zu sein"
        : "Die Flamme oder die Versorgung scheint ausgefallen zu sein";
    return `${stopped}: ${what}; von hier aus nicht wieder zünden und nicht hineineilen; bei Gasgeruch: keine Schalter betätigen, keine offene Flamme, draußen bleiben.`;
  },
  "many-rejected": ({ log, position, share }, hand) =>
    `${hand.percent(share)} der Messwerte (${positionNames[position]}) im Protokoll ${log} mussten beiseitegelegt werden.`,
};
