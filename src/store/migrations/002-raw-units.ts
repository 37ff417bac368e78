// Version 2: raw values in ohms or millivolts, whose probe's curve makes them °C.

import type { Migration } from "./index.ts";

export const rawUnits: Migration = async (schema) => {
  await schema.alterTable("open_readings").addColumn("unit", "text").execute();
  await schema.alterTable("blocks").addColumn("unit", "text").execute();
};
