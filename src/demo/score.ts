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
  /** Serial to the valve proposed for it. */
  readonly proposals?: readonly { readonly unit: string; readonly position: string; readonly in: string }[];
}

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

  for (const { unit, position, best } of truth.proposals) {
    const said = answers.proposals?.find((a) => a.unit === unit && a.position === position)?.in;
    const story = `${unit} ${position}: ${best} balances best with what stays`;
    if (said === best) found.push(story);
    else missed.push(`${story}; said ${said ?? "nothing"}`);
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
