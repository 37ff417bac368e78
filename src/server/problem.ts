// What goes wrong in a request, as problem details (RFC 9457), in the visitor's language. Who throws a Problem, a BadInput
// or anything else ends up in one error handler, error-handler.ts.

import { handOf, type Language, say, type Words, words } from "../report/index.ts";
import { type ProblemCode, type ProblemDocument, problems, problemTypePrefix } from "../schema/api/index.ts";
import { BadInput } from "../schema/index.ts";

/** Says something in the words of the service, whichever language they are in. */
export type Said = (text: Words["server"]) => string;

/** A part of the request that is wrong. */
export interface WrongField {
  readonly where: string;
  readonly what: Said;
}

/** A request that has to be refused. It speaks no language until it is told. */
export class Problem extends Error {
  readonly code: ProblemCode;
  readonly detail: Said | undefined;
  readonly fields: readonly WrongField[] | undefined;
  /** @param detail what was wrong this time, when more is to say than the title does */
  constructor(code: ProblemCode, detail?: Said, fields?: readonly WrongField[]) {
    super(detail?.(words("en").server) ?? code);
    this.name = "Problem";
    this.code = code;
    this.detail = detail;
    this.fields = fields;
  }
}

/** Any error as the problem that leaves the house. What is nobody's business is not in it. */
export function problemOf(error: unknown, language: Language): ProblemDocument {
  if (error instanceof BadInput) return refusedInput(error, language);
  if (!(error instanceof Problem)) return headOf(ofBodyParser(error) ?? "internal-fault", language);
  const { server } = words(language);
  const { code, detail, fields } = error;
  return {
    ...headOf(code, language),
    ...(detail === undefined ? {} : { detail: detail(server) }),
    ...(fields === undefined ? {} : { fields: fields.map(({ where, what }) => ({ where, what: what(server) })) }),
  };
}

const headOf = (code: ProblemCode, language: Language): ProblemDocument => ({
  type: problemTypePrefix + code,
  title: words(language).server.problemTitles[code],
  status: problems[code],
  code,
});

function refusedInput({ code, saying }: BadInput, language: Language): ProblemDocument {
  const own = code in badInputProblems ? badInputProblems[code as keyof typeof badInputProblems] : "cannot-use";
  const detail = say(words(language).badInput, saying, handOf(language, 0));
  return { ...headOf(own, language), type: problemTypePrefix + code, code, detail };
}

/** Refusals of lower floors that have a problem of their own here. */
const badInputProblems = {
  "no-such-record": "no-such-record",
  "no-such-file": "no-such-record",
  "name-taken": "not-now",
  "record-in-use": "not-now",
  "store-busy": "store-busy",
  "store-disk-full": "store-disk-full",
} as const satisfies { readonly [code: string]: ProblemCode };

/** What Express and its body parser throw carries a `type`, or only a `status`. */
function ofBodyParser(error: unknown): ProblemCode | undefined {
  if (typeof error !== "object" || error === null) return undefined;
  const { type, status } = error as { readonly type?: unknown; readonly status?: unknown };
  if (type === "entity.too.large") return "body-too-large";
  if (type === "entity.parse.failed") return "not-json";
  if (type === "encoding.unsupported" || type === "charset.unsupported") return "wrong-media";
  return status === 400 ? "bad-request" : undefined;
}
