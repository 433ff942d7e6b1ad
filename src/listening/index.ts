export { type BlindResult, type BlindTrials, blindTrials, mostTrials } from "./blind.ts";
export { type Choice, type Ranked, type Ranking, rankPairs } from "./pairs.ts";
