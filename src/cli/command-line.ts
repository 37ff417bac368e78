// The `coldfall` command. Each command stands in a file of its own: its options in commands/, its work beside this file,
// loaded only when it is asked for.

import type { Command } from "commander";
import { program as about, type Language, words } from "../report/index.ts";
import { examples, newCommand } from "./command.ts";
import { addAnalyse } from "./commands/analyse.ts";
import { addBaseline } from "./commands/baseline.ts";
import { addBaselines } from "./commands/baselines.ts";
import { addBoards } from "./commands/boards.ts";
import { addCompare } from "./commands/compare.ts";
import { addCompletion } from "./commands/completion.ts";
import { addFridges } from "./commands/fridges.ts";
import { addHotDay } from "./commands/hot-day.ts";
import { addImport } from "./commands/import.ts";
import { addPlan } from "./commands/plan.ts";
import { addProbes } from "./commands/probes.ts";
import { addAlarms, addNoteReading, addRecord, addReport, addSource } from "./commands/recording.ts";
import { addResults } from "./commands/results.ts";
import { addExport, addRuns } from "./commands/runs.ts";
import { addSchema } from "./commands/schema.ts";
import { addServe } from "./commands/serve.ts";
import { addSheet } from "./commands/sheet.ts";
import { addSimulate } from "./commands/simulate.ts";
import { addStore } from "./commands/store.ts";
import { type ExitCode, withExitCode } from "./exit-code.ts";
import { languageIn } from "./language-option.ts";
import type { Terminal } from "./terminal.ts";

const { cli } = words("en");

/**
 * Runs one command line.
 *
 * @param args what stands after the program's name
 */
export function runCommandLine(args: readonly string[], terminal: Terminal): Promise<ExitCode> {
  const language = languageIn(args);
  const run = () => commandLine(terminal, language).parseAsync(args, { from: "user" });
  return withExitCode(terminal, run, language);
}

/** All commands, in the order in which help lists them. */
function commandLine(terminal: Terminal, language: Language): Command {
  const program = newCommand("coldfall", terminal, language)
    .description(cli.program.summary)
    .version(about.version, "--version", cli.program.version)
    .helpCommand("help [command]", cli.program.helpCommand)
    .addHelpText("after", `\n${examples(cli.program.examples)}\n\n${cli.program.exitCodes}\n\n${cli.care}`);
  for (const add of commands) add(program, terminal);
  return program;
}

const commands = [
  addAnalyse,
  addBaseline,
  addCompare,
  addHotDay,
  addPlan,
  addRecord,
  addSource,
  addNoteReading,
  addReport,
  addAlarms,
  addImport,
  addFridges,
  addRuns,
  addSheet,
  addProbes,
  addBoards,
  addBaselines,
  addResults,
  addExport,
  addStore,
  addServe,
  addSimulate,
  addSchema,
  addCompletion,
];
