// A cooling unit is never condemned on one run: what must be proven first, and how far these logs and sheets have shown it.
// Each proof carries the cautions of whoever goes and gets it. Limits are common practice, no source, unless one is named.

import { isElectric, msPerHour } from "../../schema/index.ts";
import type { RunEvidence, StretchEvidence } from "../evidence/run-evidence.ts";
import type { CauseFinding, SourceFinding, UnitProof } from "../findings.ts";
import type { CautionCode, UnitProofCode, UnitProofSaying } from "../sayings.ts";
import { usefulHeat } from "../strength/useful-heat.ts";

/** From this share on the unit is among the causes, and the list is given. */
const worthProving = 0.05;

/**
 * @param runs the given logs, not the known-good ones: it is this fridge as it stands that must be proven.
 * @returns empty where the cooling unit is not among the causes of a trouble.
 */
export function beforeCondemning(
  runs: readonly RunEvidence[],
  sources: readonly SourceFinding[],
  causes: readonly CauseFinding[],
): readonly UnitProof[] {
  const unit = causes.find(({ cause }) => cause === "cooling-unit")?.probability ?? 0;
  if (unit < worthProving || sources.every(({ verdict }) => verdict === "sound")) return [];
  return proofs.map(({ proof, cautions, look }) => ({ proof, ...look(runs), cautions }));
}

type Seen = Pick<UnitProof, "state" | "seen">;
const shown = (seen: UnitProofSaying): Seen => ({ state: "shown", seen });
const notShown = (seen: UnitProofSaying): Seen => ({ state: "not-shown", seen });

interface Proof {
  readonly proof: UnitProofCode;
  readonly cautions: readonly CautionCode[];
  readonly look: (runs: readonly RunEvidence[]) => Seen;
}

/** What holds wherever the fridge is run again on electricity. */
const electricRun = ["night", "mains", "dc12", "two-sources", "no-cold"] as const satisfies readonly CautionCode[];

/** In the order of work: what costs minutes first, what costs nights last. */
const proofs: readonly Proof[] = [
  { proof: "tilt-measured", cautions: ["no-cold", "cooling-unit"], look: tilt },
  { proof: "heat-in-watts", cautions: ["mains", "dc12", "no-cold"], look: watts },
  { proof: "boiler-hot", cautions: ["gas", "mains", "dc12", "cooling-unit", "no-cold"], look: boiler },
  { proof: "fan-at-rear-tried", cautions: ["gas", "road", ...electricRun], look: fanAtRear },
  { proof: "twelve-hours", cautions: [...electricRun, "food"], look: twelveHours },
  { proof: "two-nights", cautions: [...electricRun, "food"], look: twoNights },
];

/** Sideways and lengthways, degrees: what newer units bear; older ones 2 to 3 any way. */
const levelLimits = { sideways: 3, lengthways: 6 } as const;

function tilt(runs: readonly RunEvidence[]): Seen {
  const measured = runs.flatMap(({ recording: { sheet } }) => {
    const { tiltSidewaysDegrees: sideways, tiltLengthwaysDegrees: lengthways } = sheet ?? {};
    return sideways === undefined || lengthways === undefined ? [] : [{ sideways, lengthways }];
  });
  if (measured.length < runs.length || measured.length === 0) return notShown({ code: "tilt-not-measured" });
  const tilted = measured.find(
    ({ sideways, lengthways }) =>
      Math.abs(sideways) > levelLimits.sideways || Math.abs(lengthways) > levelLimits.lengthways,
  );
  return tilted === undefined
    ? shown({ code: "stood-level", ...measured[0] })
    : notShown({ code: "stood-tilted", ...tilted });
}

/** An element within a tenth of its rated ohms takes at least so much of its rated watts. */
const fullHeat = 0.9;

function watts(runs: readonly RunEvidence[]): Seen {
  const measured = runs.flatMap(({ recording: { sheet } }) =>
    (["mains", "dc12"] as const).flatMap((source) => {
      const taken = sheet?.measuredWatts?.[source];
      return taken === undefined ? [] : [{ source, watts: taken, rated: usefulHeat(source, sheet).watts }];
    }),
  );
  if (measured.length === 0) return notShown({ code: "watts-not-measured" });
  const full = measured.find(({ watts: taken, rated }) => taken >= fullHeat * rated);
  return full === undefined
    ? notShown({ code: "watts-too-few", ...measured[0] })
    : shown({ code: "watts-taken", ...full });
}

/** Over the last hour of a stretch, °C: hot enough to boil the solution. Ammonia and water at 14 to 25 bar: from 120 °C on. */
const hotBoiler = 120;

function boiler(runs: readonly RunEvidence[]): Seen {
  const seen = runs.flatMap(({ series: { unixMs, columns }, stretches }) =>
    stretches.flatMap(({ stretch, view }) => {
      const { boiler: celsius } = columns;
      if (celsius === undefined || !stretch.heated) return [];
      const endMs = stretch.startMs + view.endHours * msPerHour;
      const late = [...unixMs.keys()].filter(
        (row) => unixMs[row] > endMs - msPerHour && unixMs[row] <= endMs && Number.isFinite(celsius[row]),
      );
      return late.length < 3 ? [] : [late.reduce((sum, row) => sum + celsius[row], 0) / late.length];
    }),
  );
  if (seen.length === 0) return notShown({ code: "boiler-not-seen" });
  const hottest = Math.max(...seen);
  return hottest >= hotBoiler
    ? shown({ code: "boiler-was-hot", celsius: hottest })
    : notShown({ code: "boiler-not-hot", celsius: hottest, needed: hotBoiler });
}

/** A fan needs this long to show, h. */
const fanHours = 2;

function fanAtRear(runs: readonly RunEvidence[]): Seen {
  const tried = electricStretches(runs).find(
    (stretch) => stretch.run.recording.sheet?.fanAtRear === true && stretch.view.endHours >= fanHours,
  );
  return tried === undefined
    ? notShown({ code: "fan-not-tried" })
    : shown({ code: "fan-was-tried", hours: tried.view.endHours, log: tried.run.log });
}

const longRunHours = 12;

function twelveHours(runs: readonly RunEvidence[]): Seen {
  const longest = electricStretches(runs).reduce((most, { view }) => Math.max(most, view.endHours), 0);
  return longest >= longRunHours
    ? shown({ code: "ran-so-long", hours: longest, needed: longRunHours })
    : notShown({ code: "ran-too-short", hours: longest, needed: longRunHours });
}

/** Two stretches count as two nights from this distance on, and from this length on, h. */
const nextNightHours = 18;
const nightHours = 4;

function twoNights(runs: readonly RunEvidence[]): Seen {
  const starts = electricStretches(runs)
    .filter(({ view }) => view.endHours >= nightHours)
    .map(({ stretch }) => stretch.startMs)
    .sort((a, b) => a - b);
  let nights = 0;
  let last = Number.NEGATIVE_INFINITY;
  for (const start of starts) {
    if (start - last < nextNightHours * msPerHour) continue;
    nights++;
    last = start;
  }
  return nights >= 2 ? shown({ code: "nights-seen", nights }) : notShown({ code: "nights-seen", nights });
}

const heatedStretches = (runs: readonly RunEvidence[]): readonly StretchEvidence[] =>
  runs.flatMap((run) => run.stretches.filter(({ stretch }) => stretch.heated));
const electricStretches = (runs: readonly RunEvidence[]) =>
  heatedStretches(runs).filter(({ source }) => isElectric(source));
