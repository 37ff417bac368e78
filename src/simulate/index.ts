// The simulator: a plan goes in, a recording and the truth behind it come out. For demos, samples and studies.
export { type FaultName, faultKinds, faultNames, type SimulatedFault } from "./faults.ts";
export { knownGoodFridge, randomFridge, type SimulatedFridge } from "./fridge.ts";
export { indicatedByInfrared } from "./infrared-thermometer.ts";
export type { ScheduledStretch, SimulatedPosition, SimulationPlan } from "./plan.ts";
export { type ProbeBuild, thermocouple } from "./probes.ts";
export { seededRandom } from "./seeded-random.ts";
export { type SimulatedRun, simulateRun } from "./simulate-run.ts";
export { settledCabinet } from "./steady-state.ts";
