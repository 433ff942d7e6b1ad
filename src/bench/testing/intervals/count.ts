import type { Stated } from "./draw.ts";

/** How often one figure's interval held the truth. */
export interface Counted {
  readonly what: string;
  readonly held: number;
  readonly count: number;
  /** 95 % interval of the share (Wilson). */
  readonly low: number;
  readonly high: number;
  readonly misses: readonly Stated[];
}

const isHeld = ({ value, truth, doubt }: Stated) => Math.abs(value - truth) <= doubt;

/** Figures of the same name counted together, in the order in which they first came. */
export function countStated(stated: readonly Stated[]): Counted[] {
  const names = [...new Set(stated.map(({ what }) => what))];
  return names.map((what) => {
    const of = stated.filter((one) => one.what === what);
    const misses = of.filter((one) => !isHeld(one));
    return countedAs(what, of.length - misses.length, of.length, misses);
  });
}

function countedAs(what: string, held: number, count: number, misses: readonly Stated[]): Counted {
  return { what, held, count, ...wilson(held, count), misses };
}

/** What was counted before, and more of the same. */
export function addedTo(
  before: readonly Pick<Counted, "what" | "held" | "count">[],
  more: readonly Counted[],
): Counted[] {
  const names = new Set([...before, ...more].map(({ what }) => what));
  return [...names].map((what) => {
    const of = [...before, ...more].filter((one) => one.what === what);
    const sum = (key: "held" | "count") => of.reduce((total, one) => total + one[key], 0);
    const misses = more.flatMap((one) => (one.what === what ? one.misses : []));
    return countedAs(what, sum("held"), sum("count"), misses);
  });
}

/** @source E. B. Wilson, JASA 22 (1927), the score interval (remembered) */
function wilson(held: number, count: number): { low: number; high: number } {
  const z = 1.96;
  const share = held / count;
  const middle = (share + z ** 2 / (2 * count)) / (1 + z ** 2 / count);
  const half = (z * Math.sqrt((share * (1 - share)) / count + z ** 2 / (4 * count ** 2))) / (1 + z ** 2 / count);
  return { low: middle - half, high: middle + half };
}

const [least, most] = [0.93, 0.97];

export function verdictOn({ held, count, low, high }: Counted): string {
  const share = held / count;
  if (share >= least && share <= most) return "yes";
  return high < least || low > most ? "no" : "not told apart by so few";
}
