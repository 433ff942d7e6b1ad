import { bottlesOf } from "./bottles.ts";
import { type Heater, heaterEnds, heatersOf } from "./heaters.ts";
import { isValve, type Netlist, type ValvePart } from "./netlist.ts";
import type { PartAtRest } from "./partAtRest.ts";
import { catalogueOf } from "./valve.ts";

/** What the catalogue rates of a valve at rest. */
export type RatedFigure = "plate_V" | "screen_V" | "dissipation_W" | "screenDissipation_W" | "plate_mA" | "cathode_mA";

/** One published limit of a valve. */
export interface RatingLimit {
  readonly of: RatedFigure;
  readonly what: string;
  readonly unit: string;
  readonly limit: number;
}

/**
 * What the catalogue allows a valve: plate and screen voltage and heat, plate and cathode current; nothing for a valve
 * without a type in the catalogue.
 */
export function ratingLimits(part: ValvePart): RatingLimit[] {
  const ratings = catalogueOf(part)?.ratings;
  if (ratings === undefined) return [];
  const pentode = part.kind === "pentode";
  const limit = (of: RatedFigure, what: string, unit: string, published: number | undefined): RatingLimit[] =>
    published === undefined ? [] : [{ of, what, unit, limit: published }];
  return [
    // In triode connection the screen stands at the plate's voltage and its rating is the lower one.
    ...limit("plate_V", "plate voltage", "V", pentode ? ratings.plate_V : (ratings.screen_V ?? ratings.plate_V)),
    ...limit("dissipation_W", "plate dissipation", "W", ratings.plateDissipation_W),
    ...(pentode
      ? [
          ...limit("screen_V", "screen voltage", "V", ratings.screen_V),
          ...limit("screenDissipation_W", "screen dissipation", "W", ratings.screenDissipation_W),
        ]
      : []),
    ...limit("plate_mA", "plate current", "mA", ratings.plate_mA),
    ...limit("cathode_mA", "cathode current", "mA", ratings.cathode_mA),
  ];
}

/** A rating that a valve at rest does not keep. */
export interface ExceededRating {
  readonly part: string;
  readonly what: string;
  readonly value: number;
  readonly unit: string;
  readonly limit: number;
  /** The value lies under the limit; left out, over it. */
  readonly under?: boolean;
}

/**
 * All ratings that a rest does not keep: of every valve, of both sections of a bottle together, and of the heaters that
 * the net list has, their own voltage and that to the cathode.
 */
export function exceededRatings(
  netlist: Netlist,
  parts: Readonly<Record<string, PartAtRest>>,
  volts: (node: string) => number,
): ExceededRating[] {
  const heaters = heatersOf(netlist);
  const alone = netlist.parts.filter(isValve).flatMap((part): ExceededRating[] => {
    const heater = heaters.get(part.id);
    return [
      ...ratingLimits(part).flatMap(({ of, what, unit, limit }): ExceededRating[] => {
        const now = parts[part.id]![of];
        return now !== undefined && now > limit ? [{ part: part.id, what, value: now, unit, limit }] : [];
      }),
      ...(heater === undefined ? [] : exceededHeater(part, heater, volts)),
    ];
  });
  return [...alone, ...exceededBottles(netlist, parts)];
}

/** What the sheet allows between heater and cathode: heater over cathode (sign 1) and under it (−1). */
export function heaterToCathodeLimits(
  part: ValvePart,
): readonly { readonly what: string; readonly sign: 1 | -1; readonly limit: number }[] {
  const ratings = catalogueOf(part)?.ratings;
  const limit = (what: string, sign: 1 | -1, published: number | undefined) =>
    published === undefined ? [] : [{ what, sign, limit: published }];
  return [
    ...limit("heater over cathode", 1, ratings?.heaterCathodePositive_V),
    ...limit("heater under cathode", -1, ratings?.heaterCathodeNegative_V),
  ];
}

function exceededHeater(part: ValvePart, heater: Heater, volts: (node: string) => number): ExceededRating[] {
  const ends = heaterEnds(heater, volts);
  const cathode_V = volts(part.cathode);
  const toCathode = heaterToCathodeLimits(part).flatMap(({ what, sign, limit }): ExceededRating[] => {
    const value = Math.max(...ends.map((end_V) => sign * (end_V - cathode_V)));
    return value > limit ? [{ part: part.id, what, value, unit: "V", limit }] : [];
  });
  return heater.by === "nodes" ? [...toCathode, ...exceededHeating(part, Math.abs(ends[0]! - ends[1]!))] : toCathode;
}

/** Heaters in two halves run on 12.6 V in series or 6.3 V side by side. */
const halved_V = 12.6;

/** A heater's own voltage, for the type by its own name: aliases differ by just that. */
function exceededHeating(part: ValvePart, heater_V: number): ExceededRating[] {
  const entry = catalogueOf(part);
  if (entry === undefined || entry.type !== part.type) return [];
  const { V: nominal_V } = entry.heater;
  const share = nominal_V === halved_V && heater_V < 0.75 * nominal_V ? 0.5 : 1;
  const [low, high] = [share * entry.ratings.heaterLow_V, share * entry.ratings.heaterHigh_V];
  const found = { part: part.id, what: "heater voltage", value: heater_V, unit: "V" };
  if (heater_V < low) return [{ ...found, limit: low, under: true }];
  return heater_V > high ? [{ ...found, limit: high }] : [];
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
export function ratingInWords(netlist: Netlist, { part, what, value, unit, limit, under }: ExceededRating): string {
  const bottle = bottlesOf(netlist).get(part)?.[0];
  const own = netlist.parts.find(({ id }) => id === part) ?? (bottle === undefined ? undefined : netlist.parts[bottle]);
  const type = own !== undefined && isValve(own) && own.type !== undefined ? ` (${own.type})` : "";
  return `${part}${type}: ${what} ${value.toPrecision(4)} ${unit} ${under ? "is under" : "exceeds"} the rating of ${limit} ${unit}`;
}
