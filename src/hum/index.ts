export { type Audibility, type AudibilityInput, type Audible, audibility, type Headphone } from "./audibility.ts";
export type { Cause, CauseName, CauseShare, Supply } from "./cause.ts";
export { causeInWords } from "./cause.ts";
export { mostRecordings } from "./checkTraceInput.ts";
export type { NextRecording } from "./nextRecording.ts";
export { type HumLine, type HumTrace, traceHum } from "./traceHum.ts";
export { type HumRecording, mainsChannel, type TraceInput } from "./traceInput.ts";
export type { Verdict } from "./verdict.ts";
