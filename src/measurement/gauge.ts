import { BadInput, quote } from "../maths/badInput.ts";
import { fCdf } from "../maths/statistics/index.ts";

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
  /** 95 % half-widths. */
  readonly doubt: {
    readonly repeatability_sd: number;
    readonly reproducibility_sd: number;
    readonly gauge_sd: number;
    readonly part_sd: number;
  };
}

/** Interaction less likely than this to be chance is kept apart. */
const poolingLimit = 0.25;

/** A mean square, its degrees of freedom, and its weight in a component of variance. */
interface Term {
  readonly ms: number;
  readonly freedom: number;
}

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
 * @remarks Doubt by the delta method from the mean squares, each with variance 2·MS²/f: rough where an operator's or
 *   a part's component rests on two or three of them.
 * @source  AIAG, Measurement Systems Analysis, 4th edition, chapter III, ANOVA method (worked figures read)
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
  const repeatability = component([[base, 1]]);
  const byHand = component([
    [operator, 1 / (p * r)],
    [against, -1 / (p * r)],
  ]);
  const byPairing = pooled
    ? nothing
    : component([
        [interaction, 1 / r],
        [error, -1 / r],
      ]);
  const betweenParts = component([
    [part, 1 / (o * r)],
    [against, -1 / (o * r)],
  ]);

  const reproducibility = together([byHand, byPairing]);
  const gauge = together([repeatability, reproducibility]);
  const gauge_sd = Math.sqrt(gauge.variance);
  const total_sd = Math.sqrt(gauge.variance + betweenParts.variance);
  return {
    repeatability_sd: Math.sqrt(repeatability.variance),
    reproducibility_sd: Math.sqrt(reproducibility.variance),
    gauge_sd,
    part_sd: Math.sqrt(betweenParts.variance),
    total_sd,
    ...(total_sd > 0 ? { gauge_pct: (100 * gauge_sd) / total_sd } : {}),
    ...(tolerance === undefined ? {} : { tolerance_pct: (600 * gauge_sd) / tolerance }),
    interaction: { p: chance, pooled },
    doubt: {
      repeatability_sd: doubtOfSd(repeatability),
      reproducibility_sd: doubtOfSd(reproducibility),
      gauge_sd: doubtOfSd(gauge),
      part_sd: doubtOfSd(betweenParts),
    },
  };
}

interface Component {
  readonly variance: number;
  /** Standard deviation of that variance. */
  readonly spread: number;
}

const nothing: Component = { variance: 0, spread: 0 };

function component(terms: readonly (readonly [Term, number])[]): Component {
  const variance = terms.reduce((sum, [{ ms }, weight]) => sum + weight * ms, 0);
  const spread = Math.hypot(...terms.map(([{ ms, freedom }, weight]) => weight * ms * Math.sqrt(2 / freedom)));
  return { variance: Math.max(0, variance), spread };
}

function together(parts: readonly Component[]): Component {
  return {
    variance: parts.reduce((sum, part) => sum + part.variance, 0),
    spread: Math.hypot(...parts.map((part) => part.spread)),
  };
}

/** From the variance to its root: by the slope where it is well known, else up to the root of its upper bound. */
function doubtOfSd({ variance, spread }: Component): number {
  return Math.sqrt(variance + 1.96 * spread) - Math.sqrt(variance);
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
