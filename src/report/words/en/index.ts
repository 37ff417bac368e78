// English, whole: every word a person reads.

import { badInput } from "./bad-input.ts";
import { cautionClose, cautions } from "./cautions.ts";
import { checks } from "./checks.ts";
import { cli } from "./cli.ts";
import { comparison } from "./comparison.ts";
import { events } from "./events.ts";
import { hotDay } from "./hot-day.ts";
import * as names from "./names.ts";
import { reasons } from "./reasons.ts";
import { report } from "./report.ts";
import { unknowns } from "./unknowns.ts";
import { warnings } from "./warnings.ts";

export const english = {
  names,
  unknowns,
  reasons,
  events,
  warnings,
  checks,
  cautions,
  cautionClose,
  report,
  badInput,
  cli,
  comparison,
  hotDay,
};
