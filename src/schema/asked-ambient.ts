// Between which temperatures outside a hot day is asked about, °C. The command, the service and the pages look here.

export const askedAmbient = { least: -20, most: 55 } as const;
