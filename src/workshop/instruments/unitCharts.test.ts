import { expect, test } from "vitest";
import { answer } from "../../calculations/answer.ts";
import { claimStates, foldShop } from "../../claims/index.ts";
import { at, Book } from "../../claims/testing/smallShop.ts";
import type { Calculate } from "../calculate.ts";
import { unitChartsView } from "./unitCharts.ts";

const calculate = (async (name: string, input: unknown) => {
  const given = await answer(name, input, {
    recording: () => {
      throw new Error("no recording is asked for");
    },
  });
  if (!given.ok) throw new Error(`${given.error.path}: ${given.error.message}`);
  return given.output;
}) as Calculate;

async function chartsWith(doubt: number) {
  const volts = [200, 200.1, 199.9, 200, 200.1, 199.9, 200, 202];
  const units = volts.map((_, i) => `0${201 + i}`);
  const book = Book.opened(units);
  volts.forEach((value, i) => {
    const subject = { unit: units[i]! };
    book.write(3, { kind: "reading", subject, quantity: "ht_V", value, doubt, instrument: "meter" });
  });
  const shop = foldShop(book.entries);
  return unitChartsView(shop, (unit) => claimStates(shop.modelOf(unit)!, shop.ledger, unit, at(5)), calculate);
}

// source: by hand: moving ranges 0.1 0.2 0.1 0.1 0.2 0.1 2, mean 0.4, sd 0.4/1.128; 200.25 ± 1.06
test("a unit outside the others' scatter is told of, but not where its own doubt reaches back into it", async () => {
  const [sharp] = (await chartsWith(0.05)).charts;
  expect(sharp!.centre).toBeCloseTo(200.25, 9);
  expect(sharp!.high).toBeCloseTo(200.25 + 1.2 / 1.128379, 3);
  expect(sharp!.signals).toEqual([{ index: 7, rule: "outside" }]);
  const [blurred] = (await chartsWith(1)).charts;
  expect(blurred!.units).toHaveLength(8);
  expect(blurred!.signals).toEqual([]);
});
