// JSON as the tables keep it: text, which every database has.

/** Null for what is not there. */
export const jsonText = (value: unknown): string | null =>
  value === undefined || value === null ? null : JSON.stringify(value);

/** What `jsonText` wrote: the shape is the writer's, so the reader names it. */
export const fromJsonText = <T>(text: string | null): T | null => (text === null ? null : JSON.parse(text));

/** The same for a column that is never empty. */
export const fromJson = <T>(text: string): T => JSON.parse(text);
