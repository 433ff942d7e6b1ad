import { expect, test } from "vitest";
import type { Evidence, Model } from "../claims/evidence.ts";
import { BadInput } from "../maths/badInput.ts";
import type { Calculate } from "./calculate.ts";
import type { FittedNetlist } from "./fittedCurves.ts";
import { quantityOf } from "./probeCard.ts";
import { probeSuspects } from "./probeJudged.ts";

const model = { netlist: { ground: "0", parts: [], testPoints: [] } } as unknown as Model;
const fitted = { netlist: model.netlist, drawn: [] } as unknown as FittedNetlist;
const gains = [100, 200, 400, 800, 1600, 3200, 6400].map((frequency_Hz) => ({
  body: {
    kind: "reading",
    quantity: quantityOf.gain,
    subject: { unit: "77", point: "plate" },
    value: 20,
    doubt: 0.1,
    conditions: { input: "IN", frequency_Hz },
  },
})) as unknown as readonly Evidence<"reading">[];

/** Weighs so many gains in time, and says good. */
function weighing(most: number, asked: number[][]): Calculate {
  return async (_, input) => {
    const { gains } = input as { gains: readonly { frequency_Hz: number }[] };
    asked.push(gains.map(({ frequency_Hz }) => frequency_Hz));
    if (gains.length > most) throw new BadInput("gains", `${gains.length} gains`, `at most ${most}`, "give fewer");
    return { state: "good", suspects: [], notes: [] } as never;
  };
}

test("all gains are weighed where they come in time, and nothing is said of it", async () => {
  const asked: number[][] = [];
  const { state, notes } = await probeSuspects(model, fitted, gains, 10, weighing(7, asked));
  expect(state).toBe("good");
  expect(asked).toEqual([[100, 200, 400, 800, 1600, 3200, 6400]]);
  expect(notes).toEqual([]);
});

test("of too many gains the newest are weighed, and the note says how many", async () => {
  const asked: number[][] = [];
  const { state, notes } = await probeSuspects(model, fitted, gains, 10, weighing(3, asked));
  expect(state).toBe("good");
  expect(asked.at(-1)).toEqual([1600, 3200, 6400]);
  expect(notes[0]).toMatch(/^Only the newest 3 of 7 gains/);
});
