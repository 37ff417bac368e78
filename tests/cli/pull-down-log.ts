// A log of one long pull-down on mains, written out from the exponential itself: enough for the command line to
// have something to judge. Invented; the physics is tested elsewhere.

export interface PullDownLog {
  /** Cooling over that of the known-good fridge. */
  readonly strength: number;
  /** Days after the first; also moves the probes' wobble, so that no two logs are alike. */
  readonly day: number;
  readonly source?: "mains" | "gas";
  /** Left out: no `source` column. */
  readonly hasSourceColumn?: boolean;
}

/** One hour off, eight hours on, two hours off; a row a minute, steps of 1/16 K. */
export function pullDownLog({ strength, day, source = "mains", hasSourceColumn = true }: PullDownLog): string {
  const startMs = Date.UTC(2026, 5, 1 + day, 7);
  const rows = [`time,evaporator,cabinet,ambient${hasSourceColumn ? ",source" : ""}`];
  let cabinet = 25.5;
  let cooling = 0;
  for (let minute = 0; minute < 11 * 60; minute++) {
    const ambient = 25 + Math.sin(minute / 200) / 2;
    const isOn = minute >= 60 && minute < 9 * 60;
    const isCooling = isOn && minute >= 60 + 35;
    cooling += ((isCooling ? 1 : 0) - cooling) / 8;
    const settled = ambient - 27 * strength;
    cabinet -= ((1 - cooling) * 0.08 * (cabinet - ambient) + cooling * 0.25 * (cabinet - settled)) / 60;
    const fins = cabinet - 8 * cooling * strength ** 0.9;
    const readings = [fins, cabinet, ambient].map((celsius, probe) =>
      sixteenths(celsius + wobble(minute, probe + 3 * day)),
    );
    const time = new Date(startMs + minute * 60_000).toISOString().replace(".000", "");
    rows.push([time, ...readings, ...(hasSourceColumn ? [isOn ? source : "off"] : [])].join(","));
  }
  return `${rows.join("\n")}\n`;
}

const sixteenths = (celsius: number) => Math.round(celsius * 16) / 16;

/** Noise without dice: the fractional part of a fast-turning sine, ±0.06 K. */
const wobble = (minute: number, probe: number) => {
  const turned = Math.sin(minute * 12.9898 + probe * 78.233) * 43_758.5453;
  return (turned - Math.floor(turned) - 0.5) * 0.12;
};
