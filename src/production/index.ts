export { type Check, type CheckOrder, mostChecks, mostExact, orderChecks } from "./checks.ts";
export { type OrderShift, type WhatIf, type WhatIfWork, whatIfWork } from "./compare.ts";
export type { Danger, DayInput, DayPlan, Hands, Suspected, Task, Worth } from "./day/day.ts";
export { mostTasks } from "./day/tasks.ts";
export { mostExecutions } from "./forecast.ts";
export { readInstant } from "./instants.ts";
export { type Keeping, keeping, type PastPromise } from "./kept.ts";
export { type Arrow, type FoundFault, type LookBack, lookBack } from "./lookBack.ts";
export { type Counted, meanOdds, type Odds, softened } from "./odds.ts";
export { type Account, type OptionCost, type OptionCosts, optionCosts } from "./optionCosts.ts";
export { planDay } from "./planDay.ts";
export { type PromiseOptions, type PromiseWork, promise, promiseWork } from "./promise.ts";
export { mostOperations } from "./schedule/jobShop.ts";
export { scheduleSearch } from "./schedule/schedule.ts";
export type {
  Calendar,
  Order,
  OrderPromise,
  Part,
  Person,
  Place,
  PromiseInput,
  PromiseResult,
  Spread,
  Step,
} from "./shop.ts";
export { type LongCheck, type Shorter, shorterChecks } from "./shorterChecks.ts";
export { type Piece, type Saved, type Soak, type SoakCosts, type SurvivalPoint, soak } from "./soak.ts";
export { type BoughtPart, type Spent, type UnitCost, type UnitCostInput, unitCost, type WorkStep } from "./unitCost.ts";
export { type Change, changedShop } from "./whatIf.ts";
export {
  type Candidate,
  type PastFault,
  type PlacedCheck,
  type Placement,
  type Proposal,
  type Stage,
  type WhereChecks,
  whereChecks,
} from "./whereChecks.ts";
