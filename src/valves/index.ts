export * from "./buy/buy.ts";
export * from "./fit/answer.ts";
export { type FittedCurve, fitCurve } from "./fit/fit.ts";
export type { CurvePoint } from "./fit/point.ts";
export * from "./model.ts";
export * from "./sets/inCircuit.ts";
export type { SetOfValves, SetsAnswer, Wanted } from "./sets/question.ts";
export * from "./sets/spread.ts";
export * from "./verdict/verdict.ts";
