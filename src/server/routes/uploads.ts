// Logs on their way in: received, understood, imported by a job; and the samples for an empty store.

import type { IncomingHttpHeaders } from "node:http";
import type { Language } from "../../report/index.ts";
import type { Handlers } from "../handlers.ts";
import { type ImportTask, importInWorker } from "../import-in-worker.ts";
import type { JobControl } from "../jobs.ts";
import { languageOf } from "../language.ts";
import { hintsOf, previewOf, wayOf } from "../log-preview.ts";
import { Problem, problemOf } from "../problem.ts";
import { sampleTasks } from "../samples.ts";
import type { ServiceParts } from "../service-parts.ts";

export function uploadRoutes(
  parts: ServiceParts,
): Handlers<
  | "POST /api/uploads"
  | "POST /api/uploads/{uploadId}/understand"
  | "POST /api/uploads/{uploadId}/import"
  | "DELETE /api/uploads/{uploadId}"
  | "POST /api/samples"
  | "GET /api/jobs"
  | "GET /api/jobs/{jobId}"
  | "DELETE /api/jobs/{jobId}"
> {
  const { store, uploads, jobs, options, watch } = parts;
  const shown = async (id: string, language: Language, hints: Parameters<typeof hintsOf>[0] = {}) => {
    const upload = uploads.get(id);
    const alreadyIn = (await store.runs.withFile(upload.sha256)).map((run) => run.id);
    try {
      const understanding = await previewOf(uploads.file(id), upload.name, hintsOf(hints), language);
      return { ...upload, alreadyIn, understanding, problem: null };
    } catch (error) {
      const problem = problemOf(error, language);
      if (problem.status >= 500) throw error;
      return { ...upload, alreadyIn, understanding: null, problem };
    }
  };
  const imported = async (tasks: readonly ImportTask[], control: JobControl) => {
    const result = await importInWorker(options.storeFile, tasks, control);
    await watch.look();
    return result;
  };
  const started = (headers: IncomingHttpHeaders) => ({ nowUnixMs: parts.now(), language: languageOf(headers) });
  return {
    "POST /api/uploads": async ({ query: { name, here }, body, headers }) =>
      shown((await uploads.receive(name, body, parts.now())).id, languageOf(headers), { here }),
    "POST /api/uploads/{uploadId}/understand": ({ params, body, headers }) =>
      shown(params.uploadId, languageOf(headers), body),
    "POST /api/uploads/{uploadId}/import": async ({
      params,
      body: { fridgeId, hints = {}, name, ...order },
      headers,
    }) => {
      const upload = uploads.get(params.uploadId);
      await store.fridges.get(fridgeId);
      const way = await wayOf(uploads.file(upload.id), upload.name, hintsOf(hints));
      if (way === null) throw new Problem("not-now", (text) => text.questionsOpen);
      const file = uploads.file(upload.id);
      const task = { ...order, file, shownAs: upload.name, fridgeId, way, name: name ?? upload.name };
      // Of an import that failed the bytes stay: it may go well with another answer.
      return jobs.start("import", started(headers), (control) =>
        uploads.usedUp(upload.id, () => imported([task], control)),
      );
    },
    "DELETE /api/uploads/{uploadId}": async ({ params }) => {
      await uploads.forget(params.uploadId);
      return undefined;
    },
    "POST /api/samples": async ({ headers }) => {
      if (options.sampleLogs === undefined) throw new Problem("not-now", (text) => text.noSamples);
      if ((await store.fridges.list()).length > 0) throw new Problem("not-now", (text) => text.storeNotEmpty);
      const tasks = await sampleTasks(store, options.sampleLogs);
      return jobs.start("samples", started(headers), (control) => imported(tasks, control));
    },
    "GET /api/jobs": () => ({ jobs: jobs.list() }),
    "GET /api/jobs/{jobId}": ({ params }) => jobs.get(params.jobId),
    "DELETE /api/jobs/{jobId}": ({ params }) => jobs.cancel(params.jobId),
  };
}
