// Where alarms are sent, and the secret that signs them.

import type { Webhook } from "../workshop/recording/index.ts";
import { type LanguageOptions, wordsFor } from "./language-option.ts";
import type { Terminal } from "./terminal.ts";

/** The secret comes from the environment: on a command line every process of the machine could read it. */
export function webhookWithSecret(
  { webhook, language }: LanguageOptions & { readonly webhook?: string },
  terminal: Pick<Terminal, "tell">,
): Webhook | null {
  if (webhook === undefined) return null;
  const secret = process.env.COLDFALL_WEBHOOK_SECRET ?? "";
  if (secret === "") terminal.tell(`${wordsFor({ language }).recording.record.noSecret}\n`);
  return { url: webhook, secret };
}
