// `coldfall baseline`: known-good logs into one file.

import { baselineFileOf, baselineText, type KnownGoodRun, refuseToReplace, writeWholeFile } from "../ingest/index.ts";
import { plain, program } from "../report/index.ts";
import { BadInput, type Recording } from "../schema/index.ts";
import { type Analysis, analyse, cleanRecording, usualMargin, workingSeries } from "../science/index.ts";
import { wordsFor } from "./language-option.ts";
import { type GivenLogs, readGivenLogs } from "./logs.ts";
import { Progress } from "./progress.ts";
import type { Terminal } from "./terminal.ts";
import type { ToldOfLogs } from "./told-of-logs.ts";

export interface BaselineOptions extends Pick<GivenLogs, "store" | "language">, ToldOfLogs {
  readonly out: string;
  /** For fridges of the same kind, not only for this one. */
  readonly ofKind?: boolean;
}

/** @throws BadInput before anything is written, "nothing-cools" when no log holds a stretch that cools. */
export async function runBaseline(
  logs: readonly string[],
  options: BaselineOptions,
  terminal: Terminal,
): Promise<void> {
  const { out, ofKind, ...given } = options;
  refuseToReplace({ baseline: out });
  const { runs, remarks, analysis } = await read();
  if (!analysis.stretches.some(({ verdict }) => verdict !== null && verdict !== "not-cooling")) {
    throw new BadInput({ code: "nothing-cools", files: logs });
  }
  writeWholeFile(
    out,
    baselineText(baselineFileOf(runs.map(knownGoodRun), ofKind ? "kind" : "own", program)),
    "baseline",
  );
  for (const remark of remarks) terminal.tell(`${remark}\n`);
  terminal.print(`${plain(summary(options, runs.length, analysis))}\n`);

  async function read() {
    using progress = new Progress(terminal);
    const { logs: recordings, remarks } = await readGivenLogs(
      { ...given, logs, ofOneFridge: ofKind ? "none" : "all" },
      progress,
    );
    progress.step(wordsFor(options).cli.analysing);
    const without = { knownGood: [], baselineKind: "own", margin: usualMargin } as const;
    return { runs: recordings, remarks, analysis: analyse(recordings, without) };
  }
}

const knownGoodRun = (recording: Recording): KnownGoodRun => ({
  recording,
  series: workingSeries(cleanRecording(recording).recording),
});

/** What the file now holds, source by source, and what in it did not cool. */
function summary(options: BaselineOptions, runs: number, { sources, stretches }: Analysis): string {
  const { cli, names } = wordsFor(options);
  const held = sources.map((source) => cli.baseline.held(names.onSource(source.source), source.stretches.length));
  const dead = stretches
    .filter(({ verdict }) => verdict === "not-cooling")
    .map(({ log, source }) => cli.baseline.didNotCool(log, names.onSource(source)));
  return [cli.baseline.saved(options.out, runs, held), ...dead].join("\n");
}
