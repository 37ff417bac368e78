// Things that happen, kept in order until somebody takes them.

/** A queue between a source that does not wait and one reader that does. */
export class ArrivalQueue<Item> implements AsyncIterable<Item> {
  readonly #items: Item[] = [];
  #isEnded = false;
  #wake: (() => void) | null = null;

  push(item: Item): void {
    this.#items.push(item);
    this.#wake?.();
  }

  /** Nothing more will come; what is in the queue is still given out. */
  end(): void {
    this.#isEnded = true;
    this.#wake?.();
  }

  async *[Symbol.asyncIterator](): AsyncGenerator<Item, void> {
    for (;;) {
      while (this.#items.length > 0) yield* this.#items.splice(0);
      if (this.#isEnded) return;
      await new Promise<void>((resolve) => {
        this.#wake = resolve;
      });
      this.#wake = null;
    }
  }
}
