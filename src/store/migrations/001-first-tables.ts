// Version 1: all tables. A migration never changes once a store was written with it; the next change is the next file.

import { type ColumnDefinitionBuilder, type CreateTableBuilder, sql } from "kysely";
import type { Migration } from "./index.ts";

export const firstTables: Migration = async (schema, { bytesType }) => {
  const table = (name: string) => schema.createTable(name);
  /** Rows that go when the run or fridge goes they belong to. */
  const belongsTo = (owner: "runs" | "fridges" | "probes" | "results") => (column: ColumnDefinitionBuilder) =>
    column.notNull().references(`${owner}.id`).onDelete("cascade");

  await named(table("fridges"))
    .addColumn("name", "text", required)
    .addColumn("name_key", "text", required)
    .addColumn("details", "text", required)
    .addColumn("added_ms", "double precision", required)
    .addColumn("removed_ms", "double precision")
    .execute();
  await schema
    .createIndex("fridges_by_name")
    .unique()
    .on("fridges")
    .column("name_key")
    .where(sql.ref("removed_ms"), "is", null)
    .execute();

  await named(table("runs"))
    .addColumn("fridge_id", "text", belongsTo("fridges"))
    .addColumn("name", "text", required)
    .addColumn("purpose", "text", required)
    .addColumn("origin", "text", required)
    .addColumn("started_ms", "double precision", required)
    .addColumn("ended_ms", "double precision")
    .addColumn("utc_offset_minutes", "double precision", required)
    .addColumn("sheet", "text")
    .addColumn("plan", "text")
    .addColumn("notes", "text")
    .addColumn("deleted_ms", "double precision")
    .execute();
  await schema.createIndex("runs_by_fridge").on("runs").columns(["fridge_id", "started_ms"]).execute();
  await schema.createIndex("runs_by_start").on("runs").columns(["started_ms", "id"]).execute();

  await table("run_files")
    .addColumn("run_id", "text", belongsTo("runs"))
    .addColumn("place", "integer", required)
    .addColumn("sha256", "text", required)
    .addColumn("name", "text", required)
    .addPrimaryKeyConstraint("run_files_key", ["run_id", "sha256"])
    .execute();
  await schema.createIndex("run_files_by_sha256").on("run_files").column("sha256").execute();

  await table("open_readings")
    .addColumn("run_id", "text", belongsTo("runs"))
    .addColumn("series", "text", required)
    .addColumn("unix_ms", "double precision", required)
    .addColumn("raw", "double precision", required)
    .addColumn("probe_id", "text")
    .addColumn("board_id", "text")
    .addColumn("boot", "double precision", required)
    .addColumn("sequence", "double precision")
    .addColumn("uptime_ms", "double precision")
    .addColumn("host_ms", "double precision")
    .addPrimaryKeyConstraint("open_readings_key", ["run_id", "series", "unix_ms"])
    .execute();
  await schema
    .createIndex("open_readings_by_line")
    .unique()
    .on("open_readings")
    .columns(["run_id", "board_id", "boot", "series", "sequence"])
    .execute();

  // Not "without rowid" in SQLite: rows of about a quarter page and more would each spill to a page of their own.
  await table("blocks")
    .addColumn("run_id", "text", belongsTo("runs"))
    .addColumn("series", "text", required)
    .addColumn("from_ms", "double precision", required)
    .addColumn("to_ms", "double precision", required)
    .addColumn("readings", "integer", required)
    .addColumn("probe_id", "text")
    .addColumn("board_id", "text")
    .addColumn("boot", "double precision", required)
    .addColumn("first_sequence", "double precision")
    .addColumn("last_sequence", "double precision")
    .addColumn("checksum", "bigint", required)
    .addColumn("payload", bytesType, required)
    .addPrimaryKeyConstraint("blocks_key", ["run_id", "series", "from_ms"])
    .execute();
  // Whether a reading that arrives is already sealed is found in constant time, by its instant and by its line.
  await schema.createIndex("blocks_by_end").on("blocks").columns(["run_id", "series", "to_ms"]).execute();
  await schema
    .createIndex("blocks_by_line")
    .on("blocks")
    .columns(["run_id", "board_id", "boot", "last_sequence"])
    .execute();

  await table("edits")
    .addColumn("run_id", "text", belongsTo("runs"))
    .addColumn("number", "integer", required)
    .addColumn("made_ms", "double precision", required)
    .addColumn("made_by", "text")
    .addColumn("step", "text", required)
    .addColumn("undone", "integer", required)
    .addPrimaryKeyConstraint("edits_key", ["run_id", "number"])
    .execute();

  await named(table("events"))
    .addColumn("run_id", "text", belongsTo("runs"))
    .addColumn("kind", "text", required)
    .addColumn("from_ms", "double precision", required)
    .addColumn("to_ms", "double precision")
    .addColumn("position", "text")
    .addColumn("board_id", "text")
    .addColumn("details", "text")
    .execute();
  await schema.createIndex("events_by_run").on("events").columns(["run_id", "from_ms"]).execute();

  await named(table("results"))
    .addColumn("fridge_id", "text", belongsTo("fridges"))
    .addColumn("kind", "text", required)
    .addColumn("method", "text", required)
    .addColumn("made_ms", "double precision", required)
    .addColumn("document", "text", required)
    .execute();
  await schema.createIndex("results_by_fridge").on("results").columns(["fridge_id", "made_ms", "id"]).execute();

  await table("result_runs")
    .addColumn("result_id", "text", belongsTo("results"))
    .addColumn("place", "integer", required)
    .addColumn("run_id", "text", belongsTo("runs"))
    .addPrimaryKeyConstraint("result_runs_key", ["result_id", "place"])
    .execute();
  await schema.createIndex("result_runs_by_run").on("result_runs").column("run_id").execute();

  await named(table("baselines"))
    .addColumn("fridge_id", "text", belongsTo("fridges"))
    .addColumn("made_ms", "double precision", required)
    .addColumn("details", "text", required)
    .execute();
  await schema.createIndex("baselines_by_fridge").on("baselines").columns(["fridge_id", "made_ms"]).execute();

  await named(table("probes")).addColumn("details", "text", required).execute();

  await table("probe_roles")
    .addColumn("probe_id", "text", belongsTo("probes"))
    .addColumn("fridge_id", "text", belongsTo("fridges"))
    .addColumn("board_id", "text", required)
    .addColumn("position", "text", required)
    .addColumn("since_ms", "double precision", required)
    .addPrimaryKeyConstraint("probe_roles_key", ["probe_id", "fridge_id"])
    .execute();

  await named(table("calibrations"))
    .addColumn("probe_id", "text", belongsTo("probes"))
    .addColumn("made_ms", "double precision", required)
    .addColumn("details", "text", required)
    .execute();
  await schema.createIndex("calibrations_by_probe").on("calibrations").columns(["probe_id", "made_ms"]).execute();

  await named(table("boards"))
    .addColumn("label", "text")
    .addColumn("fridge_id", "text", (column) => column.references("fridges.id").onDelete("set null"))
    .addColumn("hello", "text")
    .addColumn("first_seen_ms", "double precision", required)
    .addColumn("last_seen_ms", "double precision", required)
    .addColumn("token_sha256", "text", (column) => column.unique())
    .execute();

  await table("claims")
    .addColumn("name", "text", (column) => column.primaryKey().notNull())
    .addColumn("holder", "text", required)
    .addColumn("until_ms", "double precision", required)
    .execute();

  await named(table("alarms"))
    .addColumn("run_id", "text", belongsTo("runs"))
    .addColumn("kind", "text", required)
    .addColumn("position", "text")
    .addColumn("raised_ms", "double precision", required)
    .addColumn("reason", "text", required)
    .addColumn("cleared_ms", "double precision")
    .addColumn("acknowledged_ms", "double precision")
    .addColumn("acknowledged_by", "text")
    .execute();
  await schema.createIndex("alarms_by_run").on("alarms").columns(["run_id", "raised_ms"]).execute();

  await named(table("outbox"))
    .addColumn("target", "text", required)
    .addColumn("body", "text", required)
    .addColumn("made_ms", "double precision", required)
    .addColumn("attempts", "integer", required)
    .addColumn("next_ms", "double precision", required)
    .addColumn("last_error", "text")
    .execute();
  await schema.createIndex("outbox_by_turn").on("outbox").column("next_ms").execute();

  await table("settings")
    .addColumn("owner", "text", required)
    .addColumn("name", "text", required)
    .addColumn("value", "text", required)
    .addPrimaryKeyConstraint("settings_key", ["owner", "name"])
    .execute();
};

const required = (column: ColumnDefinitionBuilder) => column.notNull();

/** A table whose rows have an id. */
const named = (table: CreateTableBuilder<string, never>) =>
  table.addColumn("id", "text", (column) => column.primaryKey().notNull());
