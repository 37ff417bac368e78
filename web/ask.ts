// How pages ask the service: one function for all, which also finds out whether the service is in reach, and a hook that
// keeps an answer on the page while the next one is on its way.

import { useCallback, useEffect, useState } from "preact/hooks";
import {
  type CallInput,
  callApi,
  degreesHeader,
  type OperationName,
  ProblemAnswer,
  refusalIn,
} from "../src/schema/api/index.ts";
import { keptValue, useKept } from "./kept-value.ts";
import { degrees, language } from "./settings.ts";
import { bench } from "./words.ts";

/** When the service was heard last, if it is out of reach now; "never" where nothing was kept. null: it is in reach. */
export const outOfReach = keptValue<number | "never" | null>(null);

/** The service wants to know who asks. */
export const isSignInNeeded = keptValue(false);

/** Set by the service worker on an answer that it had kept. */
const keptHeader = "Coldfall-Kept";

async function send(address: string, init: RequestInit): Promise<Response> {
  try {
    const headers = { ...init.headers, "Accept-Language": language, [degreesHeader]: degrees.get() };
    const response = await fetch(address, { ...init, headers });
    const keptAt = response.headers.get(keptHeader);
    if (keptAt === null) outOfReach.set(null);
    else outOfReach.set(Number(keptAt));
    if (response.status === 401 && !address.startsWith("/api/session")) isSignInNeeded.set(true);
    return response;
  } catch (error) {
    if (!(error instanceof DOMException) && outOfReach.get() === null) outOfReach.set("never");
    throw error;
  }
}

const caller = { send, base: "" };

type Input<N extends OperationName> = Record<never, never> extends CallInput<N> ? [CallInput<N>?] : [CallInput<N>];

/** A file of the service, in the reader's language and degrees. @throws as `ask` */
export async function fileAt(address: string): Promise<Blob> {
  const response = await send(address, {});
  if (!response.ok) throw await refusalIn(response);
  return response.blob();
}

/** Calls one operation. @throws as `callApi` */
export const ask = async <N extends OperationName>(name: N, ...input: Input<N>) =>
  (await callApi(caller, name, ...input)).answer;

/** What went wrong on this device; its message is the sentence for the page. */
export class OwnProblem extends Error {}

/** What went wrong, as a sentence for the page. */
export function sentenceOf(error: unknown): string {
  if (error instanceof OwnProblem) return error.message;
  if (!(error instanceof ProblemAnswer)) return bench.cannotReach;
  const { title, detail } = error.problem;
  return detail === undefined ? `${title}.` : detail;
}

export interface Asked<A> {
  /** The newest answer; the one before while another is on its way. */
  readonly answer: A | null;
  readonly problem: string | null;
  /** Of the problem, for what the page can offer then; null where the service was not reached. */
  readonly code: string | null;
  readonly isWaiting: boolean;
  readonly again: () => void;
}

/** A service that was not reached is asked again after so long, or as soon as there is a network again. */
const askAgainMs = 10_000;

interface State<A> {
  readonly key: string | null;
  readonly answer: A | null;
  readonly problem: string | null;
  readonly code: string | null;
  readonly asking: boolean;
}

const nothingYet = { answer: null, problem: null, code: null, asking: true };

const codeOf = (error: unknown) => (error instanceof ProblemAnswer ? error.problem.code : null);

/**
 * Asks when the part appears and whenever what is asked changes, or the degrees it is to be told in.
 *
 * @param key says what is asked; null asks nothing
 */
export function useAsked<A>(key: string | null, question: () => Promise<A>): Asked<A> {
  const [state, setState] = useState<State<A>>({ ...nothingYet, key: null });
  const [turn, setTurn] = useState(0);
  const shownDegrees = useKept(degrees);
  useEffect(() => {
    if (key === null) return;
    let isWanted = true;
    setState((before) => (before.key === key ? { ...before, asking: true } : { ...nothingYet, key }));
    question().then(
      (answer) => isWanted && setState({ key, answer, problem: null, code: null, asking: false }),
      (error) =>
        isWanted &&
        setState((before) => ({ ...before, key, problem: sentenceOf(error), code: codeOf(error), asking: false })),
    );
    return () => {
      isWanted = false;
    };
    // What is asked stands in the key.
  }, [key, turn, shownDegrees]);
  const again = useCallback(() => setTurn((times) => times + 1), []);
  const isUnheard = state.key === key && !state.asking && state.problem !== null && state.code === null;
  useEffect(() => {
    // Nobody should have to load a page anew because it was opened without a network.
    if (!isUnheard) return;
    const timer = setTimeout(again, askAgainMs);
    addEventListener("online", again);
    return () => {
      clearTimeout(timer);
      removeEventListener("online", again);
    };
  }, [isUnheard, again]);
  const isOwn = state.key === key;
  return {
    answer: isOwn ? state.answer : null,
    problem: isOwn ? state.problem : null,
    code: isOwn ? state.code : null,
    isWaiting: key !== null && (!isOwn || state.asking),
    again,
  };
}
