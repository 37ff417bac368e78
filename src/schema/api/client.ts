// How a page calls the interface. Types follow from the table of operations; at run time nothing of it is needed but an
// operation's own name, so that a page does not load the schemas.

import type { AnswerOf, PathNames, QueryOf, SentBodyOf } from "./operation.ts";
import type { OperationName, Operations } from "./operations.ts";
import type { ProblemDocument } from "./problem.ts";

/** "F" in it: what the service tells in sentences, tables and drawings is in degrees Fahrenheit. */
export const degreesHeader = "Coldfall-Degrees";

/** A body that is no JSON, such as a log's file. */
export type BodyBytes = Blob | string | Uint8Array<ArrayBuffer>;

/** What goes with a call: nothing that the operation does not take, nothing missing that it needs. */
export type CallInput<N extends OperationName> = (keyof PathNames<N> extends never
  ? { readonly params?: undefined }
  : { readonly params: PathNames<N> }) &
  (Record<never, never> extends QueryOf<Operations[N]>
    ? { readonly query?: QueryOf<Operations[N]> }
    : { readonly query: QueryOf<Operations[N]> }) &
  (undefined extends SentBodyOf<Operations[N], BodyBytes>
    ? { readonly body?: undefined }
    : { readonly body: SentBodyOf<Operations[N], BodyBytes> }) & {
    readonly signal?: AbortSignal;
    /** `etag` of the answer that a change starts from: refused when somebody else was faster. */
    readonly ifMatch?: string;
    /** Further headers, such as a board's token. */
    readonly headers?: { readonly [name: string]: string };
  };

/** An answer with what a later change needs to be safe. */
export interface Answered<A> {
  readonly answer: A;
  readonly status: number;
  readonly etag: string | null;
}

/** The service said no. */
export class ProblemAnswer extends Error {
  readonly problem: ProblemDocument;
  constructor(problem: ProblemDocument) {
    super(problem.detail ?? problem.title);
    this.name = "ProblemAnswer";
    this.problem = problem;
  }
}

/** Where calls go, and with what: in a page the browser's own fetch, and "". */
export interface Caller {
  readonly send: (address: string, init: RequestInit) => Promise<Response>;
  /** Before the path, such as "https://bench.local:8443". */
  readonly base: string;
}

/**
 * Calls one operation.
 *
 * @throws ProblemAnswer when the service refuses; what the caller's `send` throws when it is out of reach
 */
export async function callApi<N extends OperationName>(
  caller: Caller,
  name: N,
  ...[input]: Record<never, never> extends CallInput<N> ? [CallInput<N>?] : [CallInput<N>]
): Promise<Answered<AnswerOf<Operations[N]>>> {
  const { params = {}, query = {}, body, signal, ifMatch, headers: further } = (input ?? {}) as LooseInput;
  const [method, path] = name.split(" ");
  const isJson = body !== undefined && !isBytes(body);
  const headers: Record<string, string> = { ...further };
  if (method !== "GET") headers["Coldfall-Request"] = "1";
  if (isJson) headers["Content-Type"] = "application/json";
  else if (body !== undefined) headers["Content-Type"] ??= "text/csv";
  if (ifMatch !== undefined) headers["If-Match"] = ifMatch;
  const response = await caller.send(caller.base + apiAddress(path, params, query), {
    method,
    headers,
    body: isJson ? JSON.stringify(body) : (body as BodyBytes | undefined),
    signal,
    credentials: "same-origin",
  });
  if (!response.ok) throw await refusalIn(response);
  const answer = await contentOf(response);
  return { answer: answer as AnswerOf<Operations[N]>, status: response.status, etag: response.headers.get("ETag") };
}

/** What a response that is not ok says. */
export const refusalIn = async (response: Response): Promise<ProblemAnswer> =>
  new ProblemAnswer(asProblem(await contentOf(response), response));

/** The address of an operation: for a link, a picture or an event stream. */
function apiAddress(
  path: string,
  params: { readonly [name: string]: string } = {},
  query: { readonly [name: string]: unknown } = {},
): string {
  const filled = path.replace(/\{(\w+)\}/g, (_, key) => encodeURIComponent(params[key]));
  const asked = Object.entries(query).flatMap(([key, value]) =>
    value === undefined ? [] : [[key, String(value)] as [string, string]],
  );
  return asked.length === 0 ? filled : `${filled}?${new URLSearchParams(asked)}`;
}

interface LooseInput {
  readonly params?: { readonly [name: string]: string };
  readonly query?: { readonly [name: string]: unknown };
  readonly body?: unknown;
  readonly signal?: AbortSignal;
  readonly ifMatch?: string;
  readonly headers?: { readonly [name: string]: string };
}

const isBytes = (body: unknown) => typeof body === "string" || body instanceof Blob || body instanceof Uint8Array;

async function contentOf(response: Response): Promise<unknown> {
  if (response.status === 204) return undefined;
  return /[/+]json\b/.test(response.headers.get("Content-Type") ?? "") ? response.json() : response.text();
}

/** A proxy between may answer with a page of its own. */
function asProblem(answer: unknown, { status, statusText }: Response): ProblemDocument {
  if (typeof answer === "object" && answer !== null && "code" in answer) return answer as ProblemDocument;
  return { type: "about:blank", title: statusText, status, code: "no-problem-document" };
}
