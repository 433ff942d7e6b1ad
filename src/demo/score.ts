import { type OfficeAnswers, scoreOffice } from "./officeTruth.ts";
import { scoreTimber, type TimberAnswers } from "./timber/score.ts";
import type { Truth } from "./truth.ts";

/** What the tool says, as plain data: per unit and channel, and per valve. */
export interface Answers {
  readonly hum: readonly {
    readonly unit: string;
    readonly channel: string;
    readonly state: "decided" | "undecided" | "quiet";
    readonly cause?: string;
    readonly position?: string;
    readonly valve?: string;
  }[];
  readonly valves: readonly { readonly valve: string; readonly verdict: "use" | "hold" | "reject" }[];
  /** Recordings that a hearing left out because the supply they were made on could not be believed. */
  readonly unfair?: readonly { readonly unit: string; readonly recording: string }[];
  /** What left and right differ by, of units whose tones were recorded over the volume control. */
  readonly balance?: readonly {
    readonly unit: string;
    readonly cause: "control" | "valves" | "circuit" | "alike" | "undecided";
  }[];
  /** Units that were tapped, and the valve that rings. */
  readonly taps?: readonly { readonly unit: string; readonly state: string; readonly valve?: string }[];
  /** What each probe sheet speaks for, best first. */
  readonly sheets?: readonly {
    readonly unit: string;
    readonly at: string;
    readonly state: "good" | "faulty" | "undecided";
    readonly suspects: readonly Suspect[];
  }[];
  /** Whether valves asked about can serve a place. */
  readonly places?: readonly {
    readonly valve: string;
    readonly position: string;
    readonly serves: "yes" | "no" | "undecided";
  }[];
  /** Pairs chosen out of two fours, and what they differ by; as much for the better of the two ways within one four. */
  readonly fours?: readonly {
    readonly pairs: readonly (readonly string[])[];
    readonly cost: number;
    readonly dealersCost: number;
  }[];
  readonly timber?: TimberAnswers;
  readonly office?: OfficeAnswers;
  /** Serial to the valve proposed for it. */
  readonly proposals?: readonly { readonly unit: string; readonly position: string; readonly in: string }[];
}

interface Suspect {
  readonly part: string;
  readonly fault: string;
  /** Other faults, `"R8L open"`, that the readings do not tell apart from it. */
  readonly alike: readonly string[];
  readonly odds: number;
}

/** Pairs of our own serve better when they differ by no more than this share of what the dealer's do. */
const clearlyBetter = 0.5;

/** A fault counts as found among so many suspects. */
const looksAt = 3;

export interface Score {
  /** Stories told right, by their words. */
  readonly found: readonly string[];
  /** A good valve or a clean unit said to be at fault, or a fault laid at the wrong door. */
  readonly falseAccusations: readonly string[];
  /** "Cannot tell yet" where nobody could. */
  readonly undecidedRight: readonly string[];
  /** Stories not told: said undecided or clean, or not answered at all. */
  readonly missed: readonly string[];
}

/** Holds the tool's answers against the truth. What the truth leaves open counts neither way. */
export function score(truth: Truth, answers: Answers): Score {
  const found: string[] = [];
  const falseAccusations: string[] = [];
  const undecidedRight: string[] = [];
  const missed: string[] = [];

  for (const expected of truth.hum) {
    const said = answers.hum.find((a) => a.unit === expected.unit && a.channel === expected.channel);
    const where = `${expected.unit} ${expected.channel}`;
    if (said?.state === "decided" && !sameCause(said, expected)) {
      falseAccusations.push(`${where}: said ${inWords(said)}, is ${inWords(expected)}`);
    } else if (said === undefined || said.state !== expected.state) {
      missed.push(`${where}: said ${said?.state ?? "nothing"}, is ${inWords(expected)}`);
    } else if (expected.state === "undecided") {
      undecidedRight.push(`${where}: ${expected.story}`);
    } else {
      found.push(`${where}: ${expected.story}`);
    }
  }

  const verdictOf = new Map(answers.valves.map((a) => [a.valve, a.verdict]));
  for (const { valve, allowed, story } of truth.valves) {
    const said = verdictOf.get(valve);
    if (said !== undefined && allowed.includes(said)) {
      if (story !== undefined) found.push(`${valve}: ${story}`);
    } else if (said === "reject") {
      falseAccusations.push(`${valve}: said ${said}, is ${allowed.join(" or ")}`);
    } else {
      missed.push(`${valve}: said ${said ?? "nothing"}, is ${allowed.join(" or ")}`);
    }
  }

  for (const { unit, recording, story } of truth.unfair) {
    const isLeftOut = answers.unfair?.some((a) => a.unit === unit && a.recording === recording);
    (isLeftOut ? found : missed).push(`${recording}: ${story}`);
  }
  for (const { unit, recording } of answers.unfair ?? []) {
    if (!truth.unfair.some((known) => known.unit === unit && known.recording === recording))
      falseAccusations.push(`${recording}: said its supply was not sound, it was`);
  }

  for (const { unit, cause, story } of truth.balance) {
    const said = answers.balance?.find((a) => a.unit === unit)?.cause;
    if (said === cause) found.push(`${unit} left and right: ${story}`);
    else if (said === undefined || said === "undecided" || said === "alike")
      missed.push(`${unit} left and right: said ${said ?? "nothing"}, is ${cause}`);
    else falseAccusations.push(`${unit} left and right: said ${said}, is ${cause}`);
  }

  for (const { unit, valve, story } of truth.taps) {
    const said = answers.taps?.find((a) => a.unit === unit);
    if (said?.valve !== undefined && said.valve !== valve)
      falseAccusations.push(`${unit} tapped: said ${said.valve} rings, ${valve ?? "nothing"} does`);
    else if (said !== undefined && said.valve === valve && (valve !== undefined || said.state === "quiet"))
      found.push(`${unit} tapped: ${story}`);
    else missed.push(`${unit} tapped: said ${said?.state ?? "nothing"}, ${valve ?? "nothing"} rings`);
  }

  for (const { unit, at, fault, story } of truth.sheets) {
    const said = answers.sheets?.find((a) => a.unit === unit && Date.parse(a.at) === Date.parse(at));
    const where = `sheet of ${unit}, ${at.slice(0, 10)}`;
    const is = fault === undefined ? "good" : `${fault.part} ${fault.kind}`;
    const accused = said?.suspects.slice(0, looksAt) ?? [];
    const names = ({ part, fault: how }: Suspect) => `${part} ${how}`;
    if (said === undefined || said.state === "undecided" || (said.state === "good" && fault !== undefined)) {
      missed.push(`${where}: said ${said?.state ?? "nothing"}, is ${is}`);
    } else if (said.state === "faulty" && !accused.some((one) => names(one) === is || one.alike.includes(is))) {
      falseAccusations.push(`${where}: said ${accused.map(names).join(", ")}, is ${is}`);
    } else {
      found.push(
        `${where}: ${story ?? (fault === undefined ? "a good unit, called good" : `${is}, among the first three`)}`,
      );
    }
  }

  for (const { valve, position, story } of truth.places) {
    const said = answers.places?.find((a) => a.valve === valve && a.position === position)?.serves;
    if (said === "no") found.push(`${valve} at ${position}: ${story}`);
    else missed.push(`${valve} at ${position}: said ${said ?? "nothing"}, can't serve there`);
  }

  for (const { fours, story } of truth.fours) {
    const known = new Set(fours.flat());
    const said = answers.fours?.find(
      ({ pairs }) => pairs.length > 0 && pairs.flat().every((valve) => known.has(valve)),
    );
    const isMixed = said?.pairs.every((pair) => fours.every((four) => pair.some((valve) => four.includes(valve))));
    if (said && isMixed && said.cost <= clearlyBetter * said.dealersCost)
      found.push(`${fours[0]!.join(", ")}: ${story}`);
    else missed.push(`${fours[0]!.join(", ")}: ${story}; said ${said?.pairs.join("; ") ?? "nothing"}`);
  }

  for (const { unit, position, best } of truth.proposals) {
    const said = answers.proposals?.find((a) => a.unit === unit && a.position === position)?.in;
    const story = `${unit} ${position}: ${best} balances best with what stays`;
    if (said === best) found.push(story);
    else missed.push(`${story}; said ${said ?? "nothing"}`);
  }
  if (truth.timber) {
    const timber = scoreTimber(truth.timber, answers.timber);
    found.push(...timber.found);
    falseAccusations.push(...timber.falseAccusations);
    missed.push(...timber.missed);
  }
  if (truth.office) {
    const office = scoreOffice(truth.office, answers.office);
    found.push(...office.found);
    falseAccusations.push(...office.falseAccusations);
    missed.push(...office.missed);
  }
  return { found, falseAccusations, undecidedRight, missed };
}

interface Verdict {
  readonly state: string;
  readonly cause?: string;
  readonly position?: string;
  readonly valve?: string;
}

function sameCause(said: Verdict, expected: Verdict): boolean {
  return (
    said.state === expected.state &&
    said.cause === expected.cause &&
    (expected.position === undefined || said.position === expected.position) &&
    (expected.valve === undefined || said.valve === expected.valve)
  );
}

function inWords(verdict: Verdict): string {
  if (verdict.state !== "decided") return verdict.state;
  return [verdict.cause, verdict.position, verdict.valve].filter((word) => word !== undefined).join(" ");
}
