// Climate classes of household refrigerators: ranges of ambient to compare a fridge with, not to claim. Mobile
// appliances lie outside Regulation (EU) 2019/2019 (Article 1).

/** °C. Source: IEC 62552-1:2015, before it ISO 15502 (read in secondary pages); older prints begin T at 18 °C. */
export const climateClasses = [
  { name: "SN", coolest: 10, warmest: 32 },
  { name: "N", coolest: 16, warmest: 32 },
  { name: "ST", coolest: 16, warmest: 38 },
  { name: "T", coolest: 16, warmest: 43 },
] as const;

export type ClimateClass = (typeof climateClasses)[number];
