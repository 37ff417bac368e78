// What a board recorded alone, placed in time when it is read out. The file holds the same lines as the serial port, over all
// restarts, and no clock; what is known of time are anchors: "this uptime of this start was that instant".

import { BoardLines, type LineCounts } from "./board-lines.ts";
import type { ListedProbe, ProbeLine } from "./probe-line.ts";

/** An instant seen on both clocks: a hello heard before the board was left alone, or the one it gives when it is read out. */
export interface TimeAnchor {
  readonly boot: number;
  readonly uptimeMs: number;
  readonly unixMs: number;
}

/** One start of the board within the file. */
export interface BoardStart {
  readonly boot: number;
  /** What started it, where its hello is in the file. */
  readonly reason: Extract<ProbeLine, { type: "hello" }>["reason"] | null;
  readonly firstUnixMs: number;
  readonly lastUnixMs: number;
  readonly lastUptimeMs: number;
  /**
   * `anchored`: by an anchor of its own. `before-next`: put right before the start that follows, as if the restart had taken
   * no time. `after-previous`: the same the other way, where no later start has an anchor.
   */
  readonly placedBy: "anchored" | "before-next" | "after-previous";
  /** How much earlier (before-next) or later (after-previous) it can have been, ms; null where nothing bounds it, 0 when anchored. */
  readonly slackMs: number | null;
}

/** A reading placed in time. */
export type PlacedReading = Extract<ProbeLine, { type: "reading" }> & { readonly unixMs: number };
/** A fault placed in time. */
export type PlacedFault = Extract<ProbeLine, { type: "fault" }> & { readonly unixMs: number };

/** A board's file, read. */
export interface BoardFile {
  readonly boardId: string;
  readonly starts: readonly BoardStart[];
  readonly probes: readonly ListedProbe[];
  /** In order of time. */
  readonly readings: readonly PlacedReading[];
  readonly faults: readonly PlacedFault[];
  readonly counts: LineCounts;
}

export type BoardFileOutcome =
  | { readonly outcome: "placed"; readonly file: BoardFile }
  /** No anchor belongs to a start in the file: when was it recorded? `starts` are its starts with the uptimes they span. */
  | {
      readonly outcome: "no-anchor";
      readonly starts: readonly {
        readonly boot: number;
        readonly firstUptimeMs: number;
        readonly lastUptimeMs: number;
      }[];
    }
  | { readonly outcome: "not-a-board-file" }
  /** Lines of several boards in one file. */
  | { readonly outcome: "several-boards"; readonly boardIds: readonly string[] };

/** The lines of one start, and how its uptime becomes time. */
interface StartLines {
  readonly boot: number;
  readonly lines: readonly ProbeLine[];
  readonly firstUptimeMs: number;
  readonly lastUptimeMs: number;
}

interface Placement {
  readonly place: (uptimeMs: number) => number;
  readonly placedBy: BoardStart["placedBy"];
  readonly slackMs: number | null;
}

/**
 * Reads a file that a board recorded alone.
 *
 * @param bytes the file.
 * @param anchors what is known of time; those of starts that are not in the file do not matter.
 */
export function readBoardFile(bytes: Uint8Array, anchors: readonly TimeAnchor[]): BoardFileOutcome {
  const reader = new BoardLines();
  const heard = [...reader.push(bytes), ...reader.end()];
  const lines = heard.flatMap((line) => (line.outcome === "good" && !line.isRepeat ? [line.line] : []));
  const boardIds = [...new Set(lines.map(({ boardId }) => boardId))];
  if (boardIds.length === 0) return { outcome: "not-a-board-file" };
  if (boardIds.length > 1) return { outcome: "several-boards", boardIds };
  const starts = startsOf(lines);
  const placements = placed(starts, anchors);
  if (placements === null) {
    return {
      outcome: "no-anchor",
      starts: starts.map(({ boot, firstUptimeMs, lastUptimeMs }) => ({ boot, firstUptimeMs, lastUptimeMs })),
    };
  }
  return { outcome: "placed", file: fileOf(boardIds[0], starts, placements, reader.counts) };
}

function startsOf(lines: readonly ProbeLine[]): StartLines[] {
  return [...Map.groupBy(lines, ({ boot }) => boot)]
    .sort(([one], [other]) => one - other)
    .map(([boot, own]) => {
      const uptimes = own.map(({ uptimeMs }) => uptimeMs);
      const [firstUptimeMs, lastUptimeMs] = uptimes.reduce(
        ([least, most], uptime) => [Math.min(least, uptime), Math.max(most, uptime)],
        [Infinity, 0],
      );
      return { boot, lines: own, firstUptimeMs, lastUptimeMs };
    });
}

/** Anchored starts first, the others side by side with their neighbours. Null when no start has an anchor. */
function placed(starts: readonly StartLines[], anchors: readonly TimeAnchor[]): Placement[] | null {
  const placements = withoutContradictions(
    starts,
    starts.map((start) => byAnchors(start.boot, anchors)),
  );
  const anchored = placements.flatMap((placement, i) => (placement === null ? [] : [i]));
  if (anchored.length === 0) return null;
  const lastAnchored = anchored[anchored.length - 1];
  for (let i = lastAnchored - 1; i >= 0; i--) placements[i] ??= beforeNext(starts, placements, i);
  for (let i = lastAnchored + 1; i < starts.length; i++) placements[i] = afterPrevious(starts, placements, i);
  return placements.filter((placement) => placement !== null);
}

/** A start that would end after a later one began has an anchor from a host's clock that was wrong: the later one is believed. */
function withoutContradictions(
  starts: readonly StartLines[],
  placements: readonly (Placement | null)[],
): (Placement | null)[] {
  const believed = [...placements];
  let latestEnd = Infinity;
  for (let i = starts.length - 1; i >= 0; i--) {
    const { lastUptimeMs } = starts[i];
    const placement = believed[i];
    if (placement !== null && placement.place(lastUptimeMs) > latestEnd) believed[i] = null;
    latestEnd = believed[i]?.place(0) ?? latestEnd - lastUptimeMs;
  }
  return believed;
}

/** With two anchors or more, the outermost ones also tell how fast the board's clock runs. */
function byAnchors(boot: number, anchors: readonly TimeAnchor[]): Placement | null {
  const own = anchors.filter((anchor) => anchor.boot === boot).sort((one, other) => one.uptimeMs - other.uptimeMs);
  if (own.length === 0) return null;
  const [first, last] = [own[0], own[own.length - 1]];
  const elapsed = last.uptimeMs - first.uptimeMs;
  const rate = elapsed > 0 ? (last.unixMs - first.unixMs) / elapsed : 1;
  // Beyond what a clock can run wrong, the host's clock was set in between; the later anchor is the one just read.
  const believed = Math.abs(rate - 1) <= steepestDrift ? rate : 1;
  return {
    place: (uptimeMs) => Math.round(last.unixMs + (uptimeMs - last.uptimeMs) * believed),
    placedBy: "anchored",
    slackMs: 0,
  };
}

/** More than any board's clock runs wrong; the same bound as in board-clock.ts. */
const steepestDrift = 0.006;

function beforeNext(starts: readonly StartLines[], placements: readonly (Placement | null)[], i: number): Placement {
  const next = placements[i + 1];
  if (next === null) throw new Error("the start that follows is placed first");
  const end = next.place(0);
  const offset = end - starts[i].lastUptimeMs;
  const previous = placements.slice(0, i).findLastIndex((placement) => placement !== null);
  const between = starts.slice(previous + 1, i).reduce((sum, { lastUptimeMs }) => sum + lastUptimeMs, 0);
  const slackMs =
    previous < 0 ? null : offset - between - (placements[previous]?.place(starts[previous].lastUptimeMs) ?? 0);
  return { place: (uptimeMs) => offset + uptimeMs, placedBy: "before-next", slackMs };
}

function afterPrevious(starts: readonly StartLines[], placements: readonly (Placement | null)[], i: number): Placement {
  const previous = placements[i - 1];
  if (previous === null) throw new Error("the start before is placed first");
  const offset = previous.place(starts[i - 1].lastUptimeMs);
  return { place: (uptimeMs) => offset + uptimeMs, placedBy: "after-previous", slackMs: null };
}

function fileOf(
  boardId: string,
  starts: readonly StartLines[],
  placements: readonly Placement[],
  counts: LineCounts,
): BoardFile {
  const all = starts.flatMap(({ lines }, i) =>
    lines.map((line) => ({ ...line, unixMs: placements[i].place(line.uptimeMs) })),
  );
  const inTime = all.sort((one, other) => one.unixMs - other.unixMs || one.sequence - other.sequence);
  const probes = new Map<string, ListedProbe>();
  for (const line of all) {
    if (line.type === "hello") for (const probe of line.probes) probes.set(probe.probeId, probe);
  }
  return {
    boardId,
    starts: starts.map(({ boot, lines, firstUptimeMs, lastUptimeMs }, i) => ({
      boot,
      reason: lines.find((line) => line.type === "hello")?.reason ?? null,
      firstUnixMs: placements[i].place(firstUptimeMs),
      lastUnixMs: placements[i].place(lastUptimeMs),
      lastUptimeMs,
      placedBy: placements[i].placedBy,
      slackMs: placements[i].slackMs,
    })),
    probes: [...probes.values()],
    readings: inTime.filter((line) => line.type === "reading"),
    faults: inTime.filter((line) => line.type === "fault"),
    counts,
  };
}
