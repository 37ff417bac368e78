/** Names that people would take for the same are the same: in either case, however typed. */
export const nameKey = (name: string): string => name.trim().normalize("NFC").toLowerCase();
