// German: what is said of hot days and trips.

import type { EnergySource, HeatSource, Phrases } from "../../../schema/index.ts";
import type { HotDayAdviceCode, HotDayReasonSayings, StartKind } from "../../../science/hot-days/index.ts";
import type { Estimate } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { capital } from "../phrasing.ts";
import type { Settling } from "../settling.ts";
import { bareSource, onSource, startingOf } from "./names.ts";
import { unknowns } from "./unknowns.ts";

const celsius = (value: number, hand: Hand, decimals = 0) => hand.quantity(value, "Cel", decimals);
const kelvin = (value: number, hand: Hand, decimals = 0) => hand.quantity(value, "K", decimals);
/** How the depth changes with the ambient: the same number in every degree. */
const slope = (perDegree: number, standardError: number, hand: Hand) =>
  `${hand.number(perDegree, 2)} ± ${hand.number(standardError, 2)}\u00a0${hand.unit("K")} pro ${hand.unit("K")}`;
const startsFrom: { readonly [K in StartKind]: string } = {
  stated: "wie angegeben",
  "last-reading": "der letzte Messwert des neuesten Protokolls",
  settled: "eingependelt, nach einem Tag wie dem ersten der Reise",
  ambient: "so warm wie die Umgebung der ersten Zeile: Nichts sagt, dass er kalt war",
};

const reasons: Phrases<HotDayReasonSayings, Hand> = {
  "runs-settled": ({ stretches, belowAmbient, ambient }, hand) =>
    `${hand.count(stretches, { one: "Abschnitt zeigt", other: "Abschnitte zeigen" })}, wie tief er sich einpendelt: im Mittel ${kelvin(belowAmbient, hand, 1)} unter einer Umgebung von ${celsius(ambient, hand)}.`,
  "slope-of-its-own": ({ perKelvin, standardError }, hand) =>
    `Die eigenen Läufe dieses Kühlschranks sagen, wie die Tiefe mit der Umgebung geht: ${slope(perKelvin, standardError, hand)} an gewöhnlichen Tagen.`,
  "slope-usual": ({ perKelvin, standardError }, hand) =>
    `Es gibt zu wenige Läufe, oder sie liefen bei zu ähnlicher Umgebung, um zu zeigen, wie sich die Tiefe mit der Umgebung ändert; dafür steht ein Ersatzwert, ${slope(perKelvin, standardError, hand)} an gewöhnlichen Tagen.`,
  "bends-when-hot": ({ fromAmbient }, hand) =>
    `Über ${celsius(fromAmbient, hand)} lässt die Kühlung, so die Annahme, immer schneller nach, wie bei Absorberkühlschränken üblich (gängige Praxis, ohne Quelle), mit eigener Unsicherheit.`,
  "cold-runs-left-out": ({ runs, below }, hand) =>
    `${hand.count(runs, { one: "Abschnitt", other: "Abschnitte" })} unter ${celsius(below, hand)} Umgebung: Sie beweisen, dass gekühlt wird, bleiben aber außen vor, weil sie nichts über Hitzetage sagen.`,
  "exhaust-on-probe": ({ stretches, error }, hand) =>
    `In ${hand.count(stretches, { one: "Abschnitt", other: "Abschnitten" })} stieg der Umgebungsfühler mit dem Heizen, wie in der warmen Abluft des Kühlschranks. Das wird abgezogen, auf ${hand.quantity(2 * error, "K", 1)} genau; hängen Sie den Fühler in die Luft, die in das untere Lüftungsgitter einströmt, und messen Sie noch einmal.`,
  "dial-held": ({ estimate }, hand) =>
    `Der Regler hielt den Kühlraum bei ${hand.brief(estimate)}; kälter wird er nicht vorhergesagt.`,
  "from-duty": () =>
    "Wo der Thermostat taktete, bevor sich die Kurve anpassen ließ, ist die volle Kühlung aus dem Heizanteil errechnet, mit großem Fehler.",
  "beyond-runs": ({ coolest, warmest, ambient }, hand) =>
    coolest === warmest || Math.round(coolest) === Math.round(warmest)
      ? `Aufgezeichnet wurde bei ${celsius(warmest, hand)} Umgebung; ${hand.degrees(ambient)} liegen außerhalb davon, dieser Teil ist also von dort fortgeschrieben.`
      : `Aufgezeichnet wurde bei ${hand.range(hand.figure(coolest, "Cel", 0), celsius(warmest, hand))} Umgebung; ${hand.degrees(ambient)} liegen außerhalb davon, dieser Teil ist also von dort fortgeschrieben.`,
  "starts-at": ({ celsius: value, from, withGoods }, hand) =>
    `Die Reise beginnt mit dem Kühlraum bei ${celsius(value, hand)}: ${startsFrom[from]}${withGoods ? ", und dann die eingeräumte Ware" : ""}.`,
  "boiler-from": ({ cold }) =>
    cold ? "Der Kocher gilt am Anfang als kalt." : "Der Kocher gilt am Anfang als heiß, das Kühlaggregat als laufend.",
  "rate-usual": ({ source, perHour }, hand) =>
    `Wie schnell er ${onSource(source)} kühlt, sagt kein Lauf; dafür stehen übliche ${hand.number(perHour, 2)} pro Stunde, mit großem Fehler.`,
  "warming-usual": ({ perHour }, hand) =>
    `Wie schnell er sich ausgeschaltet erwärmt, sagt kein Lauf; dafür stehen übliche ${hand.number(perHour, 2)} pro Stunde, mit großem Fehler.`,
  "sun-allowed": ({ kelvin: warmer, standardError, hours }, hand) =>
    `Für ${hand.span(hours)} Sonne auf den Lüftungsgittern oder der Wand hinter dem Kühlschrank wird die Umgebung ${hand.figure(warmer, "K", 0)} ± ${kelvin(standardError, hand)} wärmer angesetzt (gängige Praxis, ohne Quelle).`,
  "driving-allowed": ({ share, hours }, hand) =>
    `Für ${hand.span(hours)} Fahrt kann die Tiefe ${hand.percent(share)} größer oder kleiner sein: Fahrtwind an den Lüftungsgittern und ein schwankender Kühlschrank (gängige Praxis, ohne Quelle).`,
  "load-allowed": ({ kilograms, celsius: warm, ownShare }, hand) =>
    `Am Anfang werden ${hand.number(kilograms, Number.isInteger(kilograms) ? 0 : 1)}\u00a0kg Ware mit ${celsius(warm, hand)} eingeräumt. Mit 3,7\u00a0kJ/(kg\u00a0K) (zwischen den Werten von ASHRAE, abgedruckt in NZIFST Unit Operations, Anhang 7) machen sie etwa ${hand.percent(1 - ownShare)} von allem aus, was zu kühlen ist, und bremsen um ebenso viel; die eigene Wärmekapazität des Kühlschranks ist auf etwa ein Drittel genau bekannt.`,
  "cannot-from": ({ unixMs, source, why }, hand) =>
    `Ab ${hand.moment(unixMs)} lässt sich nichts sagen, weil die Reise so weitergeht: ${onSource(source)}. ${sayWhy(why, hand)} Schreiben Sie in diese Zeilen „off“, um den schlimmsten Fall zu sehen.`,
};

/** The words of why a number is missing, which stand in unknowns.ts. */
function sayWhy(why: HotDayReasonSayings["cannot-from"]["why"], hand: Hand): string {
  // One code picks the phrase that takes exactly this saying's values; TypeScript cannot follow that.
  const phrase = unknowns[why.code] as (values: typeof why, hand: Hand) => string;
  return phrase(why, hand);
}

const advice: { readonly [A in HotDayAdviceCode]: { readonly title: string; readonly text: string } } = {
  "cool-down-on-mains": {
    title: "Vor der Abfahrt auf 230\u00a0V vorkühlen",
    text: "Lassen Sie den Kühlschrank ab dem Vorabend auf 230\u00a0V laufen, leer oder mit kalter Ware: Dann beginnt die Reise eingependelt, und jede Stunde ohne Energie kostet weniger.",
  },
  "load-cold": {
    title: "Nur einräumen, was schon kalt ist",
    text: "Warme Ware braucht in so einem Kühlschrank Stunden. Räumen Sie ein, was kalt aus dem Haushaltskühlschrank kommt, lassen Sie der Luft Platz, öffnen Sie die Tür selten.",
  },
  "gas-on-the-road": {
    title: "Einplanen, wo Gas aus sein muss",
    text: "Schreiben Sie diese Stunden in der Vorhersage als aus (oder auf 12\u00a0V), wie hier, um zu sehen, was sie kosten. Tankstellen, Fähren und Garagen zählen dazu.",
  },
  "gas-while-driving": {
    title: "Diese Reise fährt auf Gas: klären, ob das erlaubt ist",
    text: "Das entscheiden Gesetz und eingebaute Sicherheitseinrichtungen, nicht dieser Plan. Planen Sie im Zweifel für die Fahrstunden 12\u00a0V oder aus.",
  },
  "gas-at-night": {
    title: "Diese Reise läuft nachts auf Gas: stattdessen Strom einplanen",
    text: "Wählen Sie für die Nacht einen Platz mit 230\u00a0V, oder sehen Sie nach, was die Stunden ausgeschaltet kosten.",
  },
  "dc12-on-charge": {
    title: "12\u00a0V nur, während etwas lädt",
    text: "Planen Sie 12\u00a0V für Fahrstunden an einer ladenden Versorgung; das hält eher, was kalt ist, als dass es herunterkühlt (gängige Praxis, ohne Quelle).",
  },
  "shade-the-wall": {
    title: "Sonne von der Kühlschrankseite des Fahrzeugs fernhalten",
    text: "Parken Sie mit dieser Wand im Schatten, oder beschatten Sie sie mit so viel Abstand, dass die Lüftungsgitter frei bleiben. Sonne auf den Lüftungsgittern ist Wärme hinter dem Kühlschrank.",
  },
  "fan-at-the-rear": {
    title: "Luft hinter dem Kühlschrank bewegen",
    text: "Ein kleiner 12-V-Lüfter an den oberen Lamellen, so eingebaut, dass er weder auf die Flamme bläst noch das Abgasrohr versperrt, bringt bei Hitze ein paar Grad (gängige Praxis, unsicher).",
  },
  "record-hotter": {
    title: "Einen Lauf an einem heißeren Tag aufzeichnen",
    text: "Ein beaufsichtigter Lauf nahe dieser Umgebungstemperatur ersetzt, was hier fortgeschrieben ist, durch Messwerte.",
  },
  "record-empty": {
    title: "Noch einmal mit leerem Kühlschrank aufzeichnen",
    text: "Warm eingeräumte Ware verdeckt, wie tief der Kühlraum käme. Sechs Stunden leer, mit der Beladung auf dem Laufblatt, zeigen es; ein Lauf mit derselben Ware, der zwei Tage weitergeht, auch.",
  },
  "record-the-source": {
    title: "Die Energiequelle aufzeichnen, von der kein Lauf etwas sagt",
    text: "Sechs Stunden von einem kalten Kocher an, mit den Fühlern darin, und die nächste Vorhersage sagt, wie tief und wie schnell er kühlt.",
  },
};

/** Where a cabinet is against 8 °C; the sign stands for it in strips and tables. */
const marks = {
  below: { sign: "·", name: (hand: Hand) => `höchstens ${hand.degrees(8)}` },
  across: { sign: "?", name: (hand: Hand) => `kann über oder unter ${hand.degrees(8)} liegen` },
  above: { sign: "▲", name: (hand: Hand) => `über ${hand.degrees(8)}` },
  unknown: { sign: "×", name: (_hand: Hand) => "nicht zu sagen" },
};

/** G for gas, N for Netz, B for battery. */
const sourceLetters: { readonly [S in EnergySource]: string } = { gas: "G", mains: "N", dc12: "B", off: "–" };

export const hotDay = {
  reasons,
  advice,
  marks,
  sourceLetters,
  title: (logs: string) => `Coldfall an Hitzetagen: ${logs}`,
  /** The answer: whether it holds 8 °C, and where it settles. */
  settles: (ambient: number, isOfTrip: boolean, answers: readonly Settling[], hand: Hand) => {
    const dial = ({ isHeld }: Settling) => (isHeld ? ", so wie sein Regler stand" : "");
    const [outside, limit] = [
      `bei ${hand.degrees(ambient)} außen${isOfTrip ? ", dem Höchstwert der Reise," : ""}`,
      hand.degrees(8),
    ];
    const [first, ...others] = answers;
    if (others.some(({ side }) => side !== first.side)) {
      const words = { below: "ja", across: "offen", above: "nein" } as const;
      const each = answers.map(
        (one) => `${onSource(one.source)} ${words[one.side]}, bei ${hand.brief(one.settled)}${dial(one)}`,
      );
      return `Ob dieser Kühlschrank ${outside} ${limit} hält, hängt von der Energiequelle ab: ${each.join("; ")}.`;
    }
    const lead = {
      below: `${capital(outside)} hält dieser Kühlschrank ${limit}`,
      across: `Ob dieser Kühlschrank ${outside} ${limit} hält, ist offen`,
      above: `${capital(outside)} hält dieser Kühlschrank ${limit} nicht`,
    }[first.side];
    const each = [
      `${capital(onSource(first.source))} pendelt er sich bei ${hand.brief(first.settled)} ein${dial(first)}`,
      ...others.map((one) => `${onSource(one.source)} bei ${hand.brief(one.settled)}${dial(one)}`),
    ];
    return `${lead}: ${each.join("; ")}.`;
  },
  /** What the answer does not see, to stand right under it. */
  cannotSee: (topShelf: Estimate, isBeyond: boolean, hand: Hand) =>
    `Das gilt für die Luft mitten im Kühlraum bei geschlossener Tür; oberste Ablage und Tür sind ${hand.brief(topShelf)} wärmer (gängige Praxis, ohne Quelle).${
      isBeyond ? " Zum Teil liegt es außerhalb dessen, was die Läufe abdecken, und ist von dort fortgeschrieben." : ""
    }`,
  cannot: (ambient: number, source: HeatSource | null, why: string, hand: Hand) =>
    `Wie er sich bei ${hand.degrees(ambient)} außen ${onSource(source)} schlägt, lässt sich nicht sagen. ${why}`,
  tripAbove: (above: Estimate, hand: Hand) =>
    above.high !== null && above.high < 0.05
      ? `Auf dieser Reise bleibt der Kühlraum durchweg bei höchstens ${hand.degrees(8)}.`
      : `Auf dieser Reise liegt der Kühlraum ${hand.brief(above)} lang über ${hand.degrees(8)}.`,
  tripWarmest: (e: Estimate, unixMs: number, hand: Hand) =>
    `Am wärmsten ist er am ${hand.moment(unixMs)} mit ${hand.brief(e)}.`,
  tripCannot: (unixMs: number, source: EnergySource, hand: Hand) =>
    `Was die Reise ab ${hand.moment(unixMs)} bringt, lässt sich nicht sagen: Sie geht ${onSource(source)} weiter, wozu diese Protokolle keinen brauchbaren Lauf enthalten.`,

  /** "all": of the trip, or of the only source there is. */
  factsHeading: (source: HeatSource | null | "all", isNewest: boolean) =>
    source === "all" ? "In Zahlen" : `In Zahlen, ${onSource(source)}${isNewest ? " (der neueste Lauf)" : ""}`,
  facts: (hand: Hand) => ({
    settled: "eingependelt",
    belowAmbient: "unter der Umgebung",
    warmestAmbientFor8: `hält ${hand.degrees(8)} bis`,
    hoursUntil8: `von warm auf ${hand.degrees(8)}`,
    tripUntil8: { falling: `hinunter auf ${hand.degrees(8)}`, rising: `hinauf auf ${hand.degrees(8)}` },
    hoursAbove5: `über ${hand.degrees(5)}`,
    hoursAbove8: `über ${hand.degrees(8)}`,
    topShelf: "oberste Ablage, Tür",
  }),
  upTo: (e: Estimate, hand: Hand) => `${hand.value(e)} Umgebung (${hand.interval(e)})`,
  fromWarm: (e: Estimate, source: HeatSource | null, hand: Hand) =>
    `${hand.brief(e)} nach ${startingOf(source)}, alles so warm wie die Umgebung`,
  fromWarmLoaded: (e: Estimate, source: HeatSource | null, hand: Hand) =>
    `${hand.brief(e)} nach ${startingOf(source)}, der Kühlschrank so warm wie die Umgebung, mit der Ware`,
  afterStart: (e: Estimate, hand: Hand) => `${hand.brief(e)} nach dem Start`,
  ofTrip: (e: Estimate, hand: Hand) => `${hand.brief(e)} der Reise`,
  topShelfText: (e: Estimate, hand: Hand) =>
    `${hand.brief(e)} wärmer als diese Zahlen, die für den Platz des Fühlers mitten in der Kühlraumluft gelten (gängige Praxis, ohne Quelle)`,

  sourcesHeading: "Die anderen Energiequellen bei dieser Umgebung",
  otherSource: (source: HeatSource | null, e: Estimate, hand: Hand) =>
    `${capital(onSource(source))} würde er sich bei ${hand.brief(e)} einpendeln.`,
  otherCannot: (source: HeatSource | null, why: string) => `${capital(onSource(source))}: ${why}`,
  restsHeading: "Worauf das beruht",
  tripHeading: "Die Reise, Stunde für Stunde",
  classesHeading: (source: HeatSource | null) => `Klimaklassen zum Vergleich, ${onSource(source)}`,
  classesNote:
    "Umgebungsbereiche von Haushaltskühlgeräten (IEC 62552-1:2015, davor ISO 15502; in Sekundärquellen gelesen). Mobile Geräte fallen nicht unter die " +
    "Verordnung (EU) 2019/2019 (Artikel 1): zum Vergleich, nicht als Zusage.",
  classLine: (
    name: string,
    coolest: number,
    warmest: number,
    e: Estimate,
    holds: "yes" | "no" | "undecided",
    hand: Hand,
  ) =>
    `${name}, ${hand.range(hand.figure(coolest, "Cel", 0), celsius(warmest, hand))}: Bei ${celsius(warmest, hand)} außen pendelt er sich bei ${hand.brief(e)} ein; ${
      {
        yes: `${hand.degrees(8)} würden gehalten`,
        no: `${hand.degrees(8)} würden nicht gehalten`,
        undecided: `das kann über oder unter ${hand.degrees(8)} liegen`,
      }[holds]
    }.`,
  limitsHeading: "Lebensmittel: Grenzwerte zum Vergleich",
  deferLimits: "Welcher Grenzwert bei Ihnen gilt, entscheiden die örtlichen Vorschriften.",
  adviceHeading: "Was hilft",

  strip: {
    hour: "Stunde",
    on: "auf",
    outside: "außen",
    cabinet: "Kühlraum",
    against8: (hand: Hand) => `${hand.degrees(8)}?`,
    sun: "Sonne",
    driving: "Fahrt",
    sunSign: "☼",
    drivingSign: "»",
    beyondSign: "~",
    keySources: (letters: readonly string[]) => `Auf: ${letters.join(", ")}.`,
    letter: (letter: string, source: EnergySource) => `${letter} ${bareSource(source)}`,
    keyMarks: (entries: readonly string[], hand: Hand) => `Gegen ${hand.degrees(8)}: ${entries.join(", ")}.`,
    keyBeyond: "~ außen heißer oder kühler als in den Läufen, also von dort fortgeschrieben.",
    keySun: "☼ Sonne auf Lüftungsgittern oder Wand.",
    keyDriving: "» Fahrt.",
    keyUnits: (hand: Hand) => `Zahlen in ${hand.unit("Cel")}.`,
  },
  table: {
    caption: (hand: Hand) => `Die Reise Stunde für Stunde; Temperaturen in ${hand.unit("Cel")}`,
    summary: "Jede Stunde der Reise als Tabelle",
    time: "Zeit",
    on: "Energie",
    outside: "außen",
    conditions: "Sonne, Fahrt",
    cabinet: "Kühlraum",
    band: "95-%-Band",
    mark: (hand: Hand) => `gegen ${hand.degrees(8)}`,
    beyond: "außerhalb der Läufe",
    yes: "ja",
    no: "nein",
  },
  depths: {
    title: (source: HeatSource | null) => `Wie weit unter der Umgebung, über der Umgebung, ${onSource(source)}`,
    y: (hand: Hand) => `unter der Umgebung, ${hand.unit("K")}`,
    x: (hand: Hand) => `Umgebung, ${hand.unit("Cel")}`,
    lines: { points: "Läufe", law: "vorhergesagt", beyond: "fortgeschrieben" },
    caption: (hand: Hand) =>
      "Punkte sind die Läufe, ihre Fehler als senkrechte Striche; durchgezogen, was zwischen ihnen vorhergesagt ist, gestrichelt, wo es über sie hinaus fortgeschrieben ist; getönt das " +
      `95-%-Band eines weiteren Laufs. Auf oder über der strichpunktierten Linie hat der Kühlraum höchstens ${hand.degrees(8)}.`,
    holds8: (hand: Hand) => hand.degrees(8),
    asked: "gefragt",
    description: (points: string, at: string) => `${points}. ${at}`,
    point: (ambient: number, depth: number, hand: Hand) => `${kelvin(depth, hand, 1)} bei ${celsius(ambient, hand, 1)}`,
    runs: (list: string) => `Läufe: ${list}`,
    predicted: (ambient: number, e: Estimate, hand: Hand) =>
      `Vorhergesagt bei ${hand.degrees(ambient)}: ${hand.brief(e)}.`,
    tableCaption: (hand: Hand) => `Unter der Umgebung in ${hand.unit("K")}, bei voller Kühlung`,
    tableSummary: "Die Läufe und die Vorhersage als Tabelle",
    columns: (hand: Hand) => ({
      log: "Protokoll",
      ambient: `Umgebung, ${hand.unit("Cel")}`,
      depth: `unter der Umgebung, ${hand.unit("K")}`,
      band: "95-%-Band",
      from: "woher",
    }),
    from: {
      fit: "angepasste Kurve",
      settled: "eingependelt gesehen",
      duty: "Heizanteil des Thermostaten",
      predicted: "vorhergesagt",
      "carried-on": "fortgeschrieben",
    },
    ownError: (error: string) => `±\u00a0${error}`,
  },
  trip: {
    title: "Temperatur des Kühlraums während der Reise",
    lines: { cabinet: "Kühlraum", ambient: "außen" },
    hoursTitle: "Stunden nach Beginn der Reise",
    caption: (hand: Hand) =>
      `Kühlraum als durchgezogene Linie, sein 95-%-Band getönt; die Luft außen gepunktet; ${hand.degrees(5)} und ${hand.degrees(8)} als gestrichelte Linien. Darunter für jeden Zeitraum: ein leeres Kästchen, wo der ` +
      `Kühlraum höchstens ${hand.degrees(8)} hat, ein halb gefülltes, wo er darüber oder darunter liegen kann, ein volles, wo er wärmer ist, ein Kreuz, wo sich nichts sagen lässt; eine Welle unter den ` +
      `Stunden, die außerhalb der Läufe liegen; und der Kühlraum in ${hand.unit("Cel")}.`,
    goes: (from: string, warmest: string, when: string, coldest: string) =>
      `Der Kühlraum beginnt bei ${from}, ist am ${when} mit ${warmest} am wärmsten und am kältesten mit ${coldest}.`,
    nothing: "Über diese Reise lässt sich nichts sagen.",
    beyond: "außerhalb der Läufe",
  },
  roles: { log: "Protokoll", sheet: "Laufblatt", forecast: "Vorhersage" },
};
