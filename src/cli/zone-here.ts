/** The zone of this computer, by its name in the time zone database. */
export const zoneHere = (): string => new Intl.DateTimeFormat().resolvedOptions().timeZone;
