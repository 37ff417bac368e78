// What goes wrong in a request, as problem details (RFC 9457). Who throws a Problem, a BadInput or anything else ends up in
// one error handler, error-handler.ts.

import { handOf, say, words } from "../report/index.ts";
import { type ProblemCode, type ProblemDocument, problems, problemTypePrefix } from "../schema/api/index.ts";
import { BadInput } from "../schema/index.ts";

const { server, badInput } = words("en");

/** A request that has to be refused. */
export class Problem extends Error {
  readonly code: ProblemCode;
  readonly fields: ProblemDocument["fields"];
  /** @param detail what was wrong this time, when more is to say than the title does */
  constructor(code: ProblemCode, detail?: string, fields?: ProblemDocument["fields"]) {
    super(detail ?? code);
    this.name = "Problem";
    this.code = code;
    this.fields = fields;
    this.hasDetail = detail !== undefined;
  }
  private readonly hasDetail: boolean;

  get document(): ProblemDocument {
    return {
      ...headOf(this.code),
      ...(this.hasDetail ? { detail: this.message } : {}),
      ...(this.fields === undefined ? {} : { fields: this.fields }),
    };
  }
}

/** Any error as the problem that leaves the house. What is nobody's business is not in it. */
export function problemOf(error: unknown): ProblemDocument {
  if (error instanceof Problem) return error.document;
  if (error instanceof BadInput) return refusedInput(error);
  const known = ofBodyParser(error);
  return headOf(known ?? "internal-fault");
}

const headOf = (code: ProblemCode): ProblemDocument => ({
  type: problemTypePrefix + code,
  title: server.problemTitles[code],
  status: problems[code],
  code,
});

function refusedInput({ code, saying }: BadInput): ProblemDocument {
  const own = code in badInputProblems ? badInputProblems[code as keyof typeof badInputProblems] : "cannot-use";
  return { ...headOf(own), type: problemTypePrefix + code, code, detail: say(badInput, saying, handOf("en", 0)) };
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
