// The options of `coldfall analyse`.

import { Argument, type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { usualMargin } from "../../science/index.ts";
import type { AnalyseOptions } from "../analyse.ts";
import { command } from "../command.ts";
import { fahrenheitOption } from "../language-option.ts";
import { addLogOptions } from "../log-options.ts";
import { onlyWith } from "../only-with.ts";
import { marginOf, several } from "../option-values.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const { cli } = words("en");

/** The options of `coldfall analyse`. The work itself is loaded when it is asked for. */
export function addAnalyse(program: Command, terminal: Terminal): void {
  const text = cli.analyse;
  addLogOptions(
    command(program, "analyse", text)
      .addArgument(new Argument("<log...>", text.logs))
      .addOption(new Option("--known-good <log>", text.knownGood).argParser(several((file) => file)))
      .addOption(new Option("--baseline <file>", text.baseline))
      .addOption(onlyWith(new Option("--of-kind", text.ofKind), "--known-good", "--baseline"))
      .addOption(new Option("--sheet <file>", text.sheet)),
  )
    .addOption(new Option("--margin <share>", text.margin).default(usualMargin).argParser(marginOf))
    .addOption(storeOption())
    .addOption(fahrenheitOption())
    .addOption(new Option("--json", text.json))
    .addOption(new Option("--html <file>", text.html))
    .action(async (logs: string[], options: AnalyseOptions) => {
      const { runAnalyse } = await import("../analyse.ts");
      await runAnalyse(logs, options, terminal);
    });
}
