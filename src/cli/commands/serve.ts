// The options of `coldfall serve`.

import { type Command, Option } from "commander";
import { words } from "../../report/index.ts";
import { addAlarmOptions } from "../alarm-options.ts";
import { command } from "../command.ts";
import { fahrenheitOption } from "../language-option.ts";
import { badOption, several } from "../option-values.ts";
import type { ServeOptions } from "../serve.ts";
import { storeOption } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";

const { server: text } = words("en");

/** The options of `coldfall serve`. The work itself is loaded when it is asked for. */
export function addServe(program: Command, terminal: Terminal): void {
  addServeOptions(command(program, "serve", text))
    .addOption(fahrenheitOption())
    .action(async (options: ServeOptions) => {
      const { runServe } = await import("../serve.ts");
      await runServe(options, terminal);
    });
}

/** What may be said of the service, to whatever command starts it. */
export const addServeOptions = (one: Command): Command => addAlarmOptions(servedAt(one)).addOption(storeOption());

const servedAt = (one: Command): Command =>
  one
    .addOption(new Option("--port <number>", text.port).default(usualPort).argParser(portOf))
    .addOption(new Option("--host <address>", text.host))
    .addOption(new Option("--host-name <name>", text.hostName).argParser(several((name) => name)))
    .addOption(new Option("--technician-password <file>", text.technicianPassword))
    .addOption(new Option("--owner-password <file>", text.ownerPassword))
    .addOption(new Option("--tls-cert <file>", text.tlsCert))
    .addOption(new Option("--tls-key <file>", text.tlsKey));

/** Free on most machines, and ours alone as far as we know. */
const usualPort = 8265;

/** @throws BadInput "bad-option" */
function portOf(given: string): number {
  const port = Number(given);
  if (!/^\d{1,5}$/.test(given) || port > 65_535) throw badOption("--port", given, ({ server }) => server.expectedPort);
  return port;
}
