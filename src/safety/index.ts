export { type Bleeder, bleederFor, chargedLimit_V, type StoreDesign } from "./bleeder.ts";
export { type Discharge, discharge, type Store } from "./discharge.ts";
export { type Allowance, type Dose, weeklyDose } from "./dose.ts";
export { type AtTheJack, atTheJack, type Headphone, type JackReading } from "./jack.ts";
export { isRoutine, mustPrecede, type RoutineOrder, routineOrder, routineRank } from "./order.ts";
export { judgeAll, judgeTest, type RoutineTest, safetyCautions, type TestVerdict } from "./routineTests.ts";
export { type TouchGuide, touchGuides } from "./surfaces.ts";
