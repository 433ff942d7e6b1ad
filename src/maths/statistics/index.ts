export { chiSquaredCdf, chiSquaredQuantile } from "./chiSquared.ts";
export { fCdf } from "./fisherF.ts";
export { normalCdf, normalQuantile } from "./normal.ts";
export { tQuantile } from "./studentT.ts";
