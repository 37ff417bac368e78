// What the routes share: the store, the live side, what was refused.

import type { Logger } from "pino";
import type { Store } from "../store/index.ts";
import type { BoardIntake } from "./board-intake.ts";
import type { Jobs } from "./jobs.ts";
import type { LiveFeed } from "./live-feed.ts";
import type { NetworkAlarms } from "./network-alarms.ts";
import type { Refusals } from "./refusals.ts";
import type { Defence, Limits, ServerOptions } from "./server-options.ts";
import type { Sessions } from "./sign-in.ts";
import type { StoreWatch } from "./store-watch.ts";
import type { Uploads } from "./uploads.ts";

export interface ServiceParts {
  readonly options: ServerOptions;
  readonly limits: Limits;
  readonly store: Store;
  readonly logger: Logger;
  readonly feed: LiveFeed;
  readonly watch: StoreWatch;
  readonly jobs: Jobs;
  readonly uploads: Uploads;
  readonly intake: BoardIntake;
  readonly alarms: NetworkAlarms;
  readonly refusals: Refusals;
  readonly sessions: Sessions;
  readonly startedUnixMs: number;
  now(): number;
  /** False only in a test that shows what a defence is good for. */
  isOn(defence: Defence): boolean;
}
