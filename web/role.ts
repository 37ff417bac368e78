// Whether who looks may also change: the technician may, the owner only looks. The service decides; this only spares
// showing what it would refuse.

import { keptValue } from "./kept-value.ts";

export const mayChange = keptValue(false);

/** False until the service said who looks: nobody is told what he may not do before that. */
export const isRoleKnown = keptValue(false);
