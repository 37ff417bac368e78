// One viewer's stream of server-sent events. A viewer that does not keep up is let go: it comes back with the id of the last
// event it got.

import type { ServerResponse } from "node:http";
import type { LiveFeed } from "./live-feed.ts";

/** Sends the feed until the viewer leaves. */
export function streamTo(response: ServerResponse, feed: LiveFeed, after: string | null, heartbeatMs: number): void {
  response.writeHead(200, {
    "Content-Type": "text/event-stream; charset=utf-8",
    "Cache-Control": "no-store, no-transform",
    // Some proxies collect an answer before they pass it on; this asks them not to.
    "X-Accel-Buffering": "no",
  });
  const send = (text: string) => {
    response.write(text);
    if (response.writableLength > mostWaiting) response.destroy();
  };
  // With hundreds of boards events come by the hundred: written together they cost a tenth.
  let waiting = "";
  let sending: NodeJS.Timeout | undefined;
  const sendSoon = (text: string) => {
    waiting += text;
    sending ??= setTimeout(() => {
      sending = undefined;
      const together = waiting;
      waiting = "";
      send(together);
    }, gatherMs);
  };
  const { missed, stop } = feed.view(after, ({ text }) => sendSoon(text));
  send(`retry: ${retryMs}\n\n${missed.map(({ text }) => text).join("")}`);
  // A comment now and then keeps the way open and finds out that the viewer has gone.
  const heartbeat = setInterval(() => sendSoon(": still here\n\n"), heartbeatMs);
  response.once("close", () => {
    clearInterval(heartbeat);
    clearTimeout(sending);
    stop();
  });
}

/** Events that come within this are written together, ms. */
const gatherMs = 30;
/** Bytes that may wait for a viewer. */
const mostWaiting = 2_000_000;
/** After so long a page tries again, ms. */
const retryMs = 2000;
