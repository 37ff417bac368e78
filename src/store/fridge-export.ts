// Everything about one fridge, piece by piece, through the store's own interface: what an owner may ask for.

import type { ExportPiece, SeriesPart } from "./records.ts";
import type { Store } from "./store.ts";

/** Runs asked for at once. */
const runsAtOnce = 50;

/** See `Fridges.export`. */
export async function* fridgePieces(store: Store, id: string): AsyncGenerator<ExportPiece> {
  yield { format: "coldfall-fridge-1", kind: "fridge", record: await store.fridges.get(id) };
  for (const record of await store.baselines.list(id)) yield { kind: "baseline", record };
  for await (const runId of runIdsOf(store, id)) yield* runPieces(store, runId);
  yield* probePieces(store, id);
}

async function* runIdsOf(store: Store, fridgeId: string): AsyncGenerator<string> {
  let cursor: string | null | undefined;
  while (cursor !== null) {
    const { runs, next } = await store.runs.list({ fridgeId, limit: runsAtOnce, ...(cursor && { cursor }) });
    for (const { id } of runs) yield id;
    cursor = next;
  }
}

async function* runPieces(store: Store, runId: string): AsyncGenerator<ExportPiece> {
  yield { kind: "run", record: { ...(await store.runs.get(runId)), files: await store.runs.files(runId) } };
  for (const edit of await store.edits.history(runId)) yield { kind: "edit", record: { runId, ...edit } };
  for (const record of await store.events.list(runId)) yield { kind: "event", record };
  for (const record of await store.alarms.list({ runId })) yield { kind: "alarm", record };
  for (const record of await store.results.list({ runId }, Number.MAX_SAFE_INTEGER)) yield { kind: "result", record };
  for await (const part of store.readings.parts(runId)) yield { kind: "readings", record: { runId, ...inJson(part) } };
}

/** The fridge's probes: those that sit on it, with what is known of how far to trust them. */
async function* probePieces(store: Store, fridgeId: string): AsyncGenerator<ExportPiece> {
  const roles = await store.probes.roles(fridgeId);
  for (const record of roles) yield { kind: "probe-role", record };
  const ids = new Set(roles.map(({ probeId }) => probeId));
  for (const record of await store.probes.list()) if (ids.has(record.id)) yield { kind: "probe", record };
  for (const record of await store.probes.calibrations()) {
    if (ids.has(record.probeId)) yield { kind: "calibration", record };
  }
}

/** Columns as JSON has them: lists, NaN being null. */
function inJson(part: SeriesPart) {
  const list = (column: Float64Array | null) => column && Array.from(column);
  const { unixMs, raw, sequence, uptimeMs, hostUnixMs, ...origin } = part;
  return {
    ...origin,
    unixMs: list(unixMs),
    raw: list(raw),
    sequence: list(sequence),
    uptimeMs: list(uptimeMs),
    hostUnixMs: list(hostUnixMs),
  };
}
