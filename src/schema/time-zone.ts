// Names of time zones. The pages look here too, so that no shape is needed for it.

/** Whether a text names a time zone: a UTC offset, or a zone of the tz database that this computer knows. */
export function isTimeZone(text: string): boolean {
  if (/^(Z|[+-](0\d|1\d|2[0-3]):[0-5]\d)$/.test(text)) return true;
  if (!/^[A-Za-z][A-Za-z0-9_+/-]*$/.test(text)) return false;
  try {
    new Intl.DateTimeFormat("en", { timeZone: text });
    return true;
  } catch {
    return false;
  }
}
