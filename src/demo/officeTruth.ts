/** What became of orders, faults and returns, and what a shorter time on the plate would do, as it was made. */
export interface OfficeTruth {
  /** Orders of the years before that left after the day they were promised for. */
  readonly late: readonly string[];
  readonly left: number;
  /** The first and the last of them. */
  readonly before: readonly [first: string, last: string];
  readonly open: number;
  /** Faults found later than they could have been, by sort and stage. */
  readonly faults: readonly {
    readonly fault: string;
    readonly possible: string;
    readonly found: string;
    readonly count: number;
  }[];
  /** How many came back, and how many of them with no fault told of. */
  readonly returns: { readonly count: number; readonly without: number };
  readonly plate: {
    readonly place: string;
    readonly enough_h: number;
    /** So many dates at least come in. */
    readonly least: number;
    /** Orders whose panels have been over the plate: nothing there can bring them in. */
    readonly past: readonly string[];
    readonly story: string;
  };
}

const plate = {
  place: "hot plate",
  enough_h: 24,
  least: 5,
  story: "the plate's second day shows next to nothing; a day less there moves five dates in at least, and none out",
} as const;

/** What the past was given, and which units came back. */
interface Given {
  readonly given: readonly { readonly fault: string; readonly possible: string; readonly found: string }[];
  readonly returns: readonly { readonly unit: string }[];
  readonly untold: readonly string[];
}

/** An order as it was taken. */
interface Taken {
  readonly order: string;
  readonly units: readonly string[];
}

export function officeTruth(
  before: readonly { readonly order: string; readonly due: string; readonly left: string }[],
  ahead: readonly Taken[],
  inHand: readonly Taken[],
  { given, returns, untold }: Given,
  finished: ReadonlySet<string>,
): OfficeTruth {
  const counts = new Map<string, OfficeTruth["faults"][number]>();
  for (const { fault, possible, found } of given) {
    if (found === possible) continue;
    const key = [fault, possible, found].join("\n");
    counts.set(key, { fault, possible, found, count: (counts.get(key)?.count ?? 0) + 1 });
  }
  return {
    late: before.filter(({ due, left }) => left.slice(0, 10) > due.slice(0, 10)).map(({ order }) => order),
    left: before.length,
    before: [before[0]!.order, before.at(-1)!.order],
    open: ahead.length + inHand.length,
    faults: [...counts.values()],
    returns: { count: new Set(returns.map(({ unit }) => unit)).size, without: new Set(untold).size },
    plate: {
      ...plate,
      past: inHand.filter(({ units }) => units.every((unit) => finished.has(unit))).map(({ order }) => order),
    },
  };
}

/** What the tool says of them. */
export interface OfficeAnswers {
  readonly orders: readonly { readonly order: string; readonly kept: boolean }[];
  readonly open: number;
  readonly faults: OfficeTruth["faults"];
  readonly returns: OfficeTruth["returns"];
  readonly plate?: {
    readonly place: string;
    readonly enough_h: number;
    readonly earlier: readonly string[];
    readonly later: readonly string[];
    readonly saved: readonly string[];
  };
}

export function scoreOffice(truth: OfficeTruth, answers: OfficeAnswers | undefined) {
  const found: string[] = [];
  const missed: string[] = [];
  const falseAccusations: string[] = [];
  const judge = (isRight: boolean, story: string, said: string) =>
    isRight ? found.push(`${story} (${said})`) : missed.push(`${story}; said ${said}`);

  const late = new Set(truth.late);
  const said = answers?.orders ?? [];
  for (const { order, kept } of said) {
    if (!kept && !late.has(order)) falseAccusations.push(`order ${order}: said late, was in time`);
  }
  const rightly = said.filter(({ order, kept }) => !kept && late.has(order)).length;
  judge(
    said.length === truth.left && rightly === truth.late.length,
    `orders: ${truth.late.length} of ${truth.left} left after the day promised`,
    `${rightly} of ${said.length}`,
  );
  judge(answers?.open === truth.open, `orders: ${truth.open} are open`, String(answers?.open ?? "nothing"));

  const key = ({ fault, possible, found: at }: OfficeTruth["faults"][number]) => `${fault}, ${possible} to ${at}`;
  const told = new Map((answers?.faults ?? []).map((one) => [key(one), one.count]));
  const wrong = truth.faults.filter((one) => told.get(key(one)) !== one.count);
  judge(
    wrong.length === 0,
    `faults: every one of ${truth.faults.length} ways from where a fault could be found to where it was`,
    wrong.length === 0 ? "all" : `not ${wrong.map(key).join("; ")}`,
  );
  for (const way of told.keys()) {
    if (!truth.faults.some((one) => key(one) === way)) falseAccusations.push(`faults: said ${way}, was none`);
  }
  const { count, without } = truth.returns;
  judge(
    answers?.returns.count === count && answers.returns.without === without,
    `returns: ${count} came back, of ${without} no fault is written down`,
    answers ? `${answers.returns.count}, ${answers.returns.without}` : "nothing",
  );

  const { plate } = truth;
  const change = answers?.plate;
  const isRight =
    change !== undefined &&
    change.place === plate.place &&
    change.enough_h === plate.enough_h &&
    change.earlier.length >= plate.least &&
    change.later.length === 0;
  judge(
    isRight,
    `plate: ${plate.story}`,
    change
      ? `${change.enough_h} h on the ${change.place}: ${change.earlier.length} of ${answers!.open} dates in, ${change.later.length} out, ${change.saved.length} out of danger`
      : "nothing",
  );
  for (const order of change?.earlier ?? []) {
    if (plate.past.includes(order)) falseAccusations.push(`plate: said ${order} comes in, its panels are done`);
  }
  return { found, missed, falseAccusations };
}
