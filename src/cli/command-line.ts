// The `coldfall` command. Each command stands in a file of its own: its options in commands/, its work beside this file.
// Only the command asked for is loaded: all of them together would take a third longer to start.

import type { Command } from "commander";
import { program as about, type Language, words } from "../report/index.ts";
import { BadInput } from "../schema/index.ts";
import { examples, newCommand } from "./command.ts";
import { type ExitCode, withExitCode } from "./exit-code.ts";
import { languageIn, languageOption } from "./language-option.ts";
import type { Terminal } from "./terminal.ts";

const { cli } = words("en");

/**
 * Runs one command line.
 *
 * @param args what stands after the program's name
 */
export function runCommandLine(args: readonly string[], terminal: Terminal): Promise<ExitCode> {
  const language = languageIn(args);
  const run = async () => {
    const program = await commandLine(args, terminal, language);
    await program.parseAsync(answerable(args, program), { from: "user" });
  };
  return withExitCode(terminal, run, language);
}

/** The command named, or all of them, in the order in which help lists them, where none is. */
async function commandLine([asked, part]: readonly string[], terminal: Terminal, language: Language): Promise<Command> {
  let help = "coldfall --help";
  const program = newCommand("coldfall", terminal, language, () => help)
    .description(cli.program.summary)
    .version(about.version, "--version", cli.program.version)
    .helpCommand("help [command]", cli.program.helpCommand)
    .addHelpText("after", `\n${examples(cli.program.examples)}\n\n${cli.program.exitCodes}\n\n${cli.care}`);
  for (const load of loadersFor(asked)) (await load())(program, terminal);
  const command = named(program, asked);
  if (command !== undefined)
    help = ["coldfall help", asked, ...(named(command, part) === undefined ? [] : [part])].join(" ");
  // Whatever a command says, it says in the language asked for, and be it that it refuses something.
  for (const leaf of leavesOf(program)) leaf.addOption(languageOption());
  return program;
}

const named = ({ commands }: Command, name: string | undefined) => commands.find((one) => one.name() === name);

/** Commands and parts of commands that are not divided further. */
const leavesOf = (command: Command): readonly Command[] =>
  command.commands.flatMap((one) => (one.commands.length === 0 ? [one] : leavesOf(one)));

/**
 * What is to be parsed. "help" with a command that does not exist is that command, which is refused as such: the parser would show
 * the help of all and call that a failure. And it would not show the help of a part, nor say that a command has no such part.
 *
 * @throws BadInput "no-such-part"
 */
function answerable(args: readonly string[], program: Command): readonly string[] {
  const isHelp = args[0] === "help";
  const [asked, part] = isHelp ? args.slice(1) : args;
  if (asked === undefined || asked.startsWith("-")) return args;
  if (isHelp && asked === "help") return ["help"];
  const command = named(program, asked);
  if (command === undefined) return isHelp ? [asked] : args;
  const isPartNamed = command.commands.length > 0 && part !== undefined && part !== "help" && !part.startsWith("-");
  if (!isPartNamed) return args;
  if (named(command, part) === undefined)
    throw new BadInput({
      code: "no-such-part",
      command: asked,
      part,
      parts: command.commands.map((one) => one.name()),
    });
  return isHelp ? [asked, part, "--help"] : args;
}

/** `completion` teaches the words of all. */
const loadersFor = (asked = "help") =>
  Object.hasOwn(commands, asked) && asked !== "completion" ? [commands[asked]] : Object.values(commands);

type AddCommand = (program: Command, terminal: Terminal) => void;

/** By name, in the order in which help lists them. */
const commands: Readonly<Record<string, () => Promise<AddCommand>>> = {
  analyse: async () => (await import("./commands/analyse.ts")).addAnalyse,
  baseline: async () => (await import("./commands/baseline.ts")).addBaseline,
  compare: async () => (await import("./commands/compare.ts")).addCompare,
  "hot-day": async () => (await import("./commands/hot-day.ts")).addHotDay,
  plan: async () => (await import("./commands/plan.ts")).addPlan,
  record: async () => (await import("./commands/recording.ts")).addRecord,
  source: async () => (await import("./commands/recording.ts")).addSource,
  "note-reading": async () => (await import("./commands/recording.ts")).addNoteReading,
  report: async () => (await import("./commands/recording.ts")).addReport,
  alarms: async () => (await import("./commands/recording.ts")).addAlarms,
  import: async () => (await import("./commands/import.ts")).addImport,
  fridges: async () => (await import("./commands/fridges.ts")).addFridges,
  runs: async () => (await import("./commands/runs.ts")).addRuns,
  sheet: async () => (await import("./commands/sheet.ts")).addSheet,
  probes: async () => (await import("./commands/probes.ts")).addProbes,
  boards: async () => (await import("./commands/boards.ts")).addBoards,
  baselines: async () => (await import("./commands/baselines.ts")).addBaselines,
  results: async () => (await import("./commands/results.ts")).addResults,
  export: async () => (await import("./commands/runs.ts")).addExport,
  store: async () => (await import("./commands/store.ts")).addStore,
  serve: async () => (await import("./commands/serve.ts")).addServe,
  simulate: async () => (await import("./commands/simulate.ts")).addSimulate,
  schema: async () => (await import("./commands/schema.ts")).addSchema,
  completion: async () => (await import("./commands/completion.ts")).addCompletion,
};
