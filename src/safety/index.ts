export { type Discharge, discharge, type Store } from "./discharge.ts";
export { judgeAll, judgeTest, type RoutineTest, safetyCautions, type TestVerdict } from "./routineTests.ts";
