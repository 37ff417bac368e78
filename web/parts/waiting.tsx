// What stands on a page until its answer is there, or instead of it.

import { bench } from "../words.ts";

interface WaitingProps {
  readonly asked: { readonly problem: string | null; readonly again: () => void };
  readonly title?: string;
}

export function Waiting({ asked, title }: WaitingProps) {
  return (
    <>
      {title === undefined ? null : <h1>{title}</h1>}
      {asked.problem === null ? (
        <p class="note" role="status">
          {bench.waiting}
        </p>
      ) : (
        <div role="alert">
          <p>{asked.problem}</p>
          <button type="button" onClick={asked.again}>
            {bench.tryAgain}
          </button>
        </div>
      )}
    </>
  );
}
