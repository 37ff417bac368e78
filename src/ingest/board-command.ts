// What the host says to a board. The words are explained in firmware-notes/line-format.md; probe-line.ts reads the answers.

/** What a host can ask of a board. The board answers with a `heard` line that repeats it. */
export type BoardCommand =
  /** Look for probes anew and say hello. */
  | { readonly ask: "identify" }
  /** Read the probes every so many seconds, 1 to 3600; kept over a restart. */
  | { readonly ask: "interval"; readonly seconds: number }
  /** Flash the find-me light for so many seconds, 0 to 3600. */
  | { readonly ask: "light"; readonly seconds: number }
  /** Send the readings from this sequence number on again, as far back as the board still has them. */
  | { readonly ask: "resend"; readonly fromSequence: number }
  /** Keep all lines in its own memory from now on, or no more; kept over a restart. */
  | { readonly ask: "keep"; readonly isOn: boolean }
  /** Send all that its memory keeps, as it was. */
  | { readonly ask: "read-out" }
  /** Erase its memory. */
  | { readonly ask: "erase" };

/** The longest time a command may name, s. */
export const longestCommandSeconds = 3600;

/**
 * A command as it goes over the wire, line end included.
 *
 * @throws RangeError for a number that a board would refuse.
 */
export function commandText(command: BoardCommand): string {
  return `${commandWords(command)}\n`;
}

/** What the board's `heard` line repeats when the command arrived whole. */
export function commandWords(command: BoardCommand): string {
  switch (command.ask) {
    case "identify":
    case "read-out":
    case "erase":
      return command.ask;
    case "keep":
      return `keep ${command.isOn ? 1 : 0}`;
    case "interval":
      return `interval ${wholeBetween(1, longestCommandSeconds, command.seconds)}`;
    case "light":
      return `light ${wholeBetween(0, longestCommandSeconds, command.seconds)}`;
    case "resend":
      return `resend ${wholeBetween(0, 0xffff_ffff, command.fromSequence)}`;
  }
}

function wholeBetween(least: number, most: number, value: number): number {
  if (!(Number.isInteger(value) && value >= least && value <= most)) {
    throw new RangeError(`a board takes a whole number from ${least} to ${most} here, not ${value}`);
  }
  return value;
}
