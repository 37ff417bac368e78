// A viewer of the live stream, as the HTML Standard has browsers read it.

import { get, type IncomingMessage } from "node:http";
import { onTestFinished } from "vitest";

export interface ReceivedEvent {
  readonly id: string;
  readonly kind: string;
  // biome-ignore lint/suspicious/noExplicitAny: each test looks into the shape of its own event
  readonly data: any;
}

export interface Viewer {
  readonly events: readonly ReceivedEvent[];
  /** All that came, comments too. */
  readonly text: () => string;
  readonly response: IncomingMessage;
  /** Waits until an event fits. */
  readonly until: (fits: (event: ReceivedEvent) => boolean) => Promise<ReceivedEvent>;
  readonly leave: () => void;
}

export async function viewing(base: string, headers: { readonly [name: string]: string } = {}): Promise<Viewer> {
  const events: ReceivedEvent[] = [];
  let text = "";
  let read = 0;
  const response = await new Promise<IncomingMessage>((resolve, reject) => {
    get(`${base}/api/live`, { headers, agent: false }, resolve).on("error", reject);
  });
  response.setEncoding("utf8");
  response.on("data", (chunk: string) => {
    text += chunk;
    for (let end = text.indexOf("\n\n", read); end >= 0; end = text.indexOf("\n\n", read)) {
      const field = (name: string) => new RegExp(`^${name}: (.*)$`, "m").exec(text.slice(read, end))?.[1];
      const [id, kind, data] = [field("id"), field("event"), field("data")];
      if (id !== undefined && kind !== undefined && data !== undefined)
        events.push({ id, kind, data: JSON.parse(data) });
      read = end + 2;
    }
  });
  response.on("error", () => {});
  const leave = () => void response.destroy();
  onTestFinished(leave);
  const until: Viewer["until"] = async (fits) => {
    for (let waited = 0; waited < 10_000; waited += 10) {
      const found = events.find(fits);
      if (found !== undefined) return found;
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
    throw new Error(`no such event among ${JSON.stringify(events)}`);
  };
  return { events, text: () => text, response, until, leave };
}
