import type { BodyOf, Model } from "../claims/evidence.ts";
import { type ClaimState, previewRework, retests, type Shop, type UnitState } from "../claims/index.ts";
import type { Calculate } from "./calculate.ts";
import { fittedNetlist, kindAt, withCurves } from "./fittedCurves.ts";
import { groupBy } from "./groupBy.ts";
import type { Step } from "./remainingWork.ts";
import { standingBalance } from "./standingBalance.ts";
import { forCircuit } from "./valveSets.ts";
import type { TypeReadings, ValveVerdict } from "./valveTable.ts";
import type { HumHearingView, ProposalView } from "./views.ts";

export interface Accused {
  readonly position: string;
  readonly valve: string;
}

/** The valve that the hearing found to be the cause, if it still stands where it was found. */
export function accusedValve(verdict: HumHearingView["verdict"], unit: UnitState): Accused | undefined {
  for (const found of Object.values(verdict)) {
    if (found.state !== "decided" || found.cause !== "valve" || !found.position || !found.valve) continue;
    if (unit.fitted[found.position] === found.valve) return { position: found.position, valve: found.valve };
  }
  return undefined;
}

export interface ProposalCase {
  readonly shop: Shop;
  /** What was read of some valves of a type. */
  readings(type: string, valves: readonly string[]): TypeReadings | undefined;
  /** All valves of a type as their heat runs left them. */
  verdicts(type: string): Promise<readonly ValveVerdict[]>;
  readonly model: Model;
  readonly unit: UnitState;
  readonly accused: Accused;
  /** The unit's claims as they stand, for what was measured with the valves that are in it. */
  readonly states: readonly ClaimState[];
  readonly now: string;
  /** The order's 80 % date, and what holds it, with a route put in place of the unit's own. */
  datesWith(
    unit: string,
    states: readonly ClaimState[],
    first: readonly Step[],
  ): Promise<{ p80: string; heldBy: string } | undefined>;
  datesNow(unit: string): Promise<{ p80: string; heldBy: string } | undefined>;
}

interface Sets {
  readonly sets: readonly {
    readonly positions: Readonly<Record<string, string>>;
    readonly cost: number;
    readonly doubt_dB?: number;
  }[];
}

/**
 * Which valve from the shelf should stand in for the accused one, what that voids, and what it does to the date.
 *
 * Candidates are valves of the type, fitted nowhere, proven by their heat run. Each is judged in this unit's own
 * circuit, with the curves of the valves that stay, and with what its measured balance says of its own resistors; the
 * least imbalance between the channels wins.
 */
export async function propose(proposal: ProposalCase, calculate: Calculate): Promise<ProposalView | undefined> {
  const { shop, model, unit, accused, now } = proposal;
  const position = model.positions.find((known) => known.position === accused.position);
  if (!position) return undefined;
  const shelf = (await proposal.verdicts(position.type)).filter(
    ({ id, verdict }) => verdict === "use" && !shop.fittedIn.has(id),
  );
  const free = forCircuit(shelf).map(({ id }) => id);
  const readings = proposal.readings(position.type, [...free, accused.valve]);
  if (!readings) return undefined;
  const candidates = await withCurves(free, position.sections, readings, calculate, kindAt(model, position.sections));
  if (candidates.length === 0) return undefined;

  const { netlist } = await fittedNetlist(
    model,
    unit.fitted,
    (type, valve) => proposal.readings(type, [valve]),
    calculate,
  );
  const standing = await standingBalance(proposal.states, model, netlist, calculate);
  const found = await calculate<Sets>("valves.sets", {
    valves: candidates,
    demand: [{ unit: unit.unit, positions: [position.position] }],
    netlist,
    input: model.channels.map((channel) => model.input[channel]),
    output: model.channels.map((channel) => model.output[channel]),
    ...(standing && { above_dB: standing.above_dB }),
    limit: model.balanceLimit_dB,
  });
  const [best] = found.sets;
  const chosen = best?.positions[position.position];
  if (!best || chosen === undefined) return undefined;

  const rework = exchange(accused.position, chosen);
  const preview = previewRework(model, shop.ledger, unit.unit, rework, now);
  const tests = retests(
    model,
    preview.voids.map(({ claim }) => claim),
  );
  const swap: Step = {
    step: `exchange ${accused.position}`,
    ...(tests[0] && { skill: tests[0].check.skill }),
    hours: { fast: 0.2, usual: 0.3, slow: 0.6 },
  };
  const [before, after] = await Promise.all([
    proposal.datesNow(unit.unit),
    proposal.datesWith(unit.unit, preview.states, [swap]),
  ]);
  const order = shop.orders.get(unit.order)?.body;
  const promised = shop.promises.get(unit.order)?.body.date ?? order?.due;
  return {
    because: heatRunWords(accused.valve, readings),
    position: accused.position,
    out: accused.valve,
    in: chosen,
    balance_dB: best.cost,
    // What stands was drawn from readings as doubtful as the candidate's, and its error came in by the comparison.
    doubt_dB: standing ? Math.hypot(Math.SQRT2 * (best.doubt_dB ?? 0), standing.doubt_dB) : (best.doubt_dB ?? 0),
    limit_dB: model.balanceLimit_dB,
    considered: candidates.length,
    voids: preview.voids.map(({ claim, title }) => ({ claim, title })),
    retests: tests.map(({ claim, title, check }) => ({
      claim,
      title,
      hands_min: check.hands_min,
      wait_h: check.wait_h,
      danger: check.danger,
    })),
    promise: {
      ...(promised !== undefined && { promised }),
      before_p80: before?.p80 ?? now,
      after_p80: after?.p80 ?? now,
      heldBy: after?.heldBy ?? "",
    },
  };
}

/** What changed in the valve's own readings over the heat run, a sentence for each section and quantity. */
export function heatRunWords(valve: string, { byValve }: TypeReadings): string[] {
  const sections = groupBy(byValve.get(valve) ?? [], ({ body }) => body.section);
  return [...sections].flatMap(([section, taken]) =>
    (["leakage_uA", "gridCurrent_uA"] as const).flatMap((quantity) => {
      const last = (phase: "cold" | "hot") =>
        taken.findLast(({ body }) => body.phase === phase && body[quantity] !== undefined)?.body[quantity];
      const [cold, hot] = [last("cold"), last("hot")];
      if (cold === undefined || hot === undefined || !(hot > 2 * Math.abs(cold))) return [];
      return [`${valve}, section ${section}: ${quantity} ${brief(cold)} before the heat run, ${brief(hot)} after it.`];
    }),
  );
}

function brief(value: number): string {
  return String(Number(value.toPrecision(3)));
}

/** Exchanging a valve touches its socket; what follows from that is worked out from the net list. */
export function exchange(position: string, valve: string): Pick<BodyOf<"rework">, "touched" | "fitted"> {
  return { touched: [{ position }], fitted: { [position]: valve } };
}
