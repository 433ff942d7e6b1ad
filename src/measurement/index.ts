export { type Chart, individualsChart, type Signal } from "./chart.ts";
export { type GaugeReading, type GaugeStudy, gaugeStudy } from "./gauge.ts";
export { type Guarded, guard, type Judged, type Verdict } from "./guard.ts";
