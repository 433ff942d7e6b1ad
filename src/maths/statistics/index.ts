export { betaCdf, betaQuantile } from "./beta.ts";
export { chiSquaredCdf, chiSquaredQuantile } from "./chiSquared.ts";
export { evenDoubt } from "./evenDoubt.ts";
export { fCdf } from "./fisherF.ts";
export { normalCdf, normalQuantile } from "./normal.ts";
export { shareInterval } from "./share.ts";
export { tQuantile } from "./studentT.ts";
export { type Summary, summary } from "./summary.ts";
