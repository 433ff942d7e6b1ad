export { type Check, type CheckOrder, mostChecks, mostExact, orderChecks } from "./checks.ts";
export { type OrderShift, type WhatIf, type WhatIfWork, whatIfWork } from "./compare.ts";
export { mostExecutions } from "./forecast.ts";
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
export { type Piece, type Soak, type SoakCosts, type SurvivalPoint, soak } from "./soak.ts";
export { type Change, changedShop } from "./whatIf.ts";
