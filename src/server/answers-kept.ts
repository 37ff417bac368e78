// Answers that cost something, kept while what they rest on stays as it is. The oldest used make room.

/** Keeps values by key up to a total size; a value being made is made once for all who wait. */
export class AnswersKept<Value> {
  readonly #kept = new Map<string, { readonly made: Promise<Value>; size: number }>();
  readonly #most: number;
  readonly #sizeOf: (value: Value) => number;

  /** @param most total of all sizes */
  constructor(most: number, sizeOf: (value: Value) => number = () => 1) {
    this.#most = most;
    this.#sizeOf = sizeOf;
  }

  get(key: string, make: () => Promise<Value>): Promise<Value> {
    const kept = this.#kept.get(key) ?? { made: make(), size: 0 };
    // Taken out and put back, so that the order of the map is the order of use.
    const isNew = !this.#kept.delete(key);
    this.#kept.set(key, kept);
    if (isNew) {
      kept.made.then(
        (value) => {
          kept.size = this.#sizeOf(value);
          this.#makeRoom();
        },
        () => this.#kept.delete(key),
      );
    }
    return kept.made;
  }

  #makeRoom(): void {
    let total = [...this.#kept.values()].reduce((sum, { size }) => sum + size, 0);
    for (const [key, { size }] of this.#kept) {
      if (total <= this.#most) return;
      this.#kept.delete(key);
      total -= size;
    }
  }
}
