// The interface described for strangers: an OpenAPI 3.1 document, made from the table of operations.

import { z } from "zod";
import { degreesHeader } from "./client.ts";
import { isMedia, type Media, type Operation } from "./operation.ts";
import { operations } from "./operations.ts";
import { problemMedia } from "./problem.ts";

type JsonObject = { [key: string]: unknown };

/** @param version the program's */
export function openApiDocument(version: string): object {
  const paths: { [path: string]: JsonObject } = {};
  for (const [name, described] of Object.entries<Operation>(operations)) {
    const [method, path] = name.split(" ");
    paths[path] ??= {};
    paths[path][method.toLowerCase()] = operationObject(name, described);
  }
  const { schemas } = z.toJSONSchema(z.globalRegistry, { uri: componentUri, target: "draft-2020-12" });
  return {
    openapi: "3.1.0",
    info: {
      title: "Coldfall",
      version,
      description:
        "Judges three-way absorption fridges from logged temperatures. Requests that change anything carry the header " +
        `${pageHeader}: 1. Sentences, tables and drawings come in the language of Accept-Language, and in degrees Fahrenheit with the ` +
        `header ${degreesHeader}: F; numbers stay in the units they name. Every error is a problem (RFC 9457). Coldfall switches and lights nothing and is no gas, CO or fire alarm.`,
      license: { name: "MIT", identifier: "MIT" },
    },
    servers: [{ url: "/" }],
    security: [{ session: [] }],
    paths,
    components: {
      schemas: Object.fromEntries(Object.entries(schemas).map(([id, schema]) => [id, withoutItsOwnNames(schema)])),
      securitySchemes: {
        session: { type: "apiKey", in: "cookie", name: "__Host-coldfall", description: "where a password is set" },
        board: { type: "http", scheme: "bearer", description: "a board's token" },
      },
    },
  };
}

/** A header that no form and no image can send: who sends it is a page of ours, or a program. */
export const pageHeader = "Coldfall-Request";

const componentUri = (id: string) => `#/components/schemas/${id}`;

function operationObject(name: string, { summary, may, query, body, answer, status }: Operation): JsonObject {
  const parameters = [...pathParameters(name), ...(query === undefined ? [] : queryParameters(query))];
  const good = status ?? (answer === null ? 204 : 200);
  return {
    operationId: operationId(name),
    summary,
    ...(may === "anyone" ? { security: [] } : may === "board" ? { security: [{ board: [] }] } : {}),
    ...(may === "change" ? { description: "The technician's alone, where a password is set." } : {}),
    ...(parameters.length === 0 ? {} : { parameters }),
    ...(body === undefined ? {} : { requestBody: { required: true, content: contentOf(body) } }),
    responses: {
      [good]: { description: summary, ...(answer === null ? {} : { content: contentOf(answer) }) },
      default: {
        description: "what went wrong",
        content: { [problemMedia]: { schema: { $ref: componentUri("Problem") } } },
      },
    },
  };
}

/** "GET /api/runs/{runId}/log.csv": getRunsRunIdLogCsv */
function operationId(name: string): string {
  const [first, ...others] = name
    .replace("/api/", "")
    .split(/[^A-Za-z0-9]+/)
    .filter((word) => word !== "");
  return [first.toLowerCase(), ...others.map((word) => word[0].toUpperCase() + word.slice(1))].join("");
}

const pathParameters = (name: string) =>
  [...name.matchAll(/\{(\w+)\}/g)].map(([, key]) => ({
    name: key,
    in: "path",
    required: true,
    schema: { type: "string", minLength: 1, maxLength: 128 },
  }));

function queryParameters(query: z.ZodObject): JsonObject[] {
  const { properties = {}, required = [] } = z.toJSONSchema(query, { target: "draft-2020-12" });
  return Object.entries(properties).map(([key, schema]) => ({
    name: key,
    in: "query",
    required: required.includes(key),
    schema,
  }));
}

function contentOf(shape: z.ZodType | Media): JsonObject {
  if (isMedia(shape)) return Object.fromEntries(shape.media.map((media) => [media, {}]));
  const id = z.globalRegistry.get(shape)?.id;
  if (id === undefined) throw new RangeError("a body or an answer has no name: give its schema an id");
  return { "application/json": { schema: { $ref: componentUri(id) } } };
}

/** `$id` and `$schema` would make every component a document of its own, with other addresses for its parts. */
function withoutItsOwnNames(schema: JsonObject): JsonObject {
  const { $id: _, $schema: __, ...rest } = schema;
  return rest;
}
