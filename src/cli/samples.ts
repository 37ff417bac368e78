// What `npm start` does: judges every fridge of a folder of sample logs, and writes one page for all.

import { readdirSync } from "node:fs";
import { join } from "node:path";
import { refuseToReplace, writeWholeFile } from "../ingest/index.ts";
import { analysisLetter } from "../report/analysis/analysis-page.ts";
import { analysisBrief } from "../report/analysis/index.ts";
import { comparisonLetter, comparisonText } from "../report/comparison/index.ts";
import { hotDayLetter, hotDayText } from "../report/hot-day/index.ts";
import { handOf, plain } from "../report/index.ts";
import { lettersPage } from "../report/page/index.ts";
import { BadInput } from "../schema/index.ts";
import { isKnown } from "../science/index.ts";
import { type Analysed, analyseGiven } from "./analyse.ts";
import { type ComparedLogs, compareGiven } from "./compare.ts";
import { type Predicted, predictGiven } from "./hot-day.ts";
import { type LanguageOptions, wordsFor } from "./language-option.ts";
import type { Terminal } from "./terminal.ts";

/**
 * Each sub-folder of `folder` is one fridge: `known-good-*.csv` are its known-good logs, `serviced-*.csv` logs from
 * after a service, other `.csv` files the logs to judge; with those the serviced ones are compared. `*.forecast.csv` are
 * trips, predicted from all logs but the serviced ones.
 *
 * @param page the page to write
 * @throws BadInput "no-samples", or as reading a log does
 */
export async function runSamples(
  folder: string,
  page: string,
  terminal: Terminal,
  telling: LanguageOptions = {},
): Promise<void> {
  refuseToReplace({ page });
  const { cli } = wordsFor(telling);
  const stories: Story[] = [];
  for (const { name, serviced, forecasts, ...given } of fridgesIn(folder)) {
    stories.push(judgedStory(name, await analyseGiven({ ...given, ...telling }, terminal), terminal));
    if (serviced.length > 0) {
      const compared = await compareGiven({ ...given, ...telling, before: given.logs, after: serviced }, terminal);
      stories.push(comparedStory(name, compared, terminal));
    }
    for (const forecast of forecasts) {
      const logs = [...given.logs, ...given.knownGood];
      stories.push(tripStory(name, await predictGiven({ ...telling, logs, forecast }, terminal), terminal));
    }
  }
  writeWholeFile(page, lettersPage(stories.map(({ letter }) => letter)), "page");
  for (const { title, text } of stories) terminal.print(`${title}\n\n${text}\n`);
  const inShort = stories.map((story) => plain(`  ${story.inShort}`));
  terminal.print(`${[cli.samples.inShort, ...inShort, "", cli.samples.done(page)].join("\n")}\n`);
}

/** What is told of one fridge, or of one service: printed, as a letter on the page, and in one line. */
interface Story {
  readonly title: string;
  readonly text: string;
  readonly letter: ReturnType<typeof analysisLetter>;
  readonly inShort: string;
}

const looksOf = ({ hasColour, width }: Terminal) => ({ colour: hasColour, width });

function judgedStory(name: string, { analysis, context }: Analysed, terminal: Terminal): Story {
  const { cli, names } = wordsFor(context);
  const title = cli.samples.fridge(name);
  const bySource = analysis.sources.map(
    ({ source, verdict }) => `${names.onSource(source)} ${names.verdictNames[verdict]}`,
  );
  return {
    title,
    text: analysisBrief(analysis, context, looksOf(terminal)),
    letter: analysisLetter({ title, analysis, context }),
    inShort: `${name}: ${bySource.join(", ")}`,
  };
}

function comparedStory(name: string, { comparison, context }: ComparedLogs, terminal: Terminal): Story {
  const { cli, names, comparison: comparisonWords } = wordsFor(context);
  const title = cli.samples.service(name);
  const bySource = comparison.sources.map(
    ({ source, change }) => `${names.onSource(source)} ${comparisonWords.changeNames[change]}`,
  );
  return {
    title,
    text: comparisonText(comparison, context, looksOf(terminal)),
    letter: comparisonLetter({ title, comparison, context }),
    inShort: cli.samples.serviced(name, bySource),
  };
}

function tripStory(name: string, { prediction, context }: Predicted, terminal: Terminal): Story {
  const { cli } = wordsFor(context);
  const title = cli.samples.trip(name);
  const above = prediction.trip?.hoursAbove8;
  const hand = handOf(context.language, context.utcOffsetMinutes, context.degrees);
  return {
    title,
    text: hotDayText(prediction, context, looksOf(terminal)),
    letter: hotDayLetter({ title, prediction, context }),
    inShort: cli.samples.onTrip(name, above !== undefined && isKnown(above) ? hand.brief(above) : null),
  };
}

function fridgesIn(folder: string) {
  const fridges = namesIn(folder).flatMap((name) => {
    const files = namesIn(join(folder, name)).filter((file) => file.endsWith(".csv"));
    const named = (prefix: string) => files.filter((file) => file.startsWith(prefix));
    const [good, after] = [named("known-good-"), named("serviced-")];
    const forecasts = files.filter((file) => file.endsWith(".forecast.csv"));
    const judged = files.filter((file) => ![...good, ...after, ...forecasts].includes(file));
    const paths = (of: readonly string[]) => of.map((file) => join(folder, name, file));
    return judged.length === 0
      ? []
      : [
          {
            name,
            logs: paths(judged),
            knownGood: paths(good),
            serviced: paths(after),
            forecasts: paths(forecasts),
          },
        ];
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
