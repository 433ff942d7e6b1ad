export { type Candidate, gains_dB, gainsOf } from "./gains.ts";
export { type Netlist, type NetlistInput, netlistSchema, type Part, readNetlist } from "./netlist.ts";
export { type NoiseQuestion, type OutputNoise, outputNoise } from "./noise.ts";
export type { PartAtRest } from "./partAtRest.ts";
export { type Output, type Response, type ResponseQuestion, response } from "./response.ts";
export { type RestSolution, solveRest } from "./rest.ts";
export { type PartSensitivity, type RestSensitivities, restSensitivities } from "./sensitivity.ts";
export type { Unsettled } from "./settle.ts";
export type { ValveFactor } from "./valve.ts";
