// What a board would send, for stand-ins of one. The format is explained in firmware-notes/line-format.md.

import type { ProbeLine } from "../../src/ingest/probe-line.ts";
import { lineChecksum } from "../../src/ingest/probe-line-checksum.ts";

/** The version of the format that the notes explain and the program reads. */
export const lineFormatVersion = 1;

/** A line's text with its checksum behind it, as it goes over the wire, without the line end. */
export const withChecksum = (text: string): string => `${text} ${lineChecksum(text)}`;

/** A line as a board sends it, without its line end. */
export function probeLineText(line: ProbeLine): string {
  return withChecksum(
    [line.type, line.boardId, line.boot, line.sequence, line.uptimeMs, ...lineFields(line)].join(" "),
  );
}

function lineFields(line: ProbeLine): readonly (string | number)[] {
  switch (line.type) {
    case "reading":
      return [line.probeId, plainDecimal(line.value), line.unit];
    case "fault":
      return [line.probeId, line.fault];
    case "hello":
      return [
        line.formatVersion,
        line.firmware,
        line.reason,
        line.intervalSeconds,
        ...line.probes.map(({ probeId, role, unit, resolution }) =>
          [probeId, role ?? "-", unit, plainDecimal(resolution)].join(","),
        ),
      ];
    case "memory":
      return [line.state, line.usedBytes, line.sizeBytes];
    case "heard":
    case "refused":
      return [line.command];
  }
}

/** At most six places, never an exponent, no needless zeros. */
const plainDecimal = (value: number) =>
  value
    .toFixed(6)
    .replace(/\.?0+$/, "")
    .replace(/^-0$/, "0");
