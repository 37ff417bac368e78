// Data sheet of the 31855 type (cold-junction compensated thermocouple-to-digital converter), Table 4 "Thermocouple Temperature
// Data Format" and Table 5 "Reference Junction Temperature Data Format": copied from a stored copy of the sheet's page 10.

/** Bits 31 to 18 of its word. */
export const frontEndCouple = [
  { celsius: 1600, bits: "01100100000000" },
  { celsius: 1000, bits: "00111110100000" },
  { celsius: 100.75, bits: "00000110010011" },
  { celsius: 25, bits: "00000001100100" },
  { celsius: 0, bits: "00000000000000" },
  { celsius: -0.25, bits: "11111111111111" },
  { celsius: -1, bits: "11111111111100" },
  { celsius: -250, bits: "11110000011000" },
] as const;

/** Bits 15 to 4: the chip's own temperature, where the couple's wires end. */
export const frontEndOwn = [
  { celsius: 127, bits: "011111110000" },
  { celsius: 100.5625, bits: "011001001001" },
  { celsius: 25, bits: "000110010000" },
  { celsius: 0, bits: "000000000000" },
  { celsius: -0.0625, bits: "111111111111" },
  { celsius: -1, bits: "111111110000" },
  { celsius: -20, bits: "111011000000" },
  { celsius: -55, bits: "110010010000" },
] as const;
