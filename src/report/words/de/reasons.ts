// German: the evidence behind a verdict. Each a full sentence, with its numbers.

import { isElectric, type Phrases } from "../../../schema/index.ts";
import type { ReasonSayings, UnknownSaying } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { capital } from "../phrasing.ts";
import { conditionNames, conditionPair } from "./conditions.ts";
import { bareSource, list, onSource, startingOf } from "./names.ts";
import { unknowns } from "./unknowns.ts";

/** Wherever a sentence has the fridge run again, it says how. */
const safeHabit = "nachts nur auf Strom, Gas nur unter Aufsicht";

const limit = (margin: number, hand: Hand) => hand.percent(1 - margin);
const runs = (count: number, hand: Hand) => hand.count(count, { one: "Bezugslauf", other: "Bezugsläufe" });
/** The same after a preposition that takes the dative. */
const ofRuns = (count: number, hand: Hand) => hand.count(count, { one: "Bezugslauf", other: "Bezugsläufen" });
const celsius = (value: number, hand: Hand) => hand.quantity(value, "Cel", 1);
const kelvin = (value: number, hand: Hand) => hand.quantity(value, "K", 1);

/** @param below K below ambient, negative above it */
const besideAmbient = (below: number, hand: Hand) =>
  `${kelvin(Math.abs(below), hand)} ${below < 0 ? "über" : "unter"} der Umgebung`;

/** "hebt" or "senkt die Kühlleistung um 4 %" for a factor near 1. */
const byFactor = (factor: number, hand: Hand) =>
  factor >= 1
    ? `hebt die Kühlleistung um ${hand.percent(factor - 1)}`
    : `senkt die Kühlleistung um ${hand.percent(1 - factor)}`;

/** What a condition that differs leaves open of the witnesses; the widths are those of sheet-conditions.ts. */
function whatItLeaves(
  { effect, slopeShare, finShare }: Pick<ReasonSayings["condition-differs"], "effect" | "slopeShare" | "finShare">,
  hand: Hand,
): string {
  const source = "aus simulierten Kühlschränken, ohne veröffentlichte Quelle";
  if (effect === "fins-silent")
    return `Das ändert die Rippendifferenz selbst, also spricht nur das Anfangsgefälle, und ±${hand.percent(slopeShare)} bleiben offen (${source}).`;
  if (effect === "slope-silent")
    return `Das ändert, was zu kühlen ist, also sprechen nur die Rippen, und ±${hand.percent(finShare)} bleiben offen (${source}).`;
  return `Das lässt ±${hand.percent(slopeShare)} des Anfangsgefälles und ±${hand.percent(finShare)} der Rippendifferenz offen, und um so viel ist das Intervall breiter (${source}).`;
}

export const reasons: Phrases<ReasonSayings, Hand> = {
  "strength-sound": ({ estimate, margin }, hand) =>
    `Kühlleistung ${hand.value(estimate)} des Bezugs (${hand.interval(estimate)}): Das ganze Intervall liegt über den ${limit(margin, hand)}, die noch als gut gelten.`,
  "strength-weak": ({ estimate, margin }, hand) =>
    `Kühlleistung ${hand.value(estimate)} des Bezugs (${hand.interval(estimate)}): Das ganze Intervall liegt unter den ${limit(margin, hand)}, die noch als gut gelten.`,
  "strength-undecided": ({ estimate, margin }, hand) =>
    `Kühlleistung ${hand.value(estimate)} des Bezugs (${hand.interval(estimate)}): Das Intervall reicht über ${limit(margin, hand)} hinweg, das Mindeste für gut; gut und schwach sind also beide möglich.`,
  "strength-unbelievable": ({ estimate }, hand) =>
    `Kühlleistung ${hand.value(estimate)} des Bezugs (${hand.interval(estimate)}): So viel besser als in einem Lauf, der als gut bekannt war, kühlt keine Energiequelle. Vielleicht sind Fühler vertauscht oder seither versetzt, oder die Bezugsläufe sind von einem anderen Kühlschrank oder aus einer schlechten Nacht.`,
  "stopped-for-good": ({ estimate, unixMs }, hand) =>
    `Bis ${hand.moment(unixMs)} kühlte sie mit ${hand.value(estimate)} der Leistung des Bezugs (${hand.interval(estimate)}); dann hörte sie auf, und die Kühlung kam nicht wieder. Solange nicht klar ist, warum, gilt sie nicht als gut.`,
  "compared-with-source": ({ other }) =>
    `Zu dieser Energiequelle gibt es keinen Bezugslauf, also wird sie mit ${bareSource(other)} verglichen, jede nach der Wärme, die sie bekommt. Was alle gemeinsam haben (Aufstellung, Kühlaggregat, Belüftung), ist so nicht zu sehen.`,
  "witnesses-apart-among-sources": ({ other, finRatio, slopeRatio }, hand) =>
    `Nach den Rippen kühlt sie mit ${hand.percent(finRatio)} von ${bareSource(other)}, nach dem Anfangsgefälle mit ${hand.percent(slopeRatio)}: Ein Fühler, der dazwischen verrutscht ist, Reif oder warme Ware machen das eine oder das andere falsch, also schließt das Intervall beide ein.`,
  "weak-among-sources": ({ estimate, margin }, hand) =>
    `Sie kühlt mit ${hand.value(estimate)} der Leistung, die die stärkste andere Energiequelle erwarten lässt (${hand.interval(estimate)}): Das ganze Intervall liegt unter den ${limit(margin, hand)}, die noch als gut gelten.`,
  "low-among-sources": ({ estimate, margin }, hand) =>
    `Sie kühlt mit ${hand.value(estimate)} der Leistung, die die stärkste andere Energiequelle erwarten lässt (${hand.interval(estimate)}): weniger, als ihre Wärme erklärt; ob um mehr als die zulässigen ${hand.percent(margin)}, ist offen.`,
  "not-weak-among-sources": ({ estimate }, hand) =>
    `Sie kühlt mit ${hand.value(estimate)} der Leistung, die die stärkste andere Energiequelle erwarten lässt (${hand.interval(estimate)}). Das macht sie nicht schwach, beweist aber auch nicht, dass sie gut ist; das kann nur ein Bezugslauf.`,
  "another-night-decides": () =>
    `Ein weiterer Lauf mit dieser Energiequelle würde das Intervall verkleinern; ${safeHabit}.`,
  "wait-until": ({ unixMs, hours }, hand) =>
    `Kein Urteil vor ${hand.moment(unixMs)}, also ${hand.span(hours)} nach Beginn des Abschnitts; ${safeHabit}.`,
  "cannot-tell": ({ why }, hand) => {
    // The same dispatch as `say`, which stands above this folder.
    const phrase = unknowns[why.code] as (values: UnknownSaying, hand: Hand) => string;
    return `Hier gibt es keine Kühlleistung. ${phrase(why, hand)}`;
  },
  "no-baseline": ({ source }) =>
    `Zum Vergleich gibt es keinen Bezugslauf ${onSource(source)} und daher keine Kühlleistung: Er würde eine schwache Energiequelle von einem Hitzetag oder einem vollen Kühlschrank unterscheiden.`,
  "baseline-one-run": (values, hand) =>
    `Nur ${runs(values.runs, hand)} zum Vergleich, also ist das Intervall breit; jeder weitere macht es schmaler.`,
  "cold-began": ({ onsetUnixMs, minutes, source }, hand) =>
    `Kältebeginn ${hand.clock(onsetUnixMs)}, ${hand.span(minutes / 60)} nach ${startingOf(source)}.`,
  "onset-later": ({ shift }, hand) =>
    `Kältebeginn ${hand.value(shift)} später als in den Bezugsläufen (${hand.interval(shift)}), wie wenn der Kocher zu wenig Wärme bekommt.`,
  "onset-earlier": ({ shift }, hand) =>
    `Kältebeginn früher als in den Bezugsläufen (Unterschied ${hand.brief(shift)}), wie in wärmerer Luft.`,
  "onset-as-usual": ({ shift }, hand) => `Kältebeginn wie in den Bezugsläufen (Unterschied ${hand.brief(shift)}).`,
  "no-cold-yet": ({ hours }, hand) =>
    `Nach ${hand.span(hours)} noch keine Kälte. Manche Kühlschränke starten langsam: Erst nach 4\u00a0h heißt das, dass er nicht kühlt.`,
  "not-cooling": ({ finDifference, hours }, hand) =>
    `Nach ${hand.span(hours)} sind die Rippen ${kelvin(finDifference, hand)} kälter als die Kühlraumluft, und der Kühlraum ist nicht kälter, als es seine Umgebung erklärt: Er kühlt nicht.`,
  "fins-tell": ({ finDifference, baseline, ratio }, hand) =>
    `Gegen Ende des Abschnitts sind die Rippen ${hand.value(finDifference)} kälter als die Kühlraumluft (${hand.interval(finDifference)}), in den Bezugsläufen ${hand.brief(baseline)}. Das sind ${hand.brief(ratio)} des Bezugs.`,
  "slope-tells": ({ slope, baseline, ratio }, hand) =>
    `Von Umgebungstemperatur aus würde der Kühlraum um ${hand.value(slope)} fallen (${hand.interval(slope)}), in den Bezugsläufen um ${hand.brief(baseline)}. Das sind ${hand.brief(ratio)} des Bezugs.`,
  "fins-alone": () => "Die Kühlleistung beruht allein auf der Rippendifferenz; sie steigt mit deren 1,36-ter Potenz.",
  "slope-alone": () => "Die Kühlleistung beruht allein auf dem Anfangsgefälle.",
  "cabinet-probe-slow": ({ kelvin: lag, side }, hand) =>
    `Ausgeschaltet liegen die Rippen ${side === "here" ? "hier" : "in den Bezugsläufen"} um ${kelvin(lag, hand)} weiter über dem Kühlraumfühler als ${side === "here" ? "in den Bezugsläufen" : "hier"}, und nichts heizt sie: Dieser Fühler antwortet spät, wie in einer Flasche oder zwischen Ware. Dadurch wirken die Rippen kälter und das Gefälle flacher, und das Intervall ist zu der Seite offen, die das verdeckt.`,
  "load-unseen": ({ share }, hand) =>
    `Ohne Rippen zum Vergleich sieht warm eingeräumte Ware wie eine schwächere Energiequelle aus, also reicht das Intervall um ${hand.percent(share)} weiter nach oben. Ein Verdampferfühler oder zwei Stunden Wiedererwärmen würden das ausschließen.`,
  "fall-bent": ({ share }, hand) =>
    `Das Gefälle beginnt steiler als in den Bezugsläufen und lässt früher nach, wie bei kalt Eingeräumtem oder einem Leck: Der Anfang muss nicht von der Energiequelle stammen, also reicht das Intervall um ${hand.percent(share)} weiter nach unten. Ein Verdampferfühler würde es zeigen.`,
  "began-cold": ({ kelvin: colder, side }, hand) =>
    `Als das erste Heizen begann, lag der Kühlraum ${side === "here" ? "hier" : "in den Bezugsläufen"} um ${kelvin(colder, hand)} weiter unter der Umgebung als ${side === "here" ? "in den Bezugsläufen" : "hier"}, wie bei kalt Eingeräumtem. Die Luft fällt dann schneller, als die Energiequelle es bewirkt, und das Intervall ist zu der Seite offen, die das verdeckt.`,
  "load-unseen-before": ({ share }, hand) =>
    `Ware, die davor warm eingeräumt war, sähe wie eine damals schwächere Energiequelle aus, also reicht das Intervall um ${hand.percent(share)} weiter nach unten.`,
  "rate-constants": ({ rate, baseline, hours }, hand) =>
    `Abkühlkonstante ${hand.brief(rate)}, Bezug ${hand.brief(baseline)}, beide über ${hand.span(hours)} ab Kältebeginn.`,
  "rate-constant-alone-misleads": () =>
    "Die Abkühlkonstante allein führt in die Irre: Ein Brenner, der zu wenig Gas bekommt, senkt sie nur um etwa ein Zehntel.",
  "rate-constant-raised": () =>
    "Eine gestiegene Abkühlkonstante sagt nichts über die Wärme: Eine undichte Türdichtung und warme Ware heben sie, der Kühlraum pendelt sich früher und wärmer ein.",
  "room-shares": ({ ventShare }, hand) =>
    `Als Umgebung gelten zu ${hand.percent(ventShare)} die Luft am unteren Lüftungsgitter und zu ${hand.percent(1 - ventShare)} der Raum, so wie der Kasten sie spürt (gängige Praxis, ohne Quelle).`,
  "witnesses-agree": ({ finRatio, slopeRatio }, hand) =>
    `Die beiden Zeugen der Kühlleistung stimmen überein, die Bedingungen berücksichtigt: ${hand.percent(finRatio)} des Bezugs nach den Rippen (die Leistung steigt mit der 1,36-ten Potenz ihrer Differenz), ${hand.percent(slopeRatio)} nach dem Anfangsgefälle.`,
  "witnesses-disagree": ({ finRatio, slopeRatio }, hand) =>
    `Die beiden Zeugen der Kühlleistung widersprechen sich, die Bedingungen berücksichtigt: ${hand.percent(finRatio)} des Bezugs nach den Rippen (die Leistung steigt mit der 1,36-ten Potenz ihrer Differenz), ${hand.percent(slopeRatio)} nach dem Anfangsgefälle.`,
  "explained-by-seal": ({ ratio }, hand) =>
    `Die Rückerwärmung läuft mit ${hand.value(ratio)} des üblichen Tempos ab (${hand.interval(ratio)}): Kälte entweicht, wie durch eine undichte Türdichtung.`,
  "explained-by-load": ({ ratio }, hand) =>
    `Die Rückerwärmung läuft mit ${hand.value(ratio)} des üblichen Tempos ab (${hand.interval(ratio)}): Es war mehr zu kühlen als in den Bezugsläufen, wie bei warmer Beladung.`,
  "explained-by-lamp": ({ kelvin: lift }, hand) =>
    `Ausgeschaltet würde sich der Kühlraum ${kelvin(lift, hand)} über der Umgebung einpendeln: Etwas darin gibt Wärme ab, wie eine Lampe, die anbleibt. Das bremst die Abkühlung und nicht die Rippen, also sprechen die Rippen.`,
  "seal-suspected": ({ ratio }, hand) =>
    `Ausgeschaltet erwärmt sich der Kühlraum mit ${hand.value(ratio)} des üblichen Tempos (${hand.interval(ratio)}): Sehen Sie auch nach der Türdichtung.`,
  "load-suspected": ({ ratio }, hand) =>
    `Ausgeschaltet erwärmt sich der Kühlraum mit ${hand.value(ratio)} des üblichen Tempos (${hand.interval(ratio)}): Es war mehr darin als in den Bezugsläufen.`,
  "load-not-ruled-out": () =>
    "Nur das Anfangsgefälle ist niedrig, während die Rippen wie üblich kühlen: So sähe auch warm Eingeräumtes aus, also reicht das Intervall vom einen Zeugen bis zum anderen.",
  "frost-or-moved-probe": () =>
    "Reif auf den Rippen oder ein Verdampferfühler, der anders sitzt als in den Bezugsläufen, würde das erklären, und dann stimmt das Gefälle; ebenso ein Kühlraumfühler zu nah an den Rippen, Sonne oder warme Luft am Umgebungsfühler, kalt Eingeräumtes oder warme Ware in den Bezugsläufen, und dann stimmen die Rippen. Das Intervall reicht von einem Zeugen zum anderen.",
  "two-modes": () =>
    "Eine einzelne Exponentialkurve lässt in den Abweichungen ein Muster übrig, weil der Inhalt träger ist als die Luft; die Zahlen dienen dem Vergleich mit gleich langen Abschnitten der Bezugsläufe, nicht als Eigenschaften des Kühlschranks.",
  "supply-low": ({ volts, ratedVolts }, hand) =>
    `Die Versorgung gab ${hand.quantity(volts, "V", 1)} statt der Nennspannung von ${hand.quantity(ratedVolts, "V", 1)}: ${hand.percent((volts / ratedVolts) ** 2)} der Wärme.`,
  "supply-referred": ({ volts, baselineVolts, factor }, hand) =>
    `Versorgung ${hand.quantity(volts, "V", 1)}, in den Bezugsläufen ${hand.quantity(baselineVolts, "V", 1)}: Das herauszurechnen ${byFactor(factor, hand)}.`,
  "ambient-referred": ({ ambient, baselineAmbient, factor }, hand) =>
    `Umgebung ${celsius(ambient, hand)}, in den Bezugsläufen ${celsius(baselineAmbient, hand)}: Das herauszurechnen ${byFactor(factor, hand)}.`,
  "start-referred": ({ belowAmbient, baselineBelowAmbient, factor }, hand) =>
    `Start ${besideAmbient(belowAmbient, hand)}, in den Bezugsläufen ${besideAmbient(baselineBelowAmbient, hand)}: Das herauszurechnen ${byFactor(factor, hand)}.`,
  "offset-from-settled": ({ kelvin: offset }, hand) =>
    `Die eigene Abweichung der Fühler, ${hand.quantity(offset, "K", 2)} in einem eingependelten Teil, ist von der Rippendifferenz abgezogen.`,
  "offset-unknown": ({ tolerance }, hand) =>
    `Kein eingependelter Teil zeigt die eigene Abweichung der Fühler; sie wird mit 0 ± ${kelvin(tolerance, hand)} angesetzt.`,
  // Told of gas, and of a source nobody named, never without what not to do.
  "flame-out": ({ unixMs, minutes, source }, hand) => {
    const when = `um ${hand.clock(unixMs)} für ${hand.span(minutes / 60)}`;
    if (isElectric(source)) {
      return `Die Wärme scheint ${when} ausgefallen zu sein; das Urteil gilt für den Teil davor.`;
    }
    const what =
      source === "gas"
        ? `Die Flamme scheint ${when} erloschen gewesen zu sein`
        : `Die Flamme oder die Versorgung scheint ${when} ausgefallen zu sein`;
    return `${what}; das Urteil gilt für den Teil davor. Von hier aus nicht wieder zünden und nicht hineineilen; bei Gasgeruch: keine Schalter betätigen, keine offene Flamme, draußen bleiben.`;
  },
  "thermostat-held": ({ source, duty }, hand) =>
    `Der Thermostat${source === "gas" ? ", oder eine Flamme, die ausging und wieder gezündet wurde," : ""} bremste und heizte nur ${hand.percent(duty)} der Zeit; was nach Beginn des Taktens kommt, ist weggelassen.`,
  "at-least": () => "Der Thermostat bremste, also kann er mindestens so viel, vielleicht mehr.",
  "starts-settled": ({ warms }) =>
    warms
      ? "Der Kühlraum erwärmte sich von Anfang an, also zeigt dieser Abschnitt die Rippendifferenz und keine Abkühlkonstante."
      : "Der Abschnitt beginnt schon so kalt, dass zu wenig Abkühlung übrig blieb, um eine Kurve anzupassen: Er zeigt, wie weit unter der Umgebung, und die Rippendifferenz, aber keine Abkühlkonstante.",
  "switch-tells": ({ from, to, finsBefore, finsAfter, ratio }, hand) =>
    `Im kalten Zustand umgeschaltet: Unmittelbar davor, ${onSource(from)}, waren die Rippen ${kelvin(finsBefore, hand)} kälter als die Luft, danach, eingependelt ${onSource(to)}, ${kelvin(finsAfter, hand)}. Gleiche Nacht, gleicher Reif, gleiche Fühler: ${capital(onSource(to))} kühlt er mit ${hand.value(ratio)} dessen, was er ${onSource(from)} leistet (${hand.interval(ratio)}).`,
  "switch-drift": ({ drift, from }) =>
    drift === "removed"
      ? `Der Abschnitt ${onSource(from)} danach rechnet heraus, was Reif, Raum und Fühler inzwischen verschoben haben.`
      : `Was Reif, Raum und Fühler inzwischen verschieben, ist im Intervall enthalten; noch ein Abschnitt ${onSource(from)} unmittelbar danach würde es herausrechnen.`,
  "switch-cannot-see": ({ from }) =>
    `Was beide Energiequellen gemeinsam haben (Aufstellung, Kühlaggregat, Belüftung), steht auf beiden Seiten dieses Vergleichs und ist darin nicht zu sehen; auch nicht, ob ${bareSource(from)} selbst so ist, wie es sein soll.`,
  "switch-cannot-tell": ({ from, why }, hand) => {
    const phrase = unknowns[why.code] as (values: UnknownSaying, hand: Hand) => string;
    return `Die Umschaltung von ${bareSource(from)} zeigt nicht, wie sich die beiden zueinander verhalten. ${phrase(why, hand)}`;
  },
  "strength-over-switch": ({ from, to, runs: count }, hand) =>
    `Die Kühlleistung ergibt sich über die Umschaltung: Die Abkühlung ${onSource(from)} davor, mal diesem Verhältnis, wird an ${ofRuns(count, hand)} ${onSource(to)} gemessen. Was beide Energiequellen gemeinsam haben, zählt hier also mit.`,
  "source-was-found": () =>
    "Anfang und Ende dieses Abschnitts wurden aus den Kurven gefunden; niemand hat sie angegeben.",
  "whichever-source": () =>
    "Niemand hat angegeben, welche Energiequelle das war; die Bezugsläufe aller Energiequellen führen zum selben Urteil, und die Kühlleistung ist die, die es am wenigsten stützt.",
  "source-unknown": () =>
    "Niemand hat angegeben, welche Energiequelle das war, und kein Urteil gilt für jede, die es gewesen sein kann.",
  "stretches-combined": ({ stretches }, hand) =>
    `${hand.count(stretches, { one: "Abschnitt", other: "Abschnitte" })} mit dieser Energiequelle, zusammengenommen.`,
  "stretches-disagree": () =>
    "Die Abschnitte mit dieser Energiequelle weichen stärker voneinander ab, als ihre Intervalle erlauben; dazwischen hat sich etwas geändert.",
  "cool-ambient": ({ ambient }, hand) =>
    `Die Umgebung hatte nur ${celsius(ambient, hand)}: Schlechte Belüftung, die sich bei Hitze zeigt, kann unbemerkt bleiben.`,
  "offered-as-baseline": () =>
    "Dieser Lauf kann als Bezugslauf dieses Kühlschranks für nächstes Jahr aufgehoben werden.",
  "cut-to-equal-length": (values, hand) =>
    `Verglichen mit ${ofRuns(values.runs, hand)}, alle auf dieselben ${hand.span(values.hours)} ab Kältebeginn gekürzt.`,
  "late-fins-compared": (values, hand) =>
    `Verglichen mit ${ofRuns(values.runs, hand)} anhand der Rippen gegen Ende; ohne anpassbare Abkühlung gibt es keinen Kältebeginn, ab dem sich kürzen ließe.`,
  "condition-one-sided": ({ condition, share }, hand) =>
    `${conditionNames[condition]}: nur auf einer Seite angegeben; das lässt ±${hand.percent(share)} offen, und um so viel ist das Intervall breiter.`,
  "supply-untold": ({ source, share }, hand) =>
    `Die Spannung ${onSource(source)} ist nirgends angegeben, und Netze schwanken von Nacht zu Nacht: Das allein lässt ±${hand.percent(share)} offen. Mit einer Spalte „supply“ in den Protokollen oder der Spannung auf den Laufblättern entfiele das.`,
  "condition-differs": (differing, hand) => `${conditionPair(differing)}. ${whatItLeaves(differing, hand)}`,
  "gas-referred": ({ heat, factor, share }, hand) =>
    `Gasart, Gasdruck und Höhenlage geben dem Brenner ${hand.percent(heat)} der Wärme der Bezugsläufe: Das herauszurechnen ${byFactor(factor, hand)} und lässt ±${hand.percent(share)} offen.`,
  "conditions-taken-equal": ({ conditions }) =>
    `Auf keiner Seite angegeben und als gleich angenommen: ${list(conditions.map((condition) => conditionNames[condition]))}.`,
  "settled-from": ({ stretches, belowAmbient, ambient }, hand) =>
    `Eingependelt hat er sich ${kelvin(belowAmbient, hand)} unter einer Umgebung von ${celsius(ambient, hand)}, in ${hand.count(stretches, { one: "Abschnitt", other: "Abschnitten" })}.`,
  "settled-projected": ({ belowAmbient, ambient }, hand) =>
    `Eingependelt hat er sich noch nicht; die angepasste Kurve würde bei ${celsius(ambient, hand)} Umgebung ${kelvin(belowAmbient, hand)} darunter enden.`,
  "slope-default": ({ kelvinPerKelvin, standardError }, hand) =>
    `Für heißere Tage wird angenommen, dass sich die Tiefe um ${hand.number(kelvinPerKelvin, 2)} ± ${hand.number(standardError, 2)}\u00a0${hand.unit("K")} pro ${hand.unit("K")} Umgebung ändert; dieser Ersatzwert gilt, bis die Läufe dieses Kühlschranks es selbst zeigen.`,
  "usual-depth": ({ belowAmbient, ambient, low, good, side }, hand) => {
    const where = {
      above: "das ist so tief, wie ein intakter Kühlschrank kommt, oder tiefer",
      below: "das ist weniger, als ein intakter Kühlschrank erreicht",
      across: "das liegt etwa dort, wo intakte Kühlschränke anfangen",
    }[side];
    return `Dahinter steht kein Bezugslauf, nur das Übliche: ${kelvin(belowAmbient, hand)} unter ${celsius(ambient, hand)}, ${where}; üblich sind mindestens ${hand.range(hand.figure(low, "K", 0), hand.quantity(25, "K", 0))}, bei einem guten ${hand.range(hand.figure(good, "K", 0), hand.quantity(30, "K", 0))} (gängige Praxis, ohne Quelle).`;
  },
  "usual-depth-cannot-see": () =>
    "Das trennt schwache Kühlung nicht von undichter Türdichtung, Beladung oder heißen Lüftungsgittern, und ein Kühlschrank, der ein Fünftel seiner Kühlung verloren hat, kann noch im üblichen Bereich liegen.",
  extrapolated: ({ fromAmbient, toAmbient }, hand) =>
    `Aufgezeichnet wurde bei ${celsius(fromAmbient, hand)}; ${hand.quantity(toAmbient, "Cel", 0)} liegen außerhalb davon.`,
};
