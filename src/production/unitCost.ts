import { BadInput, quote } from "../maths/badInput.ts";
import { type Random, randomStream } from "../maths/random.ts";
import { summary } from "../maths/statistics/index.ts";
import { type Counted, softened } from "./odds.ts";
import type { Spread } from "./shop.ts";

export interface BoughtPart {
  readonly part: string;
  readonly count: number;
  readonly cost_cents: number;
  /** Share thrown away before one is good. */
  readonly scrap?: number;
}

export interface WorkStep {
  readonly step: string;
  readonly skill: string;
  readonly hours: Spread;
  /** Odds that it must be put right and done again, with the hours that putting right takes. */
  readonly rework?: { readonly odds: number | Counted; readonly hours: number; readonly parts_cents?: number };
}

export interface UnitCostInput {
  readonly parts: readonly BoughtPart[];
  readonly steps: readonly WorkStep[];
  readonly hour_cents: Readonly<Record<string, number>>;
  readonly price_cents?: number;
  readonly runs?: number;
  readonly seed?: number | string;
}

export interface Spent {
  readonly mean_cents: number;
  readonly p05_cents: number;
  readonly p50_cents: number;
  readonly p80_cents: number;
  readonly p95_cents: number;
}

export interface UnitCost {
  readonly cost: Spent;
  readonly parts: Spent;
  /** Hands, the first time through. */
  readonly work: Spent;
  /** Hands and parts of doing again. */
  readonly rework: Spent;
  /** Parts thrown away. */
  readonly scrap: Spent;
  readonly bySkill: readonly { readonly skill: string; readonly mean_h: number; readonly mean_cents: number }[];
  /** What is left of the price. */
  readonly margin?: Spent & { readonly oddsOfLoss: number };
  /** 95 % half-width of the mean cost, from the number of runs. */
  readonly doubt: { readonly mean_cents: number };
}

const mostTimes = 50;

/**
 * What a unit costs, as a distribution: parts, hands by skill, what is done again and what is thrown away.
 *
 *     mean of a part = count·cost/(1 − s)
 *     mean of a step = rate·(h + p/(1 − p)·(h + repair)) + p/(1 − p)·parts
 *
 * Each part is thrown away with odds s before one is good; hours h are drawn from a triangle, and with odds p a step is
 * put right and done again.
 *
 * @returns whole cents
 * @throws BadInput  a skill without a rate, odds of 1, a negative cost, with the part or step concerned
 * @remarks Odds given as counts are softened as in `softened`; their own doubt is not in the spread. What is done again
 *   is drawn until it passes.
 */
export function unitCost(input: UnitCostInput): UnitCost {
  const { parts, steps, hour_cents, price_cents, runs = 4000, seed = 1 } = input;
  if (!(Number.isInteger(runs) && runs >= 100 && runs <= 200_000)) {
    throw new BadInput(
      "runs",
      quote(runs),
      "a whole number, 100 to 200000",
      "4000 settles the figures to about a percent",
    );
  }
  const bought = parts.map(readPart);
  const work = steps.map((step, i) => readStep(step, i, hour_cents));
  const chance = randomStream(seed);
  const sums = {
    cost: series(runs),
    parts: series(runs),
    work: series(runs),
    rework: series(runs),
    scrap: series(runs),
  };
  const skills = new Map<string, { hours: number; cents: number }>();
  for (let run = 0; run < runs; run++) {
    let [p, w, r, s] = [0, 0, 0, 0];
    for (const { count, cost_cents, scrap } of bought) {
      p += count * cost_cents;
      for (let i = 0; i < count && scrap > 0; i++) s += cost_cents * failures(chance, scrap);
    }
    for (const { skill, hours, rate, odds, repair_h, repair_cents } of work) {
      const once_h = chance.triangle(hours.fast, hours.usual, hours.slow);
      w += once_h * rate;
      let again_h = 0;
      for (let times = failures(chance, odds()); times > 0; times--) {
        const more_h = repair_h + chance.triangle(hours.fast, hours.usual, hours.slow);
        again_h += more_h;
        r += more_h * rate + repair_cents;
      }
      const known = skills.get(skill) ?? { hours: 0, cents: 0 };
      skills.set(skill, { hours: known.hours + once_h + again_h, cents: known.cents + (once_h + again_h) * rate });
    }
    sums.parts[run] = p;
    sums.work[run] = w;
    sums.rework[run] = r;
    sums.scrap[run] = s;
    sums.cost[run] = p + w + r + s;
  }
  const margin = price_cents === undefined ? undefined : sums.cost.map((cost) => price_cents - cost);
  return {
    doubt: { mean_cents: (1.96 * summary(sums.cost).sd) / Math.sqrt(runs) },
    cost: spentOf(sums.cost),
    parts: spentOf(sums.parts),
    work: spentOf(sums.work),
    rework: spentOf(sums.rework),
    scrap: spentOf(sums.scrap),
    bySkill: [...skills].map(([skill, { hours, cents }]) => ({
      skill,
      mean_h: hours / runs,
      mean_cents: Math.round(cents / runs),
    })),
    ...(margin === undefined
      ? {}
      : { margin: { ...spentOf(margin), oddsOfLoss: margin.filter((left) => left < 0).length / runs } }),
  };
}

const series = (runs: number) => new Float64Array(runs);

/** How often it fails before it passes. */
function failures(chance: Random, odds: number): number {
  let times = 0;
  while (odds > 0 && times < mostTimes && chance.uniform() < odds) times++;
  return times;
}

function spentOf(values: Float64Array): Spent {
  const sorted = values.slice().sort();
  const at = (q: number) =>
    Math.round(sorted[Math.min(sorted.length - 1, Math.max(0, Math.ceil(q * sorted.length) - 1))]!);
  return {
    mean_cents: Math.round(values.reduce((sum, value) => sum + value, 0) / values.length),
    p05_cents: at(0.05),
    p50_cents: at(0.5),
    p80_cents: at(0.8),
    p95_cents: at(0.95),
  };
}

function readPart({ part, count, cost_cents, scrap = 0 }: BoughtPart, i: number) {
  const path = `parts[${i}]`;
  if (!(Number.isInteger(count) && count >= 1 && count <= 10_000)) {
    throw new BadInput(
      `${path}.count`,
      `${quote(count)} of ${quote(part)}`,
      "a whole number, 1 to 10000",
      "count them",
    );
  }
  if (!(Number.isInteger(cost_cents) && cost_cents >= 0)) {
    throw new BadInput(
      `${path}.cost_cents`,
      `${quote(cost_cents)} of ${quote(part)}`,
      "whole cents, 0 or more",
      "round it",
    );
  }
  if (!(scrap >= 0 && scrap <= 0.95)) {
    throw new BadInput(`${path}.scrap`, `${quote(scrap)} of ${quote(part)}`, "0 to 0.95", "0.05 for one in twenty");
  }
  return { count, cost_cents, scrap };
}

function readStep({ step, skill, hours, rework }: WorkStep, i: number, hour_cents: UnitCostInput["hour_cents"]) {
  const path = `steps[${i}]`;
  const rate = Object.hasOwn(hour_cents, skill) ? hour_cents[skill] : undefined;
  if (rate === undefined || !(rate >= 0)) {
    throw new BadInput(
      `hour_cents.${skill}`,
      rate === undefined ? `nothing, and ${quote(step)} needs it` : quote(rate),
      "cents an hour, 0 or more",
      `say what an hour of ${skill} costs`,
    );
  }
  const { fast, usual, slow } = hours;
  if (!(fast >= 0 && fast <= usual && usual <= slow && slow <= 1e5)) {
    throw new BadInput(
      `${path}.hours`,
      `${fast}, ${usual}, ${slow} of ${quote(step)}`,
      "fast ≤ usual ≤ slow",
      "exchange them",
    );
  }
  return { skill, hours, rate, ...readRework(rework, path, step) };
}

function readRework(rework: WorkStep["rework"], path: string, step: string) {
  if (rework === undefined) return { odds: () => 0, repair_h: 0, repair_cents: 0 };
  const { odds, hours, parts_cents = 0 } = rework;
  const counted = typeof odds === "number" ? odds : softened(odds, `${path}.rework.odds`).odds;
  if (!(counted >= 0 && counted < 1)) {
    throw new BadInput(
      `${path}.rework.odds`,
      `${quote(odds)} of ${quote(step)}`,
      "0 up to, not including, 1",
      "what always fails is never done",
    );
  }
  if (!(hours >= 0 && parts_cents >= 0))
    throw new BadInput(`${path}.rework.hours`, quote(hours), "0 or more", "give hours");
  return { odds: () => counted, repair_h: hours, repair_cents: parts_cents };
}
