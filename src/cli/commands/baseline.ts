// The options of `coldfall baseline`.

import { Argument, type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import type { BaselineOptions } from "../baseline.ts";
import { command } from "../command.ts";
import { addLogOptions } from "../log-options.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const { cli } = words("en");

/** The options of `coldfall baseline`. The work itself is loaded when it is asked for. */
export function addBaseline(program: Command, terminal: Terminal): void {
  const text = cli.baseline;
  addLogOptions(
    command(program, "baseline", text)
      .addArgument(new Argument("<log...>", text.logs))
      .addOption(new Option("--out <file>", text.out).makeOptionMandatory())
      .addOption(new Option("--of-kind", text.ofKind)),
  )
    .addOption(storeOption())
    .action(async (logs: string[], options: BaselineOptions) => {
      const { runBaseline } = await import("../baseline.ts");
      await runBaseline(logs, options, terminal);
    });
}
