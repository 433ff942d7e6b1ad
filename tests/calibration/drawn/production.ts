import cost from "../../../src/calculations/production.cost.ts";
import kept from "../../../src/calculations/production.kept.ts";
import lookback from "../../../src/calculations/production.lookback.ts";
import next from "../../../src/calculations/production.next.ts";
import options from "../../../src/calculations/production.options.ts";
import promise from "../../../src/calculations/production.promise.ts";
import soak from "../../../src/calculations/production.soak.ts";
import whatif from "../../../src/calculations/production.whatif.ts";
import where from "../../../src/calculations/production.where.ts";
import { triangleQuantile } from "../../../src/maths/random.ts";
import { minuteShop } from "../../../src/production/testing/minuteShop.ts";
import { randomShop } from "../../../src/production/testing/randomShop.ts";
import { type Calibration, calibrated, near, odds, type Said, within } from "../trial.ts";
import { between, binomial, decades, gamma, pick, times } from "./chance.ts";

const day_ms = 86_400_000;

/** source: units bought and built one by one; means by closed form: geometric repeats of triangle times. */
const costs = calibrated(cost, {
  drawn:
    "one to five parts with scrap of up to 30 %, one to five steps with rework of up to 40 %, prices about the mean; 500 runs, and one more unit built",
  draw(random) {
    const parts = times(1 + random.integer(5), (i) => ({
      part: `part ${i}`,
      count: 1 + random.integer(4),
      cost_cents: Math.round(decades(random, 2, 4)),
      scrap: random.uniform() < 0.5 ? 0 : between(random, 0, 0.3),
    }));
    const steps = times(1 + random.integer(5), (i) => {
      const usual = decades(random, -0.5, 1);
      return {
        step: `step ${i}`,
        skill: pick(random, ["wiring", "bench"]),
        hours: { fast: usual * between(random, 0.5, 1), usual, slow: usual * between(random, 1, 3) },
        rework: { odds: between(random, 0, 0.4), hours: between(random, 0, 3), parts_cents: 500 },
      };
    });
    const hour_cents = { wiring: 3000, bench: 4500 };
    const rate = (skill: string) => hour_cents[skill as keyof typeof hour_cents];
    const meanOf = ({ fast, usual, slow }: (typeof steps)[number]["hours"]) => (fast + usual + slow) / 3;
    const mean_cents =
      parts.reduce((sum, { count, cost_cents, scrap }) => sum + (count * cost_cents) / (1 - scrap), 0) +
      steps.reduce((sum, { hours, skill, rework }) => {
        const again = rework.odds / (1 - rework.odds);
        return (
          sum + rate(skill) * (meanOf(hours) + again * (meanOf(hours) + rework.hours)) + again * rework.parts_cents
        );
      }, 0);
    const price_cents = Math.round(mean_cents * between(random, 0.85, 1.2));
    let built_cents = 0;
    for (const { count, cost_cents, scrap } of parts) {
      for (let i = 0; i < count; i++) {
        do built_cents += cost_cents;
        while (random.uniform() < scrap);
      }
    }
    for (const { hours, skill, rework } of steps) {
      const once = () => triangleQuantile(random.uniform(), hours.fast, hours.usual, hours.slow);
      built_cents += rate(skill) * once();
      while (random.uniform() < rework.odds) built_cents += rate(skill) * (rework.hours + once()) + rework.parts_cents;
    }
    return {
      input: { parts, steps, hour_cents, price_cents, currency: "EUR", runs: 500, seed: random.integer(1e9) },
      said: ({ cost, margin, doubt }): Said[] => [
        near("mean_cents", cost.mean_cents, doubt.mean_cents + 0.5, mean_cents),
        { what: "a unit costs p80_cents at most", stated: 0.8, isTrue: built_cents <= cost.p80_cents },
        { what: "a unit costs p95_cents at most", stated: 0.95, isTrue: built_cents <= cost.p95_cents },
        { what: "a unit costs over p05_cents", stated: 0.95, isTrue: built_cents > cost.p05_cents },
        odds("oddsOfLoss", margin!.oddsOfLoss, built_cents > price_cents),
      ],
    };
  },
});

/** source: orders late by a law whose share at the date, and whose quantile, are known. */
const keeping = calibrated(kept, {
  drawn:
    "10 to 200 promises of 50, 80 or 95 %, kept by 30 to 98 % in truth, lateness spread exponentially on both sides",
  draw(random) {
    const share_pct = pick(random, [50, 80, 95]);
    const truly = between(random, 0.3, 0.98);
    const scale_days = decades(random, 0, 1.3);
    // Two exponentials that meet at the date, with that share on the early side.
    const lateAt = (p: number) =>
      p < truly ? scale_days * Math.log(p / truly) : -scale_days * Math.log((1 - p) / (1 - truly));
    const promises = times(Math.round(decades(random, 1, 2.3)), (i) => ({
      order: `order ${i}`,
      share_pct,
      date: "2026-03-02T12:00:00Z",
      done: new Date(Date.parse("2026-03-02T12:00:00Z") + Math.round(lateAt(random.uniform()) * day_ms)).toISOString(),
    }));
    return {
      input: { promises },
      said: ({ groups: [found] }) => [
        within("share kept", found!.low_pct, 100 * truly, found!.high_pct, { atLeast: true }),
        within(
          "shift_days",
          found!.shiftLow_days ?? Number.NEGATIVE_INFINITY,
          lateAt(share_pct / 100),
          found!.shiftHigh_days ?? Number.POSITIVE_INFINITY,
          { atLeast: true },
        ),
      ],
    };
  },
});

/** source: hours of both kinds drawn by laws of known mean. */
const lookbacks = calibrated(lookback, {
  drawn:
    "3 to 40 faults found late and 3 to 40 found early, their hours ln-normal or even, means up to six times apart",
  draw(random) {
    const isEven = random.uniform() < 0.5;
    const sizes = [decades(random, 0, 0.8), 1] as const;
    const spread = between(random, 0.1, 0.6);
    const hours = (mean_h: number) =>
      isEven
        ? mean_h * between(random, 1 - spread, 1 + spread)
        : mean_h * Math.exp(random.normal(-(spread ** 2) / 2, spread));
    const [late, early] = [3 + random.integer(38), 3 + random.integer(38)];
    const fault = (found: string, i: number, repair_h: number) => ({
      unit: `${found} ${i}`,
      fault: "dry joint",
      possible: "wiring",
      found,
      repair_h,
      cost_cents: 0,
    });
    return {
      input: {
        stages: ["wiring", "bench", "customer"],
        faults: [
          ...times(late, (i) => fault("bench", i, hours(sizes[0]))),
          ...times(early, (i) => fault("wiring", i, hours(sizes[1]))),
        ],
      },
      said: ({ arrows: [arrow] }) =>
        arrow?.savedLow_h === undefined
          ? []
          : [within("saved_h", arrow.savedLow_h, late * (sizes[0] - sizes[1]), arrow.savedHigh_h!)],
    };
  },
});

/** source: a fault's true share drawn from what is believed beforehand, and units looked at. */
const nexts = calibrated(next, {
  drawn: "shares drawn from the belief of a guess of 2 to 40 % worth 4 to 30 units, and 0 to 60 units looked at",
  draw(random) {
    const drawn = () => {
      const [guess, weight] = [between(random, 0.02, 0.4), between(random, 4, 30)];
      const [a, b] = [gamma(random, guess * weight), gamma(random, (1 - guess) * weight)];
      const share = a / (a + b);
      const of = random.integer(61);
      return { share, records: { found: binomial(random, of, share), of, guess, weight } };
    };
    const [there, found] = [drawn(), drawn()];
    const worker = { id: "bench", skills: ["audio"], calendar: "full" };
    return {
      input: {
        now: "2026-12-02T08:00:00+00:00",
        calendars: { full: { week: { wed: ["08:00-12:00"], thu: ["08:00-12:00"] } } },
        people: [worker],
        tasks: [
          {
            id: "gain probe",
            unit: "0101",
            skill: "audio",
            hands_min: 10,
            faults: [{ fault: "dry joint", odds: there.records, finds: found.records, now_h: 0.5, later_h: 5 }],
          },
        ],
      },
      said: ({ hands }) => {
        const chief = hands[0]!.next[0]!.chief!;
        return [
          within("odds that a fault is there", chief.odds.low, there.share, chief.odds.high),
          within("odds that a check finds it", chief.finds.low, found.share, chief.finds.high),
        ];
      },
    };
  },
});

/** source: accounts that add up from what each choice costs, with a scatter of their own. */
const choices = calibrated(options, {
  drawn:
    "20 to 120 units with three timbers, two finishes and an extra; differences of up to 20,000 cents, scatter of 1,000 to 12,000",
  draw(random) {
    const more: Record<string, number> = {
      elm: between(random, -20_000, 20_000),
      cherry: between(random, -20_000, 20_000),
      shellac: between(random, -10_000, 10_000),
      trim: between(random, -5_000, 5_000),
    };
    const sd = decades(random, 3, 4.08);
    const units = times(20 + random.integer(101), (i) => {
      const chosen = {
        timber: pick(random, ["ash", "ash", "ash", "elm", "cherry"]),
        finish: pick(random, ["oil", "oil", "shellac"]),
        extra: pick(random, ["none", "none", "trim"]),
      };
      const extra = Object.values(chosen).reduce((sum, choice) => sum + (more[choice] ?? 0), 0);
      return { unit: `u${i}`, options: chosen, cost_cents: Math.round(100_000 + extra + random.normal(0, sd)) };
    });
    return {
      input: { units, currency: "EUR" },
      said: ({ choices }) =>
        choices.map(({ choice, against, low_cents, high_cents }) =>
          within("more_cents", low_cents - 0.5, (more[choice] ?? 0) - (more[against] ?? 0), high_cents + 0.5),
        ),
    };
  },
});

/** source: second method, the same shop made once by a simulation minute by minute, with luck of its own. */
const promises = calibrated(promise, {
  drawn:
    "small shops with people, calendars, batch places, parts, rework and clock changes; each promised by 400 runs and then made once",
  suite: 10,
  why: "each draw promises a shop by 400 runs and makes it once, minute by minute",
  draw(random) {
    const input = { ...randomShop(random, "chance"), runs: 400, seed: random.integer(1e9) };
    const made = minuteShop(input, 300)(random.fork("outcome").uniform);
    return {
      input: JSON.parse(JSON.stringify(input)),
      said: ({ orders }) =>
        orders.flatMap(({ id, p50, p80, p95 }) => {
          const done_ms = Date.parse(input.now) + made.done_min.get(id)! * 60_000;
          // The minute shop rounds to minutes, a step at a time. A date on which many runs fall together is kept by more.
          const by = (date: string) => done_ms <= Date.parse(date) + 60_000;
          return [
            { what: "done by p50", stated: 0.5, isTrue: by(p50), atLeast: true },
            { what: "done by p80", stated: 0.8, isTrue: by(p80) },
            { what: "done by p95", stated: 0.95, isTrue: by(p95) },
          ];
        }),
    };
  },
});

/** Share that a rack's weak units have shown by an hour: a Weibull law with an exponent of 0.6. */
const shown = (hours: number, scale_h: number) => 1 - Math.exp(-((hours / scale_h) ** 0.6));

/** source: survival in closed form; savings for units that were not watched, by sums over it. */
const soaks = calibrated(soak, {
  suite: 40,
  why: "each draw weighs thousands of curves",
  drawn:
    "40 to 200 units of which 2 to 25 % give way early, taken off after a day; each hour's cost and each escape's over half a decade",
  draw(random) {
    const [units, weak, scale_h] = [40 + random.integer(161), between(random, 0.02, 0.25), decades(random, 0.5, 1.2)];
    const pieces = times(units, () => {
      if (random.uniform() >= weak) return { hours: 24, failed: false };
      const hours = scale_h * (-Math.log(1 - random.uniform())) ** (1 / 0.6);
      return hours < 24 ? { hours, failed: true } : { hours: 24, failed: false };
    });
    const costs = { hour_cents: decades(random, 1.8, 2.3), escape_cents: decades(random, 4.3, 4.8), today_h: 24 };
    const survival = (t: number) => 1 - weak * shown(t, scale_h);
    const saving = (t: number) => {
      let mean = 0;
      for (let i = 0; i < 400; i++) mean += survival(((i + 0.5) / 400) * t) / 400;
      return costs.escape_cents * (1 - survival(t)) - costs.hour_cents * mean * t;
    };
    const at_h = between(random, 3, 24);
    return {
      input: { pieces, costs },
      said({ curve, againstNone, againstToday }) {
        // An hour fixed beforehand, not that of a failure.
        const point = curve.findLast(({ hours }) => hours <= at_h);
        return [
          ...(point ? [within("survival", point.low, survival(at_h), point.high)] : []),
          ...(againstNone
            ? [
                within(
                  "against none",
                  againstNone.low_cents - 1,
                  saving(againstNone.hours),
                  againstNone.high_cents + 1,
                  { atLeast: true },
                ),
              ]
            : []),
          ...(againstToday
            ? [
                within(
                  "against today",
                  againstToday.low_cents - 1,
                  saving(againstToday.hours) - saving(24),
                  againstToday.high_cents + 1,
                  { atLeast: true },
                ),
              ]
            : []),
        ];
      },
    };
  },
});

/** source: closed form: the 80 % point of one step by the clock, before and after its hours are changed. */
const whatifs = calibrated(whatif, {
  drawn: "one step by the clock with hours from one triangle, then from another on the same luck; 400 runs",
  suite: 60,
  why: "each draw runs two shops 400 times",
  draw(random) {
    const hoursOf = () => {
      const usual = between(random, 10, 60);
      return { fast: usual * between(random, 0.4, 0.95), usual, slow: usual * between(random, 1.1, 3) };
    };
    const [before, after] = [hoursOf(), hoursOf()];
    const at80 = ({ fast, usual, slow }: typeof before) => triangleQuantile(0.8, fast, usual, slow);
    return {
      input: {
        now: "2027-03-01T08:00:00Z",
        calendars: { bench: { week: { mon: ["08:00-17:00"] } } },
        people: [],
        places: [],
        routes: { amp: [{ step: "cure", hours: before, unattended: true }] },
        orders: [{ id: "a", model: "amp", units: 1 }],
        runs: 400,
        seed: random.integer(1e9),
        changes: [{ kind: "hours", step: "cure", hours: after }],
      },
      said: ({ orders: [order] }) => [within("shift_h", order!.low_h!, at80(after) - at80(before), order!.high_h!)],
    };
  },
});

const joint = { stage: "wiring", found_cents: 2_000 };
const stages = [joint, { stage: "bench", found_cents: 10_000 }, { stage: "customer", found_cents: 80_000 }];

/** source: closed form of what a check spares where a known share of units has a fault of ln-normal cost. */
const wheres = calibrated(where, {
  drawn:
    "60 to 400 units of which 3 to 25 % have a fault; a check that finds it earlier, and a shorter one; costs about what they spare",
  suite: 100,
  why: "each draw replays its records some hundred times",
  draw(random) {
    const [units, share, spread] = [60 + random.integer(341), between(random, 0.03, 0.25), between(random, 0.3, 0.8)];
    const mean = 10_000 * Math.exp(spread ** 2 / 2);
    const value = share * mean * 0.8;
    const cost_cents = Math.round(value * decades(random, -0.5, 0.5));
    const faults = times(units, (i) => i).flatMap((i) =>
      random.uniform() < share
        ? [
            {
              unit: `u${i}`,
              fault: "joint",
              possible: "wiring",
              found: "bench",
              cost_cents: 10_000 * Math.exp(random.normal(0, spread)),
            },
          ]
        : [],
    );
    const [early, late] = [between(random, 0.1, 0.3), decades(random, -2.7, -1.5)];
    const pieces = 100 + random.integer(101);
    const lengths = [
      {
        check: "plate",
        length: 48,
        step: 24,
        cents_per_step: 60,
        pieces,
        shown: times(pieces, () => random.uniform()).flatMap((u) =>
          u < early + late ? [{ by: u < early ? 10 : 40, later_cents: 4000 * Math.exp(random.normal(0, 0.6)) }] : [],
        ),
      },
    ];
    return {
      input: {
        stages,
        checks: [],
        candidates: [{ check: "cold resistances", stage: "wiring", cost_cents, finds: { joint: 1 } }],
        units,
        faults,
        lengths,
        all: true,
        seed: random.integer(1e9),
      },
      said({ saves, rest = [], shorter = [] }) {
        const add = [...saves, ...rest].find(({ what }) => what === "add");
        return [
          ...(add ? [within("saving of a check", add.low_cents - 1, value - cost_cents, add.high_cents + 1)] : []),
          ...shorter
            .filter(({ to }) => to === 24)
            .map(({ low_cents, high_cents }) =>
              within("saving of a shorter one", low_cents - 1, 60 - late * 4000 * Math.exp(0.18), high_cents + 1),
            ),
        ];
      },
    };
  },
});

export const production: readonly Calibration[] = [
  costs,
  keeping,
  lookbacks,
  nexts,
  choices,
  promises,
  soaks,
  whatifs,
  wheres,
];
