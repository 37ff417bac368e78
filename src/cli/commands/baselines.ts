// The options of `coldfall baselines`.

import type { Command } from "commander";
import { words } from "../../report/index.ts";
import { command, part } from "../command.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const { keeping } = words("en");
const text = keeping.baselines;
const work = () => import("../keeping/baselines.ts");

/** The options of `coldfall baselines`. The work itself is loaded when it is asked for. */
export function addBaselines(program: Command, terminal: Terminal): void {
  const baselines = command(program, "baselines", text);
  part(baselines, "list", text.list, { isDefault: true })
    .option("--fridge <name>", keeping.fridge)
    .addOption(storeOption())
    .option("--json", keeping.json("baselines"))
    .action(async (options) => (await work()).listBaselines(options, terminal));
  part(baselines, "add", text.add)
    .argument("<fridge>", keeping.fridge)
    .argument("[run...]", text.runs)
    .option("--file <file>", text.file)
    .option("--notes <words>", text.notes)
    .addOption(storeOption())
    .action(async (fridge: string, runs: string[], options) =>
      (await work()).addBaseline(fridge, runs, options, terminal),
    );
  part(baselines, "remove <baseline>", text.remove)
    .addOption(storeOption())
    .action(async (id: string, options) => (await work()).removeBaseline(id, options, terminal));
}
