// Messages that leave the house: signed, tried again with longer pauses, kept until they arrive, and sent nowhere else.

import { createHmac } from "node:crypto";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openStore } from "../../src/store/index.ts";
import { enqueue, type Post, sendDue, signatureHeader, signatureOf } from "../../src/workshop/recording/webhook.ts";

let folder = "";
let count = 0;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-webhook-"));
});
afterAll(() => rmSync(folder, { recursive: true }));
const someStore = () => openStore(join(folder, `store-${++count}.coldfall`));

const hook = { url: "https://alarms.example/coldfall", secret: "between us" };
const body = { format: "coldfall-alarm-1", kind: "cooling-stopped" };

/** A receiver that answers with these, one after the other, and keeps what it got. */
function receiver(...statuses: readonly number[]) {
  const got: Parameters<Post>[] = [];
  const post: Post = async (...request) => {
    const status = statuses[got.length] ?? 200;
    got.push(request);
    if (status === 0) throw new Error("connection refused");
    return { ok: status < 300, status };
  };
  return { got, post };
}

// RFC 4231, test case 2: key "Jefe", data "what do ya want for nothing?".
test("the signature is HMAC-SHA-256 in hex, as RFC 4231 has it", () => {
  expect(signatureOf("what do ya want for nothing?", "Jefe")).toBe(
    "sha256=5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843",
  );
});

test("a message goes to the address that was given, signed over its very bytes", async () => {
  await using store = await someStore();
  await enqueue(store.outbox, hook, body, 1000);
  const { got, post } = receiver(200);
  expect(await sendDue(store, hook, 1000, post)).toMatchObject({ sent: 1, putOff: 0 });
  const [[url, request]] = got;
  expect(url).toBe(hook.url);
  const signed = createHmac("sha256", hook.secret).update(request.body).digest("hex");
  expect(request.headers[signatureHeader]).toBe(`sha256=${signed}`);
  expect(JSON.parse(request.body)).toEqual(body);
});

test("a failing receiver is tried again after 5 s, 10 s, 20 s, and the message is kept over a restart", async () => {
  const file = join(folder, "restart.coldfall");
  {
    await using store = await openStore(file);
    await enqueue(store.outbox, hook, body, 0);
    const { post } = receiver(500, 0, 503);
    expect(await sendDue(store, hook, 0, post)).toMatchObject({ sent: 0, putOff: 1 });
    expect(await sendDue(store, hook, 4999, post)).toMatchObject({ sent: 0, putOff: 0 });
    expect(await sendDue(store, hook, 5000, post)).toMatchObject({ sent: 0, putOff: 1 });
    expect(await sendDue(store, hook, 14_999, post)).toMatchObject({ sent: 0, putOff: 0 });
    expect(await sendDue(store, hook, 15_000, post)).toMatchObject({ sent: 0, putOff: 1 });
  }
  await using store = await openStore(file);
  const { got, post } = receiver(200);
  expect(await sendDue(store, hook, 35_000, post)).toMatchObject({ sent: 1, putOff: 0 });
  expect(got).toHaveLength(1);
  expect(await store.outbox.due(1e12)).toEqual([]);
});

test("a message to another receiver is left for the recorder that knows its secret", async () => {
  await using store = await someStore();
  await enqueue(store.outbox, { ...hook, url: "https://elsewhere.example/" }, body, 0);
  const { got, post } = receiver();
  await sendDue(store, hook, 1e9, post);
  expect(got).toEqual([]);
  expect(await store.outbox.due(1e9)).toHaveLength(1);
});

test("while another process sends to the same address nothing is sent here, and nothing twice", async () => {
  await using store = await someStore();
  await enqueue(store.outbox, hook, body, 0);
  const { got, post } = receiver();
  const claim = { name: `messages to ${hook.url}`, holder: "process 1 on another bench", untilUnixMs: 20_000 };
  await store.boards.claim(claim, 0);
  expect(await sendDue(store, hook, 1000, post)).toMatchObject({ sent: 0, putOff: 0 });
  expect(got).toEqual([]);
  // It was killed half-way: its claim runs out.
  expect(await sendDue(store, hook, 20_000, post)).toMatchObject({ sent: 1 });
  expect((await store.boards.claim({ ...claim, untilUnixMs: 50_000 }, 20_001)).holder).toBe(claim.holder);
});

test("a receiver that answers with a redirect is not followed", async () => {
  await using store = await someStore();
  const asked: string[] = [];
  const server = createServer((request, response) => {
    asked.push(request.url ?? "");
    response.writeHead(302, { location: "/elsewhere" }).end();
  }).listen(0, "127.0.0.1");
  await once(server, "listening");
  const own = { url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`, secret: "s" };
  await enqueue(store.outbox, own, body, 0);
  expect(await sendDue(store, own, 0)).toMatchObject({ sent: 0, putOff: 1 });
  expect(asked).toEqual(["/"]);
  server.close();
});
