import { stagesOf } from "../../claims/admit/books.ts";
import type { BodyOf, ClaimSpec, Evidence, Model, Requirement } from "../../claims/evidence.ts";
import { modelKey, type Shop, type UnitState } from "../../claims/index.ts";
import { guard } from "../../measurement/index.ts";
import type { Counted, Suspected } from "../../production/index.ts";
import { groupBy } from "../groupBy.ts";

export const customer = "customer";
/** Of a check with few records: found by it, of those that are there. Common practice, no source. */
const guessedFinding = { guess: 0.8, weight: 5 } as const;
const guessWeight = 10;

/** What the shop has counted of faults, drawn once from the evidence. */
export interface Records {
  /** Units of a model that left or stand finished: those that faults are counted among. */
  readonly unitsOf: (model: string) => number;
  readonly units: number;
  readonly faults: readonly Evidence<"fault">[];
  /** Mean hours that a fault cost, hands and parts together, by the stage it was found at. */
  readonly cost_h: (fault: Evidence<"fault">) => number;
  /** What an hour costs, when it was written down. */
  readonly hour_cents: number | undefined;
  readonly suspected: (model: Model, claim: ClaimSpec) => readonly Suspected[];
  /** How often a unit is put right at a stage, by what was found there, and what that takes. */
  readonly reworkAt: (model: Model, stage: string, guess: GuessedRework) => Rework;
}

interface GuessedRework {
  readonly odds: number;
  readonly hours: number;
}

export interface Rework {
  readonly odds: Counted;
  readonly hours: number;
  readonly parts_cents: number;
}

/** @param fails  what the first figures of units refuted, where it is known already */
export function recordsOf(shop: Shop, fails: FirstFails = firstFailsOf(shop)): Records {
  const faults = shop.faults;
  const rates = shop.rates && Object.values(shop.rates.hour_cents);
  const hour_cents = rates?.length ? rates.reduce((sum, rate) => sum + rate, 0) / rates.length : undefined;
  const cost_h = ({ body }: Evidence<"fault">) =>
    body.repair_h + (hour_cents === undefined ? 0 : body.cost_cents / hour_cents);
  const modelOfUnit = (unit: string) => shop.orderedAs(unit)?.model;
  const gone = [...shop.orders.values()].flatMap(({ body }) =>
    body.units.filter((unit) => shop.isReleased(unit)).map((unit) => ({ unit, model: body.model })),
  );
  const withFault = new Set(faults.map(({ body }) => body.unit));
  const counted = new Map<string, Set<string>>();
  for (const { unit, model } of [
    ...gone,
    ...[...withFault].flatMap((unit) => {
      const model = modelOfUnit(unit);
      return model === undefined ? [] : [{ unit, model }];
    }),
  ]) {
    counted.set(model, (counted.get(model) ?? new Set()).add(unit));
  }
  const byModel = groupBy(faults, ({ body }) => modelOfUnit(body.unit) ?? "");
  const unitsOf = (model: string) => counted.get(model)?.size ?? 0;
  const firstFails = (model: Model, claim: ClaimSpec) => fails.get(failKey(model, claim)) ?? 0;
  const suspects = new Map<string, readonly Suspected[]>();

  return {
    unitsOf,
    units: [...counted.values()].reduce((sum, set) => sum + set.size, 0),
    faults,
    cost_h,
    hour_cents,
    reworkAt: (model, stage, guess) => {
      const here = (byModel.get(model.model) ?? []).filter(({ body }) => body.found === stage);
      const spec = model.claims.find(({ claim }) => claim === stage);
      const found = here.length === 0 && spec ? firstFails(model, spec) : here.length;
      const of = unitsOf(model.model);
      const mean = (take: (body: BodyOf<"fault">) => number, guessed: number) =>
        (here.reduce((sum, { body }) => sum + take(body), 0) + 2 * guessed) / (here.length + 2);
      return {
        odds: { found: Math.min(found, of), of, guess: guess.odds, weight: guessWeight },
        hours: mean(({ repair_h }) => repair_h, guess.hours),
        parts_cents: Math.round(mean(({ cost_cents }) => cost_cents, 0)),
      };
    },
    suspected: (model, claim) => {
      const known =
        suspects.get(failKey(model, claim)) ??
        suspectedOf(
          model,
          claim,
          byModel.get(model.model) ?? [],
          unitsOf(model.model),
          cost_h,
          firstFails(model, claim),
        );
      suspects.set(failKey(model, claim), known);
      return known;
    },
  };
}

/**
 * Faults that a check may find, each with its odds by the shop's own count.
 *
 *     there   units whose fault of the sort could be seen by then and was found here or later, of all units; the model's
 *             own guess counts as ten units, shared among the sorts
 *     finds   of those, found here; 0.8 of five units beforehand
 *     hours   means over those found here, and over those found later; the model's own figures count as two faults
 */
function suspectedOf(
  model: Model,
  { claim, title, check }: ClaimSpec,
  faults: readonly Evidence<"fault">[],
  units: number,
  cost_h: Records["cost_h"],
  untold: number,
): readonly Suspected[] {
  const stages = new Map(stagesOf(model).map((stage, i) => [stage, i]));
  const stageAt = (stage: string) => stages.get(stage) ?? -1;
  const here = stageAt(claim);
  const sorts = [...groupBy(faults, ({ body }) => body.fault)]
    .map(([fault, all]) => {
      const caught = all.filter(({ body }) => body.found === claim);
      const later = all.filter(({ body }) => stageAt(body.possible) <= here && stageAt(body.found) > here);
      return { fault, caught, later };
    })
    .filter(({ caught }) => caught.length > 0);
  const mean = (found: readonly Evidence<"fault">[], guess: number) =>
    (found.reduce((sum, fault) => sum + cost_h(fault), 0) + 2 * guess) / (found.length + 2);
  const lateGuess = Math.max(check.lateCost_h, check.repair_h);
  if (sorts.length === 0) {
    return [
      {
        fault: `a fault of "${title.charAt(0).toLowerCase()}${title.slice(1)}"`,
        odds: { found: Math.min(untold, units), of: units, guess: check.failOdds, weight: guessWeight },
        now_h: check.repair_h,
        later_h: lateGuess,
      },
    ];
  }
  return sorts.map(({ fault, caught, later }): Suspected => {
    const odds: Counted = {
      found: Math.min(units, caught.length + later.length),
      of: units,
      guess: check.failOdds / sorts.length,
      weight: guessWeight,
    };
    return {
      fault,
      odds,
      finds: { found: caught.length, of: caught.length + later.length, ...guessedFinding },
      now_h: mean(caught, check.repair_h),
      later_h: mean(later, lateGuess),
    };
  });
}

/** By model and claim. */
export type FirstFails = ReadonlyMap<string, number>;

/** Units whose first figures refuted a claim, where the paper says no more of the fault. */
export function firstFailsOf(shop: Shop): FirstFails {
  const told = new Set(shop.faults.map(({ body }) => body.unit));
  const counts = new Map<string, number>();
  for (const { unit, failed } of shop.eachUnit(failedAtFirst)) {
    if (told.has(unit)) continue;
    for (const claim of failed) counts.set(claim, (counts.get(claim) ?? 0) + 1);
  }
  return counts;
}

/** Claims that a unit's first figures refuted, by every revision of its model. */
function failedAtFirst(shop: Shop, { unit, model: name }: UnitState) {
  const revisions = [...shop.models.values()].flatMap(({ body }) => (body.model === name ? [body] : []));
  const failed = revisions.flatMap((model) =>
    model.claims.flatMap((claim) => (claim.requires.some(refutedFirst) ? [failKey(model, claim)] : [])),
  );
  return { unit, failed };

  function refutedFirst({ quantity, channel, point, low, high, of }: Requirement): boolean {
    if (of === "valve" || (low === undefined && high === undefined)) return false;
    const first = shop.ledger
      .figures("unit", unit, quantity)
      .find(({ body }) => body.subject.channel === channel && body.subject.point === point);
    if (!first) return false;
    const limits = { ...(low !== undefined && { low }), ...(high !== undefined && { high }) };
    return guard({ value: first.body.value, doubt: first.body.doubt, ...limits }).state === "refuted";
  }
}

const failKey = (model: Pick<Model, "model" | "revision">, { claim }: Pick<ClaimSpec, "claim">) =>
  `${modelKey(model.model, model.revision)}\u0000${claim}`;
