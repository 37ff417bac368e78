// One line that says what long work is at, wiped when the work is done.

import type { Terminal } from "./terminal.ts";

const quietMs = 500;
const wipeLine = "\r\u001b[K";

/** Shows steps once the work has lasted half a second, and only to someone who watches. */
export class Progress {
  readonly #terminal: Terminal;
  readonly #startMs: number;
  #isShown = false;

  constructor(terminal: Terminal) {
    this.#terminal = terminal;
    this.#startMs = terminal.now();
  }

  step(text: string): void {
    if (!this.#terminal.isWatched || this.#terminal.now() - this.#startMs < quietMs) return;
    this.#terminal.tell(`${wipeLine}${text} …`);
    this.#isShown = true;
  }

  [Symbol.dispose](): void {
    if (this.#isShown) this.#terminal.tell(wipeLine);
  }
}
