// `npm start`: the main job on the sample logs. Node is checked before anything else is loaded.

import "./node-version.js";
import { enableCompileCache } from "node:module";
import { fileURLToPath } from "node:url";

enableCompileCache();
const { newCommand, withExitCode } = await import("./command-line.ts");
const { runSamples } = await import("./samples.ts");
const { processTerminal } = await import("./terminal.ts");
const { words } = await import("../report/index.ts");

const { cli } = words("en");
const terminal = processTerminal();
const sampleLogs = fileURLToPath(new URL("../../sample-logs", import.meta.url));

process.exitCode = withExitCode(terminal, () =>
  newCommand("npm start --", terminal)
    .description(cli.samples.summary)
    .option("--once", cli.samples.once)
    .action(() => runSamples(sampleLogs, "coldfall-report.html", terminal))
    .parse(),
);
