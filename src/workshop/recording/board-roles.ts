// Which probe of a board sits where on a fridge: as the store remembers it, else as the board itself says.

import { BadInput, type Position } from "../../schema/index.ts";
import type { Fridge, Store } from "../../store/index.ts";
import { keptCurves, withoutCurve } from "../probe-curves.ts";
import type { Hello } from "./first-hello.ts";

/**
 * Notes the board and its probes in the store, and tells where each probe sits. What the board says of a probe that the
 * store knows no place for is remembered.
 *
 * @throws BadInput "no-probe-placed" when no probe of the board has a place on this fridge; "no-probe-curve" when those that
 *   have one send ohms or millivolts, and nobody said what these mean
 */
export async function boardRoles(
  store: Pick<Store, "boards" | "probes">,
  hello: Hello,
  fridge: Fridge,
  nowUnixMs: number,
): Promise<ReadonlyMap<string, Position>> {
  await store.boards.seen(hello.boardId, {
    unixMs: nowUnixMs,
    fridgeId: fridge.id,
    hello: { firmware: hello.firmware, formatVersion: hello.formatVersion, intervalSeconds: hello.intervalSeconds },
  });
  const known = new Map((await store.probes.roles(fridge.id)).map(({ probeId, position }) => [probeId, position]));
  const roles = new Map<string, Position>();
  for (const { probeId, role, unit, resolution } of hello.probes) {
    await store.probes.put({ id: probeId, ...(unit === "Cel" ? { resolutionKelvin: resolution } : {}) });
    const position = known.get(probeId) ?? role;
    if (position === null || position === undefined) continue;
    roles.set(probeId, position);
    if (!known.has(probeId)) {
      const placed = { probeId, fridgeId: fridge.id, boardId: hello.boardId, position, sinceUnixMs: nowUnixMs };
      await store.probes.assign(placed);
    }
  }
  if (roles.size === 0) {
    const probes = hello.probes.map(({ probeId }) => probeId);
    throw new BadInput({ code: "no-probe-placed", board: hello.boardId, fridge: fridge.name, probes });
  }
  const placed = hello.probes.filter(({ probeId }) => roles.has(probeId));
  const lacking = withoutCurve(placed, await keptCurves(store.probes));
  const isAnyTemperature = placed.some(({ probeId, unit }) => unit !== "V" && !lacking.includes(probeId));
  if (lacking.length > 0 && !isAnyTemperature) {
    throw new BadInput({ code: "no-probe-curve", board: hello.boardId, probes: lacking });
  }
  return roles;
}
