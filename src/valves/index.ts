export * from "./fit/answer.ts";
export { type FittedCurve, fitCurve } from "./fit/fit.ts";
export * from "./model.ts";
export * from "./sets/inCircuit.ts";
export * from "./sets/spread.ts";
export * from "./verdict/verdict.ts";
