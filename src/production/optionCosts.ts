import { BadInput, quote } from "../maths/badInput.ts";
import { linearRegression } from "../maths/regression.ts";
import { tQuantile } from "../maths/statistics/index.ts";

/** A finished unit: what its customer chose, and what it cost. */
export interface Account {
  readonly unit: string;
  readonly options: Readonly<Record<string, string>>;
  readonly cost_cents: number;
}

export interface OptionCost {
  readonly option: string;
  readonly choice: string;
  /** Against this choice, the commonest. */
  readonly against: string;
  readonly units: number;
  readonly more_cents: number;
  readonly low_cents: number;
  readonly high_cents: number;
  readonly state: "dearer" | "cheaper" | "undecided";
  /** About so many more units of this choice would decide, were the difference as it looks. */
  readonly moreUnits?: number;
}

export interface OptionCosts {
  readonly choices: readonly OptionCost[];
  /** Choices that can't be told apart from others, or that too few units had. */
  readonly untold: readonly { readonly option: string; readonly choice: string; readonly why: string }[];
  /** Of a unit with the commonest choice everywhere. */
  readonly base_cents: number;
  /** Scatter of units alike. */
  readonly sd_cents: number;
  readonly freedom: number;
}

const least = 3;

/**
 * What each choice of a customer really costs, from what units took: linear regression on all choices together.
 *
 *     cost = base + Σ over choices made that are not the commonest   more(choice) + scatter
 *     more ± t(0.975; units − terms)·sd
 *
 * @returns differences against the commonest choice, with 95 % interval; `undecided` where it holds 0
 * @throws BadInput  a cost that is no whole number, no more units than choices
 * @remarks Units of a choice that fewer than three had are left out, as that choice alone would explain them; choices
 *   that always went together are named, not split. Effects are taken to add up.
 */
export function optionCosts(accounts: readonly Account[]): OptionCosts {
  accounts.forEach(({ cost_cents, unit }, i) => {
    if (Number.isInteger(cost_cents) && Math.abs(cost_cents) <= 1e12) return;
    throw new BadInput(`units[${i}].cost_cents`, `${quote(cost_cents)} of ${unit}`, "whole cents", "round it");
  });
  const names = [...new Set(accounts.flatMap(({ options }) => Object.keys(options)))].sort();
  const untold: { option: string; choice: string; why: string }[] = [];
  let kept = [...accounts];
  const terms: { option: string; choice: string; against: string; units: number }[] = [];
  for (const option of names) {
    const counts = new Map<string, number>();
    for (const { options } of kept) {
      const choice = options[option];
      if (choice !== undefined) counts.set(choice, (counts.get(choice) ?? 0) + 1);
    }
    const rare = [...counts].filter(([, count]) => count < least);
    for (const [choice, count] of rare) {
      untold.push({
        option,
        choice,
        why: `only ${count} ${count === 1 ? "unit has" : "units have"} it; ${least} at least`,
      });
    }
    // A unit of a rare choice would be explained by it alone.
    kept = kept.filter(({ options }) => options[option] === undefined || counts.get(options[option])! >= least);
  }
  for (const option of names) {
    const counts = new Map<string, number>();
    for (const { options } of kept) {
      const choice = options[option] ?? "not said";
      counts.set(choice, (counts.get(choice) ?? 0) + 1);
    }
    const [against, ...others] = [...counts].toSorted((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1));
    for (const [choice, units] of others) terms.push({ option, choice, against: against![0], units });
  }
  const told = terms.filter((term) => {
    const twin = terms.find(
      (other) => other !== term && terms.indexOf(other) < terms.indexOf(term) && same(kept, other, term),
    );
    if (!twin) return true;
    untold.push({ ...pick(term), why: `always chosen together with ${twin.option} ${twin.choice}` });
    return false;
  });
  const fit = fitted(kept, told, untold);
  const t = tQuantile(0.975, fit.freedom);
  return {
    choices: fit.terms
      .map((term, i): OptionCost => {
        const [more, reach] = [fit.coefficients[i + 1]!, t * fit.sd[i + 1]!];
        const [low, high] = [more - reach, more + reach];
        const state = low > 0 ? "dearer" : high < 0 ? "cheaper" : "undecided";
        return {
          ...term,
          more_cents: Math.round(more),
          low_cents: Math.round(low),
          high_cents: Math.round(high),
          state,
          ...(state === "undecided" && more !== 0
            ? { moreUnits: Math.min(9999, Math.max(1, Math.ceil(term.units * ((reach / more) ** 2 - 1)))) }
            : {}),
        };
      })
      .sort((a, b) => Math.abs(b.more_cents) - Math.abs(a.more_cents)),
    untold,
    base_cents: Math.round(fit.coefficients[0]!),
    sd_cents: Math.round(fit.residual_sd),
    freedom: fit.freedom,
  };
}

type Term = { readonly option: string; readonly choice: string; readonly against: string; readonly units: number };
const pick = ({ option, choice }: Term) => ({ option, choice });
const has = ({ options }: Account, { option, choice }: Term) => (options[option] ?? "not said") === choice;
const same = (accounts: readonly Account[], a: Term, b: Term) => accounts.every((one) => has(one, a) === has(one, b));

/** Leaves out terms that the others together already tell, one at a time. */
function fitted(
  accounts: readonly Account[],
  terms: readonly Term[],
  untold: { option: string; choice: string; why: string }[],
) {
  let told = [...terms];
  for (;;) {
    if (accounts.length <= told.length + 1) {
      throw new BadInput(
        "units",
        `${accounts.length} units and ${told.length} choices`,
        "more units than choices, and two besides",
        "enter more accounts, or tell fewer choices apart",
      );
    }
    const fit = linearRegression(
      accounts.map((one) => [1, ...told.map((term) => (has(one, term) ? 1 : 0))]),
      accounts.map(({ cost_cents }) => cost_cents),
    );
    if (fit.ok) return { ...fit, terms: told };
    const spare = told[Math.max(...fit.dependent) - 1]!;
    untold.push({ ...pick(spare), why: "the other choices together already tell it" });
    told = told.filter((term) => term !== spare);
  }
}
