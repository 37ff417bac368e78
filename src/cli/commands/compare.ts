// The options of `coldfall compare`.

import { Argument, type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { usualMargin } from "../../science/index.ts";
import { command } from "../command.ts";
import type { CompareOptions } from "../compare.ts";
import { fahrenheitOption } from "../language-option.ts";
import { addLogOptions } from "../log-options.ts";
import { onlyWith } from "../only-with.ts";
import { marginOf, several } from "../option-values.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const { cli, testReport } = words("en");

/** The options of `coldfall compare`. The work itself is loaded when it is asked for. */
export function addCompare(program: Command, terminal: Terminal): void {
  const text = cli.compare;
  addLogOptions(
    command(program, "compare", text)
      .addArgument(new Argument("<before>", text.before))
      .addArgument(new Argument("<after>", text.after))
      .addOption(new Option("--also-before <log>", text.alsoBefore).argParser(several((file) => file)))
      .addOption(new Option("--also-after <log>", text.alsoAfter).argParser(several((file) => file)))
      .addOption(new Option("--known-good <log>", text.knownGood).argParser(several((file) => file)))
      .addOption(new Option("--baseline <file>", cli.analyse.baseline)),
  )
    .addOption(new Option("--margin <share>", text.margin).default(usualMargin).argParser(marginOf))
    .addOption(storeOption())
    .addOption(fahrenheitOption())
    .addOption(new Option("--json", text.json))
    .addOption(new Option("--html <file>", text.html))
    .addOption(new Option("--pdf <file>", testReport.command.pdf))
    .addOption(onlyWith(new Option("--letterhead <words>", testReport.command.letterhead), "--pdf"))
    .action(async (before: string, after: string, options: CompareOptions) => {
      const { runCompare } = await import("../compare.ts");
      await runCompare(before, after, options, terminal);
    });
}
