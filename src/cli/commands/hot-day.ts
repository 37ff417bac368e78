// The options of `coldfall hot-day`.

import { Argument, type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { askedAmbient, heatSources } from "../../schema/index.ts";
import { command } from "../command.ts";
import type { HotDayOptions } from "../hot-day.ts";
import { fahrenheitOption } from "../language-option.ts";
import { addLogOptions } from "../log-options.ts";
import { onlyWith } from "../only-with.ts";
import { loadOf, numberBetween } from "../option-values.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const { cli } = words("en");

/** The options of `coldfall hot-day`. The work itself is loaded when it is asked for. */
export function addHotDay(program: Command, terminal: Terminal): void {
  const text = cli.hotDay;
  addLogOptions(
    command(program, "hot-day", text)
      .addArgument(new Argument("<log...>", text.logs))
      .addOption(
        new Option("--ambient <celsius>", text.ambient).argParser(
          numberBetween("--ambient", askedAmbient.least, askedAmbient.most, ({ cli }) => cli.hotDay.expectedAmbient),
        ),
      )
      .addOption(new Option("--forecast <file>", text.forecast))
      .addOption(new Option("--source <source>", text.source).choices(heatSources))
      .addOption(new Option("--load <kg=celsius>", text.load).argParser(loadOf))
      .addOption(
        onlyWith(
          new Option("--begin <celsius>", text.begin).argParser(
            numberBetween("--begin", -30, 60, ({ cli }) => cli.hotDay.expectedBegin),
          ),
          "--forecast",
        ),
      )
      .addOption(new Option("--sheet <file>", text.sheet)),
  )
    .addOption(storeOption())
    .addOption(fahrenheitOption())
    .addOption(new Option("--json", text.json))
    .addOption(new Option("--html <file>", text.html))
    .action(async (logs: string[], options: HotDayOptions) => {
      const { runHotDay } = await import("../hot-day.ts");
      await runHotDay(logs, options, terminal);
    });
}
