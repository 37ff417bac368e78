// The options of `coldfall fridges`.

import { Argument, type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { command, part } from "../command.ts";
import type { FridgeOptions } from "../keeping/fridges.ts";
import { withOneOf } from "../only-with.ts";
import { fridgeNameOf, numberBetween } from "../option-values.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const { keeping, names } = words("en");
const text = keeping.fridges;
const work = () => import("../keeping/fridges.ts");

/** The options of `coldfall fridges`. The work itself is loaded when it is asked for. */
export function addFridges(program: Command, terminal: Terminal): void {
  const fridges = command(program, "fridges", text);
  part(fridges, "list", text.list, { isDefault: true })
    .option("--removed", text.removedToo)
    .addOption(storeOption())
    .option("--json", keeping.json("fridges"))
    .action(async (options) => (await work()).listFridges(options, terminal));
  withDetails(part(fridges, "add", text.add))
    .addArgument(new Argument("<name>").argParser(fridgeNameOf("NAME")))
    .addOption(storeOption())
    .action(async (name: string, options: FridgeOptions) => (await work()).addFridge(name, options, terminal));
  withDetails(withOneOf(part(fridges, "edit <fridge>", text.edit), "--name", ...details))
    .addOption(new Option("--name <name>", text.rename).argParser(fridgeNameOf("--name")))
    .addOption(storeOption())
    .action(async (name: string, options: FridgeOptions) => (await work()).editFridge(name, options, terminal));
  part(fridges, "remove <fridge>", text.remove)
    .addOption(storeOption())
    .action(async (name: string, options) => (await work()).removeFridge(name, options, terminal));
  part(fridges, "restore <fridge>", text.restore)
    .addOption(storeOption())
    .action(async (name: string, options) => (await work()).restoreFridge(name, options, terminal));
  part(fridges, "export <fridge>", text.export)
    .requiredOption("--out <file>", text.out)
    .addOption(storeOption())
    .action(async (name: string, options) => (await work()).exportFridge(name, options, terminal));
  part(fridges, "take-in <file>", text.takeIn)
    .addOption(storeOption())
    .action(async (file: string, options) => (await work()).takeInFridge(file, options, terminal));
}

const details = ["--kind", "--gas-watts", "--mains-watts", "--dc12-watts", "--litres", "--notes"] as const;

const withDetails = (one: Command) =>
  one
    .option("--kind <words>", text.kind)
    .addOption(watts("--gas-watts", names.onSource("gas")))
    .addOption(watts("--mains-watts", names.onSource("mains")))
    .addOption(watts("--dc12-watts", names.onSource("dc12")))
    .addOption(
      new Option("--litres <number>", text.litres).argParser(
        numberBetween("--litres", 1, 500, ({ keeping }) => keeping.fridges.expectedLitres),
      ),
    )
    .option("--notes <words>", text.notes);

const watts = (flag: string, onSource: string) =>
  new Option(`${flag} <number>`, text.watts(onSource)).argParser(
    numberBetween(flag, 1, 2000, ({ keeping }) => keeping.fridges.expectedWatts),
  );
