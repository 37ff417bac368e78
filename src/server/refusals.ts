// Counts what was refused, so that the technician sees when somebody or something keeps knocking.

/** Refused requests and records since the start, by reason. */
export class Refusals {
  readonly #counts = new Map<string, number>();

  count(reason: string, times = 1): void {
    this.#counts.set(reason, (this.#counts.get(reason) ?? 0) + times);
  }

  all(): { readonly [reason: string]: number } {
    return Object.fromEntries(this.#counts);
  }
}
