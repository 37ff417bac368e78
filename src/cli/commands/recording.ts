// The options of `coldfall record`, `source` and `note-reading`.

import { Argument, type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { energySources, type Position } from "../../schema/index.ts";
import { runPurposes } from "../../store/index.ts";
import { addAlarmOptions } from "../alarm-options.ts";
import { command, part } from "../command.ts";
import { fahrenheitOption } from "../language-option.ts";
import { addLogOptions } from "../log-options.ts";
import { onlyWith } from "../only-with.ts";
import { atOption, fridgeNameOf, numberBetween, withPositionValue } from "../option-values.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const { recording, keeping, testReport } = words("en");

/** The options of `coldfall record`. The work itself is loaded when it is asked for. */
export function addRecord(program: Command, terminal: Terminal): void {
  const text = recording.record;
  const record = addLogOptions(
    command(program, "record", text)
      .addOption(new Option("--fridge <name>", text.fridge).argParser(fridgeNameOf("--fridge")).makeOptionMandatory())
      .option("--port <path>", text.port)
      .option("--replay <log>", text.replay)
      .addOption(
        onlyWith(
          new Option("--speed <times>", text.speed)
            .default(1)
            .argParser(numberBetween("--speed", 1, 1e9, ({ recording }) => recording.record.expectedSpeed)),
          "--replay",
        ),
      ),
    { each: (option) => onlyWith(option, "--replay") },
  )
    .addOption(new Option("--purpose <purpose>", text.purpose).choices(runPurposes))
    .option("--sheet <file>", text.sheet);
  addAlarmOptions(record)
    .option("--structured", text.structured)
    .addOption(storeOption())
    .addOption(fahrenheitOption())
    .action(async (options) => {
      const { runRecord } = await import("../recording/record.ts");
      await runRecord(options, terminal);
    });
}

/** The options of `coldfall source`. */
export function addSource(program: Command, terminal: Terminal): void {
  const text = recording.source;
  command(program, "source", text)
    .addArgument(new Argument("<source>", text.source).choices(energySources))
    .requiredOption("--fridge <name>", keeping.fridge)
    .addOption(new Option("--at <time>", text.at).argParser(atOption))
    .option("--run <run>", text.run)
    .addOption(storeOption())
    .action(async (source, options) => {
      const { saySource } = await import("../recording/by-hand.ts");
      await saySource(source, options, terminal);
    });
}

/** The options of `coldfall note-reading`. */
export function addNoteReading(program: Command, terminal: Terminal): void {
  const text = recording.noteReading;
  command(program, "note-reading", text)
    .addArgument(
      new Argument("<position=value...>", text.reading).argParser(
        (value: string, before: ReadonlyMap<Position, number> | undefined) => withPositionValue(before, value),
      ),
    )
    .requiredOption("--fridge <name>", keeping.fridge)
    .addOption(new Option("--at <time>", text.at).argParser(atOption))
    .option("--run <run>", recording.source.run)
    .addOption(storeOption())
    .action(async (values, options) => {
      const { noteByHand } = await import("../recording/by-hand.ts");
      await noteByHand(values, options, terminal);
    });
}

/** The options of `coldfall report`. */
export function addReport(program: Command, terminal: Terminal): void {
  command(program, "report", recording.report)
    .argument("<run>", keeping.run)
    .option("--html <file>", recording.report.html)
    .option("--pdf <file>", testReport.command.pdf)
    .addOption(onlyWith(new Option("--letterhead <words>", testReport.command.letterhead), "--pdf"))
    .addOption(storeOption())
    .addOption(fahrenheitOption())
    .option("--json", keeping.json("analysis"))
    .action(async (id: string, options) => {
      const { reportRun } = await import("../recording/morning.ts");
      await reportRun(id, options, terminal);
    });
}

/** The options of `coldfall alarms`. */
export function addAlarms(program: Command, terminal: Terminal): void {
  const text = recording.alarms;
  const work = () => import("../recording/morning.ts");
  const alarms = command(program, "alarms", text);
  part(alarms, "list", text.list, { isDefault: true })
    .option("--run <run>", text.ofRun)
    .addOption(storeOption())
    .option("--json", keeping.json("alarms"))
    .action(async (options) => (await work()).listAlarms(options, terminal));
  part(alarms, "acknowledge <alarm>", text.acknowledge)
    .option("--by <name>", text.by)
    .addOption(storeOption())
    .action(async (id: string, options) => (await work()).acknowledgeAlarm(id, options, terminal));
}
