// A client that lets its body drip holds a place as long as it likes; here it has to keep coming.

import type { IncomingMessage } from "node:http";

/**
 * Watches a body come in.
 *
 * @param least so many bytes in each so many ms, until all is there
 * @param tooSlow is called once when they did not come
 */
export function watchBody(
  request: IncomingMessage,
  least: { readonly bytes: number; readonly withinMs: number },
  tooSlow: () => void,
): void {
  const { socket } = request;
  let seen = socket.bytesRead;
  const timer = setInterval(() => {
    const { bytesRead } = socket;
    // Held back by our own disk is not the client's doing.
    if (request.isPaused()) return;
    if (bytesRead - seen >= least.bytes) {
      seen = bytesRead;
      return;
    }
    clearInterval(timer);
    if (!request.complete) tooSlow();
  }, least.withinMs);
  timer.unref();
  for (const over of ["end", "close", "error"]) request.once(over, () => clearInterval(timer));
}
