// What may be said of alarms, to whoever watches for them.

import { type Command, Option } from "commander";
import { words } from "../report/index.ts";
import { quietOf, tooWarmOf, webhookOf } from "./option-values.ts";

const { record: text } = words("en").recording;

/** The options of `coldfall record` and `coldfall serve`. */
export const addAlarmOptions = (one: Command): Command =>
  one
    .addOption(new Option("--too-warm <celsius=hours>", text.tooWarm).argParser(tooWarmOf))
    .addOption(new Option("--quiet <hour-hour>", text.quiet).argParser(quietOf))
    .addOption(new Option("--webhook <address>", text.webhook).argParser(webhookOf));
