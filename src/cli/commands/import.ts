// The options of `coldfall import`.

import { Argument, type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { runPurposes } from "../../store/index.ts";
import { command } from "../command.ts";
import type { ImportOptions } from "../import.ts";
import { addLogOptions } from "../log-options.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const text = words("en").importWords.command;

/** The options of `coldfall import`. The work itself is loaded when it is asked for. */
export function addImport(program: Command, terminal: Terminal): void {
  addLogOptions(
    command(program, "import", text)
      .addArgument(new Argument("<log>", text.file))
      .addOption(new Option("--preview", text.preview))
      .addOption(new Option("--fridge <name>", text.fridge))
      .addOption(new Option("--run <run>", text.run))
      .addOption(new Option("--name <name>", text.name).conflicts("run"))
      .addOption(new Option("--purpose <purpose>", text.purpose).choices(runPurposes).conflicts("run"))
      .addOption(new Option("--sheet <file>", text.sheet).conflicts("run")),
    { sourceAt: text.sourceAt },
  )
    .addOption(new Option("--save-map <file>", text.saveMap))
    .addOption(storeOption())
    .addOption(new Option("--json", text.json))
    .action(async (file: string, options: ImportOptions) => {
      const { runImport } = await import("../import.ts");
      await runImport(file, options, terminal);
    });
}
