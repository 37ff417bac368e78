// Long work that goes on after the request was answered: watched, cancelled, and remembered for a while.

import { randomUUID } from "node:crypto";
import type { Language } from "../report/index.ts";
import type { JobDocument } from "../schema/api/index.ts";
import { Problem, problemOf } from "./problem.ts";

/** What the work is handed to tell how far it is and to hear that it should stop. */
export interface JobControl {
  readonly signal: AbortSignal;
  /** @param share done, 0 to 1 */
  progress(share: number): void;
}

/** What a job that is done brought in. */
export type JobResult = NonNullable<JobDocument["result"]>;

/** The jobs of this start of the service. */
export class Jobs {
  readonly #jobs = new Map<string, { document: JobDocument; readonly abort: AbortController; over: Promise<void> }>();
  readonly #changed: (job: JobDocument) => void;
  readonly #fault: (id: string, error: unknown) => void;

  /**
   * @param changed hears of every change
   * @param fault hears of what only the log may say: a job that failed by a fault of the program
   */
  constructor(changed: (job: JobDocument) => void, fault: (id: string, error: unknown) => void) {
    this.#changed = changed;
    this.#fault = fault;
  }

  /**
   * @param language in which it tells what went wrong
   * @throws Problem "too-many-requests" while as many as may run are running
   */
  start(
    kind: JobDocument["kind"],
    { nowUnixMs, language }: { readonly nowUnixMs: number; readonly language: Language },
    work: (control: JobControl) => Promise<JobResult>,
  ): JobDocument {
    const running = this.list().filter(({ state }) => state === "running");
    if (running.length >= mostRunning) throw new Problem("too-many-requests");
    const abort = new AbortController();
    const id = randomUUID();
    const document: JobDocument = {
      id,
      kind,
      state: "running",
      startedUnixMs: nowUnixMs,
      progress: null,
      result: null,
      problem: null,
    };
    const job = { document, abort, over: Promise.resolve() };
    this.#jobs.set(id, job);
    job.over = this.#carryOut(id, work, language);
    this.#forgetOld();
    return document;
  }

  list(): readonly JobDocument[] {
    return [...this.#jobs.values()].map(({ document }) => document).reverse();
  }

  /** @throws Problem "no-such-record" */
  get(id: string): JobDocument {
    return this.#job(id).document;
  }

  /** Asks the work to stop and waits until it did. */
  async cancel(id: string): Promise<JobDocument> {
    const job = this.#job(id);
    job.abort.abort();
    await job.over;
    return this.get(id);
  }

  /** Cancels all there are. */
  async close(): Promise<void> {
    await Promise.all([...this.#jobs.keys()].map((id) => this.cancel(id)));
  }

  #job(id: string) {
    const job = this.#jobs.get(id);
    if (job === undefined) throw new Problem("no-such-record");
    return job;
  }

  async #carryOut(id: string, work: (control: JobControl) => Promise<JobResult>, language: Language): Promise<void> {
    const { signal } = this.#job(id).abort;
    const progress = (share: number) => {
      // A word a hundredth is enough for any bar.
      const shown = Math.min(1, Math.round(share * 100) / 100);
      if (shown !== this.get(id).progress) this.#change(id, { progress: shown });
    };
    try {
      // What the caller answers with is the job as it begins.
      await new Promise(setImmediate);
      const result = await work({ signal, progress });
      this.#change(id, { state: "done", progress: 1, result });
    } catch (error) {
      if (signal.aborted) return this.#change(id, { state: "cancelled" });
      const problem = problemOf(error, language);
      if (problem.status >= 500) this.#fault(id, error);
      this.#change(id, { state: "failed", problem });
    }
  }

  #change(id: string, changes: Partial<JobDocument>): void {
    const job = this.#job(id);
    job.document = { ...job.document, ...changes };
    this.#changed(job.document);
  }

  #forgetOld(): void {
    const over = [...this.#jobs.entries()].filter(([, { document }]) => document.state !== "running");
    for (const [id] of over.slice(0, Math.max(0, over.length - mostRemembered))) this.#jobs.delete(id);
  }
}

const mostRunning = 4;
const mostRemembered = 50;
