// `coldfall schema`: the published JSON Schemas.

import { Argument, type Command } from "commander";
import { words } from "../../report/index.ts";
import { jsonSchemaOf, type PublishedShape, publishedShapes } from "../../schema/documents/index.ts";
import { command } from "../command.ts";
import type { Terminal } from "../terminal.ts";

const { cli } = words("en");

/** `coldfall schema`: the published JSON Schemas. */
export function addSchema(program: Command, terminal: Terminal): void {
  const text = cli.schema;
  command(program, "schema", text)
    .addArgument(new Argument("[name]", text.name).choices(publishedShapes))
    .action((name?: PublishedShape) =>
      terminal.print(
        name === undefined ? `${publishedShapes.join("\n")}\n` : `${JSON.stringify(jsonSchemaOf(name), null, 2)}\n`,
      ),
    );
}
