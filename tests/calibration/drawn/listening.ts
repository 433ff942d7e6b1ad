import blind from "../../../src/calculations/listening.blind.ts";
import design from "../../../src/calculations/listening.design.ts";
import level from "../../../src/calculations/listening.level.ts";
import pairs from "../../../src/calculations/listening.pairs.ts";
import { type Choice, rankPairs } from "../../../src/listening/index.ts";
import type { Random } from "../../../src/maths/random.ts";
import { type Calibration, calibrated, near, odds, type Said, within } from "../trial.ts";
import { between, binomial, decades, pick, times } from "./chance.ts";

/** source: listeners drawn at even odds as guessing or as hearing with any share above guessing. */
const blinds = calibrated(blind, {
  drawn: "5 to 60 trials with 2 to 4 choices; half of the listeners guess, the others hear with any share above it",
  draw(random) {
    const trials = 5 + random.integer(56);
    const chance = 1 / (2 + random.integer(3));
    const hears = random.uniform() < 0.5;
    const share = hears ? between(random, chance, 1) : chance;
    const heard = between(random, chance + 0.1, 0.99);
    return {
      input: { trials, right: binomial(random, trials, share), chance, heard },
      said: (read) => [
        odds("odds for hearing", read.odds / (1 + read.odds), hears),
        within("share right", read.share.low, share, read.share.high, { atLeast: true }),
        ...(hears ? [] : [{ what: "p over 0.05 of who guesses", stated: 0.95, isTrue: read.p > 0.05, atLeast: true }]),
        odds("power", read.power, binomial(random, trials, heard) >= (read.needed ?? Infinity)),
      ],
    };
  },
});

/** source: such a trial held, by a listener of that share and by one who guesses. */
const designs = calibrated(design, {
  drawn:
    "listeners worth finding of 10 to 45 points over guessing among 2 to 4 choices, false alarms of 1 to 10 %, power of 70 to 95 %",
  draw(random) {
    const chance = 1 / (2 + random.integer(3));
    const heard = chance + between(random, 0.1, 0.45);
    const [falseAlarm, power] = [pick(random, [0.01, 0.05, 0.1]), pick(random, [0.7, 0.8, 0.9, 0.95])];
    return {
      input: { heard, chance, falseAlarm, power },
      said: (read) => [
        odds("falseAlarm", read.falseAlarm, binomial(random, read.trials, chance) >= read.needed),
        odds("power", read.power, binomial(random, read.trials, heard) >= read.needed),
      ],
    };
  },
});

/** source: levels read with an error that both share and one of their own. */
const levels = calibrated(level, {
  drawn:
    "one to four pairs of readings with doubts of 0.01 to 0.5 dB, of which up to nine tenths are the same error in both; differences of up to 0.3 dB",
  draw(random) {
    const truth_dB = between(random, -0.3, 0.3);
    const doubt_dB = decades(random, -2, -0.3);
    const shared_dB = doubt_dB * between(random, 0, 0.9);
    const own_dB = Math.sqrt(doubt_dB ** 2 - shared_dB ** 2);
    const count = 1 + random.integer(4);
    const made = times(count, (i) => {
      const [first, shared] = [between(random, -40, 10), random.normal(0, shared_dB / 1.96)];
      const read = (true_dB: number) => true_dB + shared + random.normal(0, own_dB / 1.96);
      return { at: `${i}`, first_dB: read(first), second_dB: read(first + truth_dB), doubt_dB, shared_dB };
    });
    return {
      input: { pairs: made },
      said: (read) => [
        ...read.pairs.map((pair) => near("difference_dB", pair.difference_dB, pair.doubt_dB, truth_dB)),
        near("trim_dB", read.trim_dB, read.trimDoubt_dB, -truth_dB, { atLeast: true }),
      ],
    };
  },
});

const items = ["0", "1", "2", "3"];

interface Panel {
  readonly abilities: readonly number[];
  /** Spread of each listener's own taste, in the logarithm of the odds. */
  readonly taste: number;
  /** Logarithm of the odds for what is played first; none where the order is not told. */
  readonly habit?: number;
}

const logistic = (x: number) => 1 / (1 + Math.exp(-x));

function choicesOf(random: Random, { abilities, taste, habit }: Panel, listeners: number, rounds: number): Choice[] {
  return times(listeners, (l) => l).flatMap((l) => {
    const own = abilities.map((ability) => ability + random.normal(0, taste));
    return items.flatMap((_, i) =>
      items.slice(i + 1).flatMap((_, k) => {
        const j = i + 1 + k;
        return times(rounds, (round): Choice => {
          const isFirst = round % 2 === 0;
          const lead = own[i]! - own[j]! + (habit === undefined ? 0 : isFirst ? habit : -habit);
          const wins = random.uniform() < logistic(lead);
          return {
            winner: items[wins ? i : j]!,
            loser: items[wins ? j : i]!,
            ...(taste > 0 && { listener: `${l}` }),
            ...(habit !== undefined && { first: items[isFirst ? i : j]! }),
          };
        });
      }),
    );
  });
}

/**
 * What a panel without end comes to: each pair's share by quadrature over tastes, a million choices of each. Without
 * tastes and order that is the exponentials of the abilities.
 */
function endless({ abilities, taste, habit }: Panel) {
  const million = 1e6;
  const shareOf = (lead: number) => {
    const steps = 200;
    let [sum, weight] = [0, 0];
    for (let s = 0; s <= steps; s++) {
      const z = -5 + (10 * s) / steps;
      const w = Math.exp(-(z ** 2) / 2);
      sum += w * logistic(lead + Math.SQRT2 * taste * z);
      weight += w;
    }
    return sum / weight;
  };
  const choices = items.flatMap((_, i) =>
    items.slice(i + 1).flatMap((_, k) => {
      const j = i + 1 + k;
      return (habit === undefined ? [undefined] : [true, false]).flatMap((isFirst): Choice[] => {
        const lead = abilities[i]! - abilities[j]! + (isFirst === undefined ? 0 : isFirst ? habit! : -habit!);
        const wins = Math.round(million * shareOf(lead));
        const first = isFirst === undefined ? {} : { first: items[isFirst ? i : j]! };
        return [
          { winner: items[i]!, loser: items[j]!, times: wins, ...first },
          { winner: items[j]!, loser: items[i]!, times: million - wins, ...first },
        ];
      });
    }),
  );
  const limit = rankPairs(choices);
  if (limit.state !== "solved") throw new Error("an endless panel that ranks nothing");
  return {
    strengths: new Map(limit.ranking.map(({ item, strength }) => [item, strength])),
    odds: limit.order?.state === "solved" ? limit.order.odds : undefined,
  };
}

/** source: panels drawn by the law of choice, about what a panel without end comes to. */
const panels = calibrated(pairs, {
  drawn:
    "four items of strengths up to six times apart; 6 to 16 listeners of their own taste or of one mind, 4 to 8 choices of each pair, the order told in a third, with a liking for the first of odds 0.6 to 2",
  suite: 120,
  why: "each draw needs what a panel without end comes to",
  draw(random) {
    const panel: Panel = {
      abilities: items.map(() => between(random, -0.9, 0.9)),
      taste: pick(random, [0, 0, 0.4, 0.8]),
      ...(random.uniform() < 1 / 3 && { habit: between(random, -0.5, 0.7) }),
    };
    const limit = endless(panel);
    const kind = panel.taste > 0 ? "listeners told apart" : "of one mind";
    return {
      input: { choices: choicesOf(random, panel, 6 + random.integer(11), 4 + 2 * random.integer(3)) },
      said({ state, ranking, order }): Said[] {
        if (state !== "solved") return [];
        return [
          ...ranking.map(({ item, low, high }) => within(`strength, ${kind}`, low, limit.strengths.get(item)!, high)),
          ...(order?.state === "solved" ? [within("odds of the first", order.low!, limit.odds!, order.high!)] : []),
        ];
      },
    };
  },
});

export const listening: readonly Calibration[] = [blinds, designs, levels, panels];
