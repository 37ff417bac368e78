// The tables as queries see them. Made by migrations/; instants are `..._ms` (double precision), JSON is kept as text.

/** Everything under one roof, for Kysely. */
export interface Tables {
  readonly fridges: FridgeRow;
  readonly runs: RunRow;
  readonly run_files: {
    readonly run_id: string;
    readonly place: number;
    readonly sha256: string;
    readonly name: string;
  };
  readonly open_readings: OpenReadingRow;
  readonly blocks: BlockRow;
  readonly edits: EditRow;
  readonly events: EventRow;
  readonly results: ResultRow;
  readonly result_runs: { readonly result_id: string; readonly place: number; readonly run_id: string };
  readonly baselines: BaselineRow;
  readonly probes: { readonly id: string; readonly details: string };
  readonly probe_roles: ProbeRoleRow;
  readonly calibrations: {
    readonly id: string;
    readonly probe_id: string;
    readonly made_ms: number;
    readonly details: string;
  };
  readonly boards: BoardRow;
  readonly claims: { readonly name: string; readonly holder: string; readonly until_ms: number };
  readonly alarms: AlarmRow;
  readonly outbox: MessageRow;
  /** `owner`: a fridge's id, or "" for the whole workshop. */
  readonly settings: { readonly owner: string; readonly name: string; readonly value: string };
}

export interface FridgeRow {
  readonly id: string;
  readonly name: string;
  /** The name as it is compared: one case, one Unicode form. */
  readonly name_key: string;
  readonly details: string;
  readonly added_ms: number;
  readonly removed_ms: number | null;
}

export interface RunRow {
  readonly id: string;
  readonly fridge_id: string;
  readonly name: string;
  readonly purpose: string;
  readonly origin: string;
  readonly started_ms: number;
  readonly ended_ms: number | null;
  readonly utc_offset_minutes: number;
  readonly sheet: string | null;
  readonly plan: string | null;
  readonly notes: string | null;
  readonly deleted_ms: number | null;
}

/** A reading of the open tail: a row of its own until it is sealed. `series` is a position, or "source". */
export interface OpenReadingRow {
  readonly run_id: string;
  readonly series: string;
  readonly unix_ms: number;
  readonly raw: number;
  /** Of `raw`; null: °C, V for the supply. */
  readonly unit: string | null;
  readonly probe_id: string | null;
  readonly board_id: string | null;
  readonly boot: number;
  readonly sequence: number | null;
  readonly uptime_ms: number | null;
  readonly host_ms: number | null;
}

/** A sealed block (blocks/reading-block.ts) with what is needed to find it. Both instants are of readings in it. */
export interface BlockRow {
  readonly run_id: string;
  readonly series: string;
  readonly from_ms: number;
  readonly to_ms: number;
  readonly readings: number;
  /** Of the raw values; null: °C, V for the supply. */
  readonly unit: string | null;
  readonly probe_id: string | null;
  readonly board_id: string | null;
  readonly boot: number;
  readonly first_sequence: number | null;
  readonly last_sequence: number | null;
  readonly checksum: number;
  readonly payload: Uint8Array;
}

export interface EditRow {
  readonly run_id: string;
  readonly number: number;
  readonly made_ms: number;
  readonly made_by: string | null;
  readonly step: string;
  /** 0: in force; 1: undone, can be redone; 2: undone for good, as something else was done since. */
  readonly undone: number;
}

interface EventRow {
  readonly id: string;
  readonly run_id: string;
  readonly kind: string;
  readonly from_ms: number;
  readonly to_ms: number | null;
  readonly position: string | null;
  readonly board_id: string | null;
  readonly details: string | null;
}

export interface ResultRow {
  readonly id: string;
  readonly fridge_id: string;
  readonly kind: string;
  readonly method: string;
  readonly made_ms: number;
  readonly document: string;
}

interface BaselineRow {
  readonly id: string;
  readonly fridge_id: string;
  readonly made_ms: number;
  readonly details: string;
}

interface ProbeRoleRow {
  readonly probe_id: string;
  readonly fridge_id: string;
  readonly board_id: string;
  readonly position: string;
  readonly since_ms: number;
}

export interface BoardRow {
  readonly id: string;
  readonly label: string | null;
  readonly fridge_id: string | null;
  readonly hello: string | null;
  readonly first_seen_ms: number;
  readonly last_seen_ms: number;
  /** SHA-256 of its token, lower-case hex. */
  readonly token_sha256: string | null;
}

export interface AlarmRow {
  readonly id: string;
  readonly run_id: string;
  readonly kind: string;
  readonly position: string | null;
  readonly raised_ms: number;
  readonly reason: string;
  readonly cleared_ms: number | null;
  readonly acknowledged_ms: number | null;
  readonly acknowledged_by: string | null;
}

export interface MessageRow {
  readonly id: string;
  readonly target: string;
  readonly body: string;
  readonly made_ms: number;
  readonly attempts: number;
  readonly next_ms: number;
  readonly last_error: string | null;
}
