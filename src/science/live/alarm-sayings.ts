// Why an alarm was raised, as codes with values. The sentences stand in src/report/words.

import type { HeatSource, Position, SayingOf } from "../../schema/index.ts";
import type { RejectionCode, StopDoubt } from "../sayings.ts";

export interface AlarmSayings {
  /** `doubt` is missing from alarms that were kept before it was told. */
  "cooling-stopped": { source: HeatSource | null; sinceMs: number; doubt?: StopDoubt };
  "cabinet-warm": { celsius: number; limitCelsius: number; sinceMs: number };
  "probe-lost": { position: Position; lastMs: number };
  "board-silent": { board: string; lastMs: number };
  "disk-low": { freeMegabytes: number; limitMegabytes: number };
  "readings-odd": { position: Position; why: RejectionCode; value: number | null; sinceMs: number };
}
export type AlarmSaying = SayingOf<AlarmSayings>;
export type AlarmKind = keyof AlarmSayings;
