import { BadInput, quote } from "../maths/badInput.ts";
import { fCdf } from "../maths/statistics/index.ts";
import { drawnIntervals, type Interval, type Term } from "./gaugeIntervals.ts";

export interface GaugeReading {
  readonly part: string;
  readonly operator: string;
  readonly value: number;
}

export interface GaugeStudy {
  readonly repeatability_sd: number;
  readonly reproducibility_sd: number;
  readonly gauge_sd: number;
  readonly part_sd: number;
  readonly total_sd: number;
  /** Left out where all readings are equal. */
  readonly gauge_pct?: number;
  readonly tolerance_pct?: number;
  readonly interaction: { readonly p: number; readonly pooled: boolean };
  /** 95 % intervals, which few operators make long to one side. */
  readonly interval: Spreads<Interval> & { readonly gauge_pct?: Interval; readonly tolerance_pct?: Interval };
  /** The longer side of each interval. */
  readonly doubt: Spreads<number>;
}

interface Spreads<T> {
  readonly repeatability_sd: T;
  readonly reproducibility_sd: T;
  readonly gauge_sd: T;
  readonly part_sd: T;
}

/** Interaction less likely than this to be chance is kept apart. */
const poolingLimit = 0.25;

/**
 * How much of what is read is the instrument and the hands that hold it.
 *
 *     two-way analysis of variance, p parts × o operators × r trials, crossed and balanced
 *     repeatability²   = MSe                    (with the interaction pooled in where its p > 0.25)
 *     reproducibility² = (MSo − MSi)/(p·r) + (MSi − MSe)/r     (pooled: (MSo − MSe)/(p·r))
 *     part²            = (MSp − MSi)/(o·r)                      (pooled: (MSp − MSe)/(o·r))
 *     gauge_pct        = 100·gauge/total,   tolerance_pct = 600·gauge/tolerance
 *
 * @returns standard deviations in the unit of the readings; a negative component is 0
 * @throws BadInput  fewer than 2 parts, 2 operators or 2 trials, or not the same number of trials throughout
 * @remarks Intervals from what the mean squares leave possible, each by its own chi-squared; of three operators the
 *   upper end lies several times above the estimate, and that is what three operators tell.
 * @source  AIAG, Measurement Systems Analysis, 4th edition, chapter III, ANOVA method (worked figures read);
 *   intervals: M. Hamada and S. Weerahandi, Journal of Quality Technology 32 (2000) 241-253 (from memory)
 */
export function gaugeStudy(readings: readonly GaugeReading[], tolerance?: number): GaugeStudy {
  if (tolerance !== undefined && !(tolerance > 0 && tolerance < Number.POSITIVE_INFINITY)) {
    throw new BadInput("tolerance", quote(tolerance), "above 0", "give the width from the lower to the upper limit");
  }
  const table = balanced(readings);
  const { parts: p, operators: o, trials: r } = table;
  const { part, operator, interaction, error } = meanSquares(table);
  const chance = interactionChance(interaction, error);
  const pooled = chance > poolingLimit;

  const all = interaction.freedom + error.freedom;
  const base = pooled
    ? { ms: (interaction.ms * interaction.freedom + error.ms * error.freedom) / all, freedom: all }
    : error;
  const against = pooled ? base : interaction;
  const atLeast0 = (variance: number) => Math.max(0, variance);
  const byHand = atLeast0((operator.ms - against.ms) / (p * r));
  const byPairing = pooled ? 0 : atLeast0((interaction.ms - error.ms) / r);
  const betweenParts = atLeast0((part.ms - against.ms) / (o * r));

  const gauge = base.ms + byHand + byPairing;
  const repeatability_sd = Math.sqrt(base.ms);
  const reproducibility_sd = Math.sqrt(byHand + byPairing);
  const gauge_sd = Math.sqrt(gauge);
  const part_sd = Math.sqrt(betweenParts);
  const total_sd = Math.sqrt(gauge + betweenParts);
  const isBlind = !(total_sd > 0);

  // Where it is pooled the interaction is never looked at, and drawn alike.
  const terms = { part, operator, base, interaction };
  const intervals = drawnIntervals(terms, (drawn) => {
    const { part, operator, base } = drawn;
    const pairing = pooled ? base : drawn.interaction;
    const hands = (operator - pairing) / (p * r) + (pooled ? 0 : (pairing - base) / r);
    const parts = Math.max(0, (part - pairing) / (o * r));
    return [base, hands, base + hands, parts, (base + hands) / (base + hands + parts)];
  }).map(({ low, high }) => ({ low: Math.sqrt(low), high: Math.sqrt(high) }));
  const [ofRepeatability, ofReproducibility, ofGauge, ofParts, share] = isBlind
    ? Array.from({ length: 5 }, () => ({ low: 0, high: 0 }))
    : intervals;
  const times = (k: number, { low, high }: Interval): Interval => ({ low: k * low, high: k * high });
  const reach = (sd: number, { low, high }: Interval) => Math.max(sd - low, high - sd);
  return {
    repeatability_sd,
    reproducibility_sd,
    gauge_sd,
    part_sd,
    total_sd,
    ...(isBlind ? {} : { gauge_pct: (100 * gauge_sd) / total_sd }),
    ...(tolerance === undefined ? {} : { tolerance_pct: (600 * gauge_sd) / tolerance }),
    interaction: { p: chance, pooled },
    interval: {
      repeatability_sd: ofRepeatability!,
      reproducibility_sd: ofReproducibility!,
      gauge_sd: ofGauge!,
      part_sd: ofParts!,
      ...(isBlind ? {} : { gauge_pct: times(100, share!) }),
      ...(tolerance === undefined ? {} : { tolerance_pct: times(600 / tolerance, ofGauge!) }),
    },
    doubt: {
      repeatability_sd: reach(repeatability_sd, ofRepeatability!),
      reproducibility_sd: reach(reproducibility_sd, ofReproducibility!),
      gauge_sd: reach(gauge_sd, ofGauge!),
      part_sd: reach(part_sd, ofParts!),
    },
  };
}

function interactionChance(interaction: Term, error: Term): number {
  if (error.ms > 0) return 1 - fCdf(interaction.ms / error.ms, interaction.freedom, error.freedom);
  return interaction.ms > 0 ? 0 : 1;
}

interface Table {
  readonly parts: number;
  readonly operators: number;
  readonly trials: number;
  /** By part, operator, trial; less the grand mean. */
  readonly values: Float64Array;
  /** Sums of squares below this are what rounding leaves. */
  readonly grain: number;
}

function meanSquares({ parts, operators, trials, values, grain }: Table) {
  const at = (part: number, operator: number, trial: number) => values[(part * operators + operator) * trials + trial]!;
  const meanOver = (pick: (part: number, operator: number) => boolean) => {
    let [sum, count] = [0, 0];
    for (let part = 0; part < parts; part++)
      for (let operator = 0; operator < operators; operator++)
        if (pick(part, operator))
          for (let trial = 0; trial < trials; trial++) [sum, count] = [sum + at(part, operator, trial), count + 1];
    return sum / count;
  };
  const ofPart = Array.from({ length: parts }, (_, i) => meanOver((part) => part === i));
  const ofOperator = Array.from({ length: operators }, (_, j) => meanOver((_, operator) => operator === j));

  let [pairing, error] = [0, 0];
  for (let i = 0; i < parts; i++) {
    for (let j = 0; j < operators; j++) {
      let cell = 0;
      for (let k = 0; k < trials; k++) cell += at(i, j, k) / trials;
      pairing += trials * (cell - ofPart[i]! - ofOperator[j]!) ** 2;
      for (let k = 0; k < trials; k++) error += (at(i, j, k) - cell) ** 2;
    }
  }
  const squares = (means: readonly number[]) => means.reduce((sum, mean) => sum + mean * mean, 0);
  const term = (sum: number, freedom: number): Term => ({ ms: sum <= grain ? 0 : sum / freedom, freedom });
  return {
    part: term(operators * trials * squares(ofPart), parts - 1),
    operator: term(parts * trials * squares(ofOperator), operators - 1),
    interaction: term(pairing, (parts - 1) * (operators - 1)),
    error: term(error, parts * operators * (trials - 1)),
  };
}

function balanced(readings: readonly GaugeReading[]): Table {
  const parts = [...new Set(readings.map(({ part }) => part))];
  const operators = [...new Set(readings.map(({ operator }) => operator))];
  if (parts.length < 2) throw tooFew("parts", parts.length);
  if (operators.length < 2) throw tooFew("operators", operators.length);

  const partAt = new Map(parts.map((part, i) => [part, i]));
  const operatorAt = new Map(operators.map((operator, j) => [operator, j]));
  const cells: number[][] = Array.from({ length: parts.length * operators.length }, () => []);
  readings.forEach(({ part, operator, value }, i) => {
    if (!Number.isFinite(value)) {
      throw new BadInput(`readings[${i}].value`, quote(value), "a finite number", "take it out or read again");
    }
    cells[partAt.get(part)! * operators.length + operatorAt.get(operator)!]!.push(value);
  });
  const trials = Math.max(...cells.map((cell) => cell.length));
  const short = cells.findIndex((cell) => cell.length !== trials);
  if (short >= 0) {
    const name = `${operators[short % operators.length]} on ${parts[Math.floor(short / operators.length)]}`;
    throw new BadInput(
      "readings",
      `${cells[short]!.length} by ${name}, ${trials} elsewhere`,
      "the same number of readings of every part by every operator",
      "add the missing readings or leave out the surplus",
    );
  }
  if (trials < 2) throw tooFew("readings of each part by each operator", trials);

  const first = readings[0]!.value;
  const largest = readings.reduce((most, { value }) => Math.max(most, Math.abs(value)), 0);
  const values = Float64Array.from(cells.flat(), (value) => value - first);
  const grand = values.reduce((sum, value) => sum + value / values.length, 0);
  return {
    parts: parts.length,
    operators: operators.length,
    trials,
    values: values.map((value) => value - grand),
    grain: values.length * (8 * Number.EPSILON * largest) ** 2,
  };
}

function tooFew(what: string, count: number): BadInput {
  return new BadInput(
    "readings",
    `${count} ${what}`,
    "at least 2",
    "widen the study; ten parts, three operators and two or three trials are usual",
  );
}
