// What a report on before and after needs to know besides the comparison.

import type { ComparisonDocument } from "../../schema/documents/index.ts";
import type { ReportContext } from "../context.ts";

export interface ComparisonContext extends Omit<ReportContext, "inputs"> {
  readonly inputs: readonly ComparisonDocument["inputs"][number][];
}
