// What `npm start` does: judges every fridge of a folder of sample logs, and writes one page for all.

import { readdirSync } from "node:fs";
import { join } from "node:path";
import { writeWholeFile } from "../ingest/index.ts";
import { analysisPage, analysisText, type FridgePage, words } from "../report/index.ts";
import { BadInput } from "../schema/index.ts";
import { type Analysed, analyseGiven } from "./analyse.ts";
import type { Terminal } from "./terminal.ts";

const { cli, names } = words("en");

/**
 * Each sub-folder of `folder` is one fridge: `known-good-*.csv` are its known-good logs, other `.csv` files
 * the logs to judge.
 *
 * @param page the page to write
 * @throws BadInput "no-samples", or as reading a log does
 */
export function runSamples(folder: string, page: string, terminal: Terminal): void {
  const fridges = fridgesIn(folder).map(({ name, ...given }) => ({ name, ...analyseGiven(given, terminal) }));
  writeWholeFile(page, analysisPage(fridges.map(fridgePage)));
  for (const { name, analysis, context } of fridges) {
    const text = analysisText(analysis, context, { colour: terminal.hasColour, width: terminal.width });
    terminal.print(`${cli.samples.fridge(name)}\n\n${text}\n`);
  }
  terminal.print(`${[cli.samples.inShort, ...fridges.map(verdicts), "", cli.samples.done(page)].join("\n")}\n`);
}

/** One line per fridge: the reports above are long. */
function verdicts({ name, analysis }: { name: string } & Analysed): string {
  const bySource = analysis.sources.map(
    ({ source, verdict }) => `${names.onSource(source)} ${names.verdictNames[verdict]}`,
  );
  return `  ${name}: ${bySource.join(", ")}`.replaceAll("\u00a0", " ");
}

const fridgePage = ({ name, analysis, context }: { name: string } & Analysed): FridgePage => ({
  title: cli.samples.fridge(name),
  analysis,
  context,
});

function fridgesIn(folder: string) {
  const fridges = namesIn(folder).flatMap((name) => {
    const files = namesIn(join(folder, name)).filter((file) => file.endsWith(".csv"));
    const isKnownGood = (file: string) => file.startsWith("known-good-");
    const paths = (of: readonly string[]) => of.map((file) => join(folder, name, file));
    const logs = paths(files.filter((file) => !isKnownGood(file)));
    return logs.length === 0 ? [] : [{ name, logs, knownGood: paths(files.filter(isKnownGood)) }];
  });
  if (fridges.length === 0) throw new BadInput({ code: "no-samples", folder });
  return fridges;
}

/** Names in a folder, in order; none when it is no folder or not there. */
function namesIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder).sort();
  } catch {
    return [];
  }
}
