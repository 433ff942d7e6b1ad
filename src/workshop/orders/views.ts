/** What the pages of shop, order, work, parcel and return show: plain data, every word in it somebody's own. */

import type { BodyOf, Model } from "../../claims/evidence.ts";

/** The workshop as it was set up so far. */
export interface ShopView {
  readonly now: string;
  readonly shop?: Omit<BodyOf<"shop">, "kind">;
  readonly instruments: readonly Omit<BodyOf<"instrument">, "kind">[];
  readonly headphones: readonly Omit<BodyOf<"headphone">, "kind">[];
  /** Skills that checks and steps of the models ask for. */
  readonly skills: readonly string[];
  /** Time zone of the machine that Stillglow runs on. */
  readonly zone: string;
}

export interface OrderLine {
  readonly order: string;
  readonly customer: string;
  readonly model: string;
  readonly revision: string;
  readonly units: readonly string[];
  readonly place: string;
  /** `taken`: no unit is opened; `built`: some are; `ready`: released, not packed; `left`: packed or delivered. */
  readonly stage: "taken" | "built" | "ready" | "left" | "back";
  readonly at: string;
  readonly due?: string;
  readonly promised?: string;
}

export interface OrdersView {
  readonly now: string;
  /** The newest first: those in hand and the latest that left, or of those found. */
  readonly orders: readonly OrderLine[];
  readonly ordersInAll?: number;
  readonly models: readonly { readonly model: string; readonly revision: string; readonly title: string }[];
  /** Destinations of orders before, so that the same place is called the same. */
  readonly places: readonly BodyOf<"order">["destination"][];
  readonly customers: readonly string[];
  /** The shop's own currency and mains, where it is set up. */
  readonly building_Hz?: number;
  /** What was chosen before, for each option. */
  readonly options: readonly { readonly option: string; readonly choices: readonly string[] }[];
  readonly nextOrder: string;
  readonly nextUnit: string;
}

export interface RouteStep {
  readonly step: string;
  readonly skill?: string;
  readonly place?: string;
  readonly hours: Model["build"][number]["hours"];
  readonly unattended: boolean;
}

export interface PartView {
  readonly part: string;
  readonly step: string;
  readonly lead_days: BodyOf<"part">["lead_days"];
  readonly ordered?: string;
  readonly arrived?: string;
}

export interface OrderView extends OrderLine {
  readonly now: string;
  readonly title: string;
  readonly destination: BodyOf<"order">["destination"];
  readonly language?: string;
  readonly options: Readonly<Record<string, string>>;
  /** Whether the year's air at the destination is on record. */
  readonly climate: boolean;
  readonly route: readonly RouteStep[];
  readonly claims: readonly { readonly claim: string; readonly title: string; readonly safety: boolean }[];
  /** Bought parts that it waits for, those that came included. */
  readonly parts: readonly PartView[];
  readonly folders: readonly {
    readonly unit: string;
    readonly opened: boolean;
    readonly done: number;
    readonly missing: number;
    readonly released: boolean;
    readonly packed: boolean;
  }[];
  /** Taps that units of the model were set to. */
  readonly taps: readonly string[];
}

/** A unit under hands: its steps, its valves, and what hands may touch. */
export interface WorkView {
  readonly now: string;
  readonly unit: string;
  readonly model: string;
  readonly revision: string;
  readonly order: string;
  readonly tap: string;
  readonly options: Readonly<Record<string, string>>;
  readonly released: boolean;
  readonly steps: readonly (RouteStep & {
    readonly done?: { readonly at: string; readonly by: string };
    /** It goes on by itself since hands set it going. */
    readonly runs?: { readonly place: string; readonly ripe: string };
  })[];
  readonly places: readonly string[];
  readonly positions: readonly {
    readonly position: string;
    readonly type: string;
    readonly valve?: string;
    /** Valves of the type that stand nowhere, those that may be used first. */
    readonly free: readonly { readonly valve: string; readonly standing: "use" | "hold" | "reject" | "unread" }[];
  }[];
  /** What else hands may touch, each as the model's claims and parts name it. */
  readonly things: readonly {
    readonly aspect: "stage" | "supply" | "case" | "part";
    readonly name: string;
  }[];
  readonly reworks: readonly { readonly at: string; readonly by: string; readonly why: string }[];
}

export interface PackView {
  readonly now: string;
  readonly unit: string;
  readonly model: string;
  readonly revision: string;
  readonly order: string;
  readonly customer: string;
  readonly tap: string;
  readonly destination: BodyOf<"order">["destination"];
  readonly language: string;
  readonly options: Readonly<Record<string, string>>;
  readonly released?: { readonly at: string; readonly by: string };
  readonly hasCase: boolean;
  readonly valves: readonly { readonly position: string; readonly valve: string; readonly type: string }[];
  readonly packed?: Omit<BodyOf<"packed">, "kind" | "unit"> & {
    readonly id: string;
    readonly at: string;
    readonly by: string;
  };
}

/** One figure as a unit left with it and as it reads now. */
export interface ThenAndNow {
  readonly claim: string;
  readonly title: string;
  readonly quantity: string;
  readonly where: string;
  readonly low?: number;
  readonly high?: number;
  readonly left?: { readonly value: number; readonly doubt: number };
  readonly now?: { readonly value: number; readonly doubt: number; readonly at: string };
  /** Now less then, with the doubt of both. */
  readonly change?: {
    readonly value: number;
    readonly doubt: number;
    readonly state: "moved" | "as it left" | "can't be told apart";
  };
}

/** A set from the shelf that would serve in this unit, and how its channels would then balance. */
export interface ReserveFit {
  readonly type: string;
  readonly positions: Readonly<Record<string, string>>;
  readonly by: "circuit" | "current";
  /** dB in this unit's own circuit, or per cent of current. */
  readonly cost: number;
  readonly doubt?: number;
  readonly limit_dB?: number;
  /** What its own resistors do to the balance is counted in. */
  readonly ownParts: boolean;
  readonly considered: number;
}

export interface ReturnView {
  readonly now: string;
  readonly unit: string;
  readonly model: string;
  readonly revision: string;
  readonly order: string;
  readonly place: string;
  readonly returns: readonly { readonly id: string; readonly at: string; readonly by: string; readonly says: string }[];
  /** The unit is here and was not released again. */
  readonly isHere: boolean;
  /** The release whose figures it left with. */
  readonly left?: { readonly at: string; readonly by: string; readonly version: string };
  readonly figures: readonly ThenAndNow[];
  /** Where a fault can arise, be seen and be found, in the order of work. */
  readonly stages: readonly { readonly stage: string; readonly title: string }[];
  readonly faults: readonly {
    readonly at: string;
    readonly fault: string;
    readonly what: string;
    readonly found: string;
    readonly possible: string;
  }[];
}

export interface ReserveView {
  readonly unit: string;
  readonly fits: readonly ReserveFit[];
  /** Types of which no valve on the shelf may be used and stands nowhere. */
  readonly none: readonly string[];
}
