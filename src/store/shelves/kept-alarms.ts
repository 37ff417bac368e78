// Alarms in the tables.

import type { Position } from "../../schema/index.ts";
import { alarmSubject } from "../alarm-subject.ts";
import { existingRun, missing } from "../existing-records.ts";
import { fromJson } from "../json-text.ts";
import { newId } from "../new-id.ts";
import { alarmRow } from "../record-rows.ts";
import type { Alarm, NewAlarm } from "../records.ts";
import type { Alarms } from "../store.ts";
import type { Queries, StoreDatabase } from "../store-database.ts";
import type { AlarmRow } from "../tables.ts";

export class KeptAlarms implements Alarms {
  readonly #database: StoreDatabase;

  constructor(database: StoreDatabase) {
    this.#database = database;
  }

  raise(alarm: NewAlarm): Promise<{ readonly alarm: Alarm; readonly isNew: boolean }> {
    return this.#database.write(async (queries) => {
      await existingRun(queries, alarm.runId);
      const latched = await latchedTwin(queries, alarm);
      if (latched) {
        // Its cause is back before anyone looked: still the same alarm.
        await queries.updateTable("alarms").set({ cleared_ms: null }).where("id", "=", latched.id).execute();
        return { alarm: alarmOf({ ...latched, cleared_ms: null }), isNew: false };
      }
      const unseen = { clearedUnixMs: null, acknowledgedUnixMs: null, acknowledgedBy: null };
      const row = alarmRow({ ...alarm, ...unseen, id: newId() });
      await queries.insertInto("alarms").values(row).execute();
      return { alarm: alarmOf(row), isNew: true };
    });
  }

  clear(id: string, unixMs: number): Promise<void> {
    return this.#database.write(async (queries) => {
      const { numUpdatedRows } = await queries
        .updateTable("alarms")
        .set({ cleared_ms: unixMs })
        .where("id", "=", id)
        .executeTakeFirst();
      if (numUpdatedRows === 0n) missing("alarm", id);
    });
  }

  acknowledge(id: string, unixMs: number, by?: string): Promise<Alarm> {
    return this.#database.write(async (queries) => {
      await queries
        .updateTable("alarms")
        .set({ acknowledged_ms: unixMs, acknowledged_by: by ?? null })
        .where("id", "=", id)
        .where("acknowledged_ms", "is", null)
        .execute();
      const row = await queries.selectFrom("alarms").selectAll().where("id", "=", id).executeTakeFirst();
      return alarmOf(row ?? missing("alarm", id));
    });
  }

  list({
    runId,
    isAcknowledged,
  }: {
    readonly runId?: string;
    readonly isAcknowledged?: boolean;
  } = {}): Promise<readonly Alarm[]> {
    return this.#database.read(async (queries) => {
      const runs = queries.selectFrom("runs").select("id").where("deleted_ms", "is", null);
      const all = queries.selectFrom("alarms").selectAll();
      let query = runId === undefined ? all.where("run_id", "in", runs) : all.where("run_id", "=", runId);
      if (isAcknowledged !== undefined) query = query.where("acknowledged_ms", isAcknowledged ? "is not" : "is", null);
      return (await query.orderBy("raised_ms", "desc").orderBy("id", "desc").execute()).map(alarmOf);
    });
  }
}

/** The same cause again, not yet acknowledged: of one kind, about the same source, probe or board. */
async function latchedTwin(
  queries: Queries,
  { runId, kind, reason, isAnother = false }: NewAlarm,
): Promise<AlarmRow | undefined> {
  const latched = await queries
    .selectFrom("alarms")
    .selectAll()
    .where("run_id", "=", runId)
    .where("kind", "=", kind)
    .where("acknowledged_ms", "is", null)
    .execute();
  return latched
    .filter((row) => !isAnother || row.cleared_ms === null)
    .find((row) => alarmSubject(fromJson(row.reason)) === alarmSubject(reason));
}

const alarmOf = (row: AlarmRow): Alarm => ({
  id: row.id,
  runId: row.run_id,
  kind: row.kind,
  ...(row.position !== null && { position: row.position as Position }),
  raisedUnixMs: row.raised_ms,
  reason: fromJson(row.reason),
  clearedUnixMs: row.cleared_ms,
  acknowledgedUnixMs: row.acknowledged_ms,
  acknowledgedBy: row.acknowledged_by,
});
