import { later, on } from "../days.ts";
import type { ModelName } from "../models/models.ts";

/** A case and the way its boards went: two boards a case, by the clock of the shop. */
export interface CasePlan {
  readonly case: string;
  readonly unit: string;
  readonly model: ModelName;
  /** Day on which its panels were joined. */
  readonly joined: string;
  /** Hours in the warm chamber; too short where somebody was in a hurry. */
  readonly chamber_h: number;
  readonly plated: boolean;
  readonly species?: string;
  /** Taken out of the chamber as soon as it came to this. */
  readonly downTo_pct?: number;
  readonly top: "edges" | "centre";
  readonly coats: readonly string[];
  /** When it was given to its unit. */
  readonly given: string;
  /** It cracked, and another was made for the unit. */
  readonly isRemade?: boolean;
  /** Typed in from paper, its moisture read by a meter. */
  readonly paper: boolean;
}

/** Finished units of the year before, as far as their cases need them. */
export interface PastCase {
  readonly unit: string;
  readonly model: ModelName;
  readonly probed: string;
}

const fullRun_h = 63;
const hurried_h = 15;

/** Every fifth case of a year was hurried through the chamber. */
const hurriedEvery = 5;
/** Of these units the first case cracked on its soak, and another was made. */
const remade = 11;

export function pastPlans(past: readonly PastCase[]): readonly CasePlan[] {
  return past.flatMap(({ unit, model, probed }, i) => {
    const first = fridayBefore(later(on(probed, "12:00"), -21 * day_min).slice(0, 10));
    const plan = (name: string, joined: string, hurried: boolean): CasePlan => ({
      case: name,
      unit,
      model,
      joined,
      chamber_h: hurried ? hurried_h : fullRun_h,
      plated: true,
      top: "centre",
      coats: [1, 3].map((days) => later(on(joined, "15:00"), days * day_min)),
      given: later(on(joined, "16:00"), 9 * day_min),
      paper: true,
    });
    const own = plan(`C-${unit}`, first, i % hurriedEvery === 2);
    if (i % remade !== 7) return [own];
    const before = later(on(first, "12:00"), -14 * day_min).slice(0, 10);
    return [{ ...plan(`C-${unit}x`, before, true), isRemade: true }, own];
  });
}

/** Cases of units now being built. Two of one lot of ash were taken out of the chamber at 11 %. */
export const openPlans: readonly CasePlan[] = [
  open(
    "0417",
    "Ebb",
    "2027-02-12",
    ["2027-02-17T15:00:00Z", "2027-02-19T08:40:00Z"],
    "2027-02-17T14:00:00Z",
    "black cherry",
  ),
  open("0418", "Ebb", "2027-02-12", ["2027-02-19T15:10:00Z"], "2027-02-18T14:00:00Z", "sugar maple"),
  {
    ...open("0419", "Ebb", "2027-02-19", ["2027-02-22T15:00:00Z"], "2027-02-22T12:10:00Z", "white ash"),
    plated: false,
    downTo_pct: 10,
  },
  open("0588", "Flood", "2027-02-12", ["2027-02-18T15:00:00Z"], "2027-02-26T08:40:00Z", "American elm"),
  open("0589", "Flood", "2027-02-12", ["2027-02-18T15:20:00Z"], "2027-02-26T08:45:00Z", "American elm"),
  {
    ...open(
      "0590",
      "Flood",
      "2027-02-19",
      ["2027-02-23T15:00:00Z", "2027-02-24T15:00:00Z"],
      "2027-02-23T09:00:00Z",
      "white ash",
    ),
    plated: false,
    downTo_pct: 10,
    top: "edges",
  },
  open("0422", "Ebb", "2027-02-26", ["2027-03-02T16:30:00Z"], "2027-03-02T15:20:00Z", "black cherry"),
];

function open(
  unit: string,
  model: ModelName,
  joined: string,
  coats: readonly string[],
  given: string,
  species: string,
): CasePlan {
  const name = `C-${unit}`;
  return {
    case: name,
    unit,
    model,
    joined,
    chamber_h: fullRun_h,
    plated: true,
    top: "centre",
    coats,
    given,
    species,
    paper: false,
  };
}

const day_min = 24 * 60;

function fridayBefore(date: string): string {
  const weekday = new Date(`${date}T12:00:00Z`).getUTCDay();
  const back = (weekday + 2) % 7;
  return later(on(date, "12:00"), -back * day_min).slice(0, 10);
}

/** Sizes of a case's panels, across the grain and along it. */
export function panelsOf(model: ModelName) {
  const isWide = model === "Flood" || model === "Bore";
  const wide_mm = isWide ? 300 : 215;
  const long_mm = isWide ? 380 : 310;
  return {
    board: { length_mm: 2 * long_mm + 160, width_mm: wide_mm + 8 },
    first: [
      { panel: "top", width_mm: wide_mm, length_mm: long_mm },
      { panel: "front", width_mm: 95, length_mm: long_mm },
    ],
    second: [
      { panel: "bottom", width_mm: wide_mm, length_mm: long_mm },
      { panel: "left side", width_mm: 130, length_mm: 220 },
      { panel: "right side", width_mm: 130, length_mm: 220 },
    ],
  } as const;
}
