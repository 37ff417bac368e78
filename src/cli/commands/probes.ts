// The options of `coldfall probes`.

import { Argument, type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { positions } from "../../schema/index.ts";
import { command, part } from "../command.ts";
import { addCellOptions } from "../log-options.ts";
import { withOneOf } from "../only-with.ts";
import { dayOf, numberBetween, several } from "../option-values.ts";
import { againstOf, coefficientsOf, coupleClassOf, probeIdOf, thermistorOf } from "../probe-options.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const { keeping, probes: more } = words("en");
const text = keeping.probes;
const work = () => import("../keeping/probes.ts");

/** The options of `coldfall probes`. The work itself is loaded when it is asked for. */
export function addProbes(program: Command, terminal: Terminal): void {
  const probes = command(program, "probes", text);
  part(probes, "list", text.list, { isDefault: true })
    .addOption(storeOption())
    .option("--json", keeping.json("probes"))
    .action(async (options) => (await work()).listProbes(options, terminal));
  part(probes, "put", text.put)
    .addArgument(new Argument("<probe>").argParser(probeIdOf))
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
  addCurve(probes, terminal);
  addCalibrate(probes, terminal);
  const { slush, warm } = more;
  const checks = () => import("../keeping/probe-checks.ts");
  addCellOptions(
    part(probes, "slush <log>", slush.summary).option(
      "--in <probe>",
      slush.inSlush,
      several((name) => name),
    ),
  )
    .addOption(storeOption())
    .option("--json", keeping.json("slush"))
    .action(async (log: string, options) => (await checks()).slushTest(log, options, terminal));
  addCellOptions(part(probes, "warm <log>", warm.summary))
    .addOption(storeOption())
    .option("--json", keeping.json("warmed"))
    .action(async (log: string, options) => (await checks()).warmedProbes(log, options, terminal));
  part(probes, "remove <probe>", text.remove)
    .addOption(storeOption())
    .action(async (id: string, options) => (await work()).removeProbe(id, options, terminal));
}

/** What a probe sends; one of them, as the options are called. */
const curveKinds = ["thermistor", "steinhart-hart", "pt100", "type-k", "celsius"] as const;

function addCurve(probes: Command, terminal: Terminal): void {
  const { curve } = more;
  const kind = (option: Option) =>
    option.conflicts(curveKinds.filter((name) => `--${name}` !== option.long).map((name) => camelCased(name)));
  withOneOf(part(probes, "curve <probe>", curve.summary), ...curveKinds.map((name) => `--${name}`))
    .addOption(kind(new Option("--thermistor <ohms,b>", curve.thermistor)).argParser(thermistorOf))
    .addOption(kind(new Option("--steinhart-hart <a,b,c>", curve.steinhartHart)).argParser(coefficientsOf))
    .addOption(kind(new Option("--pt100 <class>", curve.pt100)).choices(["AA", "A", "B", "C"]))
    .addOption(kind(new Option("--type-k <class>", curve.typeK)).argParser(coupleClassOf))
    .addOption(
      new Option("--cold-junction <celsius>", curve.coldJunction).argParser(
        numberBetween("--cold-junction", -40, 85, ({ probes }) => probes.curve.expectedColdJunction),
      ),
    )
    .addOption(kind(new Option("--celsius", curve.celsius)))
    .addOption(storeOption())
    .action(async (id: string, options) => (await import("../keeping/curve.ts")).setCurve(id, options, terminal));
}

/** As the parser names an option's value. */
const camelCased = (name: string) => name.replaceAll(/-(.)/g, (_, letter: string) => letter.toUpperCase());

function addCalibrate(probes: Command, terminal: Terminal): void {
  const { calibrate } = more;
  const reading = (option: string) =>
    several(numberBetween(option, -60, 130, ({ probes }) => probes.calibrate.expectedReading));
  withOneOf(part(probes, "calibrate <probe>", calibrate.summary), "--ice-point", "--boiling", "--against")
    .addOption(new Option("--ice-point <read>", calibrate.ice).argParser(reading("--ice-point")))
    .addOption(new Option("--boiling <read>", calibrate.boiling).argParser(reading("--boiling")))
    .addOption(
      new Option("--altitude <metres>", calibrate.altitude).argParser(
        numberBetween("--altitude", -500, 4000, ({ probes }) => probes.calibrate.expectedAltitude),
      ),
    )
    .addOption(
      new Option("--pressure <hpa>", calibrate.pressure).argParser(
        numberBetween("--pressure", 600, 1100, ({ probes }) => probes.calibrate.expectedPressure),
      ),
    )
    .addOption(new Option("--against <reference=read>", calibrate.against).argParser(several(againstOf)))
    .addOption(
      new Option("--uncertainty <kelvin>", calibrate.uncertainty).argParser(
        numberBetween("--uncertainty", 0.001, 5, ({ probes }) => probes.calibrate.expectedUncertainty),
      ),
    )
    .addOption(new Option("--made <day>", calibrate.made).argParser(dayOf("--made")))
    .addOption(new Option("--due <day>", calibrate.due).argParser(dayOf("--due")))
    .addOption(storeOption())
    .action(async (id: string, options) =>
      (await import("../keeping/calibrate.ts")).calibrateFromOptions(id, options, terminal),
    );
}
