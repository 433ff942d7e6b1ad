import { BadInput, quote } from "../maths/badInput.ts";
import { randomStream } from "../maths/random.ts";
import { meanLossDraws } from "./meanLoss.ts";

export interface Stage {
  readonly stage: string;
  /** What a fault costs on average when it is found here; rises as work is put in. */
  readonly found_cents: number;
}

export interface PlacedCheck {
  readonly check: string;
  readonly stage: string;
  readonly cost_cents: number;
  /** Sorts of fault it finds, with the odds that it does where one is there. */
  readonly finds: Readonly<Record<string, number>>;
  /** Protects whoever works on, so that it is neither moved nor dropped. */
  readonly fixed?: boolean;
}

/** A check that is not made today, to be tried on paper. */
export type Candidate = Omit<PlacedCheck, "fixed">;

export interface PastFault {
  readonly unit: string;
  readonly fault: string;
  /** First stage at which a check could have shown it. */
  readonly possible: string;
  readonly found: string;
  /** What it really cost. */
  readonly cost_cents: number;
}

export interface Placement {
  /** In the order of work; the last is the customer. */
  readonly stages: readonly Stage[];
  readonly checks: readonly PlacedCheck[];
  readonly candidates?: readonly Candidate[];
  readonly units: number;
  readonly faults: readonly PastFault[];
  readonly seed?: number | string;
}

export interface Proposal {
  readonly what: "move" | "add" | "drop";
  readonly check: string;
  readonly from?: string;
  readonly to?: string;
  /** Mean saving a unit, with its 95 % interval. */
  readonly saving_cents: number;
  readonly low_cents: number;
  readonly high_cents: number;
  /** Units whose faults would have been found elsewhere. */
  readonly units: number;
  readonly state: "saves" | "costs" | "undecided";
}

export interface WhereChecks {
  /** What saves, the surest first. */
  readonly saves: readonly Proposal[];
  /** Undecided, or sure to cost; told only on request. */
  readonly rest: readonly Proposal[];
  /** What faults and checks cost a unit today. */
  readonly today_cents: number;
}

const draws = 2000;
export const mostProposals = 2000;

/**
 * Where each check belongs: moved earlier, added, or dropped, by replaying past faults.
 *
 *     a fault costs  its own cost · found_cents[where it would be found] / found_cents[where it was found]
 *     saving a unit  = (Σ over faults of what it cost − what it would have cost)/units − (checks' cost then − now)
 *
 * A fault would be found by the first check, from the stage where it can show, that looks for its sort; where that check
 * finds only a share of them, the others go on to the next, and at last to the customer.
 *
 * @returns proposals with an interval of the mean saving; `undecided` where it holds 0
 * @throws BadInput  a stage, check or fault that does not fit, with its place in the input
 * @remarks What is caught early and what then escapes are drawn apart, each by `meanLossDraws`; where a check is taken
 *   from its stage, also what has not escaped so far. Odds of finding are taken as known, and a check moved as finding
 *   there what it finds here.
 * @source  replay of records; economic placing of inspection as in G. F. Lindsay and A. B. Bishop, Management Science
 *   10 (1964) 342-352 (from memory)
 */
export function whereChecks(placement: Placement): WhereChecks {
  const { stages, checks, candidates = [], units, faults } = placement;
  const at = readStages(placement);
  const chance = randomStream(placement.seed ?? 1);
  const typical = Math.max(1, ...stages.map(({ found_cents }) => found_cents));

  const judge = (
    proposal: Pick<Proposal, "what" | "check" | "from" | "to">,
    then: readonly Candidate[],
    added: number,
  ) => {
    const gains = gainsOf(faults, then, stages, at);
    const [better, worse] = [
      gains.filter((gain) => gain > 0.5),
      gains.filter((gain) => gain < -0.5).map((gain) => -gain),
    ];
    const label = `${proposal.what} ${proposal.check} ${proposal.to ?? ""}`;
    const plus =
      better.length === 0 ? undefined : meanLossDraws(better, units, typical, chance.fork(`${label} +`), draws);
    // What never escaped yet may do so once a check is taken from where it stands.
    const minus =
      proposal.what !== "add" || worse.length > 0
        ? meanLossDraws(worse, units, typical, chance.fork(`${label} -`), draws)
        : undefined;
    const drawn = Float64Array.from({ length: draws }, (_, i) => (plus?.[i] ?? 0) - (minus?.[i] ?? 0) - added).sort();
    const mean = gains.reduce((sum, gain) => sum + gain, 0) / units - added;
    const [low, high] = [drawn[Math.floor(0.025 * draws)]!, drawn[Math.ceil(0.975 * draws) - 1]!];
    return {
      ...proposal,
      saving_cents: Math.round(mean),
      low_cents: Math.round(low),
      high_cents: Math.round(high),
      units: better.length + worse.length,
      state: low > 0 ? "saves" : high < 0 ? "costs" : "undecided",
    } satisfies Proposal;
  };

  const proposals: Proposal[] = [];
  checks.forEach((check, i) => {
    if (check.fixed) return;
    const others = checks.filter((_, k) => k !== i);
    proposals.push(judge({ what: "drop", check: check.check, from: check.stage }, others, -check.cost_cents));
    for (const { stage } of stages.slice(0, at(check.stage))) {
      const moved = { ...check, stage };
      proposals.push(judge({ what: "move", check: check.check, from: check.stage, to: stage }, [...others, moved], 0));
    }
  });
  for (const candidate of candidates) {
    const { check, stage, cost_cents } = candidate;
    proposals.push(judge({ what: "add", check, to: stage }, [...checks, candidate], cost_cents));
  }
  const sorted = proposals.toSorted((a, b) => b.low_cents - a.low_cents || b.saving_cents - a.saving_cents);
  return {
    saves: sorted.filter(({ state }) => state === "saves"),
    rest: sorted.filter(({ state }) => state !== "saves"),
    today_cents: Math.round(
      faults.reduce((sum, { cost_cents }) => sum + cost_cents, 0) / units +
        checks.reduce((sum, { cost_cents }) => sum + cost_cents, 0),
    ),
  };
}

/** What each unit that had a fault would have been spared, in cents; negative where it would have cost more. */
function gainsOf(
  faults: readonly PastFault[],
  then: readonly Candidate[],
  stages: readonly Stage[],
  at: (stage: string) => number,
): number[] {
  const ordered = then.toSorted((a, b) => at(a.stage) - at(b.stage));
  const last = stages.at(-1)!;
  const byUnit = new Map<string, number>();
  for (const { unit, fault, possible, found, cost_cents } of faults) {
    const from = at(possible);
    let [left, mean_cents] = [1, 0];
    for (const { stage, finds } of ordered) {
      const share = finds[fault] ?? 0;
      if (share === 0 || at(stage) < from) continue;
      mean_cents += left * share * stages[at(stage)]!.found_cents;
      left *= 1 - share;
    }
    mean_cents += left * last.found_cents;
    const was = stages[at(found)]!.found_cents;
    byUnit.set(unit, (byUnit.get(unit) ?? 0) + cost_cents * (1 - mean_cents / was));
  }
  return [...byUnit.values()];
}

function readStages({ stages, checks, candidates = [], units, faults }: Placement): (stage: string) => number {
  if (stages.length < 2)
    throw new BadInput("stages", `${stages.length} stages`, "at least 2", "the last is the customer");
  const places = new Map(stages.map(({ stage }, i) => [stage, i]));
  if (places.size < stages.length) throw new BadInput("stages", "a stage twice", "each once", "rename one");
  stages.forEach(({ found_cents }, i) => {
    if (!(found_cents > 0)) {
      throw new BadInput(
        `stages[${i}].found_cents`,
        quote(found_cents),
        "above 0",
        "give what a fault found there costs",
      );
    }
  });
  if (!(Number.isInteger(units) && units >= 1))
    throw new BadInput("units", quote(units), "1 or more", "count the units");
  const know = (stage: string, path: string) => {
    if (places.has(stage)) return;
    throw new BadInput(
      path,
      quote(stage),
      `stages are ${stages.map((one) => one.stage).join(", ")}`,
      "name one of them",
    );
  };
  const all: readonly (readonly [string, readonly Candidate[]])[] = [
    ["checks", checks],
    ["candidates", candidates],
  ];
  for (const [field, list] of all) {
    list.forEach(({ stage, finds, cost_cents }, i) => {
      know(stage, `${field}[${i}].stage`);
      if (!(cost_cents >= 0))
        throw new BadInput(`${field}[${i}].cost_cents`, quote(cost_cents), "0 or more", "in cents");
      for (const [fault, share] of Object.entries(finds)) {
        if (share >= 0 && share <= 1) continue;
        throw new BadInput(
          `${field}[${i}].finds.${fault}`,
          quote(share),
          "0 to 1",
          "give a share of those that are there",
        );
      }
    });
  }
  const withFaults = new Set(faults.map(({ unit }) => unit));
  if (withFaults.size > units) {
    throw new BadInput("units", quote(units), `at least the ${withFaults.size} that had a fault`, "count them all");
  }
  faults.forEach(({ possible, found, cost_cents }, i) => {
    know(possible, `faults[${i}].possible`);
    know(found, `faults[${i}].found`);
    if (places.get(possible)! > places.get(found)!) {
      throw new BadInput(
        `faults[${i}].possible`,
        quote(possible),
        `up to ${found}, where it was found`,
        "exchange them",
      );
    }
    if (!(cost_cents >= 0)) throw new BadInput(`faults[${i}].cost_cents`, quote(cost_cents), "0 or more", "in cents");
  });
  const proposals = checks.length * stages.length + candidates.length;
  if (proposals > mostProposals) {
    throw new BadInput(
      "checks",
      `${proposals} proposals to weigh`,
      `${mostProposals} at most`,
      "ask for fewer at a time",
    );
  }
  return (stage) => places.get(stage)!;
}
