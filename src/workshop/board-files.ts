// Files that boards recorded alone, brought into the store: by what they are placed in time, and what happened meanwhile.

import { readBoardLog, readWholeFile, type TimeAnchor } from "../ingest/index.ts";
import { msPerMinute } from "../schema/index.ts";
import type { Json, Run, RunEvent, Store } from "../store/index.ts";

type BoardHints = NonNullable<Parameters<typeof readBoardLog>[2]>;

/** Runs of a fridge that are looked into for a start of the board, the newest first. */
const mostRuns = 20;

/**
 * What the store knows of when the board's starts were: from files of it brought in before, else from runs recorded of it.
 * A file read out a second time is so placed at the very same instants, and nothing of it is kept twice.
 */
export async function boardAnchors(
  store: Pick<Store, "runs" | "readings" | "settings">,
  fridgeId: string,
  boardId: string,
): Promise<readonly TimeAnchor[]> {
  const fromFiles = await anchorsKept(store, fridgeId, boardId);
  const known = new Set(fromFiles.map(({ boot }) => boot));
  const recorded: TimeAnchor[] = [];
  const { runs } = await store.runs.list({ fridgeId, limit: mostRuns });
  for (const run of runs.filter(({ origin }) => origin === "board")) {
    for await (const { boardId: board, boot, unixMs, uptimeMs } of store.readings.parts(run.id)) {
      if (board !== boardId || known.has(boot) || uptimeMs === null) continue;
      for (const row of [0, unixMs.length - 1]) {
        if (Number.isFinite(uptimeMs[row])) recorded.push({ boot, uptimeMs: uptimeMs[row], unixMs: unixMs[row] });
      }
    }
  }
  return [...fromFiles, ...recorded];
}

/** What a board's file tells besides readings, into the run that these go to. Twice is as good as once. */
export async function keepBoardFile(
  store: Pick<Store, "runs" | "events" | "probes" | "settings">,
  run: Run,
  file: string,
  hints: BoardHints,
): Promise<void> {
  const { file: board, probeIds, anchors } = readBoardLog(readWholeFile(file), file, hints);
  for (const { probeId, unit, resolution } of board.probes) {
    await store.probes.put({ id: probeId, ...(unit === "Cel" ? { resolutionKelvin: resolution } : {}) });
  }
  const kept = await store.events.list(run.id);
  const places = new Map(Object.entries(probeIds).map(([position, probeId]) => [probeId, position]));
  for (const event of eventsOf(board, places as ReadonlyMap<string, RunEvent["position"]>)) {
    const isThere = kept.some(
      ({ kind, fromUnixMs, boardId }) =>
        kind === event.kind && fromUnixMs === event.fromUnixMs && boardId === event.boardId,
    );
    if (!isThere) await store.events.add(run.id, event);
  }
  const value = { runId: run.id, anchors: anchors.map((anchor) => ({ ...anchor })) };
  await store.settings.set(settingName(board.boardId), value, run.fridgeId);
}

type BoardFile = ReturnType<typeof readBoardLog>["file"];

/** Restarts within the file, and where each probe began to give no readings. */
function eventsOf(board: BoardFile, places: ReadonlyMap<string, RunEvent["position"]>): readonly RunEvent[] {
  const { boardId, starts, faults } = board;
  const restarts = starts.slice(1).map((start, i) => ({
    kind: "board-restarted",
    fromUnixMs: start.firstUnixMs,
    boardId,
    details: {
      fromBoot: starts[i].boot,
      toBoot: start.boot,
      reason: start.reason,
      placedBy: start.placedBy,
      slackMs: start.slackMs,
    },
  }));
  const silences = [...Map.groupBy(faults, ({ probeId }) => probeId)].flatMap(([probeId, own]) =>
    silencesOf(own).map(({ first, last, rounds }): RunEvent => {
      const position = places.get(probeId);
      return {
        kind: "probe-silent",
        fromUnixMs: first.unixMs,
        toUnixMs: last.unixMs,
        boardId,
        ...(position === undefined ? {} : { position }),
        details: { probe: probeId, fault: first.fault, rounds },
      };
    }),
  );
  return [...restarts, ...silences];
}

type ProbeFault = BoardFile["faults"][number];

/** One probe's faults in order of time, those near to each other together. */
function silencesOf(faults: readonly ProbeFault[]) {
  const silences: { readonly first: ProbeFault; last: ProbeFault; rounds: number }[] = [];
  for (const fault of faults) {
    const open = silences.at(-1);
    if (open !== undefined && fault.unixMs - open.last.unixMs < silenceGapMs) {
      open.last = fault;
      open.rounds++;
    } else silences.push({ first: fault, last: fault, rounds: 1 });
  }
  return silences;
}

/** Faults nearer to each other than this are one silence, ms: a loose plug would else fill the page. */
const silenceGapMs = 10 * msPerMinute;

const settingName = (boardId: string) => `board file ${boardId}`;

/** Of a file brought in before, as long as its run is there. */
async function anchorsKept(
  store: Pick<Store, "runs" | "settings">,
  fridgeId: string,
  boardId: string,
): Promise<readonly TimeAnchor[]> {
  const kept = await store.settings.get(settingName(boardId), fridgeId);
  if (kept === undefined || kept === null) return [];
  const { runId, anchors } = kept as { readonly runId: string; readonly anchors: readonly (TimeAnchor & Json)[] };
  // Deleted: whoever brings the file in again may say another time.
  return (await store.runs.find(runId)) === null ? [] : anchors;
}
