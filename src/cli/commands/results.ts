// The options of `coldfall results`.

import type { Command } from "commander";
import { words } from "../../report/index.ts";
import { command, part } from "../command.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const { keeping } = words("en");
const text = keeping.results;
const work = () => import("../keeping/results.ts");

/** The options of `coldfall results`. The work itself is loaded when it is asked for. */
export function addResults(program: Command, terminal: Terminal): void {
  const results = command(program, "results", text);
  part(results, "list", text.list, { isDefault: true })
    .option("--fridge <name>", keeping.fridge)
    .addOption(storeOption())
    .option("--json", keeping.json("results"))
    .action(async (options) => (await work()).listResults(options, terminal));
  part(results, "show <result>", text.show)
    .addOption(storeOption())
    .action(async (id: string, options) => (await work()).showResult(id, options, terminal));
  part(results, "remove <result>", text.remove)
    .addOption(storeOption())
    .action(async (id: string, options) => (await work()).removeResult(id, options, terminal));
}
