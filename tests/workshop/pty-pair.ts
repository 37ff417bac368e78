// Two ends of a real pair of pseudo-terminals: the program opens one as a serial port, the test plays the board on the other.
// socat makes the pair, or a few lines of Python; where both are missing, the system's package manager is asked for socat, as
// root only.

import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";

export interface PtyPair {
  /** What the program opens. */
  readonly path: string;
  /** The board speaks; resolves once the system has taken the bytes. */
  say(bytes: Uint8Array | string): Promise<void>;
  /** What the program has said so far. */
  heard(): string;
  /** Both ends vanish, as when a board is pulled out; nothing of them is left on the disk. */
  unplug(): Promise<void>;
  /** The board is plugged in again, at the same path. */
  plugIn(): Promise<void>;
}

/** Makes a pair, already plugged in. */
export async function ptyPair(): Promise<PtyPair> {
  requireMaker();
  const folder = mkdtempSync(join(tmpdir(), "coldfall-port-"));
  const path = join(folder, "port");
  let heard = "";
  let socat: ChildProcess | null = null;
  const plugIn = async () => {
    const [program, args] = maker(path);
    mkdirSync(folder, { recursive: true });
    const child = spawn(program, args, { stdio: ["pipe", "pipe", "inherit"] });
    child.stdout.setEncoding("latin1").on("data", (text: string) => {
      heard += text;
    });
    // Writing to a board that was just pulled out says EPIPE, which the test expects.
    child.stdin.on("error", () => {});
    socat = child;
    while (!existsSync(path)) await setTimeout(5);
  };
  await plugIn();
  return {
    path,
    plugIn,
    say: (bytes) => new Promise((resolve) => socat?.stdin?.write(bytes, () => resolve())),
    heard: () => heard,
    unplug: async () => {
      const child = socat;
      socat = null;
      if (child === null) return;
      const gone = new Promise((resolve) => child.once("exit", resolve));
      child.kill("SIGKILL");
      await gone;
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

const isThere = (program: string) => spawnSync(program, ["-V"]).status === 0;

/** What makes a pair whose far end is at `path`: its own standard streams are the near end. */
const maker = (path: string): [program: string, args: string[]] =>
  isThere("socat") ? ["socat", ["-", `pty,raw,echo=0,link=${path}`]] : ["python3", ["-c", inPython, path]];

const inPython = `
import os, pty, select, sys, tty
near, far = pty.openpty()
tty.setraw(far)
os.symlink(os.ttyname(far), sys.argv[1])
def all_of(end, data):
    while data: data = data[os.write(end, data):]
while True:
    ready, _, _ = select.select([0, near], [], [])
    if 0 in ready:
        data = os.read(0, 65536)
        if not data: break
        all_of(near, data)
    if near in ready: all_of(1, os.read(near, 65536))
`;

function requireMaker(): void {
  if (isThere("socat") || isThere("python3")) return;
  if (process.getuid?.() === 0) {
    spawnSync("apt-get", ["update", "-qq"]);
    spawnSync("apt-get", ["install", "-y", "-qq", "socat"], {
      env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
    });
  }
  if (!isThere("socat")) throw new Error("these tests need socat for a real pair of ports: apt-get install socat");
}
