// What a column's header text says in plain words of several languages: the position of the probe, time, source.
// A header that says nothing, or two things at once, is left for the user to tell.

import { type ColumnMeaning, type EnergySource, type Position, positions } from "../schema/index.ts";
import type { Column } from "./log-findings.ts";

/** What a header says. */
export type HeaderSays =
  | { readonly kind: "meaning"; readonly meaning: Exclude<ColumnMeaning, "none"> }
  /** Could be either. */
  | { readonly kind: "several"; readonly meanings: readonly Position[] }
  /** Something that is none of ours: humidity, a row number. */
  | { readonly kind: "other" }
  | { readonly kind: "nothing" };

/**
 * Words that name a place, each as a beginning of at least four letters, or a whole word when it is shorter or ends
 * in a full stop. English, German, French, Italian, Spanish, Dutch, Swedish, Danish, Norwegian, Polish.
 */
const places: { readonly [P in Exclude<Position, "cabinet" | "room">]: string } & { readonly cabinet: string } = {
  evaporator:
    "evaporator evap fin fins coldplate verdampfer kuehlrippe rippe rippen lamelle lamellen evaporateur ailette evaporatore alette evaporador aleta aletas verdamper koelvin koelrib vinnen foerangare fordamper parownik",
  cabinet:
    "cabinet inside interior internal indoor. innen innenraum kuehlraum kuehlfach interieur interno interna intern binnen invaendig indvendig innvendig wewnatrz wnetrze",
  ambient:
    "ambient outside outdoor outdoors exterior external intake inlet umgebung aussen zuluft ambiant exterieur esterno esterna ambiente exterior omgeving buiten utomhus omgivning udenfor utendoers otoczenie zewnatrz lowervent",
  freezer:
    "freezer icebox gefrierfach gefrier tiefkuehl eisfach congelateur congelatore congelador vriesvak vriezer diepvries frysfack fryser frysen zamrazarka",
  ventOut: "ventout uppervent topvent exhaustair exhaust. abluft entlueftung",
  flue: "flue chimney abgas kamin schornstein cheminee fumees camino fumi chimenea rookgas schoorsteen skorsten komin spaliny",
  boiler: "boiler kocher bouilleur bollitore kookpot kokare varnik",
  supply: "supply voltage volt. volts. spannung bordspannung tension. tensione voltaje spanning spaenning napiecie",
};

/** The fridge itself: its cabinet where nothing nearer is said; the fins and the vents are the fridge's too. */
const fridgeWords =
  "fridge refrigerator kuehlschrank absorber. frigo refrigerateur frigorifero frigorifico nevera koelkast kylskap koeleskab kjoeleskap lodowka";

/** The room: before the door, or what enters the lower vent; which, the word does not tell. */
const roomWords =
  "room. raum. raumtemperatur raumtemp raumluft zimmer werkstatt workshop garage piece. stanza habitacion kamer rum. pokoj";

const timeWords =
  "time timestamp datetime clock zeit zeitpunkt zeitstempel uhrzeit heure horodatage ora. orario hora. tijd tid. tidpunkt klokkeslaet czas godzina";
const dateWords = "date datum data. fecha dato. day tag. jour. giorno dia. dag. dzien";
/** The zone of each row's time. */
const zoneWords = "timezone tz. zeitzone fuseauhoraire fusoorario tijdzone tidszon tidssone husohorario";
/** Time since the log's start; a unit of time alone says that too. */
const elapsedWords =
  "elapsed runtime laufzeit dauer. duration duree durata duracion verstreken ecoule trascorso transcurrido seconds sekunden secondes secondi segundos seconden minutes minuten minuti minutos hours stunden heures";
const sourceWords =
  "source energy energysource powersource quelle stromquelle energie energiequelle betrieb betriebsart energia fonte fuente bron energikaelle zrodlo";
/** A battery is mostly the logger's own, so it is the fridge's supply only when someone says so. */
const otherWords =
  "humidity rh. rel. feuchte luftfeuchte humidite umidita humedad vochtigheid dew taupunkt dewpoint pressure druck index nr. no. num. number row. zeile sample. lfd. id. serial event alarm status rssi signal memo note notes comment bemerkung battery batterie batt. light lux. co2. setpoint limit min. max. avg. mean.";

/** Plain Latin letters without accents, in lower case: "Außentemperatur" is "aussentemperatur". */
export function plainWords(text: string): readonly string[] {
  return text
    .toLowerCase()
    .replaceAll("ß", "ss")
    .replaceAll(/[äæ]/g, "ae")
    .replaceAll(/[öø]/g, "oe")
    .replaceAll("ü", "ue")
    .replaceAll("ł", "l")
    .replaceAll("å", "a")
    .normalize("NFD")
    .replaceAll(/\p{M}/gu, "")
    .split(/[^a-z0-9]+/)
    .filter((word) => word !== "");
}

const matcher = (list: string) => {
  const whole = new Set<string>();
  const beginnings: string[] = [];
  for (const word of list.split(" ")) {
    if (word.endsWith(".") || word.length < 4) whole.add(word.replace(".", ""));
    else beginnings.push(word);
  }
  return (words: readonly string[]) =>
    words.some((word) => whole.has(word) || beginnings.some((beginning) => word.startsWith(beginning)));
};

const isPlace = Object.entries(places).map(([position, list]) => [position as Position, matcher(list)] as const);
const isFridge = matcher(fridgeWords);
const isRoom = matcher(roomWords);
const isTime = matcher(timeWords);
const isDate = matcher(dateWords);
const isZone = matcher(zoneWords);
const isElapsed = matcher(elapsedWords);
const isSource = matcher(sourceWords);
const isOther = matcher(otherWords);

/** What a column holds: as somebody told, or as its texts (header, lines over and under it) say. */
export function saysOf({ told, texts }: Pick<Column, "told" | "texts">): HeaderSays {
  if (told === "none") return { kind: "other" };
  return told === undefined ? headerSays(texts.join(" ")) : { kind: "meaning", meaning: told };
}

/** @param header a column's header text, its unit still in it */
export function headerSays(header: string): HeaderSays {
  const own = positions.find((position) => position.toLowerCase() === header.trim().toLowerCase());
  if (own !== undefined) return meant(own);
  const single = plainWords(header.replaceAll(/[([{<].*?[)\]}>]/g, " "));
  // "lower vent" is one word to us, and so is "cold plate".
  const words = [...single, ...single.slice(1).map((word, index) => single[index] + word)];
  const found = isPlace.filter(([, matches]) => matches(words)).map(([position]) => position);
  if (found.length > 1) return { kind: "several", meanings: found };
  if (isOther(single)) return { kind: "other" };
  if (found.length === 1) return meant(found[0]);
  if (isFridge(words)) return meant("cabinet");
  if (isRoom(words)) return { kind: "several", meanings: ["ambient", "room"] };
  if (isZone(words)) return meant("zone");
  if (isElapsed(words)) return meant("elapsed");
  if (isTime(words)) return meant("time");
  if (isDate(words)) return meant("date");
  return isSource(words) ? meant("source") : { kind: "nothing" };
}

const meant = (meaning: Exclude<ColumnMeaning, "none">): HeaderSays => ({ kind: "meaning", meaning });

/** Words for the energy sources; the same languages. */
const sourceNames: { readonly [S in EnergySource]: string } = {
  gas: "gas lpg propane butane propan butan gaz gpl glp",
  mains: "mains ac 230v 230 240v 120v 110v netz netzstrom strom secteur 220v rete red netstroom lichtnet naet",
  dc12: "dc12 12v dc 12vdc batterie battery bord accu",
  off: "off aus none arret eteint spento apagado uit av fra wylaczone",
};

/** The energy source that a cell's word means, in any of our languages; undefined when it is none. */
export function sourceMeant(cell: string): EnergySource | undefined {
  const words = plainWords(cell.replaceAll(" ", ""));
  const entries = Object.entries(sourceNames) as [EnergySource, string][];
  return entries.find(([, list]) => words.length === 1 && list.split(" ").includes(words[0]))?.[0];
}
