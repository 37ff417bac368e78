// A recording as text in our own log format, such that reading it gives the same numbers again; and a mapping as a file.

import {
  energySources,
  type LogMapping,
  msPerMinute,
  offsetName,
  type Position,
  positions,
  type Recording,
} from "../schema/index.ts";

/**
 * The log as RFC 4180 CSV with a header. Missing readings are empty cells; times carry the
 * recording's UTC offset.
 */
export function nativeLogText(recording: Recording): string {
  const { unixMs, columns, sourceCodes, utcOffsetMinutes } = recording;
  const present = positions.filter((position) => columns[position] !== undefined);
  const lines = [["time", ...present, ...(sourceCodes ? ["source"] : [])].join(",")];
  const instantText = instantWriter(utcOffsetMinutes);
  for (let row = 0; row < unixMs.length; row++) {
    let line = instantText(unixMs[row]);
    for (const position of present) line += `,${readingText(columns, position, row)}`;
    if (sourceCodes) line += `,${energySources[sourceCodes[row] - 1] ?? ""}`;
    lines.push(line);
  }
  // RFC 4180 asks for CR LF between records and after the last allows one.
  return `${lines.join("\r\n")}\r\n`;
}

/** A mapping as a file's text, to be read by `readLogMapping`. */
export const writeLogMapping = (mapping: LogMapping): string => `${JSON.stringify(mapping, null, 2)}\n`;

function readingText(columns: Recording["columns"], position: Position, row: number): string {
  const value = columns[position]?.[row] ?? Number.NaN;
  return Number.isNaN(value) ? "" : `${value}`;
}

/** Writes unixMs as RFC 3339 at one UTC offset; a whole second without its ".000". */
function instantWriter(offsetMinutes: number): (unixMs: number) => string {
  const ending = offsetName(offsetMinutes);
  return (unixMs) => {
    const local = new Date(unixMs + offsetMinutes * msPerMinute).toISOString();
    return (local.endsWith(".000Z") ? local.slice(0, -5) : local.slice(0, -1)) + ending;
  };
}
