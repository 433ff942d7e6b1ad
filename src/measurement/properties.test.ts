// Draws that take long: mutation tries with these only what the tests beside each did not notice.
import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { randomStream } from "../maths/random.ts";
import { summary } from "../maths/statistics/index.ts";
import { budget } from "./budget.ts";
import { individualsChart } from "./chart.ts";
import { gaugeStudy } from "./gauge.ts";

// property: drawn studies hold the true spreads of instrument and parts about as often as is said
test("a gauge study's intervals hold what they say", () => {
  const studies = Number(process.env.STILLGLOW_DRAWS ?? 150);
  const chance = randomStream(process.env.STILLGLOW_SEED ?? "gauge studies");
  const sd = { part: 3, operator: 0.6, pairing: 0.5, reading: 0.8 };
  const truth = {
    gauge_sd: Math.hypot(sd.operator, sd.pairing, sd.reading),
    part_sd: sd.part,
    repeatability_sd: sd.reading,
  };
  const held = { gauge_sd: 0, part_sd: 0, repeatability_sd: 0 };
  for (let i = 0; i < studies; i++) {
    const draw = chance.fork(i);
    const hands = Array.from({ length: 4 }, () => draw.normal(0, sd.operator));
    const drawn = Array.from({ length: 8 }, (_, part) => {
      const own = draw.normal(0, sd.part);
      return hands.flatMap((hand, operator) => {
        const pairing = draw.normal(0, sd.pairing);
        return [0, 1].map(() => ({
          part: `${part}`,
          operator: `${operator}`,
          value: own + hand + pairing + draw.normal(0, sd.reading),
        }));
      });
    }).flat();
    const { interval } = gaugeStudy(drawn);
    for (const name of ["gauge_sd", "part_sd", "repeatability_sd"] as const)
      if (interval[name].low <= truth[name] && truth[name] <= interval[name].high) held[name]++;
  }
  // Three standard deviations of a count of 150 are 5.3 %.
  for (const name of ["gauge_sd", "part_sd", "repeatability_sd"] as const) {
    expect(held[name] / studies, name).toBeGreaterThan(0.95 - 0.055);
  }
  recordAccuracy({
    area: "measurement",
    what: "95 % intervals of a gauge study hold: instrument with hands, parts, repeatability",
    source: `own draws, ${studies} studies of 8 parts, 4 operators, 2 readings`,
    reached: Object.values(held)
      .map((count) => `${((100 * count) / studies).toFixed(1)} %`)
      .join(", "),
    limit: "89.5 % and more at 150 studies",
  });
});

// source: second method, counting: results drawn from few readings of each component, 95 % held
test("a budget's half-widths from few readings hold what they say", () => {
  const draws = Number(process.env.STILLGLOW_DRAWS ?? 4000);
  const chance = randomStream(process.env.STILLGLOW_SEED ?? "budget");
  let held = 0;
  for (let i = 0; i < draws; i++) {
    const readings = (n: number, sd: number) => Array.from({ length: n }, () => chance.normal(0, sd));
    const [a, b] = [readings(6, 1), readings(9, 1.5)];
    const result = summary(a).mean + 2 * summary(b).mean;
    const { doubt } = budget([
      { name: "a", readings: a },
      { name: "b", readings: b, sensitivity: 2 },
    ]);
    if (Math.abs(result) <= doubt) held++;
  }
  expect(held / draws).toBeGreaterThan(0.935);
  expect(held / draws).toBeLessThan(0.97);
});

// property: drawn in control, the true centre and limits lie within their doubt about as often as is said
test.each([
  [40, 600],
  [5, 2000],
])("a chart's doubt of centre and limits covers what it says, of %i values", (length, runs) => {
  const random = randomStream(20_261);
  let [centres, limits] = [0, 0];
  for (let run = 0; run < runs; run++) {
    const { centre, high, doubt } = individualsChart(Array.from({ length }, () => random.normal()));
    if (Math.abs(centre) <= doubt.centre) centres++;
    if (Math.abs(high - 3) <= doubt.high) limits++;
  }
  expect(centres / runs, "seed 20261").toBeGreaterThan(0.91);
  expect(centres / runs, "seed 20261").toBeLessThan(0.99);
  expect(limits / runs, "seed 20261").toBeGreaterThan(0.9);
  expect(limits / runs, "seed 20261").toBeLessThan(0.985);
});
