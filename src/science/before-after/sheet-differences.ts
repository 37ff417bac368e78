// The conditions in which the run sheets of before and after differ, and which of them each energy source feels.

import type { HeatSource, RunSheet } from "../../schema/index.ts";
import type { Difference } from "./change-sayings.ts";

type Code = Difference["code"];
type Value = string | number | boolean;

interface Condition {
  readonly code: Code;
  readonly of: (sheet: RunSheet) => Value | undefined;
  /** Numbers this close count as equal. */
  readonly tolerance?: (value: number) => number;
  /** The one source that feels it; all when left out. */
  readonly only?: HeatSource;
  /** Whether it acts on the heat, and so could stop the cooling altogether. */
  readonly isHeat?: true;
}

const within = (tolerance: number) => () => tolerance;
/** Heat goes with the square of the voltage and the root of the pressure: about 2 % of heat either way. */
const voltage = (volts: number) => 0.01 * volts;
const pressure = (mbar: number) => 0.04 * mbar;

/** In the order they are told. */
const conditions: readonly Condition[] = [
  { code: "fridge", of: (sheet) => sheet.fridge },
  { code: "setting", of: (sheet) => sheet.setting },
  // A degree is what a spirit level shows: common practice, no source.
  { code: "tilt-sideways", of: (sheet) => sheet.tiltSidewaysDegrees, tolerance: within(1) },
  { code: "tilt-lengthways", of: (sheet) => sheet.tiltLengthwaysDegrees, tolerance: within(1) },
  { code: "dial", of: (sheet) => sheet.dial?.trim().toLowerCase(), isHeat: true },
  { code: "load", of: (sheet) => sheet.load },
  { code: "vents", of: (sheet) => sheet.vents },
  { code: "fan-inside", of: (sheet) => sheet.fanInside },
  { code: "fan-at-rear", of: (sheet) => sheet.fanAtRear },
  { code: "gas-kind", of: (sheet) => sheet.gasKind, only: "gas", isHeat: true },
  { code: "gas-pressure", of: (sheet) => sheet.gasPressureMbar, tolerance: pressure, only: "gas", isHeat: true },
  { code: "altitude", of: (sheet) => sheet.altitudeMetres, tolerance: within(200), only: "gas", isHeat: true },
  ...(["gas", "mains", "dc12"] as const).map(
    (only): Condition => ({
      code: `${only}-rated-watts`,
      of: (sheet) => sheet.ratedWatts?.[only],
      tolerance: within(1),
      only,
      isHeat: true,
    }),
  ),
  ...(["mains", "dc12"] as const).flatMap((only): Condition[] => [
    { code: `${only}-volts`, of: (sheet) => sheet.supplyVolts?.[only], tolerance: voltage, only, isHeat: true },
    { code: `${only}-rated-volts`, of: (sheet) => sheet.ratedVolts?.[only], tolerance: voltage, only, isHeat: true },
  ]),
];

export interface SheetDifferences {
  readonly differences: readonly Difference[];
  /** Stated on one side only, and taken as equal. */
  readonly oneSided: { readonly before: readonly Code[]; readonly after: readonly Code[] };
}

/** Compares the sheets of all runs before with those of all runs after; null is a run without one. */
export function sheetDifferences(
  before: readonly (RunSheet | null)[],
  after: readonly (RunSheet | null)[],
): SheetDifferences {
  const differences: Difference[] = [];
  const oneSided: { before: Code[]; after: Code[] } = { before: [], after: [] };
  for (const { code, of, tolerance = within(0) } of conditions) {
    const [then, now] = [statedBy(before, of), statedBy(after, of)];
    if (then.length === 0 && now.length === 0) continue;
    const isOneSided = then.length === 0 || now.length === 0;
    // Nobody writes down the fan that was not there: a fan on one sheet only is a difference.
    const isLoneFan = isOneSided && [...then, ...now].includes(true);
    if (isOneSided && !isLoneFan) oneSided[then.length === 0 ? "after" : "before"].push(code);
    else if (isLoneFan || !areEqual(then, now, tolerance)) {
      // The table above pairs each code with the field that its saying speaks of; TypeScript cannot follow that.
      differences.push({ code, before: then, after: now } as Difference);
    }
  }
  return { differences, oneSided };
}

/** Those of the differences that could explain a change on this source. */
export function differencesFelt(
  differences: readonly Difference[],
  source: HeatSource,
  onlyHeat = false,
): { readonly byAll: readonly Code[]; readonly byItAlone: readonly Code[] } {
  const felt = conditions.filter(
    ({ code, only, isHeat }) =>
      (only ?? source) === source && (isHeat || !onlyHeat) && differences.some((one) => one.code === code),
  );
  return {
    byAll: felt.filter(({ only }) => only === undefined).map(({ code }) => code),
    byItAlone: felt.filter(({ only }) => only !== undefined).map(({ code }) => code),
  };
}

const statedBy = (sheets: readonly (RunSheet | null)[], of: Condition["of"]): Value[] =>
  [
    ...new Set(
      sheets.flatMap((sheet) => {
        const value = sheet === null ? undefined : of(sheet);
        return value === undefined || value === "" ? [] : [value];
      }),
    ),
  ].sort((a, b) => (a < b ? -1 : 1));

/** Every value of either side has its like on the other. */
function areEqual(before: readonly Value[], after: readonly Value[], tolerance: (value: number) => number): boolean {
  const alike = (a: Value, b: Value) =>
    typeof a === "number" && typeof b === "number"
      ? Math.abs(a - b) <= tolerance(Math.max(Math.abs(a), Math.abs(b)))
      : a === b;
  const covered = (one: readonly Value[], other: readonly Value[]) => one.every((a) => other.some((b) => alike(a, b)));
  return covered(before, after) && covered(after, before);
}
