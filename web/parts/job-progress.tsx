// Long work with its progress, and a way to stop it.

import { useEffect, useRef, useState } from "preact/hooks";
import type { JobDocument } from "../../src/schema/api/index.ts";
import { ask } from "../ask.ts";
import { useLive } from "../live.ts";
import { bench } from "../words.ts";

interface JobProgressProps {
  readonly jobId: string;
  /** Told once, when all went well. */
  readonly done: (job: JobDocument) => void;
}

export function JobProgress({ jobId, done }: JobProgressProps) {
  const [job, setJob] = useState<JobDocument | null>(null);
  const isTold = useRef(false);
  const look = () => ask("GET /api/jobs/{jobId}", { params: { jobId } }).then(setJob, () => undefined);
  useLive((event) => {
    if (event.kind === "job" && event.data.job.id === jobId) setJob(event.data.job as JobDocument);
    if (event.kind === "missed") void look();
  });
  useEffect(() => {
    void look();
    // The stream may have opened after the last step was told.
    const timer = setInterval(look, 2000);
    return () => clearInterval(timer);
  }, [jobId]);
  useEffect(() => {
    if (job?.state !== "done" || isTold.current) return;
    isTold.current = true;
    done(job);
  }, [job?.state]);
  const stop = () => ask("DELETE /api/jobs/{jobId}", { params: { jobId } }).then(setJob, () => undefined);
  const state = job?.state ?? "running";
  return (
    <div class="job" role="status">
      <p>
        {bench.job.states[state]} {job?.problem?.detail ?? ""}
      </p>
      {state === "running" ? (
        <>
          <progress aria-label={bench.job.progress} max={1} value={job?.progress ?? undefined} />
          <button type="button" onClick={stop}>
            {bench.job.cancel}
          </button>
        </>
      ) : null}
    </div>
  );
}
