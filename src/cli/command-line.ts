// The `coldfall` command: its commands, options and help, and what becomes of what they throw.

import { Argument, Command, CommanderError, Option } from "commander";
import { program as about, handOf, say, words } from "../report/index.ts";
import { BadInput, heatSources, jsonSchemaOf, type PublishedShape, publishedShapes } from "../schema/index.ts";
import { usualMargin } from "../science/index.ts";
import { faultKinds, faultNames } from "../simulate/index.ts";
import { type AnalyseOptions, runAnalyse } from "./analyse.ts";
import { type BaselineOptions, runBaseline } from "./baseline.ts";
import { type CompareOptions, runCompare } from "./compare.ts";
import { completionScript, type Shell, shells } from "./completion.ts";
import { type HotDayOptions, runHotDay } from "./hot-day.ts";
import {
  faultOf,
  loadOf,
  marginOf,
  numberBetween,
  scheduleOf,
  seedOf,
  several,
  sourceMarkOf,
  startOf,
  whenAndHowLong,
} from "./option-values.ts";
import { runSimulate, type SimulateOptions } from "./simulate.ts";
import type { Terminal } from "./terminal.ts";

const { cli, badInput } = words("en");

/** 0: it ran; 2: input that cannot be used; 3: a fault of ours. */
export type ExitCode = 0 | 2 | 3;

/**
 * Runs one command line.
 *
 * @param args what stands after the program's name
 */
export function runCommandLine(args: readonly string[], terminal: Terminal): ExitCode {
  return withExitCode(terminal, () => commandLine(terminal).parse(args, { from: "user" }));
}

/** Does some work, says what went wrong if it throws, and tells what the process should end with. */
export function withExitCode(terminal: Terminal, work: () => void): ExitCode {
  try {
    work();
    return 0;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    if (error instanceof BadInput) {
      terminal.tell(`${say(badInput, error.saying, handOf("en", 0))}\n`);
      return 2;
    }
    terminal.tell(`${cli.internalFault(error instanceof Error ? (error.stack ?? error.message) : String(error))}\n`);
    return 3;
  }
}

/** A command without anything yet, that throws where commander would end the process. */
export const newCommand = (name: string, terminal: Terminal) =>
  new Command(name)
    .exitOverride()
    .configureOutput({
      writeOut: terminal.print,
      writeErr: terminal.tell,
      getOutHelpWidth: () => terminal.width,
      getErrHelpWidth: () => terminal.width,
      outputError: (text, write) => write(`${cli.wrongCommand(oneLine(text), name)}\n`),
    })
    .helpOption("--help", cli.program.help);

/** All commands. Those made by `.command` inherit how the program ends and where it writes. */
function commandLine(terminal: Terminal): Command {
  const program = newCommand("coldfall", terminal)
    .description(cli.program.summary)
    .version(about.version, "--version", cli.program.version)
    .helpCommand("help [command]", cli.program.helpCommand)
    .addHelpText("after", `\n${examples(cli.program.examples)}\n\n${cli.program.exitCodes}\n\n${cli.care}`);
  addAnalyse(program, terminal);
  addBaseline(program, terminal);
  addCompare(program, terminal);
  addHotDay(program, terminal);
  addSimulate(program, terminal);
  addSchema(program, terminal);
  addCompletion(program, terminal);
  return program;
}

/** The parser's message without its "error: ", its line breaks and its full stop. */
const oneLine = (message: string) =>
  message
    .replace(/^error: /, "")
    .trim()
    .replace(/\.$/, "")
    .replaceAll(/\s*\n\s*/g, " ");

const examples = (lines: readonly string[]) => [cli.usageHeading, ...lines.map((line) => `  ${line}`)].join("\n");

/** A command with its summary and examples. */
const command = (
  program: Command,
  name: string,
  text: { readonly summary: string; readonly examples: readonly string[] },
) =>
  program
    .command(name)
    .summary(text.summary)
    .description(sentence(text.summary))
    .addHelpText("after", `\n${examples(text.examples)}`);

const sentence = (summary: string) => `${summary.charAt(0).toUpperCase()}${summary.slice(1)}.`;

function addAnalyse(program: Command, terminal: Terminal): void {
  const text = cli.analyse;
  command(program, "analyse", text)
    .addArgument(new Argument("<log...>", text.logs))
    .addOption(new Option("--known-good <log>", text.knownGood).argParser(several((file) => file)))
    .addOption(new Option("--baseline <file>", text.baseline))
    .addOption(new Option("--of-kind", text.ofKind))
    .addOption(new Option("--sheet <file>", text.sheet))
    .addOption(new Option("--map <file>", text.map))
    .addOption(new Option("--source-at <time=source>", text.sourceAt).argParser(several(sourceMarkOf)))
    .addOption(new Option("--margin <share>", text.margin).default(usualMargin).argParser(marginOf))
    .addOption(new Option("--json", text.json))
    .addOption(new Option("--html <file>", text.html))
    .action((logs: string[], options: AnalyseOptions) => runAnalyse(logs, options, terminal));
}

function addBaseline(program: Command, terminal: Terminal): void {
  const text = cli.baseline;
  command(program, "baseline", text)
    .addArgument(new Argument("<log...>", text.logs))
    .addOption(new Option("--out <file>", text.out).makeOptionMandatory())
    .addOption(new Option("--of-kind", text.ofKind))
    .addOption(new Option("--map <file>", cli.analyse.map))
    .addOption(new Option("--source-at <time=source>", cli.analyse.sourceAt).argParser(several(sourceMarkOf)))
    .action((logs: string[], options: BaselineOptions) => runBaseline(logs, options, terminal));
}

function addCompare(program: Command, terminal: Terminal): void {
  const text = cli.compare;
  command(program, "compare", text)
    .addArgument(new Argument("<before>", text.before))
    .addArgument(new Argument("<after>", text.after))
    .addOption(new Option("--also-before <log>", text.alsoBefore).argParser(several((file) => file)))
    .addOption(new Option("--also-after <log>", text.alsoAfter).argParser(several((file) => file)))
    .addOption(new Option("--known-good <log>", text.knownGood).argParser(several((file) => file)))
    .addOption(new Option("--baseline <file>", cli.analyse.baseline))
    .addOption(new Option("--map <file>", cli.analyse.map))
    .addOption(new Option("--source-at <time=source>", cli.analyse.sourceAt).argParser(several(sourceMarkOf)))
    .addOption(new Option("--margin <share>", text.margin).default(usualMargin).argParser(marginOf))
    .addOption(new Option("--json", text.json))
    .addOption(new Option("--html <file>", text.html))
    .action((before: string, after: string, options: CompareOptions) => runCompare(before, after, options, terminal));
}

function addHotDay(program: Command, terminal: Terminal): void {
  const text = cli.hotDay;
  command(program, "hot-day", text)
    .addArgument(new Argument("<log...>", text.logs))
    .addOption(
      new Option("--ambient <celsius>", text.ambient).argParser(
        numberBetween("--ambient", -20, 55, text.expectedAmbient),
      ),
    )
    .addOption(new Option("--forecast <file>", text.forecast))
    .addOption(new Option("--source <source>", text.source).choices(heatSources))
    .addOption(new Option("--load <kg=celsius>", text.load).argParser(loadOf))
    .addOption(
      new Option("--begin <celsius>", text.begin).argParser(numberBetween("--begin", -30, 60, text.expectedBegin)),
    )
    .addOption(new Option("--sheet <file>", text.sheet))
    .addOption(new Option("--map <file>", cli.analyse.map))
    .addOption(new Option("--source-at <time=source>", cli.analyse.sourceAt).argParser(several(sourceMarkOf)))
    .addOption(new Option("--json", text.json))
    .addOption(new Option("--html <file>", text.html))
    .action((logs: string[], options: HotDayOptions) => runHotDay(logs, options, terminal));
}

function addSimulate(program: Command, terminal: Terminal): void {
  const text = cli.simulate;
  command(program, "simulate", text)
    .addOption(new Option("--out <file>", text.out).makeOptionMandatory())
    .addOption(new Option("--fault <name=size>", text.fault).argParser(several(faultOf)))
    .addOption(new Option("--seed <number>", text.seed).default(1).argParser(seedOf))
    .addOption(
      new Option("--schedule <source=hours,...>", text.schedule)
        .default(scheduleOf(usualSchedule), usualSchedule)
        .argParser(scheduleOf),
    )
    .addOption(
      new Option("--ambient <celsius>", text.ambient)
        .default(25)
        .argParser(numberBetween("--ambient", -20, 60, text.expectedAmbient)),
    )
    .addOption(
      new Option("--swing <kelvin>", text.swing)
        .default(2)
        .argParser(numberBetween("--swing", 0, 40, text.expectedSwing)),
    )
    .addOption(new Option("--start <time>", text.start).default(startOf(usualStart), usualStart).argParser(startOf))
    .addOption(
      new Option("--every <seconds>", text.every)
        .default(30)
        .argParser(numberBetween("--every", 1, 3600, text.expectedEvery)),
    )
    .addOption(
      new Option("--door <hours=seconds>", text.door).argParser(several(whenAndHowLong("--door", text.expectedDoor))),
    )
    .addOption(
      new Option("--outage <hours=hours>", text.outage).argParser(
        several(whenAndHowLong("--outage", text.expectedOutage)),
      ),
    )
    .addOption(
      new Option("--thermostat <celsius>", text.thermostat).argParser(
        numberBetween("--thermostat", -30, 30, text.expectedThermostat),
      ),
    )
    .addOption(
      new Option("--night-to-night <share>", text.nightToNight)
        .default(0.02)
        .argParser(numberBetween("--night-to-night", 0, 0.5, text.expectedNightToNight)),
    )
    .addOption(new Option("--no-source", text.noSource))
    .addHelpText("after", `\n${faultList()}`)
    .action((options: SimulateOptions) => runSimulate(options, terminal));
}

/** A night on electricity, as DESIGN's samples teach it. */
const usualSchedule = "off=1,mains=8";
const usualStart = "2026-06-04T20:00:00Z";

function faultList(): string {
  const rows = faultNames.map((name) => `  ${name.padEnd(18)} ${faultKinds[name].size}`);
  return [cli.simulate.faultsHeading, ...rows].join("\n");
}

function addSchema(program: Command, terminal: Terminal): void {
  const text = cli.schema;
  command(program, "schema", text)
    .addArgument(new Argument("[name]", text.name).choices(publishedShapes))
    .action((name?: PublishedShape) =>
      terminal.print(
        name === undefined ? `${publishedShapes.join("\n")}\n` : `${JSON.stringify(jsonSchemaOf(name), null, 2)}\n`,
      ),
    );
}

function addCompletion(program: Command, terminal: Terminal): void {
  const text = cli.completion;
  command(program, "completion", text)
    .addArgument(new Argument("<shell>", text.shell).choices(shells))
    .action((shell: Shell) => terminal.print(completionScript(program, shell)));
}
