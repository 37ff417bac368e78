// What other floors may import of sensors: from what came over the line to °C, and back.
export { type CurveCheck, coldJunctionAt, curveChecks } from "./curve-checks.ts";
export { sensorCelsius, sensorUnits } from "./probe-sensor.ts";
export { isSameCurve } from "./same-curve.ts";
