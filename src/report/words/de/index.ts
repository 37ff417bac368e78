// German, whole, in the shape of the English words.

import type { english } from "../en/index.ts";
import type { Widened } from "../widened.ts";
import { alarms } from "./alarms.ts";
import { badInput } from "./bad-input.ts";
import { cautionClose, cautions } from "./cautions.ts";
import { checks } from "./checks.ts";
import { cli } from "./cli.ts";
import { comparison } from "./comparison.ts";
import * as condemning from "./condemning.ts";
import { events } from "./events.ts";
import { hotDay } from "./hot-day.ts";
import { importWords } from "./import.ts";
import { keeping } from "./keeping.ts";
import { live } from "./live.ts";
import { morning } from "./morning.ts";
import * as names from "./names.ts";
import { plan } from "./plan.ts";
import { probes } from "./probes.ts";
import { reasons } from "./reasons.ts";
import { recording } from "./recording.ts";
import { report } from "./report.ts";
import { server } from "./server.ts";
import { testReport } from "./test-report.ts";
import { unknowns } from "./unknowns.ts";
import { warnings } from "./warnings.ts";

export const german: Widened<typeof english> = {
  names,
  unknowns,
  reasons,
  events,
  warnings,
  checks,
  condemning,
  cautions,
  cautionClose,
  report,
  badInput,
  cli,
  comparison,
  hotDay,
  importWords,
  keeping,
  plan,
  probes,
  live,
  alarms,
  morning,
  recording,
  server,
  testReport,
};
