import { Validator } from "@seriousme/openapi-schema-validator";
import { expect, test } from "vitest";
import { openApiDocument, operations } from "../../src/schema/api/index.ts";
import { running } from "./service.ts";

interface Document {
  readonly paths: { readonly [path: string]: { readonly [method: string]: { readonly operationId: string } } };
  readonly components: { readonly schemas: { readonly [name: string]: object } };
}

const served = async () => {
  const service = await running();
  return (await (await fetch(`${service.base}/api/openapi.json`)).json()) as Document;
};

// The validator checks against the OpenAPI Initiative's own JSON Schemas of the specification.
test("the document that the service hands out is valid OpenAPI 3.1", async () => {
  const result = await new Validator().validate({ ...(await served()) });
  expect(result.errors).toBeUndefined();
  expect(result.valid).toBe(true);
});

test("the document holds every operation of the table once, each with a name of its own", async () => {
  const { paths } = await served();
  const described = Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, { operationId }]) => ({
      name: `${method.toUpperCase()} ${path}`,
      operationId,
    })),
  );
  expect(described.map(({ name }) => name).sort()).toEqual(Object.keys(operations).sort());
  expect(new Set(described.map(({ operationId }) => operationId)).size).toBe(described.length);
});

test("every reference in the document leads to a component of it", async () => {
  const document = await served();
  const references = [...JSON.stringify(document).matchAll(/"\$ref":"([^"]+)"/g)].map(([, reference]) => reference);
  expect(references.length).toBeGreaterThan(50);
  const missing = references.filter(
    (reference) => !(reference.replace("#/components/schemas/", "") in document.components.schemas),
  );
  expect([...new Set(missing)]).toEqual([]);
});

test("the document says which version of the program it is of", () => {
  expect(openApiDocument("1.2.3")).toMatchObject({ openapi: "3.1.0", info: { version: "1.2.3" } });
});
