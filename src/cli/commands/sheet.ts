// The options of `coldfall sheet`.

import { type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { command } from "../command.ts";
import type { SheetOptions } from "../keeping/sheet.ts";
import { several } from "../option-values.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const { keeping } = words("en");

/** The options of `coldfall sheet`. The work itself is loaded when it is asked for. */
export function addSheet(program: Command, terminal: Terminal): void {
  command(program, "sheet", keeping.sheet)
    .argument("<run>", keeping.run)
    .addOption(new Option("--set <field=value>", keeping.sheet.set).argParser(several((text) => text)))
    .option("--file <file>", keeping.sheet.file)
    .addOption(storeOption())
    .action(async (id: string, options: SheetOptions) => {
      const { runSheetCommand } = await import("../keeping/sheet.ts");
      await runSheetCommand(id, options, terminal);
    });
}
