import type { GaugeReading } from "../../measurement/index.ts";
import { cellOf, type Sheet } from "../../workshop/instruments/studyTable.ts";
import { readNumber } from "../common/number.ts";

export const names = (typed: string): readonly string[] => [
  ...new Set(
    typed
      .split(/[,;\n]/)
      .map((name) => name.trim())
      .filter((name) => name !== ""),
  ),
];

export const number = (typed: string): number | undefined => {
  const read = readNumber(typed);
  return read.ok ? read.value : undefined;
};

/** @returns nothing while a field is empty or no number */
export function readingsOf({ parts, people, times }: Sheet, cells: Readonly<Record<string, string>>) {
  const readings: GaugeReading[] = [];
  for (const part of parts) {
    for (const operator of people) {
      for (let nth = 1; nth <= times; nth++) {
        const value = number(cells[cellOf(part, operator, nth)] ?? "");
        if (value === undefined) return undefined;
        readings.push({ part, operator, value });
      }
    }
  }
  return readings;
}
