// The options of `coldfall probes`.

import { type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { positions } from "../../schema/index.ts";
import { command, part } from "../command.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const { keeping } = words("en");
const text = keeping.probes;
const work = () => import("../keeping/probes.ts");

/** The options of `coldfall probes`. The work itself is loaded when it is asked for. */
export function addProbes(program: Command, terminal: Terminal): void {
  const probes = command(program, "probes", text);
  part(probes, "list", text.list, { isDefault: true })
    .addOption(storeOption())
    .option("--json", keeping.json)
    .action(async (options) => (await work()).listProbes(options, terminal));
  part(probes, "put <probe>", text.put)
    .option("--label <words>", text.label)
    .option("--kind <kind>", text.kind)
    .option("--notes <words>", text.notes)
    .addOption(storeOption())
    .action(async (id: string, options) => (await work()).putProbe(id, options, terminal));
  part(probes, "place <probe>", text.place)
    .requiredOption("--fridge <name>", keeping.fridge)
    .addOption(new Option("--position <position>", text.position).choices(positions).makeOptionMandatory())
    .option("--board <board>", text.board)
    .addOption(storeOption())
    .action(async (id: string, options) => (await work()).placeProbe(id, options, terminal));
  part(probes, "remove <probe>", text.remove)
    .addOption(storeOption())
    .action(async (id: string, options) => (await work()).removeProbe(id, options, terminal));
}
