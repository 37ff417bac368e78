// The comparison in its outside shape, "coldfall-comparison-1": what `--json` prints.

import type { ComparisonDocument } from "../../schema/documents/index.ts";
import type { RunsCompared } from "../../science/before-after/index.ts";
import { instant, outside } from "../outside-shapes.ts";
import { program } from "../program.ts";
import { tellerFor } from "../teller.ts";
import { plain } from "../terminal/text-layout.ts";
import type { ComparisonContext } from "./comparison-context.ts";
import { tellComparison } from "./comparison-telling.ts";

/** The comparison as one JSON object; sentences in the context's language, instants in UTC. */
export function comparisonDocument(compared: RunsCompared, context: ComparisonContext): ComparisonDocument {
  const teller = tellerFor(context);
  const telling = tellComparison(compared, context);
  return {
    format: "coldfall-comparison-1",
    program,
    options: {
      margin: compared.margin,
      sourceMarks: context.sourceMarks.map(({ unixMs, source }) => ({ at: instant(unixMs), source })),
    },
    inputs: context.inputs.map((input) => ({ ...input })),
    sources: compared.sources.map(({ source, change, coolingStrength, overControl }, index) => ({
      source,
      change,
      ...outside({ coolingStrength, overControl }, teller),
      reasons: telling.sources[index].reasons.map(plain),
    })),
    differences: telling.differences.map(plain),
    sentence: plain(telling.sentence),
    warnings: telling.warnings.map(plain),
  };
}
