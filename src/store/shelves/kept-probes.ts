// Probes in the tables, with where they sit and their calibrations.

import { BadInput, type Position } from "../../schema/index.ts";
import { existingFridge, missing } from "../existing-records.ts";
import { fromJson } from "../json-text.ts";
import { newId } from "../new-id.ts";
import { calibrationRow } from "../record-rows.ts";
import type { Calibration, NewCalibration, Probe, ProbeRole } from "../records.ts";
import type { Probes } from "../store.ts";
import type { Queries, StoreDatabase } from "../store-database.ts";

export class KeptProbes implements Probes {
  readonly #database: StoreDatabase;

  constructor(database: StoreDatabase) {
    this.#database = database;
  }

  put(probe: Probe): Promise<Probe> {
    return this.#database.write(async (queries) => {
      const before = await queries.selectFrom("probes").selectAll().where("id", "=", probe.id).executeTakeFirst();
      const now: Probe = { ...(before && fromJson<Probe>(before.details)), ...probe };
      const details = JSON.stringify(now);
      await queries
        .insertInto("probes")
        .values({ id: probe.id, details })
        .onConflict((conflict) => conflict.column("id").doUpdateSet({ details }))
        .execute();
      return now;
    });
  }

  list(): Promise<readonly Probe[]> {
    return this.#database.read(probesOf);
  }

  remove(id: string): Promise<void> {
    return this.#database.write(async (queries) => {
      await existingProbe(queries, id);
      const runs = await runsWithProbe(queries, id);
      if (runs > 0) throw new BadInput({ code: "record-in-use", kind: "probe", id, runs });
      await queries.deleteFrom("probes").where("id", "=", id).execute();
    });
  }

  assign({ probeId, fridgeId, boardId, position, sinceUnixMs }: ProbeRole): Promise<void> {
    return this.#database.write(async (queries) => {
      await existingProbe(queries, probeId);
      await existingFridge(queries, fridgeId);
      // A probe sits in one place of a fridge, and a place is measured by one probe of a board.
      await queries
        .deleteFrom("probe_roles")
        .where("fridge_id", "=", fridgeId)
        .where(({ or, and, eb }) =>
          or([eb("probe_id", "=", probeId), and([eb("board_id", "=", boardId), eb("position", "=", position)])]),
        )
        .execute();
      await queries
        .insertInto("probe_roles")
        .values({ probe_id: probeId, fridge_id: fridgeId, board_id: boardId, position, since_ms: sinceUnixMs })
        .execute();
    });
  }

  unassign(probeId: string, fridgeId: string): Promise<void> {
    return this.#database.write(async (queries) => {
      await queries
        .deleteFrom("probe_roles")
        .where("probe_id", "=", probeId)
        .where("fridge_id", "=", fridgeId)
        .execute();
    });
  }

  roles(fridgeId?: string): Promise<readonly ProbeRole[]> {
    return this.#database.read(async (queries) => {
      let query = queries.selectFrom("probe_roles").selectAll();
      if (fridgeId !== undefined) query = query.where("fridge_id", "=", fridgeId);
      const rows = await query.orderBy("fridge_id").orderBy("board_id").orderBy("position").execute();
      return rows.map((row) => ({
        probeId: row.probe_id,
        fridgeId: row.fridge_id,
        boardId: row.board_id,
        position: row.position as Position,
        sinceUnixMs: row.since_ms,
      }));
    });
  }

  calibrate(calibration: NewCalibration): Promise<Calibration> {
    const id = newId();
    return this.#database.write(async (queries) => {
      const { curve } = await existingProbe(queries, calibration.probeId);
      const made = curve ? { ...calibration, curve } : calibration;
      await queries.insertInto("calibrations").values(calibrationRow(id, made)).execute();
      return { ...made, id };
    });
  }

  calibrations(probeId?: string): Promise<readonly Calibration[]> {
    return this.#database.read((queries) => calibrationsOf(queries, probeId === undefined ? undefined : [probeId]));
  }

  removeCalibration(id: string): Promise<void> {
    return this.#database.write(async (queries) => {
      const { numDeletedRows } = await queries.deleteFrom("calibrations").where("id", "=", id).executeTakeFirst();
      if (numDeletedRows === 0n) missing("calibration", id);
    });
  }
}

/** By their ids; of these alone where some are asked for. */
export async function probesOf(queries: Queries, ids?: readonly string[]): Promise<readonly Probe[]> {
  if (ids?.length === 0) return [];
  let query = queries.selectFrom("probes").selectAll();
  if (ids !== undefined) query = query.where("id", "in", ids);
  const rows = await query.orderBy("id").execute();
  return rows.map(({ details }) => fromJson<Probe>(details));
}

/** Newest first; of these probes alone where some are asked for. */
export async function calibrationsOf(queries: Queries, probeIds?: readonly string[]): Promise<readonly Calibration[]> {
  if (probeIds?.length === 0) return [];
  let query = queries.selectFrom("calibrations").selectAll();
  if (probeIds !== undefined) query = query.where("probe_id", "in", probeIds);
  const rows = await query.orderBy("made_ms", "desc").orderBy("id", "desc").execute();
  return rows.map(({ id, details }) => ({ ...fromJson<Omit<Calibration, "id">>(details), id }));
}

async function existingProbe(queries: Queries, id: string): Promise<Probe> {
  const probe = await queries.selectFrom("probes").select("details").where("id", "=", id).executeTakeFirst();
  return probe ? fromJson<Probe>(probe.details) : missing("probe", id);
}

async function runsWithProbe(queries: Queries, id: string): Promise<number> {
  const sealed = queries.selectFrom("blocks").select("run_id").where("probe_id", "=", id);
  const open = queries.selectFrom("open_readings").select("run_id").where("probe_id", "=", id);
  return (await sealed.union(open).execute()).length;
}
