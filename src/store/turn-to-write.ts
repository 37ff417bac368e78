// One process may open the same file twice. SQLite would then wait for the other's transaction to end while holding up the very
// thread that has to end it. So within a process those who write to a file take turns.

import { resolve } from "node:path";

/** Per file, the end of the last turn that was asked for. */
const lastTurns = new Map<string, Promise<void>>();

/** Waits for the turns asked for before. @returns a function that ends this one */
export async function turnToWrite(file: string): Promise<() => void> {
  const key = resolve(file);
  const before = lastTurns.get(key);
  const turn = Promise.withResolvers<void>();
  lastTurns.set(key, turn.promise);
  await before;
  return () => {
    if (lastTurns.get(key) === turn.promise) lastTurns.delete(key);
    turn.resolve();
  };
}
