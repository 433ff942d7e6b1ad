import budget from "../../../src/calculations/measurement.budget.ts";
import capability from "../../../src/calculations/measurement.capability.ts";
import chart from "../../../src/calculations/measurement.chart.ts";
import gauge from "../../../src/calculations/measurement.gauge.ts";
import groups from "../../../src/calculations/measurement.groups.ts";
import guard from "../../../src/calculations/measurement.guard.ts";
import readings from "../../../src/calculations/measurement.readings.ts";
import risk from "../../../src/calculations/measurement.risk.ts";
import { type Calibration, calibrated, near, odds, within } from "../trial.ts";
import { between, decades, gamma, pick, times } from "./chance.ts";

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const sdOf = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, value) => sum + (value - mean(values)) ** 2, 0) / (values.length - 1));

/** source: components drawn as they are said to be, and the result worked out from them. */
const budgets = calibrated(budget, {
  drawn:
    "two to six components over a decade: bounds of three shapes, 95 % doubts, known deviations, means of 4 to 12 readings; two of them go together in a third",
  draw(random) {
    const count = 2 + random.integer(5);
    const names = Array.from({ length: count }, (_, i) => `part ${i}`);
    const together = random.uniform() < 1 / 3 ? between(random, -0.9, 0.9) : 0;
    const shared = random.normal();
    let off = 0;
    const components = names.map((name, i) => {
      const size = decades(random, -1, 0);
      const sensitivity = between(random, -2, 2);
      const u = random.uniform();
      if (together !== 0 && i < 2) {
        const own = i === 0 ? shared : together * shared + Math.sqrt(1 - together ** 2) * random.normal();
        off += sensitivity * size * own;
        return { name, sensitivity, standard: size };
      }
      switch (pick(random, ["rectangular", "triangular", "arcsine", "doubt", "standard", "readings"] as const)) {
        case "rectangular":
          off += sensitivity * size * (2 * u - 1);
          return { name, sensitivity, halfWidth: size, shape: "rectangular" as const };
        case "triangular":
          off += sensitivity * size * (u + random.uniform() - 1);
          return { name, sensitivity, halfWidth: size, shape: "triangular" as const };
        case "arcsine":
          off += sensitivity * size * Math.cos(Math.PI * u);
          return { name, sensitivity, halfWidth: size, shape: "arcsine" as const };
        case "doubt":
          off += (sensitivity * size * random.normal()) / 1.96;
          return { name, sensitivity, halfWidth: size, shape: "doubt" as const };
        case "standard":
          off += sensitivity * size * random.normal();
          return { name, sensitivity, standard: size };
        default: {
          const read = times(4 + random.integer(9), () => random.normal(0, size));
          off += sensitivity * mean(read);
          return { name, sensitivity, readings: read };
        }
      }
    });
    const correlations = together === 0 ? [] : [{ between: ["part 0", "part 1"] as [string, string], r: together }];
    return { input: { components, correlations }, said: ({ doubt }) => [near("doubt of the result", 0, doubt, off)] };
  },
});

/** source: a normal process between limits whose capability follows from the definition. */
const capabilities = calibrated(capability, {
  drawn:
    "10 to 200 pieces of a normal process of cp 0.7 to 2, up to a spread off the middle; judged by their mean and sd",
  draw(random) {
    const n = Math.round(decades(random, 1, 2.3));
    const [half, off] = [3 * between(random, 0.7, 2), between(random, -1, 1)];
    const made = times(n, () => random.normal(off, 1));
    return {
      input: { mean: mean(made), sd: sdOf(made), low: -half, high: half, n },
      said: ({ cp, cpk }) => [
        within("cp", cp!.low!, half / 3, cp!.high!),
        within("cpk", cpk.low!, (half - Math.abs(off)) / 3, cpk.high!),
      ],
    };
  },
});

/** source: a steady normal series, its limits three deviations about its mean. */
const charts = calibrated(chart, {
  drawn: "10 to 100 readings of a steady normal series",
  draw(random) {
    const [centre, sd] = [between(random, 5, 50), decades(random, -1.5, 0.5)];
    const values = times(Math.round(decades(random, 1, 2)), () => random.normal(centre, sd));
    return {
      input: { values, kind: "individuals" },
      said({ doubt, ...read }) {
        return [
          near("centre", read.centre, doubt!.centre, centre),
          near("low", read.low, doubt!.low, centre - 3 * sd),
          near("high", read.high, doubt!.high, centre + 3 * sd),
        ];
      },
    };
  },
});

/** source: parts, hands and instrument drawn with known deviations. */
const gauges = calibrated(gauge, {
  suite: 120,
  why: "each draw draws its intervals by 3,000 turns",
  drawn:
    "5 to 10 parts, 3 to 5 operators, 2 or 3 readings; hands of 0.1 to 1.5 times the instrument, with an interaction in half, parts of 1 to 10 times",
  draw(random) {
    const [parts, operators, repeats] = [5 + random.integer(6), 3 + random.integer(3), 2 + random.integer(2)];
    const repeat_sd = decades(random, -2, 0);
    const hands_sd = repeat_sd * decades(random, -1, 0.2);
    const both_sd = random.uniform() < 0.5 ? 0 : repeat_sd * decades(random, -1, 0);
    const part_sd = repeat_sd * decades(random, 0, 1);
    const hand = times(operators, () => random.normal(0, hands_sd));
    const study = times(parts, (p) => {
      const part = random.normal(20, part_sd);
      return hand.flatMap((own, o) => {
        const together = own + random.normal(0, both_sd);
        return times(repeats, () => ({
          part: `${p}`,
          operator: `${o}`,
          value: part + together + random.normal(0, repeat_sd),
        }));
      });
    }).flat();
    const truths = {
      repeatability_sd: repeat_sd,
      reproducibility_sd: Math.hypot(hands_sd, both_sd),
      gauge_sd: Math.hypot(repeat_sd, hands_sd, both_sd),
      part_sd,
    };
    return {
      input: { readings: study },
      said: ({ interval }) =>
        Object.entries(truths).map(([what, truth]) => {
          const { low, high } = interval[what as keyof typeof truths];
          return within(what, low, truth, high);
        }),
    };
  },
});

/** source: groups that are alike, so that p is even from 0 to 1. */
const group = calibrated(groups, {
  drawn: "two to six groups of 3 to 12 readings that are alike: differences called real",
  draw(random) {
    const drawn = times(2 + random.integer(5), () => times(3 + random.integer(10), () => random.normal(10, 1)));
    return {
      input: { groups: drawn },
      said: ({ p }) => [
        { what: "p over 0.05 where there is no difference", stated: 0.95, isTrue: p! > 0.05 },
        { what: "p over 0.5 where there is no difference", stated: 0.5, isTrue: p! > 0.5 },
      ],
    };
  },
});

/** source: true values even over a wide range, as the risk takes them to be, and a reading of each. */
const guards = calibrated(guard, {
  drawn:
    "true values even over five times the range between the limits and their neighbourhood, readings of known doubt",
  draw(random) {
    const doubt = decades(random, -1, 0.3);
    const [low, high] = pick(random, [
      [0, 10],
      [undefined, 10],
      [0, undefined],
    ] as const);
    const truth = between(random, -6 * doubt, 10 + 6 * doubt);
    const value = truth + random.normal(0, doubt / 1.96);
    // Readings at the very ends of what was drawn say too little of what lies beyond.
    if (value < -3 * doubt || value > 10 + 3 * doubt) return undefined;
    const isOutside = truth < (low ?? -Infinity) || truth > (high ?? Infinity);
    return {
      input: { value, doubt, ...(low !== undefined && { low }), ...(high !== undefined && { high }) },
      said: ({ state, riskFalseAccept }) => [
        odds("riskFalseAccept", riskFalseAccept, isOutside),
        ...(state === "proven" ? [{ what: "proven is inside", stated: 0.975, isTrue: !isOutside, atLeast: true }] : []),
        ...(state === "refuted"
          ? [{ what: "refuted is outside", stated: 0.975, isTrue: isOutside, atLeast: true }]
          : []),
      ],
    };
  },
});

/** source: so many readings drawn and tested by Student's t, worked here. */
const needed = calibrated(readings, {
  drawn: "tests of as many readings as are said to be needed, with the difference there and without",
  draw(random) {
    const [sd, falseAlarm, missed] = [
      decades(random, -1, 1),
      pick(random, [0.01, 0.05, 0.1]),
      pick(random, [0.05, 0.1, 0.2]),
    ];
    const difference = sd * decades(random, -0.5, 0.3);
    const sides = pick(random, [1, 2] as const);
    return {
      input: { sd, difference, falseAlarm, missed, sides },
      said({ n }) {
        const t = (centre: number) => {
          const read = times(n, () => random.normal(centre, sd));
          return (mean(read) / sdOf(read)) * Math.sqrt(n);
        };
        const most = criticalT(1 - falseAlarm / sides, n - 1);
        const alarms = (value: number) => (sides === 1 ? value > most : Math.abs(value) > most);
        return [
          { what: "no false alarm", stated: 1 - falseAlarm, isTrue: !alarms(t(0)) },
          { what: "difference found", stated: 1 - missed, isTrue: alarms(t(difference)), atLeast: true },
        ];
      },
    };
  },
});

/** Quantile of Student's t by bisection of Simpson's rule over its density. */
function criticalT(p: number, freedom: number): number {
  const density = (x: number) => (1 + (x * x) / freedom) ** (-(freedom + 1) / 2);
  const sum = (from: number, to: number, steps = 400) => {
    const h = (to - from) / steps;
    let total = density(from) + density(to);
    for (let i = 1; i < steps; i++) total += (i % 2 ? 4 : 2) * density(from + i * h);
    return (total * h) / 3;
  };
  // x = tan(u) takes in the whole of the tail.
  const half = (() => {
    const steps = 2000;
    const h = Math.PI / 2 / steps;
    let total = 0;
    for (let i = 0; i < steps; i++) {
      const x = Math.tan((i + 0.5) * h);
      total += density(x) * (1 + x * x) * h;
    }
    return total;
  })();
  let [low, high] = [0, 200];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (0.5 + (0.5 * sum(0, middle)) / half < p) low = middle;
    else high = middle;
  }
  return low;
}

/** source: pieces drawn, read and accepted one by one. */
const risks = calibrated(risk, {
  drawn:
    "one piece of a process and one reading of it, normal or gamma, limits 0.5 to 3 spreads away, doubts of 0.05 to 1 spread",
  draw(random) {
    const shape = pick(random, ["normal", "gamma"] as const);
    const [centre, sd] = [10, shape === "gamma" ? between(random, 2, 8) : between(random, 1, 4)];
    const high = centre + sd * between(random, 0.5, 3);
    const low = shape === "normal" && random.uniform() < 0.5 ? centre - sd * between(random, 0.5, 3) : undefined;
    const doubt = sd * decades(random, -1.3, 0);
    const guard_ = pick(random, [undefined, 0, doubt / 2]);
    const truth =
      shape === "normal" ? random.normal(centre, sd) : gamma(random, (centre / sd) ** 2) * (sd ** 2 / centre);
    const value = truth + random.normal(0, doubt / 1.96);
    return {
      input: {
        mean: centre,
        sd,
        shape,
        doubt,
        high,
        ...(low !== undefined && { low }),
        ...(guard_ !== undefined && { guard: guard_ }),
      },
      said(said) {
        const isOutside = truth > high || truth < (low ?? -Infinity);
        const isAccepted = value <= high - said.guard && value >= (low ?? -Infinity) + said.guard;
        return [
          odds("outside", said.outside, isOutside),
          odds("accepted", said.accepted, isAccepted),
          odds("falseAccept", said.falseAccept, isOutside && isAccepted),
          odds("falseReject", said.falseReject, !isOutside && !isAccepted),
        ];
      },
    };
  },
});

export const measurement: readonly Calibration[] = [
  budgets,
  capabilities,
  charts,
  gauges,
  group,
  guards,
  needed,
  risks,
];
