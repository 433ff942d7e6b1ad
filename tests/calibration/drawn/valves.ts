import buy from "../../../src/calculations/valves.buy.ts";
import fit from "../../../src/calculations/valves.fit.ts";
import sets from "../../../src/calculations/valves.sets.ts";
import verdict from "../../../src/calculations/valves.verdict.ts";
import type { Random } from "../../../src/maths/random.ts";
import { type Cell, drawFit, isHeld } from "../../../src/valves/fit/testing/countHeld.ts";
import { type Calibration, calibrated, near, odds, type Said } from "../trial.ts";
import { between, binomial, decades, pick, times } from "./chance.ts";

/** source: past batches and the next one from one shop's law; the purchase is played out. */
const purchases = calibrated(buy, {
  suite: 80,
  why: "each draw weighs a grid of pass rates",
  drawn:
    "3 to 8 past batches of 15 to 60 valves passing by 50 to 90 %, from batch to batch by 0, 4 or 8 points; pairs to fours, 3 to 10 sets",
  draw(random) {
    const [mean, sd] = [between(random, 0.5, 0.9), pick(random, [0, 0.04, 0.08])];
    const rate = () => Math.min(0.99, Math.max(0.05, mean + random.normal(0, sd)));
    const past = times(3 + random.integer(6), () => {
      const tested = 15 + random.integer(46);
      return { tested, passed: binomial(random, tested, rate()) };
    });
    const [perSet, wanted] = [2 + random.integer(3), 3 + random.integer(8)];
    return {
      input: { past, perSet, sets: wanted, confidence: pick(random, [0.6, 0.8, 0.9, 0.95]) },
      said({ buy, chance }) {
        if (buy === undefined) return [];
        return [odds("chance of all sets", chance!, binomial(random, buy, rate()) >= perSet * wanted)];
      },
    };
  },
});

/** source: valves of the fitted law with misses of their own, or of other published laws. */
const fits = calibrated(fit, {
  drawn:
    "triodes and pentodes of the fitted law or of another, read at 3, 10 or 30 points with 0.3 to 3 % scatter, with their type or without",
  suite: 4,
  why: "each draw walks over some thousand curves; a hundred valves of each of 24 kinds in fitCoverage.md",
  draw(random) {
    const cell: Cell = {
      kind: pick(random, ["triode", "triode", "pentode"] as const),
      law: pick(random, ["ours", "another"] as const),
      knows: pick(random, ["type", "none"] as const),
      points: pick(random, [3, 10, 30]),
    };
    const { question, stated } = drawFit(cell, random);
    return {
      input: question,
      said: (answer) =>
        stated(answer as unknown as Parameters<typeof stated>[0]).stated.map(
          (one): Said => ({
            what: one.of === "figures" ? "figures at asked points" : "parameters of the law",
            stated: 0.95,
            isTrue: isHeld(one),
          }),
        ),
    };
  },
});

interface Law {
  readonly mu: number;
  readonly perveance_mA_per_V1p5: number;
}
const [HT_V, load_ohm, cathode_ohm] = [250, 47_000, 1500];
const average: Law = { mu: 20, perveance_mA_per_V1p5: 0.9 };

/** source: worked by hand: the three-halves law on its load line; gain = mu·RL/(RL + rp + (mu + 1)·Rk). */
function gain_dB({ mu, perveance_mA_per_V1p5 }: Law): number {
  const drive = (i_mA: number) => -i_mA * cathode_ohm * 1e-3 + (HT_V - i_mA * 1e-3 * (load_ohm + cathode_ohm)) / mu;
  let [low, high] = [0, HT_V / (load_ohm + cathode_ohm) / 1e-3];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (perveance_mA_per_V1p5 * Math.max(drive(middle), 0) ** 1.5 > middle) low = middle;
    else high = middle;
  }
  const rp_ohm = (1e3 * mu) / (1.5 * perveance_mA_per_V1p5 * Math.sqrt(drive(low)));
  return 20 * Math.log10((mu * load_ohm) / (load_ohm + rp_ohm + (mu + 1) * cathode_ohm));
}

const channel = (valve: string, side: string) => [
  { id: `IN${side}`, kind: "voltage" as const, between: [`in${side}`, "0"] as [string, string], dc_V: 0, ac_V: 1 },
  { id: `RA${side}`, kind: "resistor" as const, ohm: load_ohm, between: ["ht", `a${side}`] as [string, string] },
  { id: `RK${side}`, kind: "resistor" as const, ohm: cathode_ohm, between: [`k${side}`, "0"] as [string, string] },
  { id: valve, kind: "triode" as const, law: average, plate: `a${side}`, grid: `in${side}`, cathode: `k${side}` },
];

const lawNear = (random: Random, about: Law, current: number, mu: number): Law => ({
  mu: about.mu * (1 + random.normal(0, mu)),
  perveance_mA_per_V1p5: about.perveance_mA_per_V1p5 * (1 + random.normal(0, current)),
});

/** source: true curves drawn about the stated ones, their gains worked by hand. */
const inCircuit = calibrated(sets, {
  suite: 60,
  why: "each draw solves the stage with every valve",
  drawn:
    "a pair in a stereo stage, its valves off their stated curves by 1 to 10 % in current and 0.5 to 5 % in mu (95 %), or by the usual 2 %",
  draw(random) {
    const stated = [lawNear(random, average, 0.12, 0.05), lawNear(random, average, 0.12, 0.1)];
    const isGiven = random.uniform() < 0.7;
    const doubt = isGiven
      ? { current_pct: decades(random, 0, 1), mu_pct: decades(random, -0.3, 0.7) }
      : { current_pct: 2, mu_pct: 2 };
    const truths = stated.map((law) => gain_dB(lawNear(random, law, doubt.current_pct / 196, doubt.mu_pct / 196)));
    return {
      input: {
        valves: stated.map((law, i) => ({ id: `T-${i}`, law, ...(isGiven && { doubt }) })),
        demand: [{ unit: "u", positions: ["V1", "V2"] }],
        netlist: {
          ground: "0",
          parts: [
            { id: "HT", kind: "voltage", between: ["ht", "0"], dc_V: HT_V, ac_V: 0 },
            ...channel("V1", "L"),
            ...channel("V2", "R"),
          ],
        },
        input: ["INL", "INR"],
        output: ["aL", "aR"],
      },
      said: ({ sets: [set] }) => [near("cost in dB", set!.cost, set!.doubt_dB!, Math.abs(truths[0]! - truths[1]!))],
    };
  },
});

/** source: currents, tester and reference valve drawn with their scatter. */
const verdicts = calibrated(verdict, {
  drawn:
    "one to six sections with drifts of some percent, before and after a heat run of 20 to 120 h, settling at any pace; readings that scatter by 0.1 to 2 % (95 %), a tester that drifts by 2 %",
  draw(random) {
    const reading_doubt_pct = decades(random, -1, 0.3);
    const sd = reading_doubt_pct / 196;
    const span = between(random, 20, 120);
    const wobble = random.normal(0, 0.02);
    const tester = (time_h: number) => 1 + (wobble * time_h) / span;
    const read = (true_mA: number, time_h: number) => true_mA * tester(time_h) * (1 + random.normal(0, sd));
    const isSettling = random.uniform() < 0.5;
    const made = times(1 + random.integer(6), (i) => {
      const cold_mA = between(random, 2, 60);
      if (isSettling) {
        const pace = span * Math.exp(Math.log(0.08) + random.uniform() * Math.log(3 / 0.08));
        const move = random.normal(0, 0.1) * cold_mA;
        const count = 3 + random.integer(8);
        const readings = times(count, (k) => {
          const time_h = (span * k) / (count - 1);
          return { time_h, phase: "hot" as const, plate_mA: read(cold_mA + move * Math.exp(-time_h / pace), time_h) };
        });
        return { id: `T-${i}`, drift_pct: undefined, final_mA: cold_mA, readings };
      }
      const drift = random.normal(0, 0.03);
      const [from, to] = [0.1 * span * random.uniform(), span * between(random, 0.8, 1)];
      const readings = [
        { time_h: from, phase: "cold" as const, plate_mA: read(cold_mA, from) },
        { time_h: to, phase: "hot" as const, plate_mA: read(cold_mA * (1 + drift), to) },
      ];
      return { id: `T-${i}`, drift_pct: 100 * drift, final_mA: undefined, readings };
    });
    const limit_pct = between(random, 2, 8);
    return {
      input: {
        limits: { drift_pct: isSettling ? 50 : limit_pct },
        reference: [0, span / 2, span].map((time_h) => ({ time_h, plate_mA: read(9, time_h) })),
        referenceTrue_mA: 9,
        reading_doubt_pct,
        valves: made.map(({ id, readings }) => ({ id, type: "12AU7", sections: [{ name: "a", readings }] })),
      },
      said({ testerShift_pct, doubt, valves }) {
        return [
          near("testerShift_pct", testerShift_pct, doubt.testerShift_pct, 100 * wobble),
          ...valves.flatMap(({ verdict, sections: [section] }, i): Said[] => {
            const { drift_pct, final_mA } = made[i]!;
            if (final_mA !== undefined) {
              const { settling } = section!;
              return settling ? [near("final_mA", settling.final_mA, settling.doubt.final_mA, final_mA)] : [];
            }
            const isInside = Math.abs(drift_pct!) <= limit_pct;
            return [
              near("drift_pct", section!.drift_pct!, section!.doubt_pct!, drift_pct!),
              ...(verdict === "use" ? [{ what: "use is inside", stated: 0.975, isTrue: isInside, atLeast: true }] : []),
              ...(verdict === "reject"
                ? [{ what: "reject is outside", stated: 0.975, isTrue: !isInside, atLeast: true }]
                : []),
            ];
          }),
        ];
      },
    };
  },
});

export const valves: readonly Calibration[] = [purchases, fits, inCircuit, verdicts];
