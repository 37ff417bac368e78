// German: a run while it goes on.

import type { Verdict } from "../../../schema/documents/index.ts";
import type { EnergySource, Phrases } from "../../../schema/index.ts";
import type { LiveGoal, LiveHeadSayings, LiveProofSayings } from "../../../science/live/index.ts";
import type { Hand } from "../../hand.ts";
import { capital } from "../phrasing.ts";
import { onSource, startingOf, verdictNames } from "./names.ts";
import { mayHaveStopped } from "./stopped.ts";

const kelvin = (value: number, hand: Hand) => hand.quantity(value, "K", 1);
/** A verdict on a stretch that is not over. */
const soFar: { readonly [V in Verdict]: string } = {
  sound: `bisher ${verdictNames.sound}`,
  weak: `bisher ${verdictNames.weak}`,
  "not-cooling": verdictNames["not-cooling"],
  undecided: "noch nicht entschieden",
};

const heads: Phrases<LiveHeadSayings, Hand> = {
  "nothing-yet": () => "Es ist noch kein Messwert gekommen.",
  "too-little-yet": ({ source }) => `Noch zu wenige Messwerte ${onSource(source)}, um etwas zu sagen.`,
  "looks-off": () =>
    "Die Messwerte sehen aus wie die eines ausgeschalteten Kühlschranks; niemand hat gesagt, womit er läuft.",
  settling: () =>
    "Der Kühlschrank ist aus und gleicht sich an; die Messwerte zeigen, wie weit die Fühler voneinander abweichen.",
  "warming-back": ({ sinceMs }, hand) =>
    `Der Kühlschrank ist seit ${hand.clock(sinceMs)} aus und erwärmt sich wieder; Tür zulassen.`,
  "heating-up": ({ source, coldFromMs, coldByMs }, hand) =>
    `Heizt auf, ${onSource(source)}. Noch lässt sich nichts sagen: Kälte kann zwischen ${hand.clock(coldFromMs)} und ${hand.clock(coldByMs)} nachgewiesen sein.`,
  "probes-exchanged": ({ source }) =>
    `Der Verdampferfühler zeigt mehr als die Kühlraumluft, die er kühlen soll: Vielleicht sind die beiden vertauscht, oder einer misst falsch. Solange das nicht in Ordnung ist, lässt sich ${onSource(source)} nichts sagen.`,
  "no-cold-yet": ({ source, hours, deadAtMs }, hand) =>
    `Noch keine Kälte ${onSource(source)} nach ${hand.span(hours)}. ${
      deadAtMs === null
        ? "So lange braucht auch ein langsamer Start nicht, aber die Messwerte zeigen nicht sicher, dass er nicht kühlt."
        : `Manche Kühlschränke starten langsam: Nur wenn bis ${hand.clock(deadAtMs)} keine da ist, kühlt er nicht.`
    }`,
  "makes-cold": ({ source, strengthByMs }, hand) => {
    const strong =
      strengthByMs === null
        ? "Wie stark, lässt sich ohne Bezugslauf mit dieser Energiequelle nicht sagen."
        : `Wie stark: bekannt bis ${hand.clock(strengthByMs)}.`;
    const leave =
      source === "gas" || source === null
        ? `${capital(onSource(source))} entsteht Kälte; bleiben Sie dabei.`
        : `Sie können nach Hause gehen: ${capital(onSource(source))} entsteht Kälte.`;
    return `${leave} ${strong}`;
  },
  "strength-so-far": ({ source, strength, verdict }, hand) =>
    `${capital(onSource(source))} ${soFar[verdict]}: Kühlleistung ${hand.brief(strength)} des Bezugs.`,
  "does-not-cool": ({ source, hours }, hand) =>
    `${capital(onSource(source))} kühlt er nicht: keine Kälte ${hand.span(hours)} nach ${startingOf(source)}.`,
  stopped: ({ source, sinceMs, doubt }, hand) =>
    `Die Kühlung ${onSource(source)} ist ausgefallen, etwa um ${hand.clock(sinceMs)}. ${mayHaveStopped(source, doubt)}`,
};

/** Completes "Wärme nachgewiesen um 13:52: ..." and the like, without a full stop. */
const proofs: Phrases<LiveProofSayings, Hand> = {
  "heat-by-watts": ({ watts }, hand) => `am Kühlschrank wurden ${hand.quantity(watts, "W", 0)} abgelesen`,
  "heat-by-boiler": ({ kelvin: above }, hand) =>
    `der Kocherfühler liegt ${hand.quantity(above, "K", 0)} über der Umgebung`,
  "heat-by-flue": ({ kelvin: above }, hand) =>
    `der Abgasfühler liegt ${hand.quantity(above, "K", 0)} über der Umgebung`,
  "heat-by-cold": () => "es ist Kälte da, also gab es Wärme",
  "heat-needs-watts": ({ source }) =>
    `früher mit eingetippten Volt und Ampere ${onSource(source)} oder mit einem Kocherfühler`,
  "heat-needs-flue-probe": () => "früher mit einem Abgas- oder Kocherfühler",
  "cold-by-fins": ({ kelvin: colder }, hand) => `die Rippen sind ${kelvin(colder, hand)} kälter als die Kühlraumluft`,
  "cold-by-cabinet": ({ kelvin: fall }, hand) => `der Kühlraum ist um ${kelvin(fall, hand)} gefallen`,
  "strength-told": ({ strength, verdict }, hand) => `${hand.brief(strength)} des Bezugs, ${soFar[verdict]}`,
  "no-known-good": ({ source }) => `es gibt keinen Bezugslauf ${onSource(source)} zum Vergleich`,
  "source-not-told": () => "niemand hat angegeben, welche Energiequelle das ist",
  "not-cold-in-time": ({ hours }, hand) => `innerhalb von ${hand.span(hours)} kam keine Kälte`,
  "no-fins-no-ambient": () => "dazu braucht es einen Verdampferfühler oder einen Umgebungsfühler",
};

const goals: { readonly [G in LiveGoal]: string } = {
  strength: "Rippen und Anfangsgefälle und damit die Kühlleistung",
  curve: "Abkühlkonstante und Tiefe",
  "better-curve": "Abkühlkonstante und Tiefe, und zwar gut",
};

export const live = {
  heads,
  proofs,
  goals,

  title: (fridge: string | null) => (fridge === null ? "Aufzeichnung" : `Aufzeichnung von ${fridge}`),
  since: (source: EnergySource | null, since: string, span: string) =>
    `${capital(onSource(source))} seit ${since} (${span})`,
  asOf: (moment: string) => `Stand ${moment}`,
  proofNames: { heat: "Wärme", cold: "Kälte", strength: "Kühlleistung" },
  proven: (clock: string, by: string) => `nachgewiesen um ${clock}: ${by}`,
  known: (clock: string, by: string) => `bekannt seit ${clock}: ${by}`,
  expectedBetween: (from: string, by: string) => `kann zwischen ${from} und ${by} nachgewiesen sein`,
  expectedBy: (clock: string) => `kann bis ${clock} bekannt sein`,
  notComing: (why: string) => `nicht zu sagen: ${why}`,
  numbers: {
    onset: "Kältebeginn",
    slope: "Anfangsgefälle",
    rate: "Abkühlkonstante",
    settled: "pendelt sich ein bei",
    to5: (hand: Hand) => `auf ${hand.degrees(5)}`,
  },
  onset: (clock: string, span: string, starting: string) => `${clock}, ${span} nach ${starting}`,
  at5: (clock: string, interval: string) => `${clock} (${interval})`,
  between: (from: string, to: string) => `${from} bis ${to}`,
  orLater: (from: string) => `${from} oder später, oder nie`,
  runUntil: (clock: string, goal: string) => `Lassen Sie ihn bis ${clock} laufen, für: ${goal}.`,
  mayEnd: "Der Abschnitt hat gesagt, was er kann; weiterlaufen zu lassen schadet nicht.",
  waitUntil: (clock: string) => `Lassen Sie ihn bis ${clock} laufen: Vorher gilt keine Energiequelle als tot.`,
  latest: "jetzt",
  alarmsHeading: "Alarme",
};
