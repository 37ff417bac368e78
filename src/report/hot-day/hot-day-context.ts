// What a report on a hot day needs to know besides the prediction.

import type { HotDayDocument } from "../../schema/documents/index.ts";
import type { ReportContext } from "../context.ts";

export interface HotDayContext extends Omit<ReportContext, "inputs"> {
  readonly inputs: readonly HotDayDocument["inputs"][number][];
  /** What was asked, as it was given. */
  readonly asked: Pick<HotDayDocument["options"], "ambient" | "forecast" | "source" | "begin">;
}
