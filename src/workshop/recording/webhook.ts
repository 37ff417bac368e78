// Messages that leave the house: alarms as plain JSON by HTTP POST, signed, tried again with longer and longer pauses, and
// kept in the store until they have arrived. Where they go is said once, by the person who starts recording or the service.

import { createHmac } from "node:crypto";
import { msPerHour } from "../../schema/index.ts";
import type { Json, Message, Store } from "../../store/index.ts";
import { holderHere } from "./claim.ts";

/** Where messages go. */
export interface Webhook {
  /** http or https. */
  readonly url: string;
  /** Known to the receiver, too: it signs what is sent. */
  readonly secret: string;
}

/** The part of a store that messages wait in, and that tells who sends them. */
export type MessageShelves = Pick<Store, "outbox" | "boards">;

/** How a message is sent; the runtime's own `fetch` but in tests. */
export type Post = (
  url: string,
  request: {
    readonly method: "POST";
    readonly headers: Readonly<Record<string, string>>;
    readonly body: string;
    readonly redirect: "error";
    readonly signal: AbortSignal;
  },
) => Promise<{ readonly ok: boolean; readonly status: number }>;

const firstPauseMs = 5000;
const longestPauseMs = msPerHour;
const patienceMs = 10_000;

/** The header that carries `sha256=` and the HMAC-SHA-256 of the body, in hex. Source: RFC 2104, FIPS 180-4. */
export const signatureHeader = "coldfall-signature";

/** The signature of a message, as the header carries it. */
export const signatureOf = (body: string, secret: string): string =>
  `sha256=${createHmac("sha256", secret).update(body).digest("hex")}`;

/** Puts a message on its way. It is sent by `sendDue`. */
export const enqueue = (outbox: Store["outbox"], hook: Webhook, body: Json, nowUnixMs: number): Promise<Message> =>
  outbox.add({ target: hook.url, body, madeUnixMs: nowUnixMs });

/**
 * Sends what is due to this receiver, unless another process is doing so: a recorder and the service may both know it. What
 * fails is put off: 5 s, then twice as long each time, an hour at most.
 *
 * @returns how many arrived, how many were put off, and why the last of these
 */
export async function sendDue(
  { outbox, boards }: MessageShelves,
  hook: Webhook,
  nowUnixMs: number,
  post: Post = fetch,
): Promise<{ readonly sent: number; readonly putOff: number; readonly why: string | null }> {
  const counts = { sent: 0, putOff: 0, why: null as string | null };
  // A message to another receiver waits for who knows its secret.
  const due = async () => (await outbox.due(nowUnixMs)).filter(({ target }) => target === hook.url);
  const before = await due();
  if (before.length === 0) return counts;
  const [name, holder] = [`messages to ${hook.url}`, holderHere()];
  const untilUnixMs = nowUnixMs + (before.length + 1) * patienceMs;
  if ((await boards.claim({ name, holder, untilUnixMs }, nowUnixMs)).holder !== holder) return counts;
  try {
    // Asked again: the other may have sent them a moment ago.
    for (const message of (await due()).slice(0, before.length)) {
      const error = await failureOf(message, hook, post);
      if (error === null) {
        await outbox.settle(message.id);
        counts.sent += 1;
      } else {
        const pauseMs = Math.min(longestPauseMs, firstPauseMs * 2 ** Math.min(message.attempts, 20));
        await outbox.postpone(message.id, nowUnixMs + pauseMs, error);
        counts.putOff += 1;
        counts.why = error;
      }
    }
  } finally {
    await boards.release(name, holder);
  }
  return counts;
}

async function failureOf(message: Message, { url, secret }: Webhook, post: Post): Promise<string | null> {
  const body = JSON.stringify(message.body);
  try {
    const answer = await post(url, {
      method: "POST",
      headers: { "content-type": "application/json", [signatureHeader]: signatureOf(body, secret) },
      body,
      // Where a message goes is for the workshop to say, not for whoever answers.
      redirect: "error",
      signal: AbortSignal.timeout(patienceMs),
    });
    return answer.ok ? null : `HTTP ${answer.status}`;
  } catch (error) {
    // The runtime's own words are "fetch failed"; what failed stands behind them.
    const { cause = error } = error instanceof Error ? error : {};
    return cause instanceof Error && cause.message !== "" ? cause.message : String(error);
  }
}
