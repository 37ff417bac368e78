#!/usr/bin/env node
// The `coldfall` command's entry. Node is checked before anything is loaded that an older one could not read. Plain
// JavaScript, since what is loaded before the cache is on would bring Node's whole type stripper along, 20 to 40 ms.

import "./node-version.js";
import { enableCompileCache } from "node:module";

// Halves the time to the first line: Node keeps what it made of the TypeScript for the next start.
enableCompileCache();
const { runCommandLine } = await import("./command-line.ts");
const { processTerminal } = await import("./terminal.ts");

process.exitCode = await runCommandLine(process.argv.slice(2), processTerminal());
