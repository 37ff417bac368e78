// Each defence of the service against the attack it is there for: the attack fails, and the very same attack succeeds once
// that one defence is switched off, so that it is known to be a real one. The numbers are requirements of the OWASP
// Application Security Verification Standard 5.0.0 (2025), read in its own repository.

import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createServer as createNaive } from "node:http";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { pino } from "pino";
import { describe, expect, onTestFinished, test } from "vitest";
import { type Defence, defences } from "../../src/server/server-options.ts";
import { hashPassword } from "../../src/server/sign-in.ts";
import type { Store } from "../../src/store/index.ts";
import { asPage, type Running, raw, running, type Settings } from "./service.ts";

const technician = "a long enough secret";
const owner = "another one to look";
/** What a guess costs is a test of its own; the others need not pay for it. */
const cheap = { N: 1024, r: 8, p: 1 };
const hashes = { technician: await hashPassword(technician, cheap), owner: await hashPassword(owner, cheap) };

interface Attack {
  readonly defence: Defence;
  /** Of OWASP ASVS 5.0.0. */
  readonly requirement: string;
  readonly what: string;
  readonly settings?: Settings;
  /** Whether the attacker got what he wanted. */
  readonly succeeds: (service: Running) => Promise<boolean>;
}

const isThere = async (store: Store, name: string) =>
  (await store.fridges.list()).some((fridge) => fridge.name === name);

/** Signs in and gives the cookie that a browser would keep. */
async function cookieOf({ port }: Running, role: string, password: string): Promise<string> {
  const answer = await raw(port, "POST", "/api/session", asPage, JSON.stringify({ role, password }));
  return answer.headers["set-cookie"]?.[0].split(";")[0] ?? "";
}

let clock = Date.UTC(2026, 5, 4);

const attacks: readonly Attack[] = [
  {
    defence: "host-check",
    requirement: "3.5.8 (none names DNS rebinding)",
    what: "a stranger's name that leads to this machine reads the fridges",
    succeeds: async ({ port, store }) => {
      await store.fridges.add({ name: "Larch" });
      return (await raw(port, "GET", "/api/fridges", { Host: `rebound.example:${port}` })).body.includes("Larch");
    },
  },
  {
    defence: "same-origin",
    requirement: "3.5.1, 3.5.2",
    what: "a form of a foreign page ends a run that is being recorded",
    succeeds: async ({ port, store }) => {
      const { id: fridgeId } = await store.fridges.add({ name: "Larch" });
      const run = { fridgeId, startedUnixMs: 0, purpose: "test", origin: "board", utcOffsetMinutes: 0 } as const;
      const { id } = await store.runs.open(run);
      await raw(port, "POST", `/api/runs/${id}/end`, {
        Host: `127.0.0.1:${port}`,
        Origin: "https://elsewhere.example",
        "Sec-Fetch-Site": "cross-site",
        "Content-Type": "application/x-www-form-urlencoded",
      });
      return (await store.runs.get(id)).endedUnixMs !== null;
    },
  },
  {
    defence: "same-origin",
    requirement: "3.5.3",
    what: "a foreign page has the browser fetch the export of a fridge",
    succeeds: async ({ port, store }) => {
      const { id } = await store.fridges.add({ name: "Larch" });
      const headers = { "Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors", "Sec-Fetch-Dest": "script" };
      return (await raw(port, "GET", `/api/fridges/${id}/everything`, headers)).body.includes("Larch");
    },
  },
  {
    defence: "content-policy",
    requirement: "3.4.3, 3.4.4, 3.4.6",
    what: "an answer may run scripts within it, be framed, or be taken for another type",
    succeeds: async ({ port }) => {
      const { headers } = await raw(port, "GET", "/api/health");
      const policy = String(headers["content-security-policy"] ?? "");
      const isTight =
        /(^|;)default-src 'none'/.test(policy) &&
        /(^|;)script-src 'self'(;|$)/.test(policy) &&
        /(^|;)frame-ancestors 'none'/.test(policy) &&
        /(^|;)base-uri 'none'/.test(policy) &&
        !/unsafe|\*|https?:/.test(policy);
      return !isTight || headers["x-content-type-options"] !== "nosniff";
    },
  },
  {
    defence: "password",
    requirement: "8.2.1, 8.3.1",
    what: "somebody on the network reads without signing in",
    settings: { passwords: hashes },
    succeeds: async ({ port }) => (await raw(port, "GET", "/api/fridges")).status === 200,
  },
  {
    defence: "roles",
    requirement: "8.2.1, 8.3.1",
    what: "the owner, who only looks, adds a fridge",
    settings: { passwords: hashes },
    succeeds: async (service) => {
      const Cookie = await cookieOf(service, "owner", owner);
      await raw(service.port, "POST", "/api/fridges", { ...asPage, Cookie }, '{"name":"Larch"}');
      return isThere(service.store, "Larch");
    },
  },
  {
    defence: "cookie-flags",
    requirement: "3.3.2, 3.3.4",
    what: "a script reads the session's cookie, or a foreign page's request carries it",
    settings: { passwords: hashes },
    succeeds: async ({ port }) => {
      const body = JSON.stringify({ role: "technician", password: technician });
      const [cookie] = (await raw(port, "POST", "/api/session", asPage, body)).headers["set-cookie"] ?? [""];
      return !/; HttpOnly/.test(cookie) || !/; SameSite=Strict/.test(cookie);
    },
  },
  {
    defence: "session-expiry",
    requirement: "7.3.1, 7.3.2",
    what: "a cookie found on a phone next week still opens the bench",
    settings: { passwords: hashes, now: () => clock },
    succeeds: async (service) => {
      const Cookie = await cookieOf(service, "technician", technician);
      clock += 7 * 86_400_000;
      return (await raw(service.port, "GET", "/api/fridges", { Cookie })).status === 200;
    },
  },
  {
    defence: "sign-in-limit",
    requirement: "6.3.1",
    what: "passwords are tried one after the other until one fits",
    settings: { passwords: hashes, limits: { signInsPer15Minutes: 3 } },
    succeeds: async (service) => {
      for (const guess of ["123456", "password", "fridge"]) await cookieOf(service, "technician", guess);
      return (await cookieOf(service, "technician", technician)) !== "";
    },
  },
  {
    defence: "request-limit",
    requirement: "2.4.1",
    what: "one address asks as fast as it can",
    settings: { limits: { requestsPerMinute: 20 } },
    succeeds: async ({ port }) => {
      const answers = await Promise.all(Array.from({ length: 40 }, () => raw(port, "GET", "/api/fridges")));
      return answers.every(({ status }) => status === 200);
    },
  },
  {
    defence: "body-limit",
    requirement: "15.2.2",
    what: "a body far larger than any of ours is taken in",
    settings: { limits: { jsonBytes: 1000 } },
    succeeds: async ({ port, store }) => {
      const body = JSON.stringify({ name: "Larch", notes: "x".repeat(15_000) });
      await raw(port, "POST", "/api/fridges", asPage, body);
      return isThere(store, "Larch");
    },
  },
  {
    defence: "upload-limit",
    requirement: "5.2.1, 5.2.4",
    what: "uploads fill the disk",
    settings: { limits: { uploadBytes: 1000 } },
    succeeds: async ({ port, folder }) => {
      const headers = { "Coldfall-Request": "1", "Content-Type": "text/csv" };
      await raw(port, "POST", "/api/uploads?name=a.csv", headers, Buffer.alloc(50_000, 65)).catch(() => {});
      return readdirSync(join(folder, "uploads")).length > 0;
    },
  },
  {
    defence: "upload-limit",
    requirement: "5.2.4",
    what: "many uploads, each small enough, fill the disk together",
    settings: { limits: { waitingUploadBytes: 10_000 } },
    succeeds: async ({ port, folder }) => {
      const headers = { "Coldfall-Request": "1", "Content-Type": "text/csv" };
      for (let i = 0; i < 5; i++) {
        await raw(port, "POST", "/api/uploads?name=a.csv", headers, Buffer.alloc(4000, 65)).catch(() => {});
      }
      return readdirSync(join(folder, "uploads")).length > 2;
    },
  },
  {
    defence: "json-depth",
    requirement: "2.2.1, 16.5.3",
    what: "JSON nested a hundred thousand deep makes the service fail",
    succeeds: async ({ port, store }) => {
      const { id } = await store.fridges.add({ name: "Larch" });
      const plan = `${"[".repeat(100_000)}${"]".repeat(100_000)}`;
      const body = `{"fridgeId":"${id}","purpose":"test","utcOffsetMinutes":0,"plan":${plan}}`;
      return (await raw(port, "POST", "/api/runs", asPage, body)).status >= 500;
    },
  },
  {
    defence: "slow-body",
    requirement: "15.2.2",
    what: "a body that drips holds a place for as long as it likes",
    settings: { limits: { slowBody: { bytes: 1000, withinMs: 100 } } },
    succeeds: async ({ port }) => {
      const head = "POST /api/fridges HTTP/1.1\r\nHost: 127.0.0.1\r\nColdfall-Request: 1\r\n";
      return staysOpen(port, `${head}Content-Type: application/json\r\nContent-Length: 400\r\n\r\n`, "x", 700);
    },
  },
  {
    defence: "board-token",
    requirement: "8.2.1, 8.2.2",
    what: "a board with a token of its own hands in readings for another",
    succeeds: async ({ port, store }) => {
      const { id: fridgeId } = await store.fridges.add({ name: "Larch" });
      for (const id of ["bench-1", "bench-2"]) await store.boards.issueToken(id);
      await store.boards.edit("bench-1", { fridgeId });
      const headers = {
        "Content-Type": "application/senml+json",
        Authorization: `Bearer ${await store.boards.issueToken("bench-2")}`,
      };
      const answer = await raw(port, "POST", "/api/boards/bench-1/readings", headers, '[{"n":"cabinet","v":7}]');
      return answer.status === 200;
    },
  },
  {
    defence: "board-times",
    requirement: "2.2.1, 2.2.3",
    what: "a reading from the year 2060 goes into a run",
    succeeds: async ({ port, store }) => {
      const { id: fridgeId } = await store.fridges.add({ name: "Larch" });
      const token = await store.boards.issueToken("bench-1");
      await store.boards.edit("bench-1", { fridgeId });
      const headers = { "Content-Type": "application/senml+json", Authorization: `Bearer ${token}` };
      const pack = JSON.stringify([{ n: "cabinet", v: 7, t: Date.UTC(2060, 0) / 1000 }]);
      await raw(port, "POST", "/api/boards/bench-1/readings", headers, pack);
      const { runs } = await store.runs.list({ fridgeId });
      return runs.length > 0;
    },
  },
  {
    defence: "quiet-faults",
    requirement: "16.5.1",
    what: "a fault of the program tells where its files lie",
    succeeds: async ({ port, store }) => {
      store.fridges.list = () => Promise.reject(new Error("SELECT * FROM fridge failed in store-database"));
      const { status, body } = await raw(port, "GET", "/api/fridges");
      expect(status).toBe(500);
      return /SELECT|store-database|attacks\.test|node_modules|\n\s+at /.test(body);
    },
  },
];

/** Whether a connection is still open and unanswered after a while in which it drips. */
function staysOpen(port: number, head: string, drop: string, ms: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(port, "127.0.0.1");
    let isAnswered = false;
    socket.on("data", () => {
      isAnswered = true;
    });
    socket.on("error", () => {});
    socket.on("close", () => {
      isAnswered = true;
    });
    socket.write(head);
    const dripping = setInterval(() => socket.write(drop), 20);
    void sleep(ms).then(() => {
      clearInterval(dripping);
      resolve(!isAnswered);
      socket.destroy();
    });
  });
}

for (const { defence, requirement, what, settings, succeeds } of attacks) {
  describe(`${defence}, ASVS ${requirement}`, () => {
    test(`it does not happen that ${what}`, async () => {
      expect(await succeeds(await running(settings))).toBe(false);
    });
    test(`without this defence, ${what}`, async () => {
      expect(await succeeds(await running({ ...settings, defencesOff: [defence] }))).toBe(true);
    });
  });
}

test("every defence that can be switched off has an attack", () => {
  expect([...new Set(attacks.map(({ defence }) => defence))].sort()).toEqual([...defences].sort());
});

// ASVS 15.2.2. The head of a request is Node's to wait for; its patience is ours to set.
test("a head that drips is not waited for longer than the limit says, and would be otherwise", async () => {
  const drips = async (headersMs: number) => {
    const { port } = await running({ limits: { headersMs } });
    return staysOpen(port, "GET /api/health HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Drip: ", "x", 1800);
  };
  expect(await drips(300)).toBe(false);
  expect(await drips(60_000)).toBe(true);
});

// ASVS 2.4.1, 6.3.1
test("tokens are not tried one after the other, while boards that send what they may are not held up", async () => {
  const { port, store, call } = await running({ limits: { requestsPerMinute: 10 } });
  const { id: fridgeId } = await store.fridges.add({ name: "Larch" });
  const token = await store.boards.issueToken("bench-1");
  await store.boards.edit("bench-1", { fridgeId });
  const send = async (bearer: string, value: number) => {
    const headers = { "Content-Type": "application/senml+json", Authorization: `Bearer ${bearer}` };
    const pack = JSON.stringify([{ n: "cabinet", v: value, t: -value }]);
    return (await raw(port, "POST", "/api/boards/bench-1/readings", headers, pack)).status;
  };
  for (let i = 0; i < 30; i++) expect(await send(token, i)).toBe(200);
  const guesses: number[] = [];
  for (let i = 0; i < 30; i++) guesses.push(await send(`guess-number-${i}`, 0));
  expect(guesses.filter((status) => status === 401)).toHaveLength(10);
  expect(guesses.at(-1)).toBe(429);
  expect((await call("GET /api/status")).answer.refused).toMatchObject({ "unknown-board-token": 10 });
});

// ASVS 5.3.2. There is no switch: no path of a request is ever made into a path of a file. That the addresses are real attacks
// shows a server that does so.
test("no address leads out of the folder of the pages, though a naive server is led out by it", async () => {
  const folder = mkdtempSync(join(tmpdir(), "coldfall-pages-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const pages = join(folder, "pages");
  mkdirSync(pages);
  writeFileSync(join(folder, "secret.json"), '{"secret":true}');
  writeFileSync(join(pages, "index.html"), "<!doctype html><title>bench</title>");
  writeFileSync(join(pages, "notes.txt"), "not a part of a page");
  const addresses = ["/../secret.json", "/%2e%2e/secret.json", "/..%2fsecret.json", "/x/../../secret.json"];
  const { port } = await running({ pages });
  for (const address of [...addresses, "/..%5csecret.json", "/notes.txt", "/index.html%00.txt"]) {
    expect((await raw(port, "GET", address)).body, address).not.toMatch(/secret|not a part/);
  }
  expect((await raw(port, "GET", "/notes.txt")).status).toBe(404);
  expect((await raw(port, "GET", "/")).body).toContain("bench");

  const naive = createNaive((request, response) => {
    try {
      response.end(readFileSync(resolve(join(pages, decodeURIComponent(request.url ?? "")))));
    } catch {
      response.end();
    }
  });
  await new Promise<void>((listening) => naive.listen(0, "127.0.0.1", listening));
  onTestFinished(() => void naive.close());
  const naivePort = (naive.address() as { readonly port: number }).port;
  for (const address of addresses) expect((await raw(naivePort, "GET", address)).body, address).toContain("secret");
});

// ASVS 5.3.2, 5.4.1
test("what a sender calls a file names nothing on the disk", async () => {
  const { port, folder } = await running();
  const headers = { "Coldfall-Request": "1", "Content-Type": "text/csv" };
  for (const name of ["../../evil.csv", "/etc/cron.d/evil", "..\\evil.csv"]) {
    await raw(
      port,
      "POST",
      `/api/uploads?name=${encodeURIComponent(name)}`,
      headers,
      "time,cabinet\n2026-06-04T20:00:00Z,7\n",
    );
  }
  const kept = readdirSync(folder, { recursive: true })
    .map(String)
    .filter((name) => /evil|upload$/.test(name));
  expect(kept).toHaveLength(3);
  for (const name of kept) expect(name).toMatch(/^uploads[/\\][0-9a-f-]{36}\.upload$/);
});

// ASVS 5.2.1
test("an upload that is too large is told so, whether it said its length or not", async () => {
  const { port, folder } = await running({ limits: { uploadBytes: 1000 } });
  const headers = { "Coldfall-Request": "1", "Content-Type": "text/csv" };
  for (const length of [{ "Content-Length": "50000" }, { "Transfer-Encoding": "chunked" }]) {
    const answer = await raw(
      port,
      "POST",
      "/api/uploads?name=a.csv",
      { ...headers, ...length },
      Buffer.alloc(50_000, 65),
    );
    expect(JSON.parse(answer.body)).toMatchObject({ status: 413, code: "body-too-large" });
  }
  expect(readdirSync(join(folder, "uploads"))).toEqual([]);
});

// ASVS 3.4.2
test("no foreign page is given leave to read an answer or to send a change", async () => {
  const { port } = await running();
  const headers = { Origin: "https://elsewhere.example", "Access-Control-Request-Method": "POST" };
  const asked = await raw(port, "OPTIONS", "/api/fridges", headers);
  expect(asked.headers).not.toHaveProperty("access-control-allow-origin");
  expect(asked.status).toBeGreaterThanOrEqual(400);
});

// ASVS 3.5.1: an old browser says neither where a request comes from nor what it is for.
test("a change without the header of our pages is refused, wherever it comes from", async () => {
  const { port } = await running();
  const answer = await raw(port, "POST", "/api/samples", { "Content-Type": "text/plain" });
  expect(JSON.parse(answer.body)).toMatchObject({ status: 403, code: "foreign-request" });
});

// ASVS 7.2.3, 7.2.4, 7.4.1
test("signing in gives a new token each time and ends the old one; signing out ends it at the service", async () => {
  const service = await running({ passwords: hashes });
  const first = await cookieOf(service, "technician", technician);
  expect(first).toMatch(/^coldfall=[\w-]{43}$/);
  const body = JSON.stringify({ role: "technician", password: technician });
  const answer = await raw(service.port, "POST", "/api/session", { ...asPage, Cookie: first }, body);
  const second = answer.headers["set-cookie"]?.[0].split(";")[0] ?? "";
  expect(second).not.toBe(first);
  const opens = async (Cookie: string) => (await raw(service.port, "GET", "/api/fridges", { Cookie })).status === 200;
  expect([await opens(first), await opens(second)]).toEqual([false, true]);
  await raw(service.port, "DELETE", "/api/session", { "Coldfall-Request": "1", Cookie: second });
  expect(await opens(second)).toBe(false);
});

// ASVS 11.4.2: salted, memory-hard.
test("the same password is never hashed to the same text, and its hash takes 32 MiB", async () => {
  const [one, two] = [await hashPassword(technician), await hashPassword(technician)];
  expect(one).not.toBe(two);
  const [kind, N, r] = one.split("$");
  expect([kind, Number(N) * Number(r) * 128]).toEqual(["scrypt", 32 * 1024 * 1024]);
});

// ASVS 16.2.5, 16.3.1
test("the log tells of sign-ins, refused ones too, and holds no password, token or cookie", async () => {
  const lines: string[] = [];
  const logger = pino({ level: "debug" }, { write: (line: string) => lines.push(line) });
  const service = await running({ passwords: hashes, logger });
  await cookieOf(service, "technician", "a wrong password");
  const cookie = await cookieOf(service, "technician", technician);
  await raw(service.port, "GET", "/api/fridges", { Cookie: cookie });
  const log = lines.join("");
  expect(log).toContain('"event":"sign-in-refused"');
  expect(log).toContain('"event":"signed-in"');
  expect(log).toMatch(/"path":"\/api\/fridges","status":200/);
  for (const secret of [technician, "a wrong password", cookie.split("=")[1]]) expect(log).not.toContain(secret);
});
