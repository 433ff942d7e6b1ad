export { type CaseQuestion, judgeCase, type MonthOfAir, type Panel, type PanelAnswer, usualWall_C } from "./case.ts";
export { type DryingAnswer, type DryingQuestion, dry, type Stage, type Weighing } from "./dry.ts";
export { emcDoubt_pct, emcNotes, emcRange, equilibriumMoisture_pct } from "./emc.ts";
export { type Movement, move, type Step } from "./move.ts";
