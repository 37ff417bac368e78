// A run of the store as the science takes it: one log, with what a report says of where it came from.

import { createHash } from "node:crypto";
import type { ReportInput } from "../report/index.ts";
import { positions, type Recording } from "../schema/index.ts";
import type { Run, Store } from "../store/index.ts";

/** A run with its readings. */
export interface RunLog {
  readonly run: Run;
  /** Named as people call the run. */
  readonly recording: Recording;
  readonly sha256: string;
}

/**
 * Reads a run.
 *
 * @param id the run's id, or the beginning of one that only one run has
 * @throws BadInput "no-such-record"
 */
export async function runLog(store: Pick<Store, "runs" | "readings">, id: string): Promise<RunLog> {
  const run = await store.runs.get(id);
  const recording = await store.readings.recording(run.id);
  return { run, recording, sha256: recording.sha256 ?? readingsHash(recording) };
}

/** The log as the input of a result. */
export const inputOf = <Role extends ReportInput["role"]>({ recording, sha256 }: RunLog, role: Role) => ({
  name: recording.name,
  role,
  sha256,
});

/** SHA-256 over instants and corrected values, so that a result names what it was made from though no file ever held it. */
function readingsHash({ unixMs, columns, sourceCodes, sourceMarks }: Recording): string {
  const hash = createHash("sha256").update(bytesOf(unixMs));
  for (const position of positions) {
    const values = columns[position];
    if (values) hash.update(position).update(bytesOf(values));
  }
  if (sourceCodes) hash.update(sourceCodes);
  return hash.update(JSON.stringify(sourceMarks)).digest("hex");
}

const bytesOf = ({ buffer, byteOffset, byteLength }: Float64Array) => new Uint8Array(buffer, byteOffset, byteLength);
