// What a button does and may fail at: no failure goes without a word.

import { useState } from "preact/hooks";
import { sentenceOf } from "../ask.ts";

interface Attempt {
  /** Of the last attempt that failed, until one goes well. */
  readonly problem: string | null;
  /** Whether it went well. */
  readonly attempt: (work: () => Promise<unknown>) => Promise<boolean>;
}

/** Does what is asked and holds the sentence to show where it failed. */
export function useAttempt(): Attempt {
  const [problem, setProblem] = useState<string | null>(null);
  const attempt = async (work: () => Promise<unknown>) => {
    try {
      await work();
      setProblem(null);
      return true;
    } catch (error) {
      setProblem(sentenceOf(error));
      return false;
    }
  };
  return { problem, attempt };
}
