import { expect, test } from "vitest";
import { type RowContext, readTable, rowsOf } from "./readingsFile.ts";

const context: RowContext = {
  sections: ["a", "b"],
  valves: ["N-1", "N-2"],
  reference: "REF",
  phase: "hot",
  number: (typed) => {
    const value = Number(typed.replace(",", "."));
    return Number.isFinite(value) ? value : undefined;
  },
};

test("the separator is found, quotes are honoured, and a decimal comma stays a number", () => {
  const table = readTable('\ufeffNo;Section;"Ia; mA"\r\nN-1;A;9,12\r\n\r\n"N-2";b;"9,3"\n');
  expect(table.head).toEqual(["No", "Section", "Ia; mA"]);
  const { readings, faults } = rowsOf(table, { valve: "No", section: "Section", plate_mA: "Ia; mA" }, context);
  expect(faults).toEqual([]);
  expect(readings).toMatchObject([
    { line: 2, valve: "N-1", section: "a", phase: "hot", quantities: { plate_mA: 9.12 } },
    { valve: "N-2", section: "b", quantities: { plate_mA: 9.3 } },
  ]);
});

test("a line may hold both sections, and the reference valve only one", () => {
  const table = readTable("valve\tIa a\tIa b\tleak a\nREF\t9\t\t\nN-1\t9.1\t9.2\t0.4\nN-2\t\t8.8\t");
  const choice = { valve: "valve", "plate_mA a": "Ia a", "plate_mA b": "Ia b", "leakage_uA a": "leak a" };
  const { readings, faults } = rowsOf(table, choice, context);
  expect(faults).toEqual([]);
  expect(readings.map(({ valve, section, quantities }) => [valve, section, quantities])).toEqual([
    ["REF", "", { plate_mA: 9 }],
    ["N-1", "a", { plate_mA: 9.1, leakage_uA: 0.4 }],
    ["N-1", "b", { plate_mA: 9.2 }],
    ["N-2", "b", { plate_mA: 8.8 }],
  ]);
});

test("a line that can't be taken is named with what is wrong, and the others are taken", () => {
  const table = readTable(
    "v,s,i,p\nN-9,a,9,cold\nN-1,c,9,cold\nN-1,a,9x,cold\nN-1,a,9,warm\nN-1,a,,cold\nN-1,a,-1,cold\nN-1,a,9,COLD",
  );
  const choice = { valve: "v", section: "s", plate_mA: "i", phase: "p" };
  const { readings, faults } = rowsOf(table, choice, context);
  expect(readings).toMatchObject([{ line: 8, phase: "cold" }]);
  expect(faults.map(({ line, words }) => `${line} ${words}`)).toEqual([
    "2 “N-9” is not in this tray",
    "3 “c” is no section of these valves; they have a and b",
    "4 “9x” is not a number",
    "5 “warm” is neither cold nor hot",
    "6 no plate current is given",
    "7 -1 mA: a plate current is 0 or more",
  ]);
});
