// What the store keeps as lists in their outside shape: what `--json` prints and the pages are served.

import type { KeptLists } from "../schema/documents/index.ts";
import type { Fridge, RunQuery, Store } from "../store/index.ts";
import { everyRun } from "./every-run.ts";

type Shelves<Names extends keyof Store> = Pick<Store, Names>;

const instant = (unixMs: number) => new Date(unixMs).toISOString();
const instantOrNull = (unixMs: number | null | undefined) =>
  unixMs === null || unixMs === undefined ? null : instant(unixMs);

/** The fridges in use, or those removed. */
export async function fridgeList(store: Shelves<"fridges">, areRemoved = false): Promise<KeptLists["fridges"]> {
  const fridges = await store.fridges.list({ areRemoved });
  return {
    format: "coldfall-fridges-1",
    fridges: fridges.map((fridge) => ({
      id: fridge.id,
      name: fridge.name,
      kind: fridge.kind ?? null,
      ratedWatts: { ...fridge.ratedWatts },
      cabinetLitres: fridge.cabinetLitres ?? null,
      notes: fridge.notes ?? null,
      added: instant(fridge.addedUnixMs),
      removed: instantOrNull(fridge.removedUnixMs),
    })),
  };
}

/** All runs that the query asks for, whatever their number; newest first. */
export async function runList(
  store: Shelves<"fridges" | "runs">,
  query: Omit<RunQuery, "cursor" | "limit"> = {},
): Promise<KeptLists["runs"]> {
  const nameOf = await fridgeNames(store);
  const runs: KeptLists["runs"]["runs"] = [];
  for await (const run of everyRun(store, { ...query, limit: 500 })) {
    runs.push({
      id: run.id,
      name: run.name,
      fridge: nameOf(run.fridgeId),
      fridgeId: run.fridgeId,
      purpose: run.purpose,
      origin: run.origin,
      start: instant(run.startedUnixMs),
      end: instantOrNull(run.endedUnixMs),
      utcOffsetMinutes: run.utcOffsetMinutes,
      sheet: run.sheet,
      notes: run.notes,
      deleted: instantOrNull(run.deletedUnixMs),
    });
  }
  return { format: "coldfall-runs-1", runs };
}

/** All probes with where they sit and how they were calibrated. */
export async function probeList(store: Shelves<"fridges" | "probes">): Promise<KeptLists["probes"]> {
  const nameOf = await fridgeNames(store);
  const [probes, roles, calibrations] = await Promise.all([
    store.probes.list(),
    store.probes.roles(),
    store.probes.calibrations(),
  ]);
  return {
    format: "coldfall-probes-1",
    probes: probes.map((probe) => ({
      id: probe.id,
      label: probe.label ?? null,
      kind: probe.kind ?? null,
      curve: probe.curve ?? null,
      notes: probe.notes ?? null,
      roles: roles
        .filter(({ probeId }) => probeId === probe.id)
        .map(({ fridgeId, boardId, position, sinceUnixMs }) => ({
          fridge: nameOf(fridgeId),
          fridgeId,
          board: boardId,
          position,
          since: instant(sinceUnixMs),
        })),
      calibrations: calibrations
        .filter(({ probeId }) => probeId === probe.id)
        .map((calibration) => ({
          id: calibration.id,
          made: instant(calibration.madeUnixMs),
          due: instantOrNull(calibration.dueUnixMs),
          method: calibration.method,
          coefficients: [...calibration.coefficients],
          standardUncertaintyKelvin: calibration.standardUncertaintyKelvin,
        })),
    })),
  };
}

/** The boards that were seen, and the ports of this machine. */
export async function boardList(
  store: Shelves<"fridges" | "boards">,
  ports: KeptLists["boards"]["ports"],
): Promise<KeptLists["boards"]> {
  const nameOf = await fridgeNames(store);
  const boards = (await store.boards.list()).map((board) => {
    const hello = (board.hello ?? {}) as { readonly firmware?: string; readonly intervalSeconds?: number };
    return {
      id: board.id,
      label: board.label,
      fridge: board.fridgeId === null ? null : nameOf(board.fridgeId),
      firstSeen: instant(board.firstSeenUnixMs),
      lastSeen: instant(board.lastSeenUnixMs),
      firmware: hello.firmware ?? null,
      intervalSeconds: hello.intervalSeconds ?? null,
      hasToken: board.hasToken,
    };
  });
  return { format: "coldfall-boards-1", ports, boards };
}

/** The baselines of one fridge or of all; of each fridge the newest is in use. */
export async function baselineList(
  store: Shelves<"fridges" | "baselines">,
  fridges?: readonly Fridge[],
): Promise<KeptLists["baselines"]> {
  const baselines: KeptLists["baselines"]["baselines"] = [];
  for (const { id: fridgeId, name: fridge } of fridges ?? (await store.fridges.list())) {
    for (const [index, baseline] of (await store.baselines.list(fridgeId)).entries()) {
      baselines.push({
        id: baseline.id,
        fridge,
        fridgeId,
        kind: baseline.kind,
        made: instant(baseline.madeUnixMs),
        runs: "runIds" in baseline ? [...baseline.runIds] : [],
        inUse: index === 0,
        notes: baseline.notes ?? null,
      });
    }
  }
  return { format: "coldfall-baselines-1", baselines };
}

/** Results of one fridge or of all, newest first; at most 50 of each fridge. */
export async function resultList(
  store: Shelves<"fridges" | "results">,
  fridges?: readonly Fridge[],
): Promise<KeptLists["results"]> {
  const results: KeptLists["results"]["results"] = [];
  for (const { id: fridgeId, name: fridge } of fridges ?? (await store.fridges.list())) {
    for (const { id, runIds, kind, method, madeUnixMs } of await store.results.list({ fridgeId })) {
      results.push({ id, fridge, fridgeId, runs: [...runIds], kind, method, made: instant(madeUnixMs) });
    }
  }
  return { format: "coldfall-results-1", results };
}

/** Names of fridges by id, removed ones included. */
async function fridgeNames(store: Shelves<"fridges">): Promise<(id: string) => string> {
  const [inUse, removed] = await Promise.all([store.fridges.list(), store.fridges.list({ areRemoved: true })]);
  const names = new Map([...removed, ...inUse].map(({ id, name }) => [id, name]));
  return (id) => names.get(id) ?? id;
}
