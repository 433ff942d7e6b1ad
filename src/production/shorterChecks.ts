import { BadInput, quote } from "../maths/badInput.ts";
import { type Random, randomStream } from "../maths/random.ts";
import { drawBeta } from "./draws.ts";
import { meanLossDraws } from "./meanLoss.ts";

/** A check that takes a length, hours or readings, and when in it faults showed. */
export interface LongCheck {
  readonly check: string;
  /** How long it is today, in hours or in readings. */
  readonly length: number;
  /** It can be made so much shorter at a time: a day where pieces are taken off once a day, one reading. */
  readonly step: number;
  /** What one hour, or one reading, costs a piece. */
  readonly cents_per_step: number;
  /** Pieces that went through the whole length, with and without faults. */
  readonly pieces: number;
  /** Of each fault that showed in it: by when, and how much dearer it is where it would be found instead. */
  readonly shown: readonly { readonly by: number; readonly later_cents: number }[];
}

export interface Shorter {
  readonly check: string;
  readonly from: number;
  readonly to: number;
  /** Mean saving a piece, with its 95 % interval. */
  readonly saving_cents: number;
  readonly low_cents: number;
  readonly high_cents: number;
  readonly pieces: number;
  /** Faults that showed in the part left out, of all that showed. */
  readonly missed: number;
  readonly shown: number;
  readonly state: "saves" | "costs" | "undecided";
}

const draws = 2000;
const mostLengths = 200;

/**
 * Which shorter length of a check pays, from when in it faults showed.
 *
 *     saving a piece = (length − t)·cents_per_step/step − (loss of what showed after t)/pieces
 *
 * The loss is drawn: how many escape by Jeffreys' prior, also where none showed after t, since what has not escaped may;
 * what one costs by those that escaped, the
 * others counting as one of them (of fewer than five by `meanLossDraws`). Of all lengths t the one with the highest lower end is told.
 *
 * @returns one answer a check that is longer than a step; `undecided` where its interval holds 0, `costs` where every shorter one costs for certain
 * @throws BadInput  a length, step or count that does not fit, with the check
 * @remarks What would have shown later than the whole length is not in the records, and is the same for all lengths.
 */
export function shorterChecks(checks: readonly LongCheck[], seed: number | string = 1): readonly Shorter[] {
  const chance = randomStream(seed);
  return checks.flatMap((check, i) => {
    requireSensible(check, `lengths[${i}]`);
    const { length, step, cents_per_step, pieces, shown } = check;
    const typical =
      shown.length === 0 ? cents_per_step : mean(shown.map(({ later_cents }) => Math.max(1, later_cents)));
    const count = Math.ceil(length / step - 1e-9);
    // One step at least is left: to do without it altogether is another question.
    const lengths = Array.from({ length: count - 1 }, (_, k) => Number(((k + 1) * step).toPrecision(12)));
    if (lengths.length === 0) return [];
    const tried = lengths.map((to) => {
      const escaped = shown.filter(({ by }) => by > to);
      const losses = escaped.map(({ later_cents }) => Math.max(1, later_cents));
      const rest = shown.filter(({ by }) => by <= to).map(({ later_cents }) => Math.max(1, later_cents));
      const own = chance.fork(`${check.check} ${to}`);
      const lost = (
        shown.length < fewestSizes
          ? meanLossDraws(losses, pieces, typical, own, draws)
          : escapes(losses, rest, pieces, own)
      ).sort();
      const spared = ((length - to) / step) * cents_per_step;
      const low = spared - lost[Math.ceil(0.975 * draws) - 1]!;
      const high = spared - lost[Math.floor(0.025 * draws)]!;
      return {
        check: check.check,
        from: length,
        to,
        saving_cents: Math.round(spared - losses.reduce((sum, loss) => sum + loss, 0) / pieces),
        low_cents: Math.round(low),
        high_cents: Math.round(high),
        pieces,
        missed: escaped.length,
        shown: shown.length,
        state: low > 0 ? "saves" : high < 0 ? "costs" : "undecided",
      } satisfies Shorter;
    });
    return [tried.reduce((best, one) => (one.low_cents > best.low_cents ? one : best))];
  });
}

/** Of fewer faults the size of one is as good as unknown. */
const fewestSizes = 5;

/** What shows late may be dearer than what shows early: the early ones' sizes count as so many late ones. */
const alike = 1;

/**
 * Share of pieces whose fault would escape (Jeffreys' prior), times the mean size of one, ln-normal about those that
 * escaped, drawn towards the rest.
 */
function escapes(escaped: readonly number[], rest: readonly number[], pieces: number, chance: Random): Float64Array {
  const [own, others] = [escaped.map(Math.log), rest.map(Math.log)];
  const of = (logs: readonly number[]) => logs.reduce((sum, x) => sum + (x - mean(logs)) ** 2, 0);
  const groups = [own, others].filter(({ length }) => length > 0);
  const variance = groups.reduce((sum, logs) => sum + of(logs), 0) / (own.length + others.length - groups.length);
  const guess = others.length > 0 ? alike : 0;
  const weight = own.length + guess;
  const middle = (own.reduce((sum, x) => sum + x, 0) + guess * (guess > 0 ? mean(others) : 0)) / weight;
  return Float64Array.from({ length: draws }, () => {
    const share = drawBeta(chance, escaped.length + 0.5, pieces - escaped.length + 0.5);
    return share * Math.exp(chance.normal(middle, Math.sqrt(variance / weight)) + variance / 2);
  });
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value / values.length, 0);

function requireSensible({ check, length, step, cents_per_step, pieces, shown }: LongCheck, path: string): void {
  const called = `of ${quote(check)}`;
  if (!(length > 0 && length < Number.POSITIVE_INFINITY)) {
    throw new BadInput(`${path}.length`, `${quote(length)} ${called}`, "above 0", "give how long the check is today");
  }
  if (!(step > 0 && step <= length && length / step <= mostLengths)) {
    throw new BadInput(
      `${path}.step`,
      `${quote(step)} ${called}`,
      `above 0, at most its length ${length}, and at most ${mostLengths} steps`,
      "give by how much it can be made shorter at a time",
    );
  }
  if (!(cents_per_step >= 0)) {
    throw new BadInput(`${path}.cents_per_step`, `${quote(cents_per_step)} ${called}`, "0 or more", "in cents");
  }
  if (!(Number.isInteger(pieces) && pieces >= Math.max(1, shown.length))) {
    throw new BadInput(
      `${path}.pieces`,
      `${quote(pieces)} ${called}`,
      `a whole number, at least the ${shown.length} that showed a fault`,
      "count all pieces that went through it",
    );
  }
  shown.forEach(({ by, later_cents }, i) => {
    if (!(by >= 0 && by <= length)) {
      throw new BadInput(
        `${path}.shown[${i}].by`,
        `${quote(by)} ${called}`,
        `0 to its length ${length}`,
        "what showed after the check was over belongs to another",
      );
    }
    if (!Number.isFinite(later_cents)) {
      throw new BadInput(`${path}.shown[${i}].later_cents`, quote(later_cents), "a finite number", "in cents");
    }
  });
}
