export { type BlindResult, type BlindTrials, blindTrials, mostTrials } from "./blind.ts";
export { type Design, type DesignInput, designTrials } from "./design.ts";
export { type LevelMatch, type LevelPair, levelMatch } from "./levelMatch.ts";
export { answered, type Playing, playings } from "./lot.ts";
export { type Choice, type Listeners, type OrderOfPlaying, type Ranked, type Ranking, rankPairs } from "./pairs.ts";
