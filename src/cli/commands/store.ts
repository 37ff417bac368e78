// The options of `coldfall store`.

import { type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { command, part } from "../command.ts";
import type { RetireOptions } from "../keeping/store.ts";
import { dayOf } from "../option-values.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const { keeping } = words("en");
const text = keeping.store;
const work = () => import("../keeping/store.ts");

/** The options of `coldfall store`. The work itself is loaded when it is asked for. */
export function addStore(program: Command, terminal: Terminal): void {
  const store = command(program, "store", text);
  part(store, "check", text.check)
    .addOption(storeOption())
    .option("--json", keeping.json(null))
    .action(async (options) => (await work()).checkStore(options, terminal));
  part(store, "backup", text.backup)
    .argument("<file>", text.file)
    .addOption(storeOption())
    .action(async (file: string, options) => (await work()).backupStore(file, options, terminal));
  part(store, "retire", text.retire)
    .addOption(new Option("--before <day>", text.before).argParser(dayOf("--before")).makeOptionMandatory())
    .option("--known-good-too", text.knownGoodToo)
    .addOption(storeOption())
    .action(async (options: RetireOptions) => (await work()).retireRuns(options, terminal));
  part(store, "compact", text.compact)
    .addOption(storeOption())
    .action(async (options) => (await work()).compactStore(options, terminal));
}
