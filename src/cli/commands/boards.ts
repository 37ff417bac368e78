// The options of `coldfall boards`.

import { Argument, type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { command, part } from "../command.ts";
import { boardIdOf, secondsOf } from "../probe-options.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const { keeping, probes } = words("en");
const text = probes.boards;
const work = () => import("../recording/boards.ts");

/** The options of `coldfall boards`. The work itself is loaded when it is asked for. */
export function addBoards(program: Command, terminal: Terminal): void {
  const boards = command(program, "boards", text);
  part(boards, "list", text.list, { isDefault: true })
    .addOption(storeOption())
    .option("--json", keeping.json("boards"))
    .action(async (options) => (await work()).listBoards(options, terminal));
  part(boards, "token", text.token)
    .addArgument(new Argument("<board>").argParser(boardIdOf))
    .option("--fridge <name>", text.tokenFridge)
    .addOption(storeOption())
    .action(async (board: string, options) => (await work()).issueToken(board, options, terminal));
  part(boards, "light", text.light)
    .addArgument(new Argument("<port>", text.port))
    .addOption(new Option("--seconds <seconds>", text.lightSeconds).default(5).argParser(secondsOf(0)))
    .action(async (port: string, { seconds, ...options }) =>
      (await work()).tellPort(port, { ask: "light", seconds }, options, terminal),
    );
  part(boards, "interval", text.interval)
    .addArgument(new Argument("<port>", text.port))
    .addOption(new Option("--seconds <seconds>", text.intervalSeconds).argParser(secondsOf(1)).makeOptionMandatory())
    .action(async (port: string, { seconds, ...options }) =>
      (await work()).tellPort(port, { ask: "interval", seconds }, options, terminal),
    );
  const memory = () => import("../recording/board-memory.ts");
  const portArgument = () => new Argument("<port>", text.port);
  part(boards, "keep", text.memory.keep)
    .addArgument(portArgument())
    .option("--off", text.memory.off)
    .action(async (port: string, { off, ...options }) =>
      (await memory()).keepAlone(port, off !== true, options, terminal),
    );
  part(boards, "read-out", text.memory.readOut)
    .addArgument(portArgument())
    .requiredOption("--out <file>", text.memory.out)
    .action(async (port: string, { out, ...options }) => (await memory()).readOut(port, out, options, terminal));
  part(boards, "erase", text.memory.erase)
    .addArgument(portArgument())
    .action(async (port: string, options) => (await memory()).erase(port, options, terminal));
}
