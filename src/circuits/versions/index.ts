export { changesBetween, type PartChange } from "./changes.ts";
export { checkText, type NetlistFault } from "./faults.ts";
export type { Figure, FigureGroup } from "./figure.ts";
export { positionsBehind } from "./leans.ts";
export { writeText } from "./netlistText.ts";
export { namedPoints } from "./points.ts";
export { positionsOf, type ValvePosition } from "./positions.ts";
export { versionFigures } from "./version.ts";
export { versionYield } from "./yield.ts";
