import { answer } from "../../src/calculations/answer.ts";
import { chanceOfAtLeast } from "../../src/listening/binomial.ts";
import { BadInput, quote } from "../../src/maths/badInput.ts";
import { randomStream } from "../../src/maths/random.ts";
import { shareInterval } from "../../src/maths/statistics/index.ts";
import type { Calibration, Recordings, Said } from "./trial.ts";

/** How often one kind of thing that a calculation says came true. */
export interface Count {
  readonly of: string;
  readonly what: string;
  readonly isTrue: number;
  readonly count: number;
  /** Mean of what was said. */
  readonly stated: number;
  readonly atLeast: boolean;
  readonly isOdds: boolean;
  /** Numbers of the draws in which it did not. */
  readonly misses: readonly number[];
}

/** Odds are counted together when they were about as high. */
const steps = [0, 0.05, 0.2, 0.5, 0.8, 0.95, 1];

function groupOf({ what, stated, isOdds }: Said): string {
  if (!isOdds) return what;
  const i = Math.min(
    steps.length - 2,
    steps.findLastIndex((step) => stated >= step),
  );
  return `${what}, said ${100 * steps[i]!} to ${100 * steps[i + 1]!} %`;
}

/** Asks the published calculation. */
export async function askPublished(name: string, input: unknown, recordings: Recordings = {}): Promise<unknown> {
  const given = await answer(name, input, {
    recording(path, field) {
      const found = recordings[path];
      if (!found) throw new BadInput(field, quote(path), "there is no such recording", "name one that was made");
      return found;
    },
  });
  if (!given.ok) throw new Error(`${name} refused a drawn question: ${given.error.message}`);
  return given.output;
}

/** What one draw said, of each kind one thing. */
export interface Draw {
  /** Its number. */
  readonly draw: number;
  readonly said: readonly (readonly [kind: string, said: Said])[];
}

/**
 * Puts one fresh question to a published calculation. Of several things of one kind in its answer, one is taken by lot,
 * so that draws are independent and binomial chance holds.
 *
 * @param draw  its number; a draw follows from calculation, seed and number alone
 */
export async function oneDraw({ of, draw: ask }: Calibration, seed: string, draw: number): Promise<Draw> {
  const random = randomStream(`${of} ${seed} ${draw}`);
  const trial = ask(random);
  if (!trial) return { draw, said: [] };
  const answer = (input: unknown, recordings = trial.recordings) => askPublished(of, input, recordings);
  const all = await trial.said(await answer(trial.input), answer);
  const lot = random.fork("lot");
  const kinds = new Map<string, Said[]>();
  for (const said of all) kinds.set(groupOf(said), [...(kinds.get(groupOf(said)) ?? []), said]);
  return { draw, said: [...kinds].map(([kind, several]) => [kind, several[lot.integer(several.length)]!]) };
}

/** How often each kind of thing that a calculation said in these draws came true. */
export function countsOf(of: string, draws: readonly Draw[]): readonly Count[] {
  const kinds = new Map<string, { said: Said; draw: number }[]>();
  for (const { draw, said: all } of draws.toSorted((a, b) => a.draw - b.draw)) {
    for (const [kind, said] of all) kinds.set(kind, [...(kinds.get(kind) ?? []), { said, draw }]);
  }
  return [...kinds].map(([what, all]) => ({
    of,
    what,
    isTrue: all.filter(({ said }) => said.isTrue).length,
    count: all.length,
    stated: all.reduce((sum, { said }) => sum + said.stated / all.length, 0),
    atLeast: all.some(({ said }) => said.atLeast),
    isOdds: all.some(({ said }) => said.isOdds),
    misses: all.filter(({ said }) => !said.isTrue).map(({ draw }) => draw),
  }));
}

/** Makes so many draws, one after another, and counts. */
export async function countDraws(calibration: Calibration, draws: number, seed: string): Promise<readonly Count[]> {
  const made: Draw[] = [];
  for (let draw = 0; draw < draws; draw++) made.push(await oneDraw(calibration, seed, draw));
  return countsOf(calibration.of, made);
}

/**
 * How far the true share may lie from what is said: 93 to 97 for 95, 72 to 88 for 80, 98.6 to 99.4 for 99; odds near a
 * half by 0.05.
 */
export function roomOf({ stated, atLeast }: Pick<Count, "stated" | "atLeast">) {
  const room = Math.min(0.4 * (1 - stated), 0.4 * stated, 0.05);
  return { low: stated - room, high: atLeast ? 1 : stated + room };
}

/**
 * Chance of a count as far off as this one or farther, were the true share just within its room.
 *
 * @remarks Odds that differ from draw to draw spread less than a binomial of their mean, so this is on the safe side
 *   (W. Hoeffding, Ann. Math. Statist. 27, 1956, from memory).
 */
export function chanceOf(count: Count): number {
  const { low, high } = roomOf(count);
  const tooFew = 1 - chanceOfAtLeast(count.isTrue + 1, count.count, low);
  const tooMany = high >= 1 ? 1 : chanceOfAtLeast(count.isTrue, count.count, high);
  return Math.min(tooFew, tooMany);
}

/** What the count tells of the share: within its room, outside beyond chance, or neither. */
export function verdictOn(count: Count): "yes" | "no" | "too few to tell" {
  const { low, high } = roomOf(count);
  const interval = shareInterval(count.isTrue, count.count);
  if (interval.high < low || interval.low > high) return "no";
  const share = count.isTrue / count.count;
  return share >= low && share <= high ? "yes" : "too few to tell";
}
