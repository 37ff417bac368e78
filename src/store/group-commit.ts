// Lets batches that arrive close together share one commit, because each commit waits for the disk. A lone batch is committed at
// once; the next within `waitMs` waits until that time is over or a good many have gathered, and all go together.

import { BadInput } from "../schema/index.ts";

/** What happened to one batch of a group. */
export type Outcome<Answer> = { readonly answer: Answer } | { readonly error: unknown };

interface Waiting<Batch, Answer> {
  readonly batch: Batch;
  readonly settle: (outcome: Outcome<Answer>) => void;
}

/** So many batches need not wait for more: the disk's share in each is small by then. */
const goodMany = 250;

/** Refusals that say nothing about the batches. */
const isOfTheStore = (error: unknown): boolean =>
  error instanceof BadInput && ["store-busy", "store-disk-full", "store-unusable"].includes(error.code);

/** Takes batches and gives each its own answer once it is durable. */
export class GroupCommit<Batch, Answer> {
  readonly #commit: (batches: readonly Batch[]) => Promise<readonly Outcome<Answer>[]>;
  readonly #waitMs: number;
  #waiting: Waiting<Batch, Answer>[] = [];
  #lastCommit = Number.NEGATIVE_INFINITY;
  /** Gathering and committing; null when nothing is to be done. */
  #running: Promise<void> | null = null;
  /** Ends the gathering early. */
  #haveMany = () => {};

  /**
   * @param commit makes the batches durable together, in order, and says what became of each
   * @param waitMs the longest that a batch waits for others
   */
  constructor(commit: (batches: readonly Batch[]) => Promise<readonly Outcome<Answer>[]>, waitMs: number) {
    this.#commit = commit;
    this.#waitMs = waitMs;
  }

  /** The answer to this batch, once it is durable. */
  async add(batch: Batch): Promise<Answer> {
    const settled = Promise.withResolvers<Outcome<Answer>>();
    this.#waiting.push({ batch, settle: settled.resolve });
    this.#running ??= this.#run();
    if (this.#waiting.length >= goodMany) this.#haveMany();
    const outcome = await settled.promise;
    if ("error" in outcome) throw outcome.error;
    return outcome.answer;
  }

  /** Waits until nothing is under way. */
  async drained(): Promise<void> {
    while (this.#running !== null) await this.#running;
  }

  async #run(): Promise<void> {
    while (this.#waiting.length > 0) {
      await this.#gathered(this.#lastCommit + this.#waitMs - performance.now());
      this.#lastCommit = performance.now();
      const group = this.#waiting;
      this.#waiting = [];
      const outcomes = await this.#outcomes(group.map(({ batch }) => batch));
      for (const [i, { settle }] of group.entries()) settle(outcomes[i]);
      this.#refuseBehind(outcomes);
    }
    this.#running = null;
  }

  /**
   * What came meanwhile is refused with what the store itself refused: kept on its own, a small batch that a full disk still
   * takes would hide that the larger one before it is missing, and a recording would go on from behind the hole.
   */
  #refuseBehind(outcomes: readonly Outcome<Answer>[]): void {
    const refused = outcomes.find((outcome) => "error" in outcome && isOfTheStore(outcome.error));
    if (refused === undefined) return;
    for (const { settle } of this.#waiting.splice(0)) settle(refused);
  }

  /** With nothing to wait for, still lets what arrives in the same turn come along. */
  #gathered(ms: number): Promise<void> {
    return new Promise((resolve) => {
      if (ms <= 0 || this.#waiting.length >= goodMany) setImmediate(resolve);
      else {
        const timer = setTimeout(resolve, ms);
        this.#haveMany = () => {
          clearTimeout(timer);
          setImmediate(resolve);
        };
      }
    });
  }

  async #outcomes(batches: readonly Batch[]): Promise<readonly Outcome<Answer>[]> {
    try {
      return await this.#commit(batches);
    } catch (error) {
      // One bad batch must not take the others with it. What is wrong with the store itself is so for each of them, and every
      // attempt may wait for another process as long as the first did.
      if (batches.length === 1 || isOfTheStore(error)) return batches.map(() => ({ error }));
      const outcomes: Outcome<Answer>[] = [];
      for (const batch of batches) outcomes.push(...(await this.#outcomes([batch])));
      return outcomes;
    }
  }
}
