import { sameCause } from "../cause.ts";
import { mainOf } from "../origin.ts";
import { type Judged, tallyOf } from "./judge.ts";
import type { ShareHeld } from "./sharesHeld.ts";

/** So many of so many, with what they are. */
export interface Count {
  readonly what: string;
  readonly of: number;
  readonly right: number;
}

/** What was said of channels, against the truth. */
export function countVerdicts(judged: readonly Judged[]): Count[] {
  const tally = tallyOf(judged);
  const named = judged.filter(({ verdict }) => verdict.state === "decided");
  const isLeader = ({ truth, verdict }: Judged) => {
    if (verdict.state !== "decided") return false;
    const { cause, position = "", valve = "" } = truth;
    return sameCause(verdict, cause === "valve" ? { cause, position, valve } : { cause });
  };
  const leading = named.filter(isLeader);
  return [
    { what: "decidable channels decided right", of: tally.decidable, right: tally.right },
    { what: "undecidable channels called so", of: tally.undecidable, right: tally.calledUndecided },
    { what: "causes named that truly lead", of: named.length, right: leading.length },
    {
      what: "causes named that truly make more than half",
      of: named.length,
      right: leading.filter(({ truth }) => truth.share > 0.5).length,
    },
    {
      what: "channels in which no innocent valve was accused",
      of: judged.length,
      right: judged.length - tally.accused,
    },
  ];
}

/** A line counts as mixed where no cause truly makes three quarters of it. */
const mixedBelow = 0.75;
const leaderOf = (line: readonly ShareHeld[]) => line.reduce((a, b) => (b.truth > a.truth ? b : a));

/** What was said of lines, against the truth; lines with one possible cause alone are left out. */
export function countLines(judged: readonly Judged[]): Count[] {
  const lines = judged.flatMap((one) => one.lines).filter((line) => line.length > 1 && line.some((c) => c.truth > 0));
  const mixed = lines.filter((line) => leaderOf(line).truth < mixedBelow);
  const named = (of: readonly (readonly ShareHeld[])[]) => {
    const those = of.filter((line) => mainOf(line));
    return { of: those.length, right: those.filter((line) => mainOf(line) === leaderOf(line)).length };
  };
  const unnamed = mixed.filter((line) => !mainOf(line)).length;
  const bounds = lines.flat();
  const narrow = bounds.filter(({ low, high }) => high - low < 0.9);
  return [
    { what: "lines given one cause: that cause truly leads", ...named(lines) },
    { what: "mixed lines: not given a wrong cause", of: mixed.length, right: unnamed + named(mixed).right },
    { what: "mixed lines given one cause all the same: that cause truly leads", ...named(mixed) },
    {
      what: "bounds on the share of the true leader of mixed lines hold",
      of: mixed.length,
      right: mixed.filter((line) => leaderOf(line).held).length,
    },
    { what: "bounds on shares hold", of: bounds.length, right: bounds.filter(({ held }) => held).length },
    { what: "bounds narrower than 0.9 hold", of: narrow.length, right: narrow.filter(({ held }) => held).length },
  ];
}
