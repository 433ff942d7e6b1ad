import { stagesOf } from "../../claims/admit/books.ts";
import type { Evidence, Model } from "../../claims/evidence.ts";
import type { Shop } from "../../claims/index.ts";
import type { Candidate, PastFault, PlacedCheck, Proposal, Shorter, Stage } from "../../production/index.ts";
import type { Calculate } from "../calculate.ts";
import { groupBy } from "../groupBy.ts";
import { plateLengths } from "./plateLength.ts";
import { customer, type Records, recordsOf } from "./records.ts";
import { soakChanges } from "./soaks.ts";
import type { SoakChangeView } from "./soakViews.ts";
import type { ChecksView, ProposalView } from "./views.ts";

/** Of a check newly made where it was not made before, of the sorts it looks for. Common practice, no source. */
const findsAnew = 0.7;

/** Where checks belong, by replaying the faults of the past, and what the cheapest order of each model saves. */
export async function checksView(
  shop: Shop,
  now: string,
  calculate: Calculate,
  records: Records = recordsOf(shop),
  lengths = plateLengths(shop, records),
): Promise<ChecksView> {
  const newest = newestModels(shop);
  const orders = await Promise.all(newest.map((model) => orderOf(model, records, calculate)));
  const base = {
    ...(shop.rates && { currency: shop.rates.currency }),
    units: records.units,
    faults: records.faults.length,
    orders,
    sorts: sortsOf(records),
  };
  const soaks = await soakChanges(shop, now, calculate, new Set(lengths.map(({ check }) => check)), records);
  if (records.faults.length === 0 || records.hour_cents === undefined || newest.length === 0) {
    return { ...base, today_cents: 0, saves: [], dear: [], silent: [], soaks };
  }
  const placement = placementOf(newest, records, shop.rates?.hour_cents ?? {});
  const found = await calculate<{
    saves: Proposal[];
    rest: Proposal[];
    shorter?: Shorter[];
    today_cents: number;
  }>("production.where", {
    ...placement,
    ...(lengths.length > 0 && { lengths }),
    units: records.units,
    seed: 1,
    all: true,
  });
  const shown = (proposal: Proposal): ProposalView => ({ ...proposal, title: titleOf(newest, proposal.check) });
  const shorter = (found.shorter ?? []).filter(({ to, from, state }) => to < from && state !== "costs");
  return {
    ...base,
    today_cents: found.today_cents,
    saves: firstOfEach(found.saves.filter(({ what }) => what !== "drop")).map(shown),
    dear: found.saves.filter(({ what }) => what === "drop").map(shown),
    silent: firstOfEach(found.rest.filter(({ state, units }) => state === "undecided" && units > 0))
      .slice(0, 8)
      .map(shown),
    soaks: [...shorter.map(shorterView), ...soaks],
  };
}

function shorterView({ check, from, to, shown, missed, pieces, ...rest }: Shorter): SoakChangeView {
  const { saving_cents, low_cents, high_cents, state } = rest;
  return {
    ...{ what: check, kind: "shorten", from_h: from, to_h: to, pieces, failures: shown, missed },
    ...{ saving_cents, low_cents, high_cents, state },
  };
}

function newestModels(shop: Shop): readonly Model[] {
  const newest = new Map<string, Evidence<"model">>();
  for (const entry of shop.models.values()) {
    const known = newest.get(entry.body.model);
    if (!known || entry.seq > known.seq) newest.set(entry.body.model, entry);
  }
  return [...newest.values()].map(({ body }) => body);
}

/** The title that all models give a check, else its short name, which they share. */
function titleOf(models: readonly Model[], check: string): string {
  const titles = new Set(
    models.flatMap(({ claims }) => claims.filter(({ claim }) => claim === check).map(({ title }) => title)),
  );
  return titles.size === 1 ? [...titles][0]! : check.replaceAll("-", " ");
}

/** Of each check's moves only the surest is told. */
function firstOfEach(proposals: readonly Proposal[]): readonly Proposal[] {
  const seen = new Set<string>();
  return proposals.filter(({ what, check }) => {
    const key = `${what} ${check}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** Stages of all models in one order, what faults cost at each, today's checks, and a look after each build step on trial. */
function placementOf(models: readonly Model[], records: Records, rates: Readonly<Record<string, number>>) {
  const { faults, hour_cents } = records;
  const names = mergedStages(models.map(stagesOf));
  const cents = (fault: Evidence<"fault">) => Math.round(records.cost_h(fault) * hour_cents!);
  const all = faults.map(cents);
  const overall = all.reduce((sum, value) => sum + value, 0) / all.length;
  const late = faults.filter(({ body }) => body.found === customer).map(cents);
  const lateMean = late.length > 0 ? late.reduce((sum, value) => sum + value, 0) / late.length : 6 * overall;
  let highest = 1;
  const stages = names.map((stage): Stage => {
    const here = faults.filter(({ body }) => body.found === stage).map(cents);
    const guess = stage === customer ? lateMean : overall;
    // Softened by two faults of the common kind; a stage later on is never cheaper than one before.
    const mean = (here.reduce((sum, value) => sum + value, 0) + 2 * guess) / (here.length + 2);
    highest = Math.max(highest, here.length > 0 || stage === customer ? mean : highest);
    return { stage, found_cents: Math.round(here.length > 0 || stage === customer ? highest : Math.max(highest, 1)) };
  });
  const sortsAt = (stage: string) => [
    ...new Set(faults.filter(({ body }) => body.found === stage).map(({ body }) => body.fault)),
  ];
  const shareFound = (stage: string, fault: string) => {
    const of = faults.filter(
      ({ body }) =>
        body.fault === fault &&
        names.indexOf(body.possible) <= names.indexOf(stage) &&
        names.indexOf(body.found) >= names.indexOf(stage),
    );
    const caught = of.filter(({ body }) => body.found === stage).length;
    return Math.min(1, (caught + 0.8 * 5) / (of.length + 5));
  };
  const findsAt = (stage: string) =>
    Object.fromEntries(sortsAt(stage).map((fault) => [fault, shareFound(stage, fault)]));
  const claims = new Map(models.flatMap((model) => model.claims.map((claim) => [claim.claim, claim] as const)));
  const checks: PlacedCheck[] = [...claims.values()]
    .filter(({ claim }) => sortsAt(claim).length > 0)
    .map(({ claim, check, safety }) => ({
      check: claim,
      stage: claim,
      cost_cents: Math.round((check.hands_min / 60) * (rates[check.skill] ?? hour_cents!)),
      finds: findsAt(claim),
      // What the order of checks among themselves saves is told by `production.checks`.
      earliest: claim,
      ...(safety && { fixed: true }),
    }));
  // What hands see while they build is no check of its own, but finds what it finds.
  const steps = [...new Set(models.flatMap(({ build }) => build.map(({ step }) => step)))];
  const looked: PlacedCheck[] = steps
    .filter((step) => sortsAt(step).length > 0)
    .map((step) => ({ check: `a look at ${step}`, stage: step, cost_cents: 0, finds: findsAt(step), fixed: true }));
  const candidates: Candidate[] = steps.flatMap((step) => {
    const possible = [...new Set(faults.filter(({ body }) => body.possible === step).map(({ body }) => body.fault))];
    return possible.map((fault) => ({
      check: `look for: ${fault}`,
      stage: step,
      cost_cents: Math.round((look_min / 60) * hour_cents!),
      finds: { [fault]: findsAnew },
    }));
  });
  return {
    stages,
    checks: [...looked, ...checks],
    candidates,
    faults: faults
      .filter(({ body }) => names.includes(body.possible) && names.includes(body.found))
      .map(
        (fault): PastFault => ({
          unit: fault.body.unit,
          fault: fault.body.fault,
          possible: fault.body.possible,
          found: fault.body.found,
          cost_cents: cents(fault),
        }),
      ),
  };
}

/** A look of so many minutes with lens and meter before the next step. Common practice, no source. */
const look_min = 6;

/** One order that keeps every model's own, as far as they agree. */
function mergedStages(lists: readonly (readonly string[])[]): readonly string[] {
  const merged: string[] = [];
  for (const list of lists.toSorted((a, b) => b.length - a.length)) {
    let at = 0;
    for (const stage of list.slice(0, -1)) {
      const known = merged.indexOf(stage);
      if (known >= 0) at = known + 1;
      else merged.splice(at++, 0, stage);
    }
  }
  return [...merged, customer];
}

async function orderOf(model: Model, records: Records, calculate: Calculate): Promise<ChecksView["orders"][number]> {
  const specs = model.claims.slice(0, 200);
  const first = specs.filter(({ safety }) => safety);
  const checks = specs.map((spec) => {
    const { hands_min, after, danger } = spec.check;
    const odds = records.suspected(model, spec).reduce((pass, { odds: of }) => pass * (1 - oddsOf(of)), 1);
    const guards =
      !spec.safety && (danger === "mains" || danger === "high-voltage") ? first.map(({ claim }) => claim) : [];
    return {
      id: spec.claim,
      cost: hands_min,
      failOdds: Math.min(1, Math.max(0, 1 - odds)),
      after: [...new Set([...after, ...guards])].filter((claim) => claim !== spec.claim),
    };
  });
  // Today's order, made allowed: as the model lists them, each after what must come first. The safety tests are one
  // run in their own order, which is kept.
  const run = allowedOrder(checks.filter(({ id }) => first.some(({ claim }) => claim === id)));
  const listed = allowedOrder(asOneRun(checks, run));
  const answer = await calculate<{ order: string[]; expectedCost: number; optimal: boolean; givenCost?: number }>(
    "production.checks",
    { checks: listed },
  );
  const titles = new Map(specs.map(({ claim, title }) => [claim, title]));
  const named = (ids: readonly string[]) =>
    ids.flatMap((id) => (id === safetyRun ? run.map((one) => one.id) : [id])).map((id) => titles.get(id) ?? id);
  return {
    model: model.model,
    revision: model.revision,
    now: named(listed.map(({ id }) => id)),
    best: named(answer.order),
    now_min: answer.givenCost ?? answer.expectedCost,
    best_min: answer.expectedCost,
    optimal: answer.optimal,
  };
}

const safetyRun = "the safety tests";

interface Ordered {
  readonly id: string;
  readonly cost: number;
  readonly failOdds: number;
  readonly after: readonly string[];
}

/** Checks with a forced run of them taken as one: its expected cost, and the odds that it stops the unit. */
function asOneRun(checks: readonly Ordered[], run: readonly Ordered[]): readonly Ordered[] {
  if (run.length < 2) return checks;
  const inside = new Set(run.map(({ id }) => id));
  const renamed = (after: readonly string[]) => [...new Set(after.map((id) => (inside.has(id) ? safetyRun : id)))];
  let [cost, passes] = [0, 1];
  for (const one of run) {
    cost += passes * one.cost;
    passes *= 1 - one.failOdds;
  }
  const before = run.flatMap(({ after }) => after).filter((id) => !inside.has(id));
  return [
    { id: safetyRun, cost, failOdds: 1 - passes, after: [...new Set(before)] },
    ...checks.filter(({ id }) => !inside.has(id)).map((one) => ({ ...one, after: renamed(one.after) })),
  ];
}

const oddsOf = (odds: number | { found: number; of: number; guess?: number; weight?: number }) =>
  typeof odds === "number"
    ? odds
    : (odds.found + (odds.guess ?? 0.1) * (odds.weight ?? 10)) / (odds.of + (odds.weight ?? 10));

function allowedOrder<T extends { readonly id: string; readonly after: readonly string[] }>(checks: readonly T[]): T[] {
  const left = [...checks];
  const order: T[] = [];
  const done = new Set<string>();
  while (left.length > 0) {
    const i = left.findIndex(({ after }) => after.every((id) => done.has(id) || !checks.some((one) => one.id === id)));
    const [next] = left.splice(Math.max(0, i), 1);
    order.push(next!);
    done.add(next!.id);
  }
  return order;
}

function sortsOf({ faults, cost_h, hour_cents }: Records): ChecksView["sorts"] {
  return [...groupBy(faults, ({ body }) => body.fault)]
    .map(([fault, all]) => ({
      fault,
      count: all.length,
      possible: [...groupBy(all, ({ body }) => body.possible)].toSorted((a, b) => b[1].length - a[1].length)[0]![0],
      found: [...groupBy(all, ({ body }) => body.found)]
        .map(([stage, here]) => ({
          stage,
          count: here.length,
          mean_cents: Math.round((here.reduce((sum, one) => sum + cost_h(one), 0) / here.length) * (hour_cents ?? 0)),
        }))
        .toSorted((a, b) => b.count - a.count),
    }))
    .toSorted((a, b) => b.count - a.count);
}
