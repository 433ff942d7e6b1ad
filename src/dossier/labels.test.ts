import {
  BinaryBitmap,
  DataMatrixReader,
  HybridBinarizer,
  type LuminanceSource,
  RGBLuminanceSource,
} from "@zxing/library";
import { expect, test } from "vitest";
import { dataMatrix, labelSheets } from "./labels.ts";

/** The mark as a camera would hand it over: dark on white, a quiet zone about it, so many dots a square. */
function photographed(path: string, size: number, dots: number): LuminanceSource {
  const quiet = 4;
  const side = (size + 2 * quiet) * dots;
  const grey = new Uint8ClampedArray(side * side).fill(255);
  for (const [, x, y, run] of path.matchAll(/M(\d+) (\d+)h(\d+)/g)) {
    for (let row = 0; row < dots; row++) {
      const from = ((Number(y) + quiet) * dots + row) * side + (Number(x) + quiet) * dots;
      grey.fill(30, from, from + Number(run) * dots);
    }
  }
  return new RGBLuminanceSource(grey, side, side);
}

// source: ISO/IEC 16022 as an independent reader decodes it
test.each(["T-118", "0417", "A-121", "B-35", "Ä-7/β", "S".repeat(60)])("the mark of %s is read back", (code) => {
  const { path, size } = dataMatrix(code);
  const seen = new DataMatrixReader().decode(new BinaryBitmap(new HybridBinarizer(photographed(path, size, 6))));
  expect(seen.getText()).toBe(code);
});

test("labels fill a sheet from the first that is still on it, and go on to the next", () => {
  const things = Array.from({ length: 5 }, (_, i) => ({ kind: "valve" as const, code: `T-${i}`, lines: ["6SN7GT"] }));
  const sheets = labelSheets(things, { columns: 2, rows: 2, skip: 2 });
  const codes = sheets.map((sheet) => [...sheet.matchAll(/<title>(T-\d)/g)].map(([, code]) => code));
  expect(codes).toEqual([
    ["T-0", "T-1"],
    ["T-2", "T-3", "T-4"],
  ]);
});

test("nothing on a label can break out of it", () => {
  const [sheet] = labelSheets([{ kind: "board", code: 'A<"1', lines: ["ash & elm"] }], { columns: 1, rows: 1 });
  expect(sheet).toContain("A&lt;&quot;1");
  expect(sheet).toContain("ash &amp; elm");
});
