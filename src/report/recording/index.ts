// A run being recorded, told: live, alarms, and the morning after.
export { alarmText, type ToldAlarm, tellAlarm } from "./alarm-telling.ts";
export { tellLive, tellSourceCaution } from "./live-telling.ts";
export { type LiveContext, liveLine, liveText } from "./live-text.ts";
export { morningPage } from "./morning-page.ts";
export type { Night } from "./morning-telling.ts";
export { morningText } from "./morning-text.ts";
