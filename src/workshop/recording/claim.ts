// One recorder per board. Whoever records holds a claim in the store and prolongs it; a recorder that was killed lets it
// run out, or is found dead by the next one on the same machine.

import { hostname } from "node:os";
import { setTimeout } from "node:timers/promises";
import { BadInput } from "../../schema/index.ts";
import type { Store } from "../../store/index.ts";

const claimMs = 30_000;
const prolongMs = 10_000;
const mostAttempts = 5;
const attemptMs = 200;

/** Who records, as a person would look for it. */
export const holderHere = (pid: number = process.pid, host: string = hostname()): string => `process ${pid} on ${host}`;

/** What a recorder claims while it listens to a board. */
export const boardClaimName = (boardId: string): string => `board ${boardId}`;

/**
 * Claims a name until the returned object is disposed of.
 *
 * @param name what is recorded, such as a board's id
 * @param now the clock, ms since 1970
 * @throws BadInput "already-recorded", naming the recorder that holds it
 */
export async function claimed(
  boards: Store["boards"],
  name: string,
  now: () => number = Date.now,
): Promise<AsyncDisposable> {
  const holder = holderHere();
  const prolong = () => boards.claim({ name, holder, untilUnixMs: now() + claimMs }, now());
  let claim = await prolong();
  // A recorder killed a moment ago may take that moment to be gone.
  for (let attempt = 0; claim.holder !== holder && attempt < mostAttempts; attempt++) {
    if (isDeadHere(claim.holder)) await boards.release(name, claim.holder);
    else await setTimeout(attemptMs);
    claim = await prolong();
  }
  if (claim.holder !== holder) throw new BadInput({ code: "already-recorded", name, holder: claim.holder });
  const timer = setInterval(() => void prolong().catch(() => {}), prolongMs);
  return {
    async [Symbol.asyncDispose]() {
      clearInterval(timer);
      await boards.release(name, holder);
    },
  };
}

/** Whether the holder was a process of this machine that is no more. */
function isDeadHere(holder: string): boolean {
  const [, pid] = /^process (\d+) on (.*)$/.exec(holder) ?? [];
  if (pid === undefined || holder !== holderHere(Number(pid))) return false;
  try {
    process.kill(Number(pid), 0);
    return false;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "ESRCH";
  }
}
