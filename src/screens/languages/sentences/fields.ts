/**
 * Where an answer of the workshop holds sentences that the program composed. Only these are told in the reader's
 * language; every other text is what people wrote or what machines compare, and passes untouched.
 *
 * A name stands for itself wherever it is; `units.state` only where it lies in `units`. Lists count by their name.
 */
const spokenFields: ReadonlySet<string> = new Set([
  ...[
    "because",
    "why",
    "wouldDecide",
    "words",
    "reasons",
    "reason",
    "notes",
    "cautions",
    "caution",
    "advice",
    "remedy",
  ],
  ...[
    "sentences",
    "papersAsked",
    "trouble",
    "conditions",
    "waitsFor",
    "test",
    "thickness",
    "indexWords",
    "ready.plate",
    "contact",
    "flaws",
    "supplies.against",
  ],
  ...["check.how", "figures.how", "figures.where", "ripens.what", "found.what", "underWay.what"],
  ...["claims.title", "missing.title", "nextChecks.title", "voids.title", "retests.title", "next.title"],
  ...["beforeHome.title", "blocked.title", "figures.title", "dear.title", "silent.title", "rungs.title"],
  ...["suggested.title", "orders.best", "orders.now", "units.state"],
  ...[
    "waits.title",
    "charts.title",
    "charts.where",
    "windows.title",
    "reopened.title",
    "running.what",
    "sorts.what",
    "soaks.what",
  ],
  ...["broken.limit", "soak.why"],
  ...["faults.given", "faults.allowed", "faults.mend"],
]);

/** Fields of such a name that hold what people wrote; an `entry` goes back into the ledger as it came. */
const writtenFields: ReadonlySet<string> = new Set(["pages.why", "newest.why"]);
const untouched: ReadonlySet<string> = new Set(["entry"]);

export const isSpoken = (name: string, within: string): boolean =>
  !writtenFields.has(`${within}.${name}`) && (spokenFields.has(name) || spokenFields.has(`${within}.${name}`));

/** The answer with each of its composed sentences told; shares what holds none. */
export function withTold<T>(answer: T, tell: (sentence: string) => string): T {
  return inField(answer, "", "", tell) as T;
}

function inField(value: unknown, name: string, within: string, tell: (sentence: string) => string): unknown {
  if (typeof value === "string") return isSpoken(name, within) ? tell(value) : value;
  if (untouched.has(name)) return value;
  if (Array.isArray(value))
    return changed(
      value,
      value.map((one) => inField(one, name, within, tell)),
    );
  if (value === null || typeof value !== "object") return value;
  const before = Object.entries(value);
  const after = before.map(([key, one]) => [key, inField(one, key, name, tell)] as const);
  return after.some(([, one], at) => one !== before[at]![1]) ? Object.fromEntries(after) : value;
}

const changed = (before: readonly unknown[], after: readonly unknown[]) =>
  after.some((one, at) => one !== before[at]) ? after : before;
