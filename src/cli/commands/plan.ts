// The options of `coldfall plan`.

import { type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { command } from "../command.ts";
import type { PlanOptions } from "../plan.ts";
import type { Terminal } from "../terminal.ts";

const text = words("en").plan.command;

/** The options of `coldfall plan`. The work itself is loaded when it is asked for. */
export function addPlan(program: Command, terminal: Terminal): void {
  command(program, "plan", text)
    .addOption(new Option("--from <time>", text.from).makeOptionMandatory())
    .addOption(new Option("--sources <list>", text.sources).makeOptionMandatory())
    .addOption(new Option("--date <day>", text.date))
    .addOption(new Option("--until <time>", text.until))
    .addOption(new Option("--attended <from-to>", text.attended).default("07:00-21:00"))
    .addOption(new Option("--switch-while-cold", text.switchWhileCold))
    .addOption(new Option("--json", text.json))
    .addOption(new Option("--html <file>", text.html))
    .action(async (options: PlanOptions) => {
      const { runPlan } = await import("../plan.ts");
      runPlan(options, terminal);
    });
}
