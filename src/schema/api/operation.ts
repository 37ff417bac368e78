// What one operation of the interface is made of. The table of all of them is in operations.ts.

import type { z } from "zod";

/**
 * Who may use an operation: anyone at all, who looks (the owner and the technician), who changes (the technician), or a
 * probe board with its token.
 */
export type Permission = "anyone" | "look" | "change" | "board";

/** A body or an answer that is no JSON: its media types, the first being the usual one. */
export interface Media {
  readonly media: readonly [string, ...string[]];
}

/** One operation. Its method and path are its name in the table. */
export interface Operation {
  readonly summary: string;
  readonly may: Permission;
  /** What may stand after the question mark; every part is optional there unless the shape says otherwise. */
  readonly query?: z.ZodObject;
  readonly body?: z.ZodType | Media;
  /** `null`: it answers with nothing. */
  readonly answer: z.ZodType | Media | null;
  /** Of the good answer; 200 unless stated, 204 where there is no answer. */
  readonly status?: 200 | 201 | 202;
}

/** Keeps the exact types of an operation, from which those of routes and client follow. */
export const operation = <const O extends Operation>(described: O): O => described;

export const isMedia = (shape: z.ZodType | Media): shape is Media => "media" in shape;

/** `Runs["runs"]` of a readonly list is as good as that of a list. */
export type Frozen<T> = T extends readonly (infer Item)[]
  ? readonly Frozen<Item>[]
  : T extends object
    ? { readonly [K in keyof T]: Frozen<T[K]> }
    : T;

type NamesIn<Path extends string> = Path extends `${string}{${infer Name}}${infer Rest}` ? Name | NamesIn<Rest> : never;

/** The names between braces in an operation's name. */
export type PathNames<Name extends string> = { readonly [N in NamesIn<Name>]: string };

/** What stands after the question mark. */
export type QueryOf<O extends Operation> = O extends { readonly query: infer Q extends z.ZodType }
  ? z.output<Q>
  : Record<never, never>;

/** The body as a handler gets it: JSON as an object, anything else as a stream of bytes. */
export type BodyOf<O extends Operation, Stream> = O extends { readonly body: infer B }
  ? B extends z.ZodType
    ? z.output<B>
    : Stream
  : undefined;

/** The body as a client hands it over: JSON as an object that is only read, anything else as bytes. */
export type SentBodyOf<O extends Operation, Bytes> = O extends { readonly body: infer B }
  ? B extends z.ZodType
    ? Frozen<z.output<B>>
    : Bytes
  : undefined;

/** The good answer as a client gets it: JSON as an object, anything else as text. */
export type AnswerOf<O extends Operation> = O["answer"] extends z.ZodType
  ? z.output<O["answer"]>
  : O["answer"] extends Media
    ? string
    : undefined;

/** The good answer as a handler gives it: JSON as an object that is only read, anything else as `Text`. */
export type GivenAnswerOf<O extends Operation, Text> = O["answer"] extends z.ZodType
  ? Frozen<z.output<O["answer"]>>
  : O["answer"] extends Media
    ? Text
    : undefined;
