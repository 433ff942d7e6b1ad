import { bottlesOf } from "./bottles.ts";
import { isValve, type Netlist, type ValvePart } from "./netlist.ts";
import type { PartAtRest } from "./partAtRest.ts";
import { catalogueOf } from "./valve.ts";

/** One published limit of a valve. */
export interface RatingLimit {
  readonly what: string;
  readonly unit: string;
  readonly limit: number;
  readonly value: (at: PartAtRest) => number | undefined;
}

/**
 * What the catalogue allows a valve: plate and screen voltage and heat, plate and cathode current; nothing for a valve
 * without a type in the catalogue.
 */
export function ratingLimits(part: ValvePart): RatingLimit[] {
  const ratings = catalogueOf(part)?.ratings;
  if (ratings === undefined) return [];
  const limit = (
    what: string,
    unit: string,
    published: number | undefined,
    value: RatingLimit["value"],
  ): RatingLimit[] => (published === undefined ? [] : [{ what, unit, limit: published, value }]);
  // In triode connection the screen stands at the plate's voltage and its rating is the lower one.
  const plate_V = part.kind === "triode" ? (ratings.screen_V ?? ratings.plate_V) : ratings.plate_V;
  return [
    ...limit("plate voltage", "V", plate_V, (at) => at.plate_V),
    ...limit("screen voltage", "V", ratings.screen_V, (at) => at.screen_V),
    ...limit("plate dissipation", "W", ratings.plateDissipation_W, (at) => at.dissipation_W),
    ...limit("screen dissipation", "W", ratings.screenDissipation_W, (at) => at.screenDissipation_W),
    ...limit("plate current", "mA", ratings.plate_mA, (at) => at.plate_mA),
    ...limit("cathode current", "mA", ratings.cathode_mA, (at) => at.cathode_mA),
  ];
}

/** A rating that a valve at rest is over. */
export interface ExceededRating {
  readonly part: string;
  readonly what: string;
  readonly value: number;
  readonly unit: string;
  readonly limit: number;
}

/** All ratings exceeded at a rest: of every valve, and of both sections of a bottle together. */
export function exceededRatings(netlist: Netlist, parts: Readonly<Record<string, PartAtRest>>): ExceededRating[] {
  const alone = netlist.parts.filter(isValve).flatMap((part) =>
    ratingLimits(part).flatMap(({ what, unit, limit, value }): ExceededRating[] => {
      const now = value(parts[part.id]!);
      return now !== undefined && now > limit ? [{ part: part.id, what, value: now, unit, limit }] : [];
    }),
  );
  return [...alone, ...exceededBottles(netlist, parts)];
}

/** Heat of the plates of one bottle together, where its sheet allows less than twice one section's. */
export function bottleLimit_W(netlist: Netlist, sections: readonly number[]): number | undefined {
  const part = netlist.parts[sections[0]!]!;
  return sections.length > 1 && isValve(part) ? catalogueOf(part)?.ratings.bothSectionsDissipation_W : undefined;
}

function exceededBottles(netlist: Netlist, parts: Readonly<Record<string, PartAtRest>>): ExceededRating[] {
  return [...bottlesOf(netlist)].flatMap(([name, sections]): ExceededRating[] => {
    const limit = bottleLimit_W(netlist, sections);
    const value = sections.reduce((sum, i) => sum + (parts[netlist.parts[i]!.id]?.dissipation_W ?? 0), 0);
    if (limit === undefined || value <= limit) return [];
    return [{ part: name, what: "plate dissipation of both sections", value, unit: "W", limit }];
  });
}

/** In words, with the type. */
export function ratingInWords(netlist: Netlist, { part, what, value, unit, limit }: ExceededRating): string {
  const bottle = bottlesOf(netlist).get(part)?.[0];
  const own = netlist.parts.find(({ id }) => id === part) ?? (bottle === undefined ? undefined : netlist.parts[bottle]);
  const type = own !== undefined && isValve(own) && own.type !== undefined ? ` (${own.type})` : "";
  return `${part}${type}: ${what} ${value.toPrecision(4)} ${unit} exceeds the rating of ${limit} ${unit}`;
}
