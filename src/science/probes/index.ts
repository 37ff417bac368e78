// What other floors may import of probes: their checks and their calibration.
export {
  type CalibrationPoint,
  calibrateProbe,
  expandedUncertainty,
  largestUncertainty,
  type ProbeCalibration,
} from "./calibration.ts";
export { type CalibrationStanding, calibrationDue, calibrationStanding } from "./calibration-due.ts";
export { type AirPressure, boilingPoint, icePoint } from "./fixed-points.ts";
export { iceSlushCheck, type SlushFinding } from "./ice-slush-check.ts";
export { type Warming, warmings } from "./warmings.ts";
