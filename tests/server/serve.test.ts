import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { request } from "node:https";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, onTestFinished, test, vi } from "vitest";
import { type ServeOptions, startServing } from "../../src/cli/serve.ts";
import { coldfall, recordedTerminal } from "../cli/recorded-terminal.ts";

function folderForTest(): string {
  const folder = mkdtempSync(join(tmpdir(), "coldfall-serve-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

async function serving(options: Partial<ServeOptions> = {}, folder = folderForTest()) {
  const terminal = recordedTerminal();
  const started = await startServing({ port: 0, store: join(folder, "store.coldfall"), ...options }, terminal);
  onTestFinished(() => started[Symbol.asyncDispose]());
  return { ...started, terminal, folder };
}

test("coldfall serve listens to its own machine, says its address, and needs no password there", async () => {
  const { address, terminal } = await serving();
  expect(address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
  expect(terminal.printed).toContain(`The bench is at ${address}`);
  expect(await (await fetch(`${address}api/fridges`)).json()).toEqual({ fridges: [] });
});

test("a service for others is refused without a password, and with one that is too short", async () => {
  const folder = folderForTest();
  const password = join(folder, "password.txt");
  writeFileSync(password, "short\n");
  await expect(serving({ host: "127.0.0.1" }, folder)).rejects.toMatchObject({ saying: { option: "--host" } });
  await expect(serving({ host: "127.0.0.1", technicianPassword: password }, folder)).rejects.toMatchObject({
    saying: { option: "--technician-password", expected: expect.stringContaining("12 characters") },
  });
});

test("options that only make sense for others to reach it are refused without --host", async () => {
  await expect(serving({ hostName: ["bench.local"] })).rejects.toMatchObject({ saying: { option: "--host-name" } });
  await expect(serving({ tlsCert: "cert.pem" })).rejects.toMatchObject({ saying: { option: "--tls-cert" } });
});

test("where alarms of network boards go is said as to a recorder, and a missing secret is told", async () => {
  const { exitCode, told } = await coldfall(["serve", "--webhook", "ftp://alarms.example"]);
  expect(exitCode).toBe(2);
  expect(told).toMatch(/--webhook.* cannot be used; give an address that begins with http:\/\/ or https:\/\//);
  expect((await coldfall(["serve", "--quiet", "22"])).told).toMatch(/two hours of the day, such as 22-6/);
  vi.stubEnv("COLDFALL_WEBHOOK_SECRET", "");
  onTestFinished(() => void vi.unstubAllEnvs());
  const quiet = { fromHour: 22, toHour: 6 };
  const { terminal } = await serving({ quiet, webhook: "http://127.0.0.1:9/", language: "de" });
  expect(terminal.told).toMatch(/COLDFALL_WEBHOOK_SECRET ist nicht gesetzt/);
  expect(terminal.printed).toMatch(/^Die Werkbank ist unter http/);
});

test("the help says which alarms are not held back, and that boards are watched while it runs", async () => {
  const { printed } = await coldfall(["serve", "--help"], { width: 300 });
  expect(printed).toMatch(/watch boards over the network for alarms while it runs/);
  expect(printed).toMatch(/--quiet .* those of a gas stretch, or where nobody said what it runs on, are not/);
});

test("a port that is taken is refused in a sentence, and the store is let go", async () => {
  const { address, folder } = await serving();
  const port = Number(new URL(address).port);
  await expect(serving({ port }, folder)).rejects.toMatchObject({ code: "bad-option", saying: { option: "--port" } });
});

test("a service for others speaks TLS with a certificate of its own, whose fingerprint it shows and keeps", async () => {
  const folder = folderForTest();
  const password = join(folder, "password.txt");
  writeFileSync(password, "a long enough secret\nnot this line\n");
  const first = await serving({ host: "127.0.0.1", technicianPassword: password }, folder);
  const fingerprint = /([0-9A-F]{2}:){31}[0-9A-F]{2}/.exec(first.terminal.printed)?.[0];
  const answer = await new Promise<{ status?: number; fingerprint: string }>((resolve, reject) => {
    // Nobody vouches for it, so that a person compares the fingerprint; here the test does.
    const sent = request(`${first.address}api/fridges`, { rejectUnauthorized: false }, (response) => {
      response.resume();
      const { fingerprint256 } = (response.socket as import("node:tls").TLSSocket).getPeerCertificate();
      resolve({ status: response.statusCode, fingerprint: fingerprint256 });
    });
    sent.on("error", reject).end();
  });
  expect(answer).toEqual({ status: 401, fingerprint });
  const file = join(folder, "store.coldfall.certificate.json");
  expect(statSync(file).mode & 0o077).toBe(0);
  const kept = readFileSync(file, "utf8");
  // The password is remembered by its hash, the certificate as it was.
  const second = await serving({ host: "127.0.0.1" }, folder);
  expect(second.terminal.printed).toContain(fingerprint);
  expect(readFileSync(file, "utf8")).toBe(kept);
});

test("told to stop, it ends within two seconds, also with a page looking on", async () => {
  const folder = folderForTest();
  const script = `
    const { runServe } = await import(${JSON.stringify(new URL("../../src/cli/serve.ts", import.meta.url).href)});
    const terminal = { print: (text) => process.stdout.write(text), tell: (text) => process.stderr.write(text), hasColour: false, width: 80, isWatched: true, now: Date.now };
    await runServe({ port: 0, store: ${JSON.stringify(join(folder, "store.coldfall"))} }, terminal);`;
  const child = spawn(process.execPath, ["--input-type=module", "--eval", script], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  onTestFinished(() => void child.kill("SIGKILL"));
  const address = await new Promise<string>((resolve) => {
    child.stdout.on("data", (chunk: Buffer) => {
      const found = /http:\S+/.exec(chunk.toString())?.[0];
      if (found !== undefined) resolve(found);
    });
  });
  const stream = await fetch(`${address}api/live`);
  expect(stream.status).toBe(200);
  const began = performance.now();
  const ended = new Promise<number | null>((resolve) => child.on("exit", resolve));
  child.kill("SIGTERM");
  expect(await ended).toBe(0);
  expect(performance.now() - began).toBeLessThan(2000);
});
