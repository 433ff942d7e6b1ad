import { BadInput, quote } from "../../maths/badInput.ts";
import type { BodyOf, Model } from "../evidence.ts";
import { type Run, thingsOf } from "../runs/runs.ts";
import type { Shop } from "../shop.ts";
import { requireDistinct, requireKnown } from "./refuse.ts";

type Begun = BodyOf<"begun"> & { readonly at: string };

/** What is set going is known, is not going already, waits by itself, and finds room where it is put. */
export function admitBegun(begun: Begun, shop: Shop): void {
  const things = thingsOf(begun);
  if (things.length === 0) {
    throw new BadInput("units", "nothing", "units, valves or pieces", "name what is set going");
  }
  requireDistinct("units", things, "thing");
  const standing = shop.runs.get(begun.run);
  if (standing && begun.supersedes !== standing.id) {
    throw new BadInput("run", quote(begun.run), "a run of that name was begun", "give it another name");
  }
  for (const [i, unit] of begun.units.entries()) requireWait(begun, unit, i, shop);
  requireEach("valves", begun.valves, (valve) => shop.valves.has(valve), "valve");
  requireEach("pieces", begun.pieces, (piece) => shop.timber.state(piece) !== undefined, "piece");
  for (const thing of things) {
    const other = shop.runs.of(thing);
    if (!other || other.id === begun.supersedes) continue;
    throw new BadInput(
      "run",
      quote(begun.run),
      `${thing} is in run ${other.body.run} at ${other.body.place} since ${other.at}`,
      "write down how that one ended first",
    );
  }
  requireRoom(begun, things, shop);
}

function requireEach(field: string, names: readonly string[], isKnown: (name: string) => boolean, what: string): void {
  const strange = names.findIndex((name) => !isKnown(name));
  if (strange < 0) return;
  throw new BadInput(
    `${field}[${strange}]`,
    quote(names[strange]),
    `no ${what} of that name is on record`,
    `check the number, or enter the ${what} first`,
  );
}

/** A unit waits at a build step that needs no hands, or before a check that has to wait. */
function requireWait({ step, claim }: Begun, unit: string, i: number, shop: Shop): void {
  const model = shop.orderedAs(unit);
  if (!model) {
    requireKnown(`units[${i}]`, unit, shop.units, "unit");
    return;
  }
  if ((step === undefined) === (claim === undefined)) {
    throw new BadInput(
      step === undefined ? "step" : "claim",
      step === undefined ? "neither step nor claim" : "step and claim",
      `one of them, for unit ${unit}`,
      "name the build step that goes on by itself, or the check that has to wait",
    );
  }
  if (step !== undefined) requireStep(model, unit, step);
  else requireClaim(model, unit, claim!);
  if (shop.isReleased(unit) && shop.units.has(unit)) {
    throw new BadInput(`units[${i}]`, quote(unit), "it has left", "check the serial number");
  }
}

function requireStep(model: Model, unit: string, step: string): void {
  const waits = model.build.filter(({ unattended }) => unattended).map((one) => one.step);
  if (waits.includes(step)) return;
  throw new BadInput(
    "step",
    `${quote(step)} of unit ${unit}`,
    `steps of ${model.model} that go on by themselves: ${waits.join(", ") || "none"}`,
    "name one of them; other steps are written down when they are done",
  );
}

function requireClaim(model: Model, unit: string, claim: string): void {
  const waits = model.claims.filter(({ check }) => check.wait_h > 0).map((one) => one.claim);
  if (waits.includes(claim)) return;
  throw new BadInput(
    "claim",
    `${quote(claim)} of unit ${unit}`,
    `checks of ${model.model} that have to wait: ${waits.join(", ") || "none"}`,
    "name one of them",
  );
}

/** Where the shop wrote its places down, one of them must have room; slots are counted through. */
function requireRoom({ place, slot, pieces, supersedes }: Begun, things: readonly string[], shop: Shop): void {
  const places = [...(shop.shop?.places.map(({ id }) => id) ?? []), ...shop.timber.places.keys()];
  if (places.length > 0) requireKnown("place", place, new Set(places), "place");
  const taken = shop.runs.slotsOf(place).filter(({ run }) => run.id !== supersedes);
  // A place for timber has room for so many pieces of it.
  const holds = pieces.length === 0 ? undefined : shop.timber.places.get(place)?.holds;
  const capacity = shop.shop?.places.find(({ id }) => id === place)?.capacity ?? holds;
  const concerned = things.length === 1 ? things[0]! : `${things[0]} and ${things.length - 1} more`;
  if (capacity !== undefined && taken.length + things.length > capacity) {
    throw new BadInput(
      "place",
      `${quote(place)} for ${concerned}`,
      `it holds ${capacity}, and ${taken.length} are in it: ${taken.map(({ thing }) => thing).join(", ") || "none"}`,
      "write down what came out of it, or name another place",
    );
  }
  if (slot === undefined) return;
  if (capacity !== undefined && slot + things.length - 1 > capacity) {
    throw new BadInput(
      "slot",
      `${quote(slot)} for ${concerned}`,
      `${place} has slots 1 to ${capacity}`,
      "name the slot it stands in",
    );
  }
  const held = taken.find((one) => one.slot !== undefined && one.slot >= slot && one.slot < slot + things.length);
  if (!held) return;
  throw new BadInput(
    "slot",
    `${quote(slot)} for ${concerned}`,
    `${held.thing} stands in slot ${held.slot} of ${place} since ${held.run.at}`,
    "name a free slot, or write down what came out of it",
  );
}

function unknownRun(name: string, shop: Shop): never {
  requireKnown("run", name, shop.runs.all, "run");
  throw new Error("unreachable: a run was found among all and not by its name");
}

/** The end of a whole run, told as of before, would tell anew what ended after that. */
function requireLastWord(ended: BodyOf<"ended"> & { readonly at: string }, run: Run): void {
  for (const [thing, { at, outcome, isImplied }] of run.endings) {
    if (isImplied || Date.parse(at) <= Date.parse(ended.at)) continue;
    throw new BadInput(
      "things",
      "nothing",
      `${thing} ended ${outcome} at ${at}, after this`,
      "name what ended by then, or check the date",
    );
  }
}

/** What ended was running, and its hours are not more than the clock's. */
export function admitEnded(ended: BodyOf<"ended"> & { readonly at: string }, shop: Shop): void {
  const run = shop.runs.without(ended.supersedes, ended.run) ?? unknownRun(ended.run, shop);
  const named = ended.things ?? run.running;
  for (const [i, thing] of named.entries()) {
    requireKnown(`things[${i}]`, thing, run.things, `thing in run ${ended.run}`);
    const ending = run.endings.get(thing);
    if (!ending || ending.isImplied) continue;
    throw new BadInput(
      `things[${i}]`,
      quote(thing),
      `it ended ${ending.outcome} at ${ending.at}`,
      "leave it out, or supersede that entry",
    );
  }
  if (named.length === 0) {
    throw new BadInput("run", quote(ended.run), "everything in it has ended", "begin a new one");
  }
  if (ended.things === undefined) requireLastWord(ended, run);
  const clock_h = (Date.parse(ended.at) - Date.parse(run.at)) / 3_600_000;
  if (clock_h < 0) {
    throw new BadInput("at", quote(ended.at), `run ${ended.run} was begun at ${run.at}`, "check the date");
  }
  if (ended.hours !== undefined && ended.hours > clock_h + 0.1) {
    throw new BadInput(
      "hours",
      `${quote(ended.hours)} for ${named[0]} in run ${ended.run}`,
      `at most the ${Number(clock_h.toFixed(2))} h since it was begun`,
      "read the clock again",
    );
  }
  if (ended.fault === undefined || ended.outcome === "failed") return;
  throw new BadInput("fault", quote(ended.fault), "a fault goes with outcome failed", "say failed, or leave it out");
}
