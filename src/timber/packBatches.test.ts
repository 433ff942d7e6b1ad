import { expect, test } from "vitest";
import { randomStream } from "../maths/random.ts";
import { packBatches } from "./packBatches.ts";

/** Second method: every way of dealing things into batches of one place. */
function leastByHand(hours: readonly number[], capacity: number): number {
  let best = Number.POSITIVE_INFINITY;
  const deal = (k: number, batches: number[][]) => {
    if (k === hours.length) {
      best = Math.min(
        best,
        batches.reduce((sum, batch) => sum + Math.max(...batch), 0),
      );
      return;
    }
    batches.forEach((batch, i) => {
      if (batch.length < capacity) deal(k + 1, batches.with(i, [...batch, hours[k]!]));
    });
    deal(k + 1, [...batches, [hours[k]!]]);
  };
  deal(0, []);
  return best;
}

// source: every way of batching tried
test("one place ends as early as any batching does", () => {
  const random = randomStream(71);
  for (let i = 0; i < 20; i++) {
    const hours = Array.from({ length: 7 }, () => 10 + 90 * random.uniform());
    const things = hours.map((hour) => ({ room: 1, hours: new Map([["chamber", hour]]) }));
    const { makespan_h, bound_h } = packBatches(things, [{ name: "chamber", capacity: 3, freeFrom_h: 0 }]);
    expect(makespan_h).toBeCloseTo(leastByHand(hours, 3), 9);
    expect(bound_h).toBeLessThanOrEqual(makespan_h + 1e-9);
  }
});

test("every thing is placed once, no place is overfull, none begins before it is free", () => {
  const random = randomStream(72);
  const things = Array.from({ length: 40 }, () => ({
    room: 1 + random.integer(3),
    hours: new Map([
      ["chamber", 20 + 80 * random.uniform()],
      ...(random.uniform() < 0.5 ? [["plate", 30 * random.uniform() + 5] as const] : []),
    ]),
  }));
  const places = [
    { name: "chamber", capacity: 9, freeFrom_h: 12 },
    { name: "plate", capacity: 4, freeFrom_h: 0 },
  ];
  const { batches, makespan_h, bound_h } = packBatches(things, places);
  expect(batches.flatMap(({ members }) => members).sort((a, b) => a - b)).toEqual(things.map((_, i) => i));
  for (const { place, members, start_h } of batches) {
    const { capacity, freeFrom_h } = places.find(({ name }) => name === place)!;
    expect(members.reduce((sum, i) => sum + things[i]!.room, 0)).toBeLessThanOrEqual(capacity);
    expect(start_h).toBeGreaterThanOrEqual(freeFrom_h);
  }
  expect(bound_h).toBeLessThanOrEqual(makespan_h);
});
