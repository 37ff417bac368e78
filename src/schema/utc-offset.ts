// Offsets from UTC as texts: "Z", "+02:00".

/** Whether a zone is an offset, "Z" or "+02:00", and no name. */
export const isOffset = (zone: string) => /^(Z|[+-].*)$/.test(zone);

/** "Z", "UTC", "+02:00", "+0200", "+02", "GMT+02:00"; NaN for more than a day. */
export function offsetMinutesOf(text: string): number {
  const digits = text.replaceAll(/[^\d+-]/g, "");
  if (digits === "") return 0;
  const hours = Number(digits.slice(1, 3));
  const minutes = Number(digits.slice(3) || "0");
  if (hours > 23 || minutes > 59) return Number.NaN;
  const total = hours * 60 + minutes;
  return digits.startsWith("-") ? 0 - total : total;
}

/** "Z" or "+02:00", from minutes east of UTC. */
export function offsetName(minutes: number): string {
  if (minutes === 0) return "Z";
  const size = Math.abs(minutes);
  const two = (value: number) => String(value).padStart(2, "0");
  return `${minutes < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}
