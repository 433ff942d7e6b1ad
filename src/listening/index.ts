export { type BlindResult, type BlindTrials, blindTrials, mostTrials } from "./blind.ts";
