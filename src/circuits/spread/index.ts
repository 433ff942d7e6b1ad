export { type PointSpread, type Spread, type SpreadQuestion, spread } from "./spread.ts";
export type { Batches } from "./varied.ts";
export type { Limits, Spoiled } from "./yield.ts";
