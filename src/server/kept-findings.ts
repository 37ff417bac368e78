// What the workshop finds in kept runs, asked once and kept until something it rests on changes. It speaks no language yet:
// routes/judging.ts tells it to each visitor in theirs.

import type { TestReport } from "../report/test-report/index.ts";
import type { Fridge, Run } from "../store/index.ts";
import { type Comparison, compareKeptRuns } from "../workshop/compare.ts";
import { baselineRuns } from "../workshop/fridge-baseline.ts";
import { type Judgement, judgeLogs, keepJudgement } from "../workshop/judge.ts";
import { readRuns } from "../workshop/logs-read.ts";
import { type HotDayQuestion, type Prediction, predictFromLogs } from "../workshop/predict.ts";
import { runTestReport, serviceTestReport } from "../workshop/test-report.ts";
import { AnswersKept } from "./answers-kept.ts";
import { Problem } from "./problem.ts";
import { runsRevision } from "./run-revision.ts";
import type { ServiceParts } from "./service-parts.ts";

/** What a page is headed by: the fridge's name. */
interface Titled {
  readonly title: string;
}

/** Runs before and after a service, each at least one. */
export interface ServiceRuns {
  readonly before: readonly string[];
  readonly after: readonly string[];
}

interface ReportWishes {
  /** Allowed loss, as a share. */
  readonly margin?: number;
  readonly letterhead?: string;
}

/** Each throws the store's own error for a run or fridge that is not there, and a Problem "not-now" for one without readings. */
export class KeptFindings {
  readonly #parts: Pick<ServiceParts, "store" | "now">;
  readonly #verdicts = new AnswersKept<Judgement & Titled>(mostKept);
  readonly #comparisons = new AnswersKept<Comparison & Titled>(mostKept);
  readonly #hotDays = new AnswersKept<Prediction & Titled>(mostKept);
  readonly #reports = new AnswersKept<TestReport>(mostKept);
  /** By run, what its newest filed result rests on: a change taken back is filed too, or the fridge would show the change. */
  readonly #filed = new Map<string, string>();

  constructor(parts: Pick<ServiceParts, "store" | "now">) {
    this.#parts = parts;
  }

  /** The verdict on a run, which is filed when the run is over and judged by the usual margin. */
  async verdict(runId: string, margin?: number): Promise<Judgement & Titled> {
    const { store } = this.#parts;
    const run = await this.#runWithReadings(runId);
    const rests = await this.#restsOn([run.id], margin);
    const found = await this.#verdicts.get(rests, async () => {
      const { name: title } = await store.fridges.get(run.fridgeId);
      return { title, ...judgeLogs(await readRuns(store, [run.id]), { margin }) };
    });
    // A run that goes on, or another margin, is looked at, not filed.
    if (run.endedUnixMs !== null && margin === undefined && this.#filed.get(run.id) !== rests) {
      await this.file(found, run);
      this.#filed.set(run.id, rests);
    }
    return found;
  }

  /** Files a verdict as the run's newest result, under the present instant where it is a new one. */
  file(found: Judgement, { id, fridgeId }: Run): ReturnType<typeof keepJudgement> {
    const { store, now } = this.#parts;
    return keepJudgement(store, found, { fridgeId, runIds: [id], madeUnixMs: now() });
  }

  async comparison({ before, after }: ServiceRuns, margin?: number): Promise<Comparison & Titled> {
    const { name: title } = await this.#fridgeServiced({ before, after });
    const rests = await this.#restsOn([...before, ...after], before.length, margin);
    return this.#comparisons.get(rests, async () => ({
      title,
      ...(await compareKeptRuns(this.#parts.store, before, after, { margin })),
    }));
  }

  /** Written when it is first asked for, and kept with that instant until something it rests on changes. */
  async runReport(runId: string, { margin, letterhead }: ReportWishes): Promise<TestReport> {
    const { store, now } = this.#parts;
    const judgement = await this.verdict(runId, margin);
    const { id, fridgeId } = await store.runs.get(runId);
    const key = await this.#restsOn([id], "report", margin, letterhead, await store.fridges.get(fridgeId));
    return this.#reports.get(key, () => runTestReport(store, id, judgement, { madeMs: now(), letterhead }));
  }

  /** As `runReport`, of a service. */
  async serviceReport({ before, after }: ServiceRuns, { margin, letterhead }: ReportWishes): Promise<TestReport> {
    const { store, now } = this.#parts;
    const fridge = await this.#fridgeServiced({ before, after });
    const key = await this.#restsOn([...before, ...after], "report", before.length, margin, letterhead, fridge);
    return this.#reports.get(key, () => serviceTestReport(store, before, after, { madeMs: now(), margin, letterhead }));
  }

  /** @throws Problem "not-now" where no run of the fridge holds a reading */
  async hotDay(fridgeId: string, question: HotDayQuestion): Promise<Prediction & Titled> {
    const { store } = this.#parts;
    const fridge = await store.fridges.get(fridgeId);
    const { runs } = await store.runs.list({ fridgeId: fridge.id, limit: mostRuns });
    const extents = await Promise.all(runs.map(({ id }) => store.runs.extents(id)));
    const ids = runs.filter((_, index) => extents[index].length > 0).map(({ id }) => id);
    if (ids.length === 0) throw new Problem("not-now", ({ noRuns }) => noRuns);
    return this.#hotDays.get(await this.#restsOn(ids, question), async () => {
      const { prediction, context } = predictFromLogs(await readRuns(store, ids), question);
      return { title: fridge.name, prediction, context };
    });
  }

  /** What the answer about these runs rests on: they, and the known-good runs of their fridge. */
  async #restsOn(runIds: readonly string[], ...besides: readonly unknown[]): Promise<string> {
    const { store } = this.#parts;
    const { fridgeId } = await store.runs.get(runIds[0]);
    const baseline = await baselineRuns(store, fridgeId, runIds);
    return runsRevision(store, [...runIds, ...baseline.runIds], runIds, baseline.id, besides);
  }

  async #fridgeServiced({ before, after }: ServiceRuns): Promise<Fridge> {
    const { store } = this.#parts;
    for (const id of [...before, ...after]) await this.#runWithReadings(id);
    return store.fridges.get((await store.runs.get(before[0])).fridgeId);
  }

  async #runWithReadings(runId: string): Promise<Run> {
    const { store } = this.#parts;
    const run = await store.runs.get(runId);
    if ((await store.runs.extents(run.id)).length === 0) throw new Problem("not-now", ({ noReadings }) => noReadings);
    return run;
  }
}

/** Answers of each sort that are kept. */
const mostKept = 30;
/** A hot day stands on the fridge's newest runs; the document names them. */
const mostRuns = 40;
