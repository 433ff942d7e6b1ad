export { admit, type Circumstances, type Submitted } from "./admit/admit.ts";
export { claimStates } from "./claimStates.ts";
export { Ledger } from "./ledger.ts";
export type { ListeningRoom, Series } from "./listening/room.ts";
export { type CheckLimits, type NextCheck, nextChecks } from "./nextChecks.ts";
export { isEnough, type Right, rights, type Standing } from "./people/right.ts";
export { neededFor, peopleOf, standingAt } from "./people/rights.ts";
export { previewRework, type ReworkPreview } from "./preview.ts";
export {
  isReleased,
  type ReleaseDecision,
  type ReleaseStanding,
  releaseDecision,
  releaseEntry,
  releaseStanding,
} from "./release.ts";
export { retests } from "./retests.ts";
export { type Ending, type Run, Runs } from "./runs/runs.ts";
export { foldShop, modelKey, Shop, type UnitState, type ValveState } from "./shop.ts";
export { type ClaimState, type FigureState, isClosed, type State } from "./state.ts";
export { expand, netlistParts, reached } from "./things.ts";
export { instrumentStanding, instrumentTrust, type Trust } from "./trust.ts";
