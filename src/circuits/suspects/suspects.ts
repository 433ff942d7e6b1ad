import { chiSquaredCdf } from "../../maths/statistics/index.ts";
import type { Netlist } from "../netlist.ts";
import type { DeadSources } from "../resistance/deadNetwork.ts";
import { grouped } from "./alike.ts";
import { deadRule } from "./deadRule.ts";
import { checkEffort, type Effort, usualEffort } from "./effort.ts";
import { before, everyFault } from "./everyFault.ts";
import { likelihoodAt, logAdded } from "./evidence.ts";
import { type Explanation, glance, overRange, seenBy, settleExplanation } from "./explain.ts";
import { type Fault, type FaultDetail, faultName } from "./fault.ts";
import { type Bench, isLoaded } from "./inspect.ts";
import { type Looks, lookAt } from "./looks.ts";
import { chooseProbe, type NextProbe } from "./nextProbe.ts";
import type { Reading } from "./probes.ts";
import { type BenchReadings, readingsOf } from "./readings.ts";
import type { Sketch } from "./sketch.ts";
import { type Slip, slipOf } from "./slips.ts";
import { type Pattern, patternUnit } from "./specimen.ts";

export interface SuspectsQuestion extends BenchReadings {
  readonly meter_Mohm?: number | undefined;
  /** Parts in question: the next probe is chosen to tell their faults from a good unit. */
  readonly about?: readonly string[] | undefined;
  /** What the sources are once the unit is off; left out, what the readings agree with best. */
  readonly deadSources?: DeadSources | undefined;
}

interface Suspect extends FaultDetail {
  readonly part: string;
  readonly fault: string;
  readonly odds: number;
  /** The degree it would have, in words. */
  readonly words?: string;
  /** Others that no reading given tells apart from this one; their odds differ only by how often they are met. */
  readonly alike?: readonly string[];
}

export interface SuspectsAnswer {
  readonly state: "good" | "faulty" | "undecided";
  readonly reason?: string;
  /** Share of good units whose readings lie as far out as these. */
  readonly goodChance: number;
  readonly suspects: readonly Suspect[];
  readonly nextProbe?: NextProbe;
  /** Faults that the readings given cannot show. */
  readonly unseen: readonly ({ readonly part: string; readonly fault: string } & FaultDetail)[];
  readonly notes: readonly string[];
}

/** Good units read as far out as this in one of three hundred. */
const goodChanceLeast = 1 / 300;
/** Of a good unit no more faults than these are named, their odds beside them. */
const mostOfGood = 10;
/** Not called faulty while it may well be good. */
const goodOddsMost = 0.2;

/**
 * Which single fault explains readings of a unit best.
 *
 * Every fault of the library is put into the net list and solved in full; readings are compared by their density, the
 * spread of good parts through adjoint slopes at the faulted point, the meter's doubt and its load included; what fits
 * is looked at again at the values it would need. Degrees of a fault are integrated over.
 *
 * @throws BadInput for a net list that can't be answered or takes too long, a point or input that is not there
 */
export function findSuspects(
  netlist: Netlist,
  question: SuspectsQuestion,
  path = "netlist",
  effort: Effort = usualEffort,
): SuspectsAnswer {
  const faults = everyFault(netlist);
  const pattern = patternUnit(netlist, waysOf(faults), path);
  if ("reason" in pattern) {
    return {
      state: "undecided",
      reason: pattern.reason,
      goodChance: 1,
      suspects: [],
      unseen: [],
      notes: pattern.notes,
    };
  }
  const readings = readingsOf(pattern, question);
  checkEffort(pattern, faults, readings, effort, path);
  const notes: string[] = [];
  const bench = benchFor(pattern, question, faults, readings, notes);
  const good = settleExplanation(pattern, bench, glance(pattern, bench, undefined, 0, readings)!, readings);
  const looks = lookAt(pattern, { ...bench, straightLoad: true }, faults, readings, good, effort);
  const refined = refine(pattern, bench, looks, readings, good);
  const goodChance = chanceOf(good, readings);
  const slip = goodChance < goodChanceLeast ? slipOf(pattern, bench, readings, good) : undefined;
  const weighed = weigh(refined, good, otherwise(pattern, good, readings), slip, faults, looks.far);

  const verdict = judge(pattern, readings, weighed, slip, goodChance, notes);
  const named = namedSuspects(weighed.faults, readings);
  const suspects = verdict.state === "good" ? named.slice(0, mostOfGood) : named;
  const nextProbe = chooseProbe(
    pattern,
    bench,
    readings,
    possibilities(weighed, good, question.about, pattern.circuit.size),
  );
  return {
    ...verdict,
    ...(verdict.state === "undecided" && goodChance >= goodChanceLeast && nextProbe !== undefined
      ? { reason: `${verdict.reason}; ${askedFor(nextProbe)} would tell` }
      : {}),
    goodChance,
    suspects,
    ...(nextProbe === undefined ? {} : { nextProbe }),
    unseen: looks.unseen.map(({ part, fault, also }) => ({ part, fault, ...also })),
    notes,
  };
}

function askedFor({ kind, point, between }: NextProbe): string {
  if (kind === "resistance") return `the dead circuit's resistance from ${between?.join(" to ") ?? point}`;
  return kind === "dc" ? `the voltage at ${point}` : `a gain to ${point}`;
}

/** Share of units as this explanation has them whose readings lie as far out as these. */
function chanceOf({ evidence }: Explanation, readings: readonly Reading[]): number {
  return readings.length === 0 ? 1 : 1 - chiSquaredCdf(evidence.distance, readings.length);
}

/** Pairs of nodes that some fault joins. */
function waysOf(faults: readonly Fault[]): (readonly [string, string])[] {
  return faults.flatMap((fault) =>
    (fault.edit(fault.starts[0]!).added ?? []).flatMap((part) => (part.kind === "resistor" ? [part.between] : [])),
  );
}

/** How the bench reads, with the rule for sources of the dead unit that the resistances read agree with best. */
function benchFor(
  pattern: Pattern,
  question: SuspectsQuestion,
  faults: readonly Fault[],
  readings: readonly Reading[],
  notes: string[],
): Bench {
  const meter_ohm = question.meter_Mohm === undefined ? undefined : question.meter_Mohm * 1e6;
  const usual: Bench = { meter_ohm, dead: question.deadSources ?? "as labelled" };
  if (question.deadSources !== undefined) return usual;
  const dead = readings.filter(({ probe }) => probe.kind === "ohms");
  const bench = { ...usual, dead: deadRule(pattern, usual, faults, dead) };
  if (bench.dead !== usual.dead) {
    notes.push(
      `the resistances agree best with supplies that ${bench.dead === "short" ? "conduct" : "block"} once the unit is off`,
    );
  }
  return bench;
}

const leastRefined = 30;
const mostRefined = 80;
/** Where a good unit explains the readings this well, fewer are gone into. */
const wellExplained = 0.1;
/** A first look this much worse than the best found, ln of the likelihood, is not gone into. */
const hopeless = 40;
/** Second looks are for a fault whose degree the first mistook; those of faults that fit already are left. */
const leastSecond = 12;
/** So many of those that explain the readings about as well as the best does are taken over the whole of their range. */
const mostWhole = 8;
const nearTop = Math.log(30);

/** Each fault's best explanation after a closer look at those with a chance. */
function refine(
  pattern: Pattern,
  bench: Bench,
  { felt, second }: Looks,
  readings: readonly Reading[],
  good: Explanation,
): Explanation[] {
  const best = new Map<Fault, Explanation>(felt.map((look) => [look.fault!, look]));
  let top = good.evidence.logLikelihood;
  const most = chanceOf(good, readings) > wellExplained ? leastRefined : mostRefined;
  const closer = (look: Explanation): void => {
    // A misfit by the straight load is no measure for one by the load solved.
    const from = isLoaded(look.seen) ? seenBy(pattern, bench, look, readings) : look;
    if (from === undefined) return;
    const found = settleExplanation(pattern, bench, from, readings);
    top = Math.max(top, found.evidence.logLikelihood);
    const held = best.get(look.fault!)!;
    if (held === look || found.evidence.logLikelihood > held.evidence.logLikelihood) best.set(look.fault!, found);
  };
  felt.forEach((look, i) => {
    if (i < leastRefined || (i < most && look.evidence.logLikelihood > top - hopeless)) closer(look);
  });
  const open = second.filter(
    ({ fault, evidence }) =>
      evidence.logLikelihood > top - hopeless && best.get(fault!)!.evidence.logLikelihood < top - 1,
  );
  for (const look of open.slice(0, leastSecond)) closer(look);
  const settled = [...best.values()].sort((a, b) => b.evidence.logLikelihood - a.evidence.logLikelihood);
  return settled.map((one, i) =>
    i < mostWhole && one.evidence.logLikelihood > top - nearTop ? overRange(pattern, bench, one, readings) : one,
  );
}

interface Weighed {
  /** Of a good unit read rightly; with the odds of a slip and of all single faults they add up to one. */
  readonly goodOdds: number;
  /** Of a good unit with one reading taken down wrong. */
  readonly slipOdds: number;
  /** Odds against all of them that it is something else. */
  readonly otherOdds: number;
  readonly faults: readonly { readonly explanation: Explanation; readonly odds: number }[];
  /** Of faults that no reading given could feel: the odds of a good unit, shared out. */
  readonly silent: readonly { readonly fault: Fault; readonly odds: number }[];
}

function weigh(
  refined: readonly Explanation[],
  good: Explanation,
  other: number,
  slip: Slip | undefined,
  faults: readonly Fault[],
  far: readonly Sketch[],
): Weighed {
  const all = faults.reduce((sum, { prior }) => sum + prior, 0);
  const share = (fault: Fault): number => Math.log((before.fault * fault.prior) / all);
  const known = new Set([...refined, ...far].map(({ fault }) => fault));
  const silent = faults.filter((fault) => !known.has(fault));
  const weights = {
    good: Math.log(before.good) + good.evidence.logLikelihood,
    other: Math.log(before.other) + other,
    slip: slip === undefined ? Number.NEGATIVE_INFINITY : Math.log(before.good) + slip.logWeight,
    faults: refined.map((explanation) => share(explanation.fault!) + explanation.evidence.logLikelihood),
    silent: silent.map((fault) => share(fault) + good.evidence.logLikelihood),
    far: far.map(({ fault, distance }) => share(fault) + likelihoodAt(distance, good.evidence)),
  };
  const likeliest = Math.max(weights.good, ...weights.faults, ...weights.silent);
  /** ln of a weight beside the likeliest, were the model of its fault wrong in one case of so many. */
  const floored = (weight: number, shareOfAll: number): number =>
    likeliest + logAdded(weight - likeliest, Math.log(modelWrong * shareOfAll));
  const logs = {
    good: floored(weights.good, before.good),
    faults: refined.map(({ fault }, i) => floored(weights.faults[i]!, (before.fault * fault!.prior) / all)),
  };
  const logSum = [logs.good, weights.slip, ...logs.faults, ...weights.silent, ...weights.far].reduce(
    logAdded,
    Number.NEGATIVE_INFINITY,
  );
  return {
    goodOdds: Math.exp(logs.good - logSum),
    slipOdds: Math.exp(weights.slip - logSum),
    otherOdds: Math.exp(weights.other - logAdded(logSum, weights.other)),
    faults: refined
      .map((explanation, i) => ({ explanation, odds: Math.exp(logs.faults[i]! - logSum) }))
      .sort((a, b) => b.odds - a.odds || b.explanation.evidence.logLikelihood - a.explanation.evidence.logLikelihood),
    silent: silent.map((fault, i) => ({ fault, odds: Math.exp(weights.silent[i]! - logSum) })),
  };
}

/** In so many cases a fault shows itself quite otherwise than the model of it says. */
const modelWrong = 1e-6;

/** ln density of the readings for a unit that is anything at all: each about a good unit's, as wide as its supplies. */
function otherwise({ rest, circuit }: Pattern, good: Explanation, readings: readonly Reading[]): number {
  let widest_V = 1;
  for (let i = 0; i < circuit.nodeNames.length; i++) widest_V = Math.max(widest_V, Math.abs(rest.x[i]!));
  let sum = 0;
  readings.forEach(({ probe, value, sd }, i) => {
    const wide = probe.kind === "volts" ? 0.3 * widest_V : probe.kind === "gain" ? 15 : 3;
    const all = Math.hypot(wide, sd);
    const z = (value - good.seen.values[i]!) / all;
    sum -= 0.5 * Math.log(1 + z * z) * 4 + Math.log(all * Math.sqrt(2 * Math.PI));
  });
  return sum;
}

function judge(
  pattern: Pattern,
  readings: readonly Reading[],
  weighed: Weighed,
  slip: Slip | undefined,
  goodChance: number,
  notes: string[],
): Pick<SuspectsAnswer, "state" | "reason"> {
  if (readings.length === 0) return { state: "undecided", reason: "no reading is given yet" };
  if (goodChance >= goodChanceLeast) {
    const accused = accusedOf(weighed, readings);
    return accused === undefined ? { state: "good" } : { state: "undecided", reason: accused };
  }
  const faultsTogether = weighed.faults.reduce((sum, { odds }) => sum + odds, 0);
  const { slipOdds } = weighed;
  if (slip !== undefined && slipOdds > 0.1 * faultsTogether) notes.push(slip.words);
  if (slip !== undefined && slipOdds > faultsTogether) {
    return { state: "undecided", reason: `one reading may be a slip: ${slip.words}; take it again` };
  }
  const unlikely = impossible(pattern, readings);
  if (unlikely !== undefined && weighed.otherOdds > 0.5) {
    return { state: "undecided", reason: `${unlikely}; take it again` };
  }
  if (weighed.goodOdds > goodOddsMost) {
    return {
      state: "undecided",
      reason: `the readings lie at the edge of what good parts give (${inOneOf(goodChance)} good units reads so), and no fault explains them much better`,
    };
  }
  const best = weighed.faults[0];
  if (best === undefined || weighed.otherOdds > 0.5 || chanceOf(best.explanation, readings) < fitsBadly) {
    const reason =
      "the readings are not those of a good unit, but no single fault of the library explains them well: perhaps two faults, one of another kind, or a wrong reading";
    notes.push(reason);
    return { state: "faulty", reason };
  }
  return { state: "faulty" };
}

/** Under this chance even the best fault does not explain the readings. */
const fitsBadly = 1e-3;
/** A fault, or a group that no reading tells apart, so many times likelier than a good unit is worth a look. */
const accusedOdds = 20;

/**
 * One bad reading among many good ones passes the test of all together; the odds see it.
 *
 * @returns the accusation in words, nothing where no fault is that much likelier than a good unit
 */
function accusedOf({ faults, goodOdds }: Weighed, readings: readonly Reading[]): string | undefined {
  const [group] = grouped(faults.slice(0, mostCompared), readings);
  if (group === undefined) return undefined;
  const together = group.reduce((sum, { odds }) => sum + odds, 0);
  if (together < accusedOdds * goodOdds) return undefined;
  const { fault } = group[0]!.explanation;
  const like = group.length > 1 ? " (or one that reads like it)" : "";
  return `the readings together lie within what good parts give, but ${faultName(fault!)}${like} explains them ${Math.round(together / goodOdds)} times better than a good unit does`;
}

/** A voltage beyond all supplies in a row can't be right. */
function impossible({ netlist }: Pattern, readings: readonly Reading[]): string | undefined {
  let supplies_V = 1;
  for (const part of netlist.parts) {
    if (part.kind === "voltage") supplies_V += Math.abs(part.dc_V) * (1 + (part.tolerance ?? 0));
    if (part.kind === "current" && part.dc_mA !== 0) return undefined;
  }
  const far = readings.find(({ probe, value, sd }) => probe.kind === "volts" && Math.abs(value) > supplies_V + 4 * sd);
  return far && `${far.name} reads more than all supplies together`;
}

function inOneOf(chance: number): string {
  return `one in ${Math.round(1 / Math.max(chance, 1e-6))}`;
}

const mostNamed = 40;
const mostCompared = 90;
const mostAlike = 8;
const mostPlaces = 8;
const leastOdds = 1e-4;

function namedSuspects(faults: Weighed["faults"], readings: readonly Reading[]): Suspect[] {
  const leading = faults.slice(0, mostCompared).filter(({ odds }, i) => i < 3 || odds >= leastOdds);
  return grouped(leading, readings)
    .slice(0, mostPlaces)
    .flatMap((group) => {
      const names = group.map(({ explanation }) => faultName(explanation.fault!));
      return group.map(
        ({ explanation: { fault, severity }, odds }, i): Suspect => ({
          part: fault!.part,
          fault: fault!.fault,
          odds,
          ...(fault!.words === undefined ? {} : { words: fault!.words(severity) }),
          ...fault!.also,
          ...(group.length > 1 ? { alike: cutShort(names.filter((_, j) => j !== i)) } : {}),
        }),
      );
    })
    .sort((a, b) => b.odds - a.odds)
    .slice(0, mostNamed);
}

function cutShort(names: readonly string[]): readonly string[] {
  if (names.length <= mostAlike + 1) return names;
  return [...names.slice(0, mostAlike), `and ${names.length - mostAlike} more`];
}

const mostPossibilities = 120;
/** Of a large circuit fewer, so that the answer comes in time. */
const largeSize = 100;
const fewPossibilities = 40;
const leastPossibility = 1e-4;

/** What is left to tell apart: a good unit counts no more than all faults together, so that a probe looks for them. */
function possibilities(
  { goodOdds, faults, silent }: Weighed,
  good: Explanation,
  about: readonly string[] | undefined,
  size: number,
): { explanation: Explanation; odds: number }[] {
  const unfelt = silent.map(({ fault, odds }) => ({
    explanation: { ...good, fault, severity: fault.starts[Math.floor(fault.starts.length / 2)]! },
    odds,
  }));
  const asked = [...faults, ...unfelt].filter(({ explanation }) => about?.includes(explanation.fault!.part) ?? true);
  const ranked = asked
    .sort((a, b) => b.odds - a.odds)
    .slice(0, size > largeSize ? fewPossibilities : mostPossibilities);
  const together = ranked.reduce((sum, { odds }) => sum + odds, 0);
  const leading = ranked.filter(({ odds }) => odds > together * leastPossibility);
  return [{ explanation: good, odds: Math.min(goodOdds, together) }, ...leading];
}
