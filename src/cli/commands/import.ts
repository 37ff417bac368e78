// The options of `coldfall import`.

import { Argument, type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { elapsedUnits } from "../../schema/index.ts";
import { runPurposes } from "../../store/index.ts";
import { command } from "../command.ts";
import type { ImportOptions } from "../import.ts";
import {
  columnOf,
  dateOrderOf,
  decimalMarkOf,
  nowOf,
  readOutOf,
  separatorOf,
  startsAtOf,
  unitOf,
  zoneOf,
} from "../import-options.ts";
import { languageOption } from "../language-option.ts";
import { areOtherwise, sourceAtOption, sourceWordOption } from "../log-options.ts";
import { severalAgreeing } from "../option-values.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const text = words("en").importWords.command;

/** What a mapping says once and for all. */
const answeredByMap = ["separator", "dateOrder", "decimal", "unit", "zone", "elapsedUnit", "column", "now", "readOut"];

/** The options of `coldfall import`. The work itself is loaded when it is asked for. */
export function addImport(program: Command, terminal: Terminal): void {
  command(program, "import", text)
    .addArgument(new Argument("<log>", text.file))
    .addOption(new Option("--preview", text.preview))
    .addOption(new Option("--fridge <name>", text.fridge))
    .addOption(new Option("--run <run>", text.run))
    .addOption(new Option("--name <name>", text.name).conflicts("run"))
    .addOption(new Option("--purpose <purpose>", text.purpose).choices(runPurposes).conflicts("run"))
    .addOption(new Option("--sheet <file>", text.sheet).conflicts("run"))
    .addOption(new Option("--separator <name>", text.separator).argParser(separatorOf))
    .addOption(new Option("--date-order <order>", text.dateOrder).argParser(dateOrderOf))
    .addOption(new Option("--decimal <mark>", text.decimal).argParser(decimalMarkOf))
    .addOption(new Option("--unit <unit>", text.unit).argParser(unitOf))
    .addOption(new Option("--zone <zone>", text.zone).argParser(zoneOf))
    .addOption(new Option("--starts-at <time>", text.startsAt).argParser(startsAtOf))
    .addOption(new Option("--elapsed-unit <unit>", text.elapsedUnit).choices(elapsedUnits))
    .addOption(
      new Option("--column <column=position>", text.column).argParser(
        severalAgreeing("--column", columnOf, areOtherwise),
      ),
    )
    .addOption(sourceWordOption())
    .addOption(new Option("--map <file>", text.map).conflicts(answeredByMap))
    .addOption(new Option("--save-map <file>", text.saveMap))
    .addOption(new Option("--now <time>", text.now).argParser(nowOf))
    .addOption(new Option("--read-out <time>", text.readOut).argParser(readOutOf))
    .addOption(sourceAtOption(text.sourceAt))
    .addOption(storeOption())
    .addOption(languageOption())
    .addOption(new Option("--json", text.json))
    .action(async (file: string, options: ImportOptions) => {
      const { runImport } = await import("../import.ts");
      await runImport(file, options, terminal);
    });
}
