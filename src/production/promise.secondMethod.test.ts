import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { randomStream } from "../maths/random.ts";
import { promise } from "./promise.ts";
import { minuteShop } from "./testing/minuteShop.ts";
import { randomShop } from "./testing/randomShop.ts";

// source: second method: the same rules told by a clock that ticks minute by minute
test("without chance, every date is the minute shop's to the minute, and holders agree", () => {
  const shops = 80;
  let orders = 0;
  for (let i = 0; i < shops; i++) {
    const seed = `fixed shop ${i}`;
    const input = randomShop(randomStream(seed), "fixed");
    const slow = minuteShop(input, 90)(Math.random);
    for (const { id, p50, p95, heldBy } of promise(input).orders) {
      const minute = (Date.parse(p50) - Date.parse(input.now)) / 60_000;
      expect(minute, `${seed}, ${id}`).toBe(slow.done_min.get(id));
      expect(p95).toBe(p50);
      const holders = slow.heldBy.get(id)!;
      if (holders.size > 0) expect([...holders], `${seed}, ${id}`).toContain(heldBy);
      orders++;
    }
  }
  recordAccuracy({
    area: "production",
    what: `dates of ${orders} orders in ${shops} random shops without chance (people, batches, parts, clock changes)`,
    source: "second method, a shop simulated minute by minute",
    reached: "equal to the minute",
    limit: "1 min",
  });
});

// source: second method, with its own chance: of its runs, NN % should have the order done by pNN
test("with chance, the shares of the minute shop's runs done by each date are 50, 80 and 95 %", () => {
  const [shops, runs, slowRuns] = [6, 4000, 250];
  let worst = 0;
  for (let i = 0; i < shops; i++) {
    const seed = `chance shop ${i}`;
    const input = { ...randomShop(randomStream(seed), "chance"), runs, seed };
    const other = randomStream(`other ${seed}`);
    const slowShop = minuteShop(input, 200);
    const slow = Array.from({ length: slowRuns }, () => slowShop(other.uniform).done_min);
    for (const order of promise(input).orders) {
      for (const [q, date] of [
        [0.5, order.p50],
        [0.8, order.p80],
        [0.95, order.p95],
      ] as const) {
        const minute = (Date.parse(date) - Date.parse(input.now)) / 60_000;
        const share = (until: number) => slow.filter((done) => done.get(order.id)! <= until).length / slowRuns;
        const sd = Math.sqrt(q * (1 - q) * (1 / slowRuns + 1 / runs));
        // The minute shop rounds to minutes, and a date on which many runs fall together has a share above its own.
        const off = Math.max(q - share(minute + 2), share(minute - 2) - q, 0) / sd;
        worst = Math.max(worst, off);
        expect(off, `${seed}, ${order.id}, ${q}`).toBeLessThan(4.5);
      }
    }
  }
  recordAccuracy({
    area: "production",
    what: `50, 80 and 95 % dates in ${shops} random shops with drawn times, delays and rework`,
    source: "second method, a shop simulated minute by minute with its own chance",
    reached: `worst ${worst.toFixed(1)} standard errors`,
    limit: "4.5 standard errors",
  });
});
