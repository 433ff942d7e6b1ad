import { expect, test } from "vitest";
import { takeTable as take } from "../../workshop/instruments/studyTable.ts";
import { names, number, readingsOf } from "./gaugeTable.ts";

const takeTable = (text: string) => take(text, number);

test("a table with named columns is taken wherever they stand, decimal comma and all", () => {
  const taken = takeTable("Wert;Teil;Wer\n9,02;T-1;bench\n9,05;T-1;bench\n8,4;T-2;bench\n8,37;T-2;bench\n");
  if (!taken.ok) throw new Error("not taken");
  expect(taken.sheet).toEqual({ parts: ["T-1", "T-2"], people: ["bench"], times: 2 });
  expect(readingsOf(taken.sheet, taken.cells)!.map(({ value }) => value)).toEqual([9.02, 9.05, 8.4, 8.37]);
});

test("three columns without known names are part, person, value; a bad line is named", () => {
  expect(takeTable("a\tb\tc\nT-1\tx\t1.5\n")).toMatchObject({ ok: true, count: 1 });
  expect(takeTable("part,who,value\nT-1,x,1.5\nT-1,x,high\n")).toEqual({ ok: false, line: 3, words: "high" });
  expect(takeTable("a,b\n1,2\n")).toMatchObject({ ok: false, head: ["a", "b"] });
});

test("a field left empty gives no study yet, and a name said twice counts once", () => {
  expect(readingsOf({ parts: ["a"], people: ["b"], times: 1 }, {})).toBeUndefined();
  expect(names(" T-1, T-2 ,T-1,, ")).toEqual(["T-1", "T-2"]);
});
