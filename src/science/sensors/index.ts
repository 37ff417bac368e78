// What other floors may import of sensors: from what came over the line to °C, and back.
export { sensorCelsius, sensorRaw, sensorUnits } from "./probe-sensor.ts";
