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
  /** The first stage at which it could be made; the very first if left out. */
  readonly earliest?: string;
}

/** A check that is not made today, to be tried on paper. */
export type Candidate = Omit<PlacedCheck, "fixed" | "earliest">;

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
const mostProposals = 2000;

/**
 * Where each check belongs: moved earlier, added, or dropped, by replaying past faults.
 *
 *     a fault costs  its own cost · found_cents[where it would be found] / found_cents[where it was found]
 *     saving a unit  = (Σ over faults of what it cost − what it would have cost)/units − (checks' cost then − now)
 *
 * Only faults that the change touches are reckoned anew: one that an added check would have met on its way is found
 * there by the check's share; one whose finder is dropped goes on to the next check that looks for its sort, by their
 * shares, and at last to the customer.
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

  const judge = (proposal: Pick<Proposal, "what" | "check" | "from" | "to">, change: Change, added: number) => {
    const gains = gainsOf(faults, change, checks, stages, at);
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
  for (const check of checks) {
    if (check.fixed) continue;
    const from = check.stage;
    proposals.push(judge({ what: "drop", check: check.check, from }, { gone: check }, -check.cost_cents));
    const earliest = check.earliest === undefined ? 0 : at(check.earliest);
    for (const { stage } of stages.slice(earliest, at(from))) {
      const change = { gone: check, made: { ...check, stage } };
      proposals.push(judge({ what: "move", check: check.check, from, to: stage }, change, 0));
    }
  }
  for (const candidate of candidates) {
    const { check, stage, cost_cents } = candidate;
    proposals.push(judge({ what: "add", check, to: stage }, { made: candidate }, cost_cents));
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

interface Change {
  /** The check newly made. */
  readonly made?: Candidate;
  /** The check no longer made. */
  readonly gone?: PlacedCheck;
}

/**
 * What each unit whose fault would have been found elsewhere would have been spared, in cents; negative where it would
 * have cost more. A fault is known to have passed every check before the one that found it.
 */
function gainsOf(
  faults: readonly PastFault[],
  { made, gone }: Change,
  checks: readonly PlacedCheck[],
  stages: readonly Stage[],
  at: (stage: string) => number,
): number[] {
  const costAt = (stage: string) => stages[at(stage)]!.found_cents;
  const left = checks.filter((check) => check !== gone).toSorted((a, b) => at(a.stage) - at(b.stage));
  /** Mean cost of a fault that none has found before a stage, the stage included. */
  const meanFrom = (fault: string, stage: number) => {
    let [rest, mean_cents] = [1, 0];
    for (const check of left) {
      const share = check.finds[fault] ?? 0;
      if (share === 0 || at(check.stage) < stage) continue;
      mean_cents += rest * share * costAt(check.stage);
      rest *= 1 - share;
    }
    return mean_cents + rest * stages.at(-1)!.found_cents;
  };

  const byUnit = new Map<string, number>();
  for (const { unit, fault, possible, found, cost_cents } of faults) {
    const wasFoundByGone = gone !== undefined && gone.stage === found && (gone.finds[fault] ?? 0) > 0;
    const otherwise = wasFoundByGone ? meanFrom(fault, at(found)) : costAt(found);
    const share = made?.finds[fault] ?? 0;
    const isSeen = made !== undefined && share > 0 && at(made.stage) >= at(possible) && at(made.stage) < at(found);
    // One that the check missed where it stands would be missed by it earlier too.
    const isMissed = gone !== undefined && made !== undefined && at(found) > at(gone.stage);
    // One that it found where it stands it finds again.
    const caught = isSeen && !isMissed ? (wasFoundByGone ? 1 : share) : 0;
    const then = caught * (isSeen ? costAt(made.stage) : 0) + (1 - caught) * otherwise;
    const gain = cost_cents * (1 - then / costAt(found));
    if (gain !== 0) byUnit.set(unit, (byUnit.get(unit) ?? 0) + gain);
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
    list.forEach(({ stage, finds, cost_cents, ...check }, i) => {
      if ("earliest" in check && typeof check.earliest === "string") know(check.earliest, `${field}[${i}].earliest`);
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
