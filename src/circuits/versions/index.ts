export { changesBetween } from "./changes.ts";
export { checkText } from "./faults.ts";
export type { Figure, FigureGroup } from "./figure.ts";
export { positionsBehind } from "./leans.ts";
export { writeText } from "./netlistText.ts";
export { namedPoints } from "./points.ts";
export { positionsOf } from "./positions.ts";
export { versionFigures } from "./version.ts";
export { versionYield } from "./yield.ts";
