// How operations become routes: check the input, make one call, reply. The table of operations says what goes in and out.

import type { IncomingHttpHeaders } from "node:http";
import type { Readable } from "node:stream";
import type { Response } from "express";
import type { BodyOf, GivenAnswerOf, OperationName, Operations, PathNames, QueryOf } from "../schema/api/index.ts";
import type { Visitor } from "./sign-in.ts";

/** A checked request. */
export interface Asked<N extends OperationName> {
  readonly params: PathNames<N>;
  readonly query: QueryOf<Operations[N]>;
  readonly body: BodyOf<Operations[N], Readable>;
  readonly headers: IncomingHttpHeaders;
  readonly visitor: Visitor;
  /** For the few answers that are more than a document: cookies, streams. */
  readonly response: Response;
}

/** An answer that is no JSON: a text, bytes, pieces of a text, or a stream that is written as it comes. */
export type MediaAnswer =
  | string
  | Uint8Array
  | AsyncIterable<string>
  | { readonly stream: (response: Response) => void };

/** Answers one operation. */
export type Handler<N extends OperationName> = (
  asked: Asked<N>,
) => Promise<GivenAnswerOf<Operations[N], MediaAnswer>> | GivenAnswerOf<Operations[N], MediaAnswer>;

/** A handler for each operation named. */
export type Handlers<Names extends OperationName = OperationName> = { readonly [N in Names]: Handler<N> };
