// German: before compared with after. What the science says of a change, and the report's own sentences.

import type { Change } from "../../../schema/documents/index.ts";
import type { HeatSource, Phrases } from "../../../schema/index.ts";
import type {
  ChangeClause,
  ChangeReasonSayings,
  ComparisonWarningSayings,
  Difference,
  DifferenceSayings,
  SummarySayings,
} from "../../../science/before-after/index.ts";
import type { Estimate, UnknownSaying } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { betterFrom, sameHigh, sameLow, worseFrom } from "../change-limits.ts";
import { capital } from "../phrasing.ts";
import { conditionValue, conditionNames as heldNames } from "./conditions.ts";
import { bareSource, list, onSource } from "./names.ts";
import { reasons } from "./reasons.ts";
import { unknowns } from "./unknowns.ts";

const byFactor = (factor: number, hand: Hand) =>
  factor >= 1
    ? `hebt das Verhältnis um ${hand.percent(factor - 1)}`
    : `senkt das Verhältnis um ${hand.percent(1 - factor)}`;

/** "138 % von vorher (112 bis 170)". */
const ofBefore = (e: Estimate, hand: Hand) => `${hand.value(e)} von vorher (${hand.interval(e)})`;

const conditionNames: { readonly [C in Difference["code"]]: string } = {
  fridge: "Name des Kühlschranks",
  setting: "Aufstellung",
  "tilt-sideways": "Schräglage quer",
  "tilt-lengthways": "Schräglage längs",
  dial: "Reglerstellung",
  load: "Beladung",
  vents: "Lüftungsgitter",
  "fan-inside": "Lüfter innen",
  "fan-at-rear": "Lüfter hinten",
  "gas-kind": "Gasart",
  "gas-pressure": "Gasdruck",
  altitude: "Höhenlage",
  "gas-rated-watts": "Nennwärme auf Gas",
  "mains-rated-watts": "Nennleistung auf 230\u00a0V",
  "dc12-rated-watts": "Nennleistung auf 12\u00a0V",
  "mains-volts": "Netzspannung",
  "dc12-volts": "Spannung auf 12\u00a0V",
  "mains-rated-volts": "Nennspannung auf 230\u00a0V",
  "dc12-rated-volts": "Nennspannung auf 12\u00a0V",
};
const conditions = (codes: readonly Difference["code"][]) => list(codes.map((code) => conditionNames[code]));

/** "Beladung: vorher leer, nachher voll." */
const differs = <Value>(
  code: Difference["code"],
  { before, after }: { readonly before: readonly Value[]; readonly after: readonly Value[] },
  write: (value: Value) => string,
) => {
  const side = (values: readonly Value[]) => (values.length === 0 ? "nicht angegeben" : list(values.map(write)));
  return `${conditionNames[code]}: vorher ${side(before)}, nachher ${side(after)}.`;
};

const asTold = (value: string) => value;
const yesOrNo = (value: boolean) => (value ? "ja" : "nein");
const volts = (hand: Hand) => (value: number) => hand.quantity(value, "V", 1);
const watts = (hand: Hand) => (value: number) => hand.quantity(value, "W", 0);
const degrees = (hand: Hand) => (value: number) => `${hand.number(value, 1)}°`;

const differences: Phrases<DifferenceSayings, Hand> = {
  fridge: (stated) => differs("fridge", stated, asTold),
  setting: (stated) => differs("setting", stated, conditionValue),
  "tilt-sideways": (stated, hand) => differs("tilt-sideways", stated, degrees(hand)),
  "tilt-lengthways": (stated, hand) => differs("tilt-lengthways", stated, degrees(hand)),
  dial: (stated) => differs("dial", stated, asTold),
  load: (stated) => differs("load", stated, conditionValue),
  vents: (stated) => differs("vents", stated, conditionValue),
  "fan-inside": (stated) => differs("fan-inside", stated, yesOrNo),
  "fan-at-rear": (stated) => differs("fan-at-rear", stated, yesOrNo),
  "gas-kind": (stated) => differs("gas-kind", stated, conditionValue),
  "gas-pressure": (stated, hand) => differs("gas-pressure", stated, (value) => `${hand.number(value, 0)}\u00a0mbar`),
  altitude: (stated, hand) => differs("altitude", stated, (value) => `${hand.number(value, 0)}\u00a0m`),
  "gas-rated-watts": (stated, hand) => differs("gas-rated-watts", stated, watts(hand)),
  "mains-rated-watts": (stated, hand) => differs("mains-rated-watts", stated, watts(hand)),
  "dc12-rated-watts": (stated, hand) => differs("dc12-rated-watts", stated, watts(hand)),
  "mains-volts": (stated, hand) => differs("mains-volts", stated, volts(hand)),
  "dc12-volts": (stated, hand) => differs("dc12-volts", stated, volts(hand)),
  "mains-rated-volts": (stated, hand) => differs("mains-rated-volts", stated, volts(hand)),
  "dc12-rated-volts": (stated, hand) => differs("dc12-rated-volts", stated, volts(hand)),
};

const changeNames: { readonly [C in Change]: string } = {
  better: "besser",
  same: "gleich",
  worse: "schlechter",
  undecided: "noch nicht zu sagen",
};

const changeReasons: Phrases<ChangeReasonSayings, Hand> = {
  "ratio-better": ({ estimate, margin }, hand) =>
    `Kühlleistung ${ofBefore(estimate, hand)}: Das ganze Intervall liegt über ${betterFrom(margin, hand)}, von da an gilt sie als besser.`,
  "ratio-same": ({ estimate, margin }, hand) =>
    `Kühlleistung ${ofBefore(estimate, hand)}: Das ganze Intervall liegt zwischen ${sameLow(margin, hand)} und ${sameHigh(margin, hand)}, was als gleich gilt.`,
  "ratio-worse": ({ estimate, margin }, hand) =>
    `Kühlleistung ${ofBefore(estimate, hand)}: Das ganze Intervall liegt unter ${worseFrom(margin, hand)}, von da an gilt sie als schlechter.`,
  "ratio-undecided": ({ estimate, margin }, hand) =>
    `Kühlleistung ${ofBefore(estimate, hand)}: Das Intervall ist zu breit für ein Urteil. Besser liegt ganz über ${betterFrom(margin, hand)}, schlechter ganz unter ${worseFrom(margin, hand)}, gleich ganz zwischen ${sameLow(margin, hand)} und ${sameHigh(margin, hand)}.`,
  "no-ratio": ({ why }, hand) => {
    // The same dispatch as `say`, which stands above this folder.
    const phrase = unknowns[why.code] as (values: UnknownSaying, hand: Hand) => string;
    return `Hier gibt es kein Verhältnis. ${phrase(why, hand)}`;
  },
  "dead-before": () => "Vorher kühlte er gar nicht, jetzt schon. Zu etwas, das nichts war, gibt es kein Verhältnis.",
  "dead-after": () => "Vorher kühlte er, jetzt kühlt er gar nicht mehr.",
  "dead-throughout": () => "Er kühlte vorher nicht und kühlt jetzt nicht.",
  "dead-now-and-then": ({ when }) =>
    `In einem der Läufe von ${when === "before" ? "vorher" : "nachher"} kühlte er gar nicht, in einem anderen schon: Ein Fehler, der kommt und geht, lässt sich nicht vergleichen.`,
  "stopped-then": ({ when, unixMs }, hand) =>
    `Im Lauf von ${when === "before" ? "vorher" : "nachher"} hörte die Kühlung um ${hand.moment(unixMs)} auf und kam nicht wieder. Verglichen ist die Zeit bis dahin; zuerst muss klar sein, warum sie aufhörte.`,
  "runs-combined": ({ before, after, hours }, hand) => {
    const both = `${capital(stretches(after, hand))} nachher, ${stretches(before, hand)} vorher`;
    return hours === null ? `${both}.` : `${both}, alle auf dieselben ${hand.span(hours)} ab Kältebeginn gekürzt.`;
  },
  "switched-on-both-sides": ({ from }) =>
    `Vorher und nachher wurde kalt von ${bareSource(from)} umgeschaltet. Die Rippen vor und nach dem Umschalten halten beide Energiequellen gegeneinander; der Abfall ${onSource(from)} verbindet vorher und nachher.`,
  "runs-disagree": () =>
    "Die Läufe von nachher weichen stärker voneinander ab, als ihre Intervalle erlauben; dazwischen hat sich etwas geändert.",
  "seal-changed": ({ ratio }, hand) =>
    `Ausgeschaltet erwärmt sich der Kühlraum jetzt mit ${hand.value(ratio)} des Tempos von vorher (${hand.interval(ratio)}): Es entweicht mehr Kälte, oder es war weniger darin.`,
  "load-changed": ({ ratio }, hand) =>
    `Ausgeschaltet erwärmt sich der Kühlraum jetzt mit ${hand.value(ratio)} des Tempos von vorher (${hand.interval(ratio)}): Es entweicht weniger Kälte, oder es war mehr darin.`,
  "is-control": () =>
    "An dieser Energiequelle hat niemand gearbeitet: Was sich hier ändert, kam mit dem Lauf, nicht mit der Arbeit.",
  "over-control": ({ control, estimate }, hand) =>
    `Gemessen an ${bareSource(control)}, woran niemand gearbeitet hat: ${hand.brief(estimate)}. Reif, Fühler, Umgebung und Beladung wirken auf beide und fallen heraus.`,
  "control-decides": ({ control }) =>
    `Die an ${bareSource(control)} gemessene Änderung entscheidet, denn sie ist frei von dem, was beide Energiequellen traf.`,
  "control-changed": ({ control }) =>
    `${capital(bareSource(control))}, woran niemand gearbeitet hat, änderte sich, und diese Energiequelle für sich genommen kaum: Eine andere Spannung in den beiden Nächten oder ein Fehler dort sähe so aus, ebenso eine Nacht, die für beide besser oder schlechter war. Die gemessene Spannung beider Nächte würde es zeigen.`,
  "control-speaks-against": ({ control }) =>
    `${capital(bareSource(control))}, woran niemand gearbeitet hat, änderte sich ganz ähnlich: Vielleicht war der Lauf anders und nicht diese Energiequelle.`,
  "control-clears": ({ control, differences: codes }) =>
    `Auch das war anders: ${conditions(codes)}; aber das traf ${bareSource(control)} ebenso und erklärt die Änderung nicht.`,
  withheld: ({ change, differences: codes }) =>
    `Es würde als ${changeNames[change]} gelten, aber zwischen den Läufen gab es Unterschiede, die das erklären könnten: ${conditions(codes)}. Wiederholen Sie den Lauf unter den Bedingungen von vorher; ${safeHabit}.`,
  "another-pair-decides": () =>
    `Ein weiterer Lauf von nachher oder Bezugsläufe dieses Kühlschranks würden das Intervall verkleinern; ${safeHabit}.`,
  "witnesses-agree": ({ finRatio, slopeRatio }, hand) =>
    `Die beiden Zeugen der Kühlleistung stimmen überein, die Bedingungen berücksichtigt: ${hand.percent(finRatio)} von vorher nach den Rippen (die Leistung steigt mit der 1,36-ten Potenz ihrer Differenz), ${hand.percent(slopeRatio)} nach dem Anfangsgefälle.`,
  "witnesses-disagree": ({ finRatio, slopeRatio }, hand) =>
    `Die beiden Zeugen der Kühlleistung widersprechen sich, die Bedingungen berücksichtigt: ${hand.percent(finRatio)} von vorher nach den Rippen (die Leistung steigt mit der 1,36-ten Potenz ihrer Differenz), ${hand.percent(slopeRatio)} nach dem Anfangsgefälle.`,
  "fins-alone": reasons["fins-alone"],
  "slope-alone": reasons["slope-alone"],
  "cabinet-probe-slow": ({ kelvin: lag, side }, hand) =>
    `Ausgeschaltet liegen die Rippen ${side === "here" ? "nachher" : "vorher"} um ${hand.quantity(lag, "K", 1)} weiter über dem Kühlraumfühler als ${side === "here" ? "vorher" : "nachher"}, und nichts heizt sie: Dieser Fühler antwortet spät, wie in einer Flasche oder zwischen Ware. Dadurch wirken die Rippen kälter und das Gefälle flacher, und das Intervall ist zu der Seite offen, die das verdeckt.`,
  "load-unseen": reasons["load-unseen"],
  "fall-bent": ({ share }, hand) =>
    `Das Gefälle beginnt steiler als vorher und lässt früher nach, wie bei kalt Eingeräumtem oder einem Leck: Der Anfang muss nicht von der Energiequelle stammen, also reicht das Intervall um ${hand.percent(share)} weiter nach unten. Ein Verdampferfühler würde es zeigen.`,
  "began-cold": ({ kelvin: colder, side }, hand) =>
    `Als das erste Heizen begann, lag der Kühlraum ${side === "here" ? "nachher" : "vorher"} um ${hand.quantity(colder, "K", 1)} weiter unter der Umgebung als ${side === "here" ? "vorher" : "nachher"}, wie bei kalt Eingeräumtem. Die Luft fällt dann schneller, als die Energiequelle es bewirkt, und das Intervall ist zu der Seite offen, die das verdeckt.`,
  "load-unseen-before": reasons["load-unseen-before"],
  "explained-by-seal": ({ ratio }, hand) =>
    `Ausgeschaltet erwärmt sich der Kühlraum jetzt mit ${hand.value(ratio)} des Tempos von vorher (${hand.interval(ratio)}): Es entweicht mehr Kälte, was das erklären würde.`,
  "explained-by-load": ({ ratio }, hand) =>
    `Ausgeschaltet erwärmt sich der Kühlraum jetzt mit ${hand.value(ratio)} des Tempos von vorher (${hand.interval(ratio)}): Es war mehr darin, oder es entweicht weniger Kälte, was das erklären würde.`,
  "frost-or-moved-probe": () =>
    "Reif auf den Rippen oder ein Verdampferfühler, der anders sitzt als vorher, würde das erklären; das Verhältnis beruht allein auf dem Anfangsgefälle.",
  "ambient-referred": ({ ambient, baselineAmbient, factor }, hand) =>
    `Umgebung ${hand.quantity(ambient, "Cel", 1)}, vorher ${hand.quantity(baselineAmbient, "Cel", 1)}: Das herauszurechnen ${byFactor(factor, hand)}.`,
  "supply-referred": ({ volts: now, baselineVolts, factor }, hand) =>
    `Versorgung ${hand.quantity(now, "V", 1)}, vorher ${hand.quantity(baselineVolts, "V", 1)}: Das herauszurechnen ${byFactor(factor, hand)}.`,
  "gas-referred": ({ heat, factor, share }, hand) =>
    `Gasart, Gasdruck und Höhenlage geben dem Brenner ${hand.percent(heat)} der Wärme von vorher: Das herauszurechnen ${byFactor(factor, hand)} und lässt ±${hand.percent(share)} offen.`,
  "condition-one-sided": ({ condition, share }, hand) =>
    `${heldNames[condition]}: nur auf einer Seite angegeben; das lässt ±${hand.percent(share)} offen, und um so viel ist das Intervall breiter.`,
};

/** Wherever a sentence has the fridge run again, it says how. */
const safeHabit = "nachts nur auf Strom, Gas nur unter Aufsicht";
const stretches = (count: number, hand: Hand) => hand.count(count, { one: "Abschnitt", other: "Abschnitte" });

/** "1,6-mal so stark wie vorher (1,3 bis 2,1)". */
const times = (ratio: Estimate, hand: Hand) => {
  const figure = (value: number | null) => (value === null ? "?" : hand.number(value, 1));
  return `${figure(ratio.value)}-mal so stark wie vorher (${hand.range(figure(ratio.low), figure(ratio.high))})`;
};

/** What a customer reads of a source, after "auf Gas", which takes the first place before the verb. */
function statement({ change, ratio, dead }: ChangeClause, fridge: string, hand: Hand): string {
  if (change === "undecided") return `zeigen diese Läufe nicht, ob ${fridge} besser oder schlechter kühlt als vorher`;
  if (dead === "before") return `kühlt ${fridge} wieder, was vorher nicht so war`;
  if (dead === "after") return `kühlt ${fridge} nicht mehr`;
  if (dead === "throughout") return `kühlt ${fridge} weiterhin nicht`;
  if (change === "same" || ratio === null) return `kühlt ${fridge} so gut wie vorher`;
  if (change === "better") return `kühlt ${fridge} besser, ${times(ratio, hand)}`;
  return `kühlt ${fridge} schlechter, ${times(ratio, hand)}`;
}

/** Sources of which the same is to be said are named together. What changed comes first, what does not show last. */
function clauses(all: readonly ChangeClause[], hand: Hand): readonly string[] {
  const order: readonly Change[] = ["better", "worse", "same", "undecided"];
  const groups: { on: string[]; first: ChangeClause; said: string }[] = [];
  for (const one of [...all].sort((a, b) => order.indexOf(a.change) - order.indexOf(b.change))) {
    const on = `${onSource(one.source)}${one.isUntouched ? " (woran niemand gearbeitet hat)" : ""}`;
    const said = statement(one, "er", hand);
    const group = groups.find((other) => other.said === said);
    if (group === undefined) groups.push({ on: [on], first: one, said });
    else group.on.push(on);
  }
  // The fridge is named once; from then on it is "er".
  return groups.map(
    ({ on, first, said }, index) => `${list(on)} ${index === 0 ? statement(first, "der Kühlschrank", hand) : said}`,
  );
}

const summary: Phrases<SummarySayings, Hand> = {
  changes: ({ clauses: all }, hand) => `${capital(clauses(all, hand).join("; "))}.`,
  "nothing-compared": () =>
    "Keines der Protokolle enthält einen Abschnitt mit benannter Energiequelle, also gibt es nichts zu vergleichen.",
};

const warnings: Phrases<ComparisonWarningSayings, Hand> = {
  "after-is-older": ({ before, after }) =>
    `Was als nachher angegeben ist, ${list(after)}, ist älter als das, was als vorher angegeben ist, ${list(before)}; prüfen Sie, ob sie vertauscht sind.`,
  "no-run-sheet": ({ when }) => {
    const where = { before: " vorher", after: " nachher", both: "" }[when];
    return `Es gibt${where} kein Laufblatt: Schräglage, Reglerstellung, Beladung, Lüftungsgitter, Gas und Volt werden als gleich angenommen${when === "both" ? ", vorher wie nachher" : ""}.`;
  },
  "stated-on-one-side": ({ when, conditions: codes }) =>
    `Nur im Laufblatt von ${when === "before" ? "vorher" : "nachher"} angegeben und als gleich angenommen: ${conditions(codes)}.`,
  "untouched-not-run": ({ source }) =>
    `Laut Laufblatt hat niemand an ${bareSource(source)} gearbeitet, aber der Kühlschrank lief in diesen Protokollen nicht ${onSource(source)}.`,
  "source-unnamed": ({ log }) =>
    `Im Protokoll ${log} lief der Kühlschrank mit einer Energiequelle, die niemand genannt hat; nennen Sie sie mit --source-at, damit sie verglichen wird.`,
};

export const comparison = {
  reasons: changeReasons,
  differences,
  summary,
  warnings,
  changeNames,

  title: (before: string, after: string) => `Coldfall: ${before} verglichen mit ${after}`,
  when: (before: string, after: string, offset: string) => `vorher: ${before}; nachher: ${after} (${offset})`,
  ratio: (e: Estimate, hand: Hand) => `Kühlleistung ${ofBefore(e, hand)}`,
  overControl: (control: HeatSource, e: Estimate, hand: Hand) =>
    `gemessen an ${bareSource(control)}, woran niemand gearbeitet hat, ${hand.brief(e)}`,

  differencesHeading: "Was sonst noch anders war",
  noDifferences: "Die Laufblätter nennen keinen Unterschied in den Bedingungen.",
  sourceHeading: (source: HeatSource, change: string) => `${capital(onSource(source))}: ${change}`,

  numbersCaption: "Die angepasste Abkühlung, vorher und nachher",
  beforeColumn: "vorher",
  afterColumn: "nachher",
  ratioColumn: "im Vergleich",
  finDifference: {
    name: "Rippendifferenz",
    shows: "wie stark die Rippen der Luft Wärme entziehen, fast unabhängig von Beladung und Tür.",
    hides: "Reif oder einen anders angeklemmten Fühler, die sie ändern, ohne dass etwas defekt ist.",
  },
  equalLength: (hours: number, hand: Hand) => `Alles über dieselben ${hand.span(hours)} ab Kältebeginn.`,

  ratiosTitle: "Kühlleistung, nachher durch vorher",
  ratiosAxis: "nachher durch vorher, %",
  ratiosCaption: (margin: number, hand: Hand) =>
    `Jeder Balken ist ein 95-%-Intervall mit seinem Wert. Getönt: ${sameLow(margin, hand)} bis ${sameHigh(margin, hand)}, was als gleich gilt; ein Balken ganz rechts der rechten gestrichelten Linie (${betterFrom(margin, hand)}) ist besser, einer ganz links der linken (${worseFrom(margin, hand)}) schlechter.`,
  ratiosTable: "Die Verhältnisse dieser Zeichnung als Tabelle",
  ratiosColumns: {
    source: "Energiequelle",
    ratio: "nachher durch vorher",
    interval: "95-%-Intervall",
    change: "Änderung",
  },
  barsLegend: (margin: number, hand: Hand) =>
    `In %. ◆ Wert, ├┤ 95-%-Intervall, ░ ${sameLow(margin, hand)} bis ${sameHigh(margin, hand)} gilt als gleich, ┊ schlechter ganz links von ${worseFrom(margin, hand)}, besser ganz rechts von ${betterFrom(margin, hand)}.`,
  controlBar: (source: HeatSource, control: HeatSource) => `${onSource(source)} gegen ${bareSource(control)}`,
  controlBarShort: (source: HeatSource, control: HeatSource) => `${bareSource(source)} gegen ${bareSource(control)}`,
  barIs: (name: string, e: Estimate, hand: Hand) => `${capital(name)}: ${hand.brief(e)}.`,

  curvesTitle: (source: HeatSource) => `${capital(onSource(source))}: vorher und nachher, auf den Kältebeginn gelegt`,
  curvesAxis: (hand: Hand) => `${hand.unit("K")} unter der Umgebung`,
  curvesHours: "Stunden seit Kältebeginn",
  curvesCaption: (patterns: readonly string[]) => `${capital(patterns.join("; "))}.`,
  lines: { before: "vorher", after: "nachher" },
  patterns: { before: "vorher in langen Strichen", after: "nachher als durchgezogene Linie" },
  fromSwitchOn: "wo kein Kältebeginn gefunden wurde, zählen die Stunden ab dem Einschalten",
  curvesTable: "K unter der Umgebung",
  curvesColumns: { hours: "Stunden" },
  reaches: (name: string, end: string, hours: string) =>
    `${capital(name)}: ${end} unter der Umgebung, ${hours} nach Kältebeginn.`,
  reachesFromSwitchOn: (name: string, end: string, hours: string) =>
    `${capital(name)}: ${end} unter der Umgebung, ${hours} nach dem Einschalten; kein Kältebeginn gefunden.`,

  /** Stands right under the sentence that answers. */
  cannotSee: "Das sagt, was sich zwischen diesen Läufen geändert hat, nicht, ob jetzt alles in Ordnung ist.",
  margin: (margin: number, hand: Hand) =>
    `Zulässiger Verlust: ${hand.percent(margin)}. Besser heißt über ${betterFrom(margin, hand)} von vorher, schlechter unter ${worseFrom(margin, hand)}, gleich zwischen ${sameLow(margin, hand)} und ${sameHigh(margin, hand)}, immer mit dem ganzen Intervall.`,
  roles: {
    before: "Protokoll von vorher",
    after: "Protokoll von nachher",
    "known-good": "Bezugsprotokoll",
    baseline: "Bezugsdatei",
    sheet: "Laufblatt",
  },
};
