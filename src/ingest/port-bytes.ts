// A serial port that may be pulled out and put back: its bytes as they come, and when it was there and when not.

import type { SerialPort as Port } from "serialport";
import { ArrivalQueue } from "./arrival-queue.ts";

/** What a port does. `hostUnixMs` is the host's clock. */
export type PortHappening =
  | { readonly kind: "opened"; readonly hostUnixMs: number }
  | { readonly kind: "bytes"; readonly bytes: Uint8Array; readonly hostUnixMs: number }
  /** Gone, or never there; tried again until it is. */
  | { readonly kind: "lost"; readonly why: string; readonly hostUnixMs: number }
  /** Open, but not a byte for so long: a port can vanish without a word. It is opened anew. */
  | { readonly kind: "silent"; readonly hostUnixMs: number };

export interface PortOptions {
  /** Bits a second; 57,600, as our boards speak, unless stated. */
  readonly baudRate?: number;
  /** How long without a byte is a silence, ms; a minute unless stated. */
  readonly silenceMs?: number;
  /** How long to wait before the port is tried again, ms; a second unless stated. */
  readonly retryMs?: number;
  readonly signal: AbortSignal;
}

/** A port that is listened to. */
export interface ListenedPort {
  readonly happenings: AsyncIterable<PortHappening>;
  /** Says something to the board; lost without a word while the port is not there. */
  say(text: string): void;
}

/**
 * Listens to a port until told to stop.
 *
 * @param path as the system names it, such as /dev/ttyUSB0 or COM3
 */
export async function listenToPort(path: string, options: PortOptions): Promise<ListenedPort> {
  // Loaded only by who listens: it brings a native library with it.
  const { SerialPort } = await import("serialport");
  const { baudRate = 57_600, silenceMs = 60_000, retryMs = 1000, signal } = options;
  const queue = new ArrivalQueue<PortHappening>();
  let port: Port | null = null;
  let silence: NodeJS.Timeout | undefined;
  let retry: NodeJS.Timeout | undefined;
  let isLost = false;

  const lose = (lost: Port, why: string) => {
    if (lost !== port) return;
    port = null;
    clearTimeout(silence);
    if (!isLost) queue.push({ kind: "lost", why, hostUnixMs: Date.now() });
    isLost = true;
    if (!signal.aborted) retry = setTimeout(open, retryMs);
  };
  const awaitBytes = (from: Port) => {
    clearTimeout(silence);
    silence = setTimeout(() => {
      queue.push({ kind: "silent", hostUnixMs: Date.now() });
      // Closing an open port ends in `close`, which leads to the next attempt.
      from.close(() => {});
      lose(from, "silent");
    }, silenceMs);
  };
  function open(): void {
    const opening = new SerialPort({ path, baudRate, autoOpen: false });
    port = opening;
    // A write may fail at the instant of unplugging; without a listener that would end the process.
    opening.on("error", (error) => lose(opening, error.message));
    opening.on("close", () => lose(opening, "unplugged"));
    opening.on("data", (bytes: Uint8Array) => {
      awaitBytes(opening);
      queue.push({ kind: "bytes", bytes, hostUnixMs: Date.now() });
    });
    opening.open((error) => {
      // The library writes its own "Error: " before what the system says.
      if (error) return lose(opening, error.message.replace(/^Error: /, ""));
      isLost = false;
      queue.push({ kind: "opened", hostUnixMs: Date.now() });
      awaitBytes(opening);
    });
  }

  signal.addEventListener("abort", () => {
    clearTimeout(silence);
    clearTimeout(retry);
    const closing = port;
    port = null;
    if (closing?.isOpen) closing.close(() => queue.end());
    else queue.end();
  });
  open();
  return {
    happenings: queue,
    say: (text) => {
      // A write to a port that is gone is kept by the system for whoever opens it next: not said is better.
      if (port?.isOpen) port.write(text);
    },
  };
}

/** A port of this machine that a board may be plugged into. */
export interface FoundPort {
  readonly path: string;
  /** What the system says of it; empty where it says nothing. */
  readonly description: string;
}

/** The ports of this machine; none where the system cannot list them (the path can still be typed). */
export async function findPorts(): Promise<readonly FoundPort[]> {
  try {
    const { SerialPort } = await import("serialport");
    const ports = await SerialPort.list();
    return ports.map(({ path, manufacturer, serialNumber }) => ({
      path,
      description: [manufacturer, serialNumber].filter(Boolean).join(", "),
    }));
  } catch {
    return [];
  }
}
