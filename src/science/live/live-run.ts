// A run while it goes on. Each reading goes into a mean over its minute, which costs the same however long the run; what is
// told is then the very judgement that the finished log gets, on a bounded number of rows, so that the last live figure and
// the morning's report cannot disagree. Running sums for a fit of its own were the other way: quicker to tell, a second
// fit to trust.

import {
  type EnergySource,
  energySources,
  type HeatSource,
  msPerHour,
  msPerMinute,
  type Position,
  positions,
  type Recording,
  type RunSheet,
} from "../../schema/index.ts";
import { usualMargin } from "../analyse.ts";
import {
  type RunEvidence,
  type RunSeen,
  runEvidence,
  runSeen,
  type StretchEvidence,
} from "../evidence/run-evidence.ts";
import { warmingRatio } from "../evidence/warming-ratio.ts";
import type { StretchFinding } from "../findings.ts";
import { isKnown, unknown } from "../numbers/estimate.ts";
import { betterCurveHours, curveHours, usualOnsetHours } from "../plan/proofs.ts";
import { slopeHours } from "../pull-down/pull-down-numbers.ts";
import type { Stretch } from "../readings/series.ts";
import type { StopDoubt } from "../sayings.ts";
import { finsAloneHours } from "../strength/comparison.ts";
import { knownGoodBySource, runsInOrder } from "../strength/known-good.ts";
import { knownGoodAtOdds } from "../strength/known-good-at-odds.ts";
import { nightSpread } from "../strength/night-spread.ts";
import { judgeWhole, sourcesRunBy, type Yardstick } from "../verdict/judge-stretch.ts";
import { notCoolingHours } from "../verdict/stretch-verdict.ts";
import { liveHead, mayBeExchanged } from "./live-head.ts";
import { type LiveNumbers, numbersOf } from "./live-numbers.ts";
import { type LiveProofs, liveProofs, type WattsRead } from "./live-proofs.ts";
import { LiveRows } from "./live-rows.ts";
import type { LiveGoal, LiveHead } from "./live-sayings.ts";
import { ReadingScreen } from "./reading-screen.ts";

export interface LiveRunOptions {
  readonly sheet?: RunSheet | null;
  /** Known-good runs of this fridge (or its kind), as for an analysis. */
  readonly knownGood?: readonly Recording[];
  readonly baselineKind?: "own" | "kind";
  /** Allowed loss, as a share; `usualMargin` unless stated. */
  readonly margin?: number;
}

/** One reading as it comes, corrected already: °C, V for `supply`. */
export interface LiveReading {
  readonly unixMs: number;
  readonly position: Position;
  readonly value: number;
}

/** Something a stretch can tell, and from when on; `isThere` when it can by now. */
export interface LiveGoalState {
  readonly goal: LiveGoal;
  readonly atMs: number;
  readonly isThere: boolean;
}

/** Since when there is no cooling any more. */
interface CoolingStop {
  readonly startMs: number;
  readonly doubt: StopDoubt;
}

/** What is known at one instant of the stretch that goes on. */
export interface LiveEstimate extends LiveNumbers {
  readonly nowMs: number;
  /** What the fridge runs on; null when nobody said. */
  readonly source: EnergySource | null;
  /** When that began; where nobody said, when the stretch began that the readings show. */
  readonly sinceMs: number;
  readonly head: LiveHead;
  /** The newest believable reading of each position. */
  readonly latest: { readonly [P in Position]?: { readonly unixMs: number; readonly value: number } };
  /** null while the fridge is off. */
  readonly proofs: LiveProofs | null;
  /** In the order they come; empty while the onset is not seen. */
  readonly goals: readonly LiveGoalState[];
  /** How long the stretch should go on, to tell more than it does now; null when it may end. */
  readonly runUntilMs: number | null;
  /** Cooling that has stopped and not come back; null while there is none. */
  readonly stopped: CoolingStop | null;
  /** The judgement so far, with curves to draw; null while there are no readings. */
  readonly finding: StretchFinding | null;
}

interface LivePart {
  readonly source: EnergySource | null;
  readonly startMs: number;
  readonly rows: LiveRows;
  watts: WattsRead | null;
}

/**
 * The live side of one run.
 *
 * `add` costs the same for every reading. `tell` costs a bounded time (tests/bench/live-cost.ts) and is meant for once a
 * minute; in between it hands out what it found last.
 */
export class LiveRun {
  private readonly sheet: RunSheet | null;
  private readonly knownRuns: readonly RunEvidence[];
  private readonly yardstick: Yardstick;
  private readonly screens = new Map<Position, ReadingScreen>();
  private readonly latest: { [P in Position]?: { readonly unixMs: number; readonly value: number } } = {};
  /** In order of time; the last one goes on. */
  private parts: LivePart[] = [];
  private told: { readonly estimate: LiveEstimate; readonly rows: number } | null = null;

  constructor({ sheet = null, knownGood = [], baselineKind = "own", margin = usualMargin }: LiveRunOptions = {}) {
    this.sheet = sheet;
    this.knownRuns = runsInOrder(knownGood);
    const bySource = knownGoodBySource(this.knownRuns);
    const ranKnownGood = sourcesRunBy(this.knownRuns);
    this.yardstick = {
      knownGood: bySource,
      ranKnownGood,
      atOdds: knownGoodAtOdds(bySource),
      spread: nightSpread(bySource),
      baselineKind,
      margin,
    };
  }

  /**
   * "From this instant on, on gas." Readings that came before stay with what was told then: after a correction, begin
   * anew with the kept readings.
   */
  switchTo(source: EnergySource, unixMs: number): void {
    const before = this.parts.findLast(({ startMs }) => startMs <= unixMs);
    if (before?.source === source) return;
    const part: LivePart = { source, startMs: unixMs, rows: new LiveRows(), watts: null };
    this.parts = [...this.parts, part].sort((a, b) => a.startMs - b.startMs);
    this.told = null;
  }

  /** Somebody read so many watts at the fridge, on the source it runs on. */
  noteWatts(read: WattsRead): void {
    const last = this.parts.at(-1);
    if (last === undefined) return;
    last.watts = read;
    this.told = null;
  }

  add({ unixMs, position, value }: LiveReading): void {
    const screen = this.screens.get(position) ?? new ReadingScreen(position);
    this.screens.set(position, screen);
    for (const heard of screen.pass(unixMs, value)) {
      this.partAt(heard.unixMs).rows.add(heard.unixMs, position, heard.value);
      const newest = this.latest[position];
      if (newest === undefined || newest.unixMs <= heard.unixMs) this.latest[position] = heard;
    }
  }

  /** What is known now. */
  tell(nowMs: number): LiveEstimate {
    const rows = this.parts.reduce((sum, part) => sum + part.rows.length, 0);
    if (
      this.told?.rows === rows &&
      nowMs >= this.told.estimate.nowMs &&
      nowMs - this.told.estimate.nowMs < msPerMinute
    ) {
      return { ...this.told.estimate, latest: { ...this.latest } };
    }
    const estimate = this.estimateAt(nowMs);
    this.told = { estimate, rows };
    return estimate;
  }

  /** What `tell` says of cooling that stopped, for a tenth of its cost: nothing is fitted, nothing compared. */
  stopped(): LiveEstimate["stopped"] {
    const part = this.parts.at(-1);
    return part === undefined || part.rows.length === 0 ? null : stopSeen(runSeen(this.recording()), part.source);
  }

  private partAt(unixMs: number): LivePart {
    const part = this.parts.findLast(({ startMs }) => startMs <= unixMs) ?? this.parts[0];
    if (part !== undefined) return part;
    const first: LivePart = { source: null, startMs: unixMs, rows: new LiveRows(), watts: null };
    this.parts = [first];
    return first;
  }

  private estimateAt(nowMs: number): LiveEstimate {
    const part = this.parts.at(-1);
    const nothing = unknown({ code: "no-numbers" });
    const bare = {
      nowMs,
      source: part?.source ?? null,
      sinceMs: part?.startMs ?? nowMs,
      latest: { ...this.latest },
      proofs: null,
      onset: nothing,
      slope: nothing,
      rate: nothing,
      settled: nothing,
      to5: nothing,
      ahead: null,
      goals: [],
      runUntilMs: null,
      stopped: null,
      finding: null,
    };
    const withHead = (rest: Omit<LiveEstimate, "head">): LiveEstimate => ({
      ...rest,
      head: liveHead(rest, this.parts.length),
    });
    if (part === undefined || part.rows.length === 0) return withHead(bare);
    const run = runEvidence(this.recording());
    const evidence = run.stretches.at(-1);
    if (evidence === undefined) return withHead(bare);
    const { finding } = judgeWhole(evidence, run.stretches, this.yardstick, warmingRatio(run, this.knownRuns));
    // Where nobody said, the readings show where one stretch ends and the next begins.
    const sinceMs = part.source === null ? evidence.stretch.startMs : part.startMs;
    const stretched = { ...run, stretches: run.stretches.map(({ stretch }) => stretch) };
    const stopped = stopSeen(stretched, part.source);
    if (!evidence.stretch.heated) return withHead({ ...bare, sinceMs, finding, stopped });
    const seen = this.seenOf(run, evidence, part);
    const proofs = liveProofs(evidence, finding, this.hasKnownGood(evidence.source), seen, nowMs);
    // Numbers of a cabinet that may be the fins are none.
    if (stopped === null && mayBeExchanged(finding)) return withHead({ ...bare, sinceMs, finding, proofs });
    const numbers = numbersOf(evidence, finding);
    if (stopped !== null)
      return withHead({ ...bare, sinceMs, finding, proofs, stopped, ...withoutProjection(numbers, evidence) });
    return withHead({ ...bare, sinceMs, finding, proofs, ...numbers, ...goalsOf(evidence, finding, proofs, nowMs) });
  }

  private hasKnownGood(source: HeatSource | null): boolean {
    return source !== null && this.yardstick.knownGood.has(source);
  }

  private seenOf({ series }: RunEvidence, { view }: StretchEvidence, { watts }: LivePart) {
    const { from, to } = view.stretch;
    const column = (position: "boiler" | "flue") => {
      const values = series.columns[position]?.subarray(from, to);
      return values?.some(Number.isFinite) ? values : null;
    };
    return { boiler: column("boiler"), flue: column("flue"), watts };
  }

  /** The rows so far as a log. */
  private recording(): Recording {
    const parts = this.parts.filter(({ rows }) => rows.length > 0);
    const joined = (of: (rows: LiveRows) => Float64Array) => {
      const pieces = parts.map(({ rows }) => of(rows));
      const whole = new Float64Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
      let at = 0;
      for (const piece of pieces) {
        whole.set(piece, at);
        at += piece.length;
      }
      return whole;
    };
    const columns: { [P in Position]?: Float64Array } = {};
    for (const position of positions)
      if (this.screens.has(position)) columns[position] = joined((rows) => rows.column(position));
    const codes = parts.flatMap(({ source, rows }) => {
      const code = source === null ? 0 : energySources.indexOf(source) + 1;
      return new Array<number>(rows.length).fill(code);
    });
    return {
      name: "live",
      unixMs: joined((rows) => rows.unixMs()),
      utcOffsetMinutes: 0,
      columns,
      sourceCodes: Uint8Array.from(codes),
      sourceMarks: [],
      sheet: this.sheet,
      unreadable: [],
    };
  }
}

/** What has stopped goes nowhere: only what was reached before stays. */
function withoutProjection(numbers: LiveNumbers, { view }: StretchEvidence): LiveNumbers {
  const isReached = isKnown(numbers.to5) && numbers.to5.value <= view.endHours;
  const nowhere = unknown({ code: "no-numbers" });
  return { ...numbers, settled: nowhere, to5: isReached ? numbers.to5 : nowhere, ahead: null };
}

function goalsOf(
  { view, fitted }: StretchEvidence,
  finding: StretchFinding,
  { cold, strength }: LiveProofs,
  nowMs: number,
): Pick<LiveEstimate, "goals" | "runUntilMs"> {
  const { startMs, startState } = view.stretch;
  const at = (hours: number) => startMs + hours * msPerHour;
  if (finding.verdict === "not-cooling") return { goals: [], runUntilMs: null };
  const hasStrength = isKnown(finding.fit.initialSlope) || strength.state === "proven";
  if ("why" in fitted && cold.state !== "proven") {
    const hours = startState === "cold-boiler" ? notCoolingHours : finsAloneHours;
    return { goals: [], runUntilMs: nowMs < at(hours) ? at(hours) : null };
  }
  // Cold is there before the fit sees its beginning: until then the usual time stands in for it.
  const onsetHours = "why" in fitted ? usualOnsetHours.latest : fitted.cabinetFit.onsetHours;
  const hasCurve = isKnown(finding.fit.rateConstant);
  const isSwitched = "why" in fitted && startState !== "cold-boiler";
  const goal = (name: LiveGoal, hours: number, isThere: boolean): LiveGoalState => ({
    goal: name,
    atMs: at(hours),
    isThere,
  });
  const goals: LiveGoalState[] = isSwitched
    ? [goal("strength", finsAloneHours, hasStrength)]
    : [
        goal("strength", onsetHours + slopeHours, hasStrength),
        goal("curve", onsetHours + curveHours, hasCurve),
        goal("better-curve", onsetHours + betterCurveHours, hasCurve && nowMs >= at(onsetHours + betterCurveHours)),
      ];
  return { goals, runUntilMs: goals.find(({ atMs, isThere }) => !isThere && atMs > nowMs)?.atMs ?? null };
}

/** Cooling that has stopped and not come back, in the stretch that goes on. */
function stopSeen(run: RunSeen, source: EnergySource | null): CoolingStop | null {
  const last = run.stretches.at(-1);
  if (last === undefined) return null;
  if (last.heated) return stoppedIn(run, last);
  return source === null ? unsaidStop(run) : null;
}

/**
 * Once cooling has been away for long, the readings alone show a stretch with the fridge off. Nobody said that it was
 * switched off: the flame may have gone out as well.
 */
function unsaidStop({ stretches }: RunSeen): CoolingStop | null {
  const [before, last] = [stretches.at(-2), stretches.at(-1)];
  return before?.heated && last !== undefined ? { startMs: last.startMs, doubt: "first-hold" } : null;
}

/** A stop that lasts to the end of the readings. */
function stoppedIn({ events, series }: RunSeen, stretch: Stretch): CoolingStop | null {
  const last = series.unixMs[series.unixMs.length - 1];
  const stop = events.findLast(
    ({ kind, startMs, endMs }) => kind === "cooling-stopped" && startMs >= stretch.startMs && endMs >= last,
  );
  return stop?.reason.code === "cooling-stopped" ? { startMs: stop.startMs, doubt: stop.reason.doubt } : null;
}
