import type { Evidence, Model } from "../claims/evidence.ts";
import { netlistParts } from "../claims/index.ts";
import { BadInput } from "../maths/badInput.ts";
import type { Calculate } from "./calculate.ts";
import type { FittedNetlist } from "./fittedCurves.ts";
import { quantityOf } from "./probeCard.ts";
import { groundOf, nodesOf, testPointsOf } from "./probePlaces.ts";
import type { ProbeSuspectsView, ProbeWindowsView, SuspectView, Window } from "./views.ts";

type Reading = Evidence<"reading">;

/** Enough that a 99 % window's ends stand to a few per cent of its width. */
const drawsOfWindows = 4000;
const seedOfWindows = 1;

type Spread =
  | {
      readonly state: "solved";
      readonly points: Readonly<Record<string, { low_V: number; median_V: number; high_V: number }>>;
      readonly notes: readonly string[];
    }
  | { readonly state: "undecided"; readonly node: string; readonly reason: string; readonly notes: readonly string[] };

interface DeadWindows {
  readonly resistances: readonly {
    readonly between: readonly [string, string];
    readonly open: boolean;
    readonly ohm?: number;
    readonly low_ohm?: number;
    readonly high_ohm?: number;
    readonly forward_ohm?: number;
  }[];
}

/** Where good units of this model lie at every test point, with the valves that stand in this one. */
export async function probeWindows(
  model: Model,
  fitted: FittedNetlist,
  meter_Mohm: number,
  calculate: Calculate,
): Promise<ProbeWindowsView> {
  const none = { dc: {}, resistance: {}, gain: {}, ownCurves: [...fitted.drawn] };
  try {
    const resistance = await deadWindows(model, fitted, calculate);
    const spread = await calculate<Spread>("circuits.spread", {
      netlist: fitted.netlist,
      samples: drawsOfWindows,
      seed: seedOfWindows,
      meter_Mohm,
    });
    if (spread.state === "undecided")
      return { ...none, resistance, notes: spread.notes, trouble: `node ${spread.node}: ${spread.reason}` };
    const dc = Object.entries(spread.points).map(([point, { low_V, median_V, high_V }]): [string, Window] => [
      point,
      { low: low_V, median: median_V, high: high_V },
    ]);
    return { ...none, dc: Object.fromEntries(dc), resistance, notes: spread.notes };
  } catch (fault) {
    return { ...none, notes: [], trouble: troubleOf(fault) };
  }
}

/** Windows of the dead circuit from each point to ground; a point that nothing joins to it has none. */
async function deadWindows(
  model: Model,
  { netlist }: FittedNetlist,
  calculate: Calculate,
): Promise<Readonly<Record<string, Window>>> {
  const ground = groundOf(model);
  const between = testPointsOf(model.netlist)
    .filter(({ node }) => node !== ground)
    .map(({ point }) => [point, ground]);
  if (between.length === 0) return {};
  const { resistances } = await calculate<DeadWindows>("circuits.resistance", { netlist, between });
  return Object.fromEntries(
    resistances.flatMap(({ between: [point], ohm, low_ohm, high_ohm, forward_ohm }): [string, Window][] =>
      ohm === undefined || low_ohm === undefined || high_ohm === undefined
        ? []
        : // The meter may drive a junction or not; a good unit then reads either.
          [[point, { low: Math.min(low_ohm, forward_ohm ?? low_ohm), median: ohm, high: high_ohm }]],
    ),
  );
}

interface Suspects {
  readonly state: "good" | "faulty" | "undecided";
  readonly reason?: string;
  readonly suspects: readonly {
    readonly part: string;
    readonly fault: string;
    readonly odds: number;
    readonly words?: string;
    readonly with?: string;
    readonly between?: readonly [string, string];
    readonly alike?: readonly string[];
  }[];
  readonly nextProbe?: {
    readonly kind: "resistance" | "dc" | "gain";
    readonly point: string;
    readonly between?: readonly [string, string];
    readonly input?: string;
    readonly frequency_Hz?: number;
    readonly why: string;
    readonly minutes: number;
    readonly danger: number;
    readonly caution: string;
  };
  readonly notes?: readonly string[];
}

const dangers: Readonly<Record<number, "none" | "mains" | "high-voltage">> = {
  1: "none",
  2: "mains",
  3: "high-voltage",
};
const mostSuspects = 12;

/** Which single fault the readings speak for, and where to probe next. */
export async function probeSuspects(
  model: Model,
  fitted: FittedNetlist,
  readings: readonly Reading[],
  meter_Mohm: number,
  calculate: Calculate,
): Promise<ProbeSuspectsView> {
  try {
    const asked = askedOf(readings, groundOf(model));
    const { answer, weighed } = await byNewestGains(asked.gains, (gains) =>
      calculate<Suspects>("circuits.suspects", { netlist: fitted.netlist, meter_Mohm, ...asked, gains }),
    );
    const { nextProbe } = answer;
    return {
      state: readings.length === 0 ? "unread" : answer.state,
      because: becauseOf(answer, readings.length),
      counted: readings.length,
      suspects:
        answer.state === "good" ? [] : answer.suspects.slice(0, mostSuspects).map((one) => suspectView(one, model)),
      ...(nextProbe && { nextProbe: nextOf(nextProbe, groundOf(model)) }),
      notes: [...leftOut(asked.gains.length, weighed), ...(answer.notes ?? [])],
    };
  } catch (fault) {
    return {
      state: "undecided",
      because: "The circuit could not be worked out, so nothing can be said of its parts.",
      counted: readings.length,
      suspects: [],
      notes: [],
      trouble: troubleOf(fault),
    };
  }
}

/**
 * The answer with all gains, or, of a unit so large that they would take too long, with the newest half of them, a
 * quarter, and so on: the newest were asked for last.
 */
async function byNewestGains<Gain>(
  gains: readonly Gain[],
  ask: (gains: readonly Gain[]) => Promise<Suspects>,
): Promise<{ readonly answer: Suspects; readonly weighed: number }> {
  for (let weighed = gains.length; ; weighed = Math.floor(weighed / 2)) {
    try {
      return { answer: await ask(gains.slice(gains.length - weighed)), weighed };
    } catch (fault) {
      if (!(fault instanceof BadInput) || fault.path !== "gains" || weighed === 0) throw fault;
    }
  }
}

function leftOut(read: number, weighed: number): readonly string[] {
  if (weighed === read) return [];
  const newest = weighed === 0 ? "None" : `Only the newest ${weighed}`;
  return [
    `${newest} of ${read} gains could be weighed: in a unit of so many parts more would not be answered in time.`,
  ];
}

/** The readings as the calculation takes them. */
function askedOf(readings: readonly Reading[], ground: string) {
  const of = (quantity: string) => readings.filter(({ body }) => body.quantity === quantity).map(({ body }) => body);
  const volts = of(quantityOf.dc);
  return {
    measured: Object.fromEntries(volts.map(({ subject, value }) => [subject.point, value])),
    doubts_V: Object.fromEntries(volts.map(({ subject, doubt }) => [subject.point, doubt])),
    gains: of(quantityOf.gain).flatMap(({ subject, value, doubt, conditions: { input, frequency_Hz } }) =>
      typeof input === "string" && typeof frequency_Hz === "number"
        ? [{ point: subject.point, input, frequency_Hz, gain_dB: value, ...(doubt > 0 && { doubt_dB: doubt }) }]
        : [],
    ),
    resistances: of(quantityOf.resistance).map(({ subject, value, doubt, conditions: { to } }) => ({
      between: [subject.point, typeof to === "string" ? to : ground],
      ohm: value,
      ...(doubt > 0 && { doubt_ohm: doubt }),
    })),
  };
}

function becauseOf({ state, reason }: Suspects, count: number): string {
  if (count === 0) return "Nothing was probed yet. Begin with the circuit dead and discharged.";
  if (reason !== undefined) return sentence(reason);
  if (state === "good") return "The readings together are what good parts give. Nothing accuses a part.";
  if (state === "faulty")
    return "No unit of good parts reads like this. One fault is looked for; the likeliest stands first.";
  return "The readings do not decide between a good unit and a faulty one.";
}

function suspectView(suspect: Suspects["suspects"][number], model: Model): SuspectView {
  const part = netlistParts(model).find(({ id }) => id === suspect.part);
  const label = typeof part?.label === "string" ? part.label : undefined;
  const nodes = new Set([...(part ? nodesOf(part) : []), ...(suspect.between ?? [])]);
  return {
    part: suspect.part,
    fault: suspect.fault,
    odds: suspect.odds,
    words: [label, suspect.words, suspect.with === undefined ? undefined : `with ${suspect.with}`]
      .filter((word) => word !== undefined && word !== "")
      .join("; "),
    alike: suspect.alike ?? [],
    near: testPointsOf(model.netlist)
      .filter(({ node }) => nodes.has(node))
      .map(({ point }) => point),
  };
}

function nextOf(
  { kind, point, between, input, frequency_Hz, why, minutes, danger, caution }: NonNullable<Suspects["nextProbe"]>,
  ground: string,
): NonNullable<ProbeSuspectsView["nextProbe"]> {
  return {
    kind,
    point,
    ...(kind === "resistance" && { to: between?.find((end) => end !== point) ?? ground }),
    ...(input !== undefined && { input }),
    ...(frequency_Hz !== undefined && { frequency_Hz }),
    why: sentence(why),
    minutes,
    danger: dangers[danger] ?? "high-voltage",
    caution,
  };
}

/** Begins with a capital and ends with a stop, as what people read does. */
function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}${/[.?!]$/.test(words) ? "" : "."}`;
}

function troubleOf(fault: unknown): string {
  if (!(fault instanceof BadInput)) throw fault;
  const path = fault.path.replace(/^netlist\.?/, "");
  return path === "" ? fault.message : `${path}: ${fault.message}`;
}
