export {
  atDestination,
  type DestinationAnswer,
  type DestinationQuestion,
  type SupplyReading,
  usualReadingDoubt_pct,
} from "./destination.ts";
export { gains_dB, gainsOf } from "./gains.ts";
export { type Netlist, type NetlistInput, netlistSchema, readNetlist, valveModelSchema } from "./netlist.ts";
export { outputNoise } from "./noise.ts";
export { noiseInBand } from "./noiseInBand.ts";
export { deadSourceRules } from "./resistance/deadNetwork.ts";
export { mostWindows, resistanceWindows } from "./resistance/windows.ts";
export { type Output, response } from "./response.ts";
export { type RestSolution, solveRest } from "./rest.ts";
export { restSensitivities } from "./sensitivity.ts";
export { spread } from "./spread/spread.ts";
export { distortion } from "./steady/distortion.ts";
export { findSuspects } from "./suspects/suspects.ts";
export { startUp, usualWarmUp_s } from "./time/startUp.ts";
