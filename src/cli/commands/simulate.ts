// The options of `coldfall simulate`.

import { type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { faultKinds, faultNames } from "../../simulate/index.ts";
import { command } from "../command.ts";
import { numberBetween, several, severalAgreeing, whenAndHowLong } from "../option-values.ts";
import type { SimulateOptions } from "../simulate.ts";
import { faultOf, furtherProbeOf, furtherProbes, scheduleOf, seedOf, startOf } from "../simulate-options.ts";
import type { Terminal } from "../terminal.ts";

const { cli } = words("en");

/** The options of `coldfall simulate`. The work itself is loaded when it is asked for. */
export function addSimulate(program: Command, terminal: Terminal): void {
  const text = cli.simulate;
  command(program, "simulate", text)
    .addOption(new Option("--out <file>", text.out).makeOptionMandatory())
    .addOption(
      new Option("--fault <name=size>", text.fault).argParser(
        severalAgreeing("--fault", faultOf, (one, other) => one.name === other.name),
      ),
    )
    .addOption(new Option("--seed <number>", text.seed).default(1).argParser(seedOf))
    .addOption(
      new Option("--schedule <source=hours,...>", text.schedule)
        .default(scheduleOf(usualSchedule), usualSchedule)
        .argParser(scheduleOf),
    )
    .addOption(
      new Option("--ambient <celsius>", text.ambient)
        .default(25)
        .argParser(numberBetween("--ambient", -20, 60, ({ cli }) => cli.simulate.expectedAmbient)),
    )
    .addOption(
      new Option("--swing <kelvin>", text.swing)
        .default(2)
        .argParser(numberBetween("--swing", 0, 40, ({ cli }) => cli.simulate.expectedSwing)),
    )
    .addOption(new Option("--start <time>", text.start).default(startOf(usualStart), usualStart).argParser(startOf))
    .addOption(
      new Option("--every <seconds>", text.every)
        .default(30)
        .argParser(numberBetween("--every", 1, 3600, ({ cli }) => cli.simulate.expectedEvery)),
    )
    .addOption(
      new Option("--door <hours=seconds>", text.door).argParser(
        several(whenAndHowLong("--door", ({ cli }) => cli.simulate.expectedDoor)),
      ),
    )
    .addOption(
      new Option("--outage <hours=hours>", text.outage).argParser(
        several(whenAndHowLong("--outage", ({ cli }) => cli.simulate.expectedOutage)),
      ),
    )
    .addOption(
      new Option("--thermostat <celsius>", text.thermostat).argParser(
        numberBetween("--thermostat", -30, 30, ({ cli }) => cli.simulate.expectedThermostat),
      ),
    )
    .addOption(
      new Option("--night-to-night <share>", text.nightToNight)
        .default(0.02)
        .argParser(numberBetween("--night-to-night", 0, 0.5, ({ cli }) => cli.simulate.expectedNightToNight)),
    )
    .addOption(new Option("--probe <position>", text.probe(furtherProbes)).argParser(several(furtherProbeOf)))
    .addOption(new Option("--no-source", text.noSource))
    .addHelpText("after", `\n${faultList()}`)
    .action(async (options: SimulateOptions) => {
      const { runSimulate } = await import("../simulate.ts");
      runSimulate(options, terminal);
    });
}

/** A night on electricity: nights on gas are attended ones, and samples teach the safe habit. */
const usualSchedule = "off=1,mains=8";
const usualStart = "2026-06-04T20:00:00Z";

function faultList(): string {
  const rows = faultNames.map((name) => `  ${name.padEnd(18)} ${faultKinds[name].size}`);
  return [cli.simulate.faultsHeading, ...rows].join("\n");
}
