import type { Bands, Estimate } from "./estimate.ts";
import { type Hands, whenThere } from "./hands.ts";

/** The weighing that would narrow most. */
export interface NextWeighing {
  readonly hour: number;
  readonly why: string;
  /** 95 % half-widths before and after: hours to the target where it is known when, else percent of moisture. */
  readonly of: "hoursToTarget" | "moisture";
  readonly before: number;
  readonly after: number;
  /** Nats that the weighing is expected to tell about it. */
  readonly information: number;
}

/** Hours at which it might be weighed, in order, where they begin among those that the bands answer for, and its segment. */
export interface Candidates {
  readonly hours: readonly number[];
  readonly first: number;
  readonly segment: number;
}

/**
 * Two dozen hours from now until some hour, each put off until someone is there, none twice.
 *
 * @returns one at least: where nobody comes before that hour, the next at which someone does
 */
export function candidateHours(now_h: number, until_h: number, hands?: Hands): number[] {
  const ahead_h = until_h - now_h;
  const even = Array.from({ length: 24 }, (_, i) => now_h + (ahead_h * (i + 1)) / 24);
  const there = [...new Set(even.map((hour) => whenThere(hour, hands)))];
  const inTime = there.filter((hour) => hour <= until_h + 1e-9);
  return inTime.length > 0 ? inTime : there.slice(0, 1);
}

/** How far ahead a weighing is looked for where nothing ends sooner: to the end of the plan, a day to sixty. */
export function weighingsUntil_h(now_h: number, total_h: number): number {
  return now_h + Math.max(24, Math.min(total_h - now_h, 24 * 60));
}

const z975 = 1.959963984540054;

/**
 * When the piece is best weighed next.
 *
 *     after a weighing at t:  variance·(1 − ρ²),   ρ = correlation of the mass then with what is asked, balance counted
 *     earliest hour that tells nine tenths of the most that any tells
 *
 * @remarks By the directions of doubt of the fit; linear in them. Nothing where nothing is doubted.
 */
export function nextWeighing(
  { model, dry_g, excess }: Estimate,
  bands: Bands,
  { hours, first, segment }: Candidates,
): NextWeighing | undefined {
  const isHeavy = (model.dry[segment]?.sd ?? 0) > 0 || model.observations.length > 0;
  if (dry_g[segment] === undefined || !isHeavy) return undefined;
  const end_h = hours.at(-1)!;
  const { run, pairs } = bands;
  const reached = run.hoursToTarget;
  const isTimed =
    reached !== undefined && pairs.every(({ runs }) => runs.every((one) => one.hoursToTarget !== undefined));
  const asked = pairs.map(({ runs: [down, up] }) =>
    isTimed
      ? (up.hoursToTarget! - down.hoursToTarget!) / 2
      : (up.means_pct[first + hours.length - 1]! - down.means_pct[first + hours.length - 1]!) / 2,
  );
  const before = Math.hypot(0, ...asked);
  if (before < 1e-6) return undefined;
  const noise = z975 * model.noise_g * excess;
  const told = hours.map((_, i) => {
    const mass = pairs.map(({ runs: [down, up], dry_g: [dryDown, dryUp] }) => {
      const at = (mean: number, d: readonly number[]) => d[segment]! * (1 + mean / 100);
      return (at(up.means_pct[first + i]!, dryUp) - at(down.means_pct[first + i]!, dryDown)) / 2;
    });
    const both = mass.reduce((sum, one, k) => sum + one * asked[k]!, 0);
    return both ** 2 / ((Math.hypot(0, ...mass) ** 2 + noise ** 2) * before ** 2);
  });
  // Once it is at its target it is taken out: a weighing then comes too late.
  const isBefore = (hour: number) => reached === undefined || hour < reached;
  const useful = told.map((share, i) => (isBefore(hours[i]!) ? share : 0));
  const most = Math.max(...useful);
  if (!(most > 0)) return undefined;
  const i = useful.findIndex((share) => share >= 0.9 * most);
  const after = before * Math.sqrt(Math.max(0, 1 - useful[i]!));
  const what = isTimed ? "the hours to its target" : `its moisture at hour ${Math.round(end_h)}`;
  const unit = isTimed ? "h" : "%";
  return {
    hour: hours[i]!,
    of: isTimed ? "hoursToTarget" : "moisture",
    before,
    after,
    information: -0.5 * Math.log(Math.max(1e-12, 1 - useful[i]!)),
    why: `then a weighing narrows ${what} from ±${before.toPrecision(2)} to ±${after.toPrecision(2)} ${unit}; later ones tell little more`,
  };
}
