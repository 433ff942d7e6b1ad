export { type CaseQuestion, judgeCase, type MonthOfAir, type Panel, type PanelAnswer, usualWall_C } from "./case.ts";
export type { Coat, Finish } from "./coats.ts";
export { type DryingAnswer, type DryingQuestion, dry, type Stage, type Weighing } from "./dry.ts";
export { emcDoubt_pct, emcNotes, emcRange, equilibriumMoisture_pct } from "./emc.ts";
export type { AirReading, LifeStage } from "./life.ts";
export { type Movement, move, type Step } from "./move.ts";
export { fedChamber_pct, humidityFor_pct } from "./overDry.ts";
export { type PieceAnswer, type PieceQuestion, type PieceWeighing, pieceOf, type StageEnd } from "./piece.ts";
