export { type Demo, makeDemo } from "./makeDemo.ts";
export { type Retake, retake, retestReadings } from "./retake.ts";
export { type Answers, type Score, score } from "./score.ts";
export type { Truth } from "./truth.ts";
export type { Happening } from "./years/happening.ts";
export { yearsBefore } from "./years/years.ts";
