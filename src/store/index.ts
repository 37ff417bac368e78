// What other floors may import from the store: opening one, its interface, and the records it keeps.
export { alarmSubject } from "./alarm-subject.ts";
export { type Correction, correctionsFor, type RawOrigin } from "./corrections.ts";
export { defaultStoreFile } from "./default-store-file.ts";
export { nameKey } from "./name-key.ts";
export { openStore } from "./open-store.ts";
export * from "./records.ts";
export { placeOf } from "./series-part.ts";
export type * from "./store.ts";
