// What the numbers of a run sheet may be: what lies beyond is a slip of the hand. The sheet's shape and the form that is
// filled in by thumb both look here.

export const sheetLimits = {
  tiltSidewaysDegrees: { least: -45, most: 45 },
  tiltLengthwaysDegrees: { least: -45, most: 45 },
  gasPressureMbar: { above: 0, most: 500 },
  altitudeMetres: { least: -500, most: 6000 },
  supplyVolts: { above: 0 },
} as const;
