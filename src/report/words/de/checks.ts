// German: what to check next. Their cautions, minutes and the causes they tell apart belong to
// src/science/causes/next-checks.ts, so that no face can show one without the other.

import type { CheckCode } from "../../../science/index.ts";

interface CheckWords {
  readonly title: string;
  readonly text: string;
}

export const checks: { readonly [C in CheckCode]: CheckWords } = {
  "clean-flue-and-burner": {
    title: "Flamme, Abgasrohr und Brenner ansehen und reinigen lassen",
    text:
      "Gasventil zu, alle Energiequellen aus, Kocher kalt. Ein für Gas zugelassener Fachbetrieb nimmt die Abgaswendel heraus, bürstet das Abgasrohr aus, " +
      "reinigt den Brenner und tauscht die Düse (eine Düse wird nie durchstochen). Die Flamme soll danach klein, ruhig und blau sein. " +
      "Wiederholen Sie denselben Lauf auf Gas unter Aufsicht: Ist die Kühlleistung wieder da, war es eines davon.",
  },
  "measure-gas-pressure": {
    title: "Gasdruck bei laufendem Brenner messen lassen",
    text:
      "Ein zugelassener Fachbetrieb misst ihn am Prüfstutzen des Geräts und vergleicht ihn mit dem Typenschild, einmal mit dem Kühlschrank allein und einmal, " +
      "während die anderen Gasgeräte brennen. Notieren Sie Gasart und Druck auf dem Laufblatt. Zu niedriger Druck deutet auf Flasche, Druckregler oder Schlauch, " +
      "richtiger Druck auf Düse, Brenner oder Abgasrohr.",
  },
  "measure-element": {
    title: "Heizpatrone messen lassen",
    text:
      "Von jeder Versorgung getrennt und kalt: Eine Elektrofachkraft misst Widerstand und Isolation gegen Erde. Nennspannung im Quadrat durch Nennleistung " +
      "ergibt die Ohm, auf etwa 10\u00a0% genau. Unterbrochen oder weit daneben: die Heizpatrone; richtig: Versorgung, Stecker und Steuerung ansehen.",
  },
  "measure-supply-voltage": {
    title: "Spannung am Kühlschrank messen, während er heizt",
    text:
      "Auf 12\u00a0V an den Klemmen der Heizpatrone, nicht an der Batterie; auf 230\u00a0V am zugelassenen Zwischenstecker-Messgerät. Die Wärme geht mit dem Quadrat " +
      "der Spannung: 10\u00a0% zu wenig sind 19\u00a0% weniger Wärme. Am Kühlschrank zu niedrig und an der Quelle richtig: Kabel, Sicherung oder Stecker. Tragen Sie den " +
      "Wert ins Laufblatt ein, dann rechnet die nächste Auswertung damit.",
  },
  "check-level": {
    title: "Prüfen, ob der Kühlschrank waagerecht steht",
    text:
      "Mit der Wasserwaage innen, auf dem Boden des Gefrierfachs oder auf der Verdampferplatte, in beiden Richtungen: bei älteren Geräten höchstens etwa 2 bis 3\u00a0Grad, " +
      "bei neueren 3 quer und 6 längs, oder was der Hersteller angibt. Fahrzeug waagerecht stellen, eine Stunde ausschalten, den Lauf wiederholen.",
  },
  "fan-at-rear": {
    title: "Zwei Stunden lang einen Lüfter hinten aufstellen, auf Strom",
    text:
      "Während der Kühlschrank auf Strom läuft (ein Lüfter stört Gasflamme und Abgasrohr), zieht ein kleiner Lüfter 2\u00a0h lang Luft nach oben über " +
      "den Verflüssiger, und das Protokoll läuft mit. Werden die Rippen deutlich kälter, liegt es an der Luft hinter dem Kühlschrank: Lüftungsgitter, Spalte, " +
      "Luftleitbleche, Isolierung, Sonne auf den Lüftungsgittern.",
  },
  "paper-test-of-seal": {
    title: "Papierstreifen durch die Türdichtung ziehen",
    text:
      "Ein in der Tür eingeklemmter Papierstreifen soll sich ringsum nur mit leichtem Widerstand ziehen lassen. Wo er herausrutscht, die Dichtung reinigen oder richten und " +
      "nach einer verzogenen Tür oder einem ausgeschlagenen Scharnier sehen. Danach die Rückerwärmung noch einmal aufzeichnen: Sie unterscheidet Undichtheit von Beladung.",
  },
  "wait-for-load": {
    title: "Leer wiederholen, oder beladen wie in den Bezugsläufen",
    text:
      "Warm eingeräumte Lebensmittel oder Flaschen bremsen die Abkühlung, ohne dass etwas defekt ist; kalt eingeräumt beschleunigen sie sie. Tragen Sie die Beladung ins Laufblatt ein. Kühlt der " +
      "nächste Lauf, leer oder mit derselben Beladung so warm oder kalt wie damals, wie die Bezugsläufe, war alles in Ordnung.",
  },
  "check-lamp": {
    title: "Nachsehen, ob die Lampe mit der Tür ausgeht",
    text:
      "Lassen Sie innen eine Kamera oder ein Telefon filmen und schließen Sie die Tür, oder drücken Sie den Türschalter von Hand. Ein paar Watt Lampe sind ein guter Teil dessen, " +
      "was so ein Kühlschrank abführen kann. Die Lampe kann heiß sein.",
  },
  "seat-probes": {
    title: "Nachsehen, wo die Fühler sitzen",
    text:
      "Verdampferfühler flach auf der Rippe, auf der er in den Bezugsläufen saß, Kühlraumfühler frei hängend auf halber Höhe, Umgebungsfühler in der Luft, die ins untere " +
      "Lüftungsgitter einströmt, im Schatten und weg vom Abgasrohr. Nur Klammern oder Klebeband. Alle drei zehn Minuten an einem Ort zeigen, wie sie selbst voneinander abweichen.",
  },
  defrost: {
    title: "Abtauen, dann wiederholen",
    text:
      "Reif auf den Rippen hält die Kälte von der Luft fern. Ausschalten, Tür auf, von selbst abtauen lassen: kein Kratzwerkzeug, keine " +
      "Flamme, keine Heißluftpistole. Trockenwischen und den Lauf wiederholen.",
  },
  "record-known-good": {
    title: "Einen Bezugslauf aufzeichnen",
    text:
      "Solange der Kühlschrank bekanntermaßen in Ordnung ist, nach einer Wartung oder im Neuzustand, zeichnen Sie jede Energiequelle vom kalten Kocher an 4\u00a0h, besser " +
      "7\u00a0h lang auf: nachts nur auf Strom, Gas nur unter Aufsicht, Fühler an denselben Stellen, Laufblatt ausgefüllt. Ein Lauf hilft, drei machen das Intervall brauchbar. " +
      "Dann kann die nächste Auswertung eine Kühlleistung angeben und eine schwache Energiequelle von einem Hitzetag unterscheiden.",
  },
  "record-longer": {
    title: "Das Protokoll länger laufen lassen",
    text:
      "Vom kalten Kocher an lässt sich in der ersten halben Stunde nichts sagen; die Rippen sprechen nach 2\u00a0h, Abkühlkonstante und Tiefe nach " +
      "4\u00a0h, besser 7\u00a0h. Tür zulassen, Regler nicht verstellen. Nachts nur auf Strom, Gas nur unter Aufsicht.",
  },
  "sort-the-log": {
    title: "Die Zeilen des Protokolls in zeitliche Reihenfolge bringen",
    text:
      "Sortieren Sie sie nach ihrer Zeit und werten Sie neu aus. Wurde während des Laufs die Uhr gestellt oder sind Tag und Monat vertauscht, berichtigen Sie zuerst die Zeiten; bei einem " +
      "fremden Protokoll sagt die Zuordnung, wie seine Zeiten geschrieben sind. Zeiten, die niemand berichtigen kann, bedeuten einen neuen Lauf.",
  },
  "say-the-source": {
    title: "Angeben, welche Energiequelle an war",
    text:
      "Geben Sie für jedes Umschalten die Zeit und die neue Energiequelle an, mit --source-at ZEIT=QUELLE oder als Spalte source im Protokoll, und werten Sie neu aus; " +
      "zu einem Lauf im Speicher mit „coldfall source QUELLE --fridge NAME --run LAUF --at ZEIT“: Eine " +
      "Kühlleistung gibt es nur gegenüber Bezugsläufen mit derselben Energiequelle.",
  },
  "exchange-probes": {
    title: "Die Spalten evaporator und cabinet tauschen, falls die Fühler vertauscht waren",
    text:
      "Sehen Sie nach, welcher Fühler auf den Rippen sitzt und welcher in der Kühlraumluft hängt. Sind sie vertauscht, tauschen Sie die Namen evaporator und cabinet in der ersten Zeile " +
      "des Protokolls oder in seiner Zuordnung und werten Sie neu aus; für den nächsten Lauf setzen Sie die Fühler richtig. Sind sie es nicht, halten Sie beide zehn Minuten an einen Ort: Einer misst falsch.",
  },
  "add-ambient-probe": {
    title: "Einen Umgebungsfühler hinzunehmen und wiederholen",
    text:
      "Ein dritter Fühler in der Luft, die ins untere Lüftungsgitter einströmt, im Schatten und weg von allem Warmen; im Protokoll heißt seine Spalte ambient. Die Abkühlung wird gegen " +
      "diese Luft angepasst, ohne ihn ergeben auch viele Stunden keine Kühlleistung.",
  },
  "record-another-night": {
    title: "Einen weiteren Lauf mit dieser Energiequelle aufzeichnen",
    text:
      "Wärme und Wetter sind von Lauf zu Lauf verschieden; zwei Läufe entscheiden, was einer offen lässt. Fühler an denselben Stellen, gleiche Beladung, gleiche Reglerstellung. " +
      "Nachts nur auf Strom; auf Gas am Tag und unter Aufsicht.",
  },
  "prove-heat-in-watts": {
    title: "Nachweisen, dass die Heizpatrone ihre Watt aufnimmt",
    text:
      "Auf 230\u00a0V die Watt am zugelassenen Zwischenstecker-Messgerät ablesen, auf 12\u00a0V Volt und Ampere am Kühlschrank mit der Stromzange. Volle Watt und keine Kälte deuten " +
      "auf Kühlaggregat, Schräglage oder Belüftung; wenige Watt auf Heizpatrone, Thermostat oder Versorgung.",
  },
  "ask-a-fitter": {
    title: "Das einem zugelassenen Fachbetrieb überlassen",
    text:
      "Was noch möglich ist, lässt sich durch Temperaturen nicht unterscheiden, und der nächste Schritt geht an Gas, Netzspannung oder Kühlaggregat. " +
      "Ausschalten, Gas zudrehen und diesen Bericht mit dem Protokoll übergeben.",
  },
  "why-flame-went-out": {
    title: "Herausfinden, warum die Flamme erloschen ist",
    text:
      "An Ort und Stelle, und erst wenn kein Gasgeruch da ist: Ist die Flasche leer oder ein Ventil zu? Kommt Wind an die Mündung des Abgasrohrs oder an die Lüftungsgitter? " +
      "Wenn beides nicht, sieht ein für Gas zugelassener Fachbetrieb nach der Zündsicherung, die das Gas schließt, wenn ihr Fühler keine Flamme spürt, und nach Brenner und " +
      "Abgasrohr. Solange der Grund nicht bekannt ist, sagt dieser Teil des Protokolls nichts über den Kühlschrank, und Gas bleibt nicht sich selbst überlassen.",
  },
  "why-supply-was-lost": {
    title: "Herausfinden, warum die Versorgung ausgefallen ist",
    text:
      "Auf 230\u00a0V: Zähler oder Sicherung des Platzes, FI-Schutzschalter (RCD), Stecker, Leitung; auf 12\u00a0V: Sicherung, Relais, ein abgeschaltetes Ladegerät oder ein abgestellter Motor. Sehen Sie auch nach, ob der " +
      "Überhitzungsschutz oder die Steuerung des Kühlschranks abgeschaltet hat: Dann sucht eine Elektrofachkraft den Grund, bevor er zurückgestellt wird. Ein Kühlschrank, der seine " +
      "Energiequelle selbst wählt, kann inzwischen auf Gas übergegangen sein.",
  },
  "dial-to-coldest": {
    title: "Regler auf die kälteste Stellung drehen und wiederholen",
    text:
      "Solange der Thermostat den Kühlschrank bremst, zeigt das Protokoll nur „mindestens so stark“. In der kältesten Stellung muss er alles zeigen, was er " +
      "kann. Tragen Sie die Stellung ins Laufblatt ein und drehen Sie den Regler danach zurück.",
  },
};
