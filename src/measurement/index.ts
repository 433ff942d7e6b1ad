export { type Budget, budget, type Component, type Correlation, type Shape } from "./budget.ts";
export { type Capability, capability } from "./capability.ts";
export { type Chart, individualsChart, type Signal } from "./chart.ts";
export { countChart, type GroupChart, groupChart, type WeightedChart, weightedChart } from "./chartKinds.ts";
export { type DecisionRisk, decisionRisk, guardFor, type Inspection } from "./decisionRisk.ts";
export { type GaugeReading, type GaugeStudy, gaugeStudy } from "./gauge.ts";
export { compareGroups, type Groups } from "./groups.ts";
export { type Guarded, guard, type Judged, type Verdict } from "./guard.ts";
export { readingsNeeded, type Wanted } from "./readingsNeeded.ts";
