// `npm start`: the main job on the sample logs, then the bench in a browser. Node is checked before anything else is loaded.

import "./node-version.js";
import { enableCompileCache } from "node:module";
import { fileURLToPath } from "node:url";

enableCompileCache();
const { newCommand } = await import("./command.ts");
const { addServeOptions } = await import("./commands/serve.ts");
const { withExitCode } = await import("./exit-code.ts");
const { languageIn, languageOption } = await import("./language-option.ts");
const { runSamples } = await import("./samples.ts");
const { processTerminal } = await import("./terminal.ts");
const { words } = await import("../report/index.ts");

const { cli } = words("en");
const terminal = processTerminal();
const sampleLogs = fileURLToPath(new URL("../../sample-logs", import.meta.url));

const language = languageIn(process.argv.slice(2));

process.exitCode = await withExitCode(
  terminal,
  () =>
    addServeOptions(newCommand("npm start --", terminal, language).description(cli.samples.summary))
      .option("--once", cli.samples.once)
      .addOption(languageOption())
      .action(async ({ once, ...options }) => {
        await runSamples(sampleLogs, "coldfall-report.html", terminal, { language });
        if (once) return;
        const { runServe } = await import("./serve.ts");
        await runServe(options, terminal);
      })
      .parseAsync(),
  language,
);
