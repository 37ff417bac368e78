// The options of `coldfall runs` and `coldfall export`.

import { type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { runPurposes } from "../../store/index.ts";
import { command, part } from "../command.ts";
import { withOneOf } from "../only-with.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const { keeping } = words("en");
const text = keeping.runs;
const work = () => import("../keeping/runs.ts");
const purpose = (words: string) => new Option("--purpose <purpose>", words).choices(runPurposes);

/** The options of `coldfall runs`. The work itself is loaded when it is asked for. */
export function addRuns(program: Command, terminal: Terminal): void {
  const runs = command(program, "runs", text);
  part(runs, "list", text.list, { isDefault: true })
    .option("--fridge <name>", text.ofFridge)
    .addOption(purpose(text.onlyPurpose))
    .option("--removed", text.removedToo)
    .addOption(storeOption())
    .option("--json", keeping.json("runs"))
    .action(async (options) => (await work()).listRuns(options, terminal));
  withOneOf(part(runs, "edit <run>", text.edit), "--name", "--purpose", "--notes")
    .option("--name <name>", text.name)
    .addOption(purpose(text.purpose))
    .option("--notes <words>", text.notes)
    .addOption(storeOption())
    .action(async (id: string, options) => (await work()).editRun(id, options, terminal));
  part(runs, "remove <run>", text.remove)
    .addOption(storeOption())
    .action(async (id: string, options) => (await work()).removeRun(id, options, terminal));
  part(runs, "restore <run>", text.restore)
    .addOption(storeOption())
    .action(async (id: string, options) => (await work()).restoreRun(id, options, terminal));
}

/** The options of `coldfall export`. */
export function addExport(program: Command, terminal: Terminal): void {
  command(program, "export", keeping.export)
    .argument("<run>", keeping.run)
    .requiredOption("--out <file>", keeping.export.out)
    .option("--raw", keeping.export.raw)
    .addOption(storeOption())
    .action(async (id: string, options) => (await work()).exportRun(id, options, terminal));
}
