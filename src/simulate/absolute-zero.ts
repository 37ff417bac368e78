/** 0 K on the Celsius scale. Source: SI Brochure, 9th ed. (BIPM, 2019), "The kelvin". */
export const absoluteZeroCelsius = -273.15;
