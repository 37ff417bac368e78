// The interface that the server offers and the pages call, from one table.
export { type CallInput, callApi, degreesHeader, ProblemAnswer, refusalIn } from "./client.ts";
export type { JobDocument } from "./jobs.ts";
export { type LiveEvent, liveEvents } from "./live.ts";
export { openApiDocument, pageHeader } from "./open-api.ts";
export {
  type AnswerOf,
  type BodyOf,
  type GivenAnswerOf,
  isMedia,
  type Operation,
  type PathNames,
  type QueryOf,
} from "./operation.ts";
export { type OperationName, type Operations, operations } from "./operations.ts";
export type { Refusal } from "./probes.ts";
export { type ProblemCode, type ProblemDocument, problemMedia, problems, problemTypePrefix } from "./problem.ts";
export { type Role, roles } from "./service.ts";
