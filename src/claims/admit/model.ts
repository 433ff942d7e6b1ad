import { BadInput, quote } from "../../maths/badInput.ts";
import { isRoutine, routineRank } from "../../safety/index.ts";
import { forerunners } from "../checkOrder.ts";
import type { ClaimSpec, Model, Requirement, Thing } from "../evidence.ts";
import { isAll, netlistParts, thingInWords, wiredAspects, wiredParts } from "../things.ts";
import { requireDistinct, requireKnown } from "./refuse.ts";

/**
 * Refuses a model whose net list, positions, channels and claims don't hang together.
 *
 * A claim that rests on something no part belongs to could never be voided, which is worse than a refused entry.
 */
export function admitModel(model: Model): void {
  requireParts(model);
  requireDistinct("channels", model.channels, "channel");
  requirePositions(model);
  for (const ends of ["input", "output"] as const) {
    for (const channel of Object.keys(model[ends])) {
      requireKnown(`${ends}.${channel}`, channel, model.channels, "channel");
    }
    for (const channel of model.channels) {
      if (model[ends][channel] !== undefined) continue;
      throw new BadInput(`${ends}.${channel}`, "nothing", `an ${ends} for each channel`, "name it");
    }
  }
  const names = model.claims.map(({ claim }) => claim);
  requireDistinct("claims", names, "claim");
  for (const [i, claim] of model.claims.entries()) requireClaim(model, claim, names, `claims[${i}]`);
  requireNoCircle(model);
  requireSafeOrder(model);
  requireDistinct(
    "build",
    model.build.map(({ step }) => step),
    "step",
  );
}

function requireParts(model: Model): void {
  const { parts } = model.netlist;
  if (!Array.isArray(parts)) {
    throw new BadInput("netlist.parts", quote(parts), "a list of parts", "give the net list as circuits.rest takes it");
  }
  const ids = netlistParts(model).map(({ id }) => id);
  const nameless = parts.findIndex((part: unknown) => typeof (part as { id?: unknown } | null)?.id !== "string");
  if (nameless >= 0) {
    throw new BadInput(`netlist.parts[${nameless}].id`, quote(parts[nameless]), "a part with an id", "name the part");
  }
  requireDistinct("netlist.parts", ids, "part");
}

function requirePositions(model: Model): void {
  const ids = netlistParts(model).map(({ id }) => id);
  const names = model.positions.map(({ position }) => position);
  requireDistinct("positions", names, "position");
  const taken = new Map<string, string>();
  for (const [i, { position, sections }] of model.positions.entries()) {
    if (Object.keys(sections).length === 0) {
      throw new BadInput(`positions[${i}].sections`, "{}", "at least one section", "name the part of each section");
    }
    for (const [section, part] of Object.entries(sections)) {
      const path = `positions[${i}].sections.${section}`;
      requireKnown(path, part, ids, "part");
      const other = taken.get(part);
      if (other !== undefined) throw new BadInput(path, quote(part), `it belongs to ${other} already`, "name another");
      taken.set(part, position);
    }
  }
  for (const [position, channels] of Object.entries(model.feeds ?? {})) {
    requireKnown(`feeds.${position}`, position, names, "position");
    for (const [i, channel] of channels.entries()) {
      requireKnown(`feeds.${position}[${i}]`, channel, model.channels, "channel");
    }
  }
}

function requireClaim(model: Model, claim: ClaimSpec, names: readonly string[], path: string): void {
  for (const [i, requirement] of claim.requires.entries()) {
    requireRequirement(model, requirement, `${path}.requires[${i}]`);
  }
  for (const [i, thing] of claim.restsOn.entries()) requireWired(model, thing, `${path}.restsOn[${i}]`);
  for (const [i, other] of claim.check.after.entries())
    requireKnown(`${path}.check.after[${i}]`, other, names, "claim");
}

function requireRequirement(model: Model, requirement: Requirement, path: string): void {
  const { of, position, section, channel, low, high } = requirement;
  if (low === undefined && high === undefined) {
    throw new BadInput(`${path}.high`, "neither low nor high", "at least one limit", "give low, high or both");
  }
  if (low !== undefined && high !== undefined && low > high) {
    throw new BadInput(
      `${path}.low`,
      quote(low),
      `a limit at or below high, ${quote(high)}`,
      "exchange the two limits",
    );
  }
  if (channel !== undefined) requireKnown(`${path}.channel`, channel, model.channels, "channel");
  if (position === undefined && (of === "valve" || section !== undefined)) {
    throw new BadInput(`${path}.position`, "nothing", "the position whose valve is meant", "name the position");
  }
  if (position === undefined) return;
  const place = model.positions.find((p) => p.position === position);
  requireKnown(
    `${path}.position`,
    position,
    model.positions.map((p) => p.position),
    "position",
  );
  if (section !== undefined) requireKnown(`${path}.section`, section, Object.keys(place?.sections ?? {}), "section");
}

/** Refuses a thing whose part, position, stage and channel no part of the net list has together. */
export function requireWired(model: Model, thing: Thing, path: string): void {
  const wired = Object.fromEntries(wiredAspects.map((a) => [a, thing[a]]).filter(([, name]) => name !== undefined));
  if (Object.keys(thing).length === 0) {
    throw new BadInput(path, "{}", "a part, position, stage, channel, supply, case or instrument", "name the thing");
  }
  const parts = wiredParts(model);
  for (const aspect of wiredAspects) {
    const name = thing[aspect];
    const known = new Set(parts.map((part) => part[aspect]).filter((value) => value !== undefined));
    if (name !== undefined) requireKnown(`${path}.${aspect}`, name, known, aspect);
  }
  if (Object.keys(wired).length === 0 || parts.some((part) => isAll(part, wired))) return;
  throw new BadInput(path, thingInWords(wired), "no part of the net list is all of these", "name them apart");
}

/**
 * Refuses a model that lets a routine safety test be made before one that protects whoever makes it: mains on an earth
 * that is not proven, or hands near a store before insulation is.
 */
function requireSafeOrder(model: Model): void {
  const before = forerunners(model);
  const tests = model.claims.filter(({ safety, check }) => safety && check.danger !== "none");
  const quantitiesOf = (claim: ClaimSpec) => claim.requires.map(({ quantity }) => quantity);
  for (const claim of tests) {
    for (const first of tests) {
      const protects = quantitiesOf(first).some(
        (quantity) => quantity === "bond_ohm" || quantity === "resistance_Mohm",
      );
      const rank = (of: ClaimSpec) => Math.min(...quantitiesOf(of).map(routineRank));
      if (!protects || rank(first) >= rank(claim) || !quantitiesOf(claim).some(isRoutine)) continue;
      if (before.get(claim.claim)?.has(first.claim)) continue;
      throw new BadInput(
        `claims[${model.claims.indexOf(claim)}].check.after`,
        `${quote(claim.check.after)} of ${claim.claim}`,
        `it protects whoever tests that ${first.claim} is proven before`,
        `add ${first.claim}`,
      );
    }
  }
}

function requireNoCircle(model: Model): void {
  const before = forerunners(model);
  const inCircle = model.claims.findIndex(({ claim }) => before.get(claim)?.has(claim));
  if (inCircle < 0) return;
  throw new BadInput(
    `claims[${inCircle}].check.after`,
    quote(model.claims[inCircle]!.check.after),
    "checks that come after one another, not in a circle",
    "take one of them out",
  );
}
