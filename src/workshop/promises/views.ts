import type { Arrow, Keeping } from "../../production/index.ts";

/** What the pages of promises and the look-back show; plain data like all views. */

export interface WhatIfOrderView {
  readonly order: string;
  readonly model: string;
  readonly units: readonly string[];
  readonly promised?: string;
  readonly before_p80?: string;
  readonly after_p80: string;
  /** 80 % date after less before, in hours, with its 95 % interval. */
  readonly shift_h?: number;
  readonly low_h?: number;
  readonly high_h?: number;
  readonly moves: "earlier" | "later" | "silent" | "new";
  /** Whether four runs in five are done only after the day given, before and after. */
  readonly lateBefore?: boolean;
  readonly lateAfter: boolean;
}

export interface WhatIfView {
  /** What was changed, in words. */
  readonly changes: readonly string[];
  /** Those that move, those of the nearest date first; then how many do not. */
  readonly orders: readonly WhatIfOrderView[];
  readonly still: number;
  /** Open orders in all, a rush order not counted. */
  readonly of: number;
  /** Mean shift of all their 80 % dates, with its 95 % interval. */
  readonly overall?: { readonly shift_h: number; readonly low_h: number; readonly high_h: number };
  readonly earlier: readonly string[];
  readonly later: readonly string[];
  /** In danger before and no more, and the other way about. */
  readonly saved: readonly string[];
  readonly lost: readonly string[];
  /** All that are in danger in the changed shop, moved or not. */
  readonly danger: readonly string[];
  readonly words: string;
  readonly notes: readonly string[];
}

/** What can be put to the question in this shop. */
export interface WhatIfOptionsView {
  readonly places: readonly { readonly place: string; readonly slots: number; readonly cycle_h?: number }[];
  readonly people: readonly string[];
  readonly models: readonly string[];
  readonly parts: readonly { readonly part: string; readonly isOrdered: boolean }[];
  readonly units: readonly { readonly unit: string; readonly order: string; readonly steps: readonly string[] }[];
  /** Changes that the shop's own records speak for. */
  readonly suggested: readonly { readonly title: string; readonly because: string; readonly change: AskedChange }[];
}

/** A change as a person asks for it, in the shop's words. */
export type AskedChange =
  | {
      readonly kind: "place";
      readonly place: string;
      readonly slots?: number | undefined;
      readonly cycle_h?: number | undefined;
    }
  | { readonly kind: "holiday"; readonly date: string }
  | { readonly kind: "rush"; readonly model: string; readonly units: number; readonly due: string }
  | { readonly kind: "fail"; readonly unit: string; readonly step: string }
  | { readonly kind: "late"; readonly part: string; readonly days: number }
  | { readonly kind: "away"; readonly person: string; readonly from: string; readonly to: string }
  | { readonly kind: "hands"; readonly like: string };

export interface OrderingView {
  /** Parts not yet ordered, the most pressing first. */
  readonly parts: readonly {
    readonly part: string;
    readonly order: string;
    readonly by: string;
    readonly isNow: boolean;
  }[];
  readonly valves: readonly {
    readonly type: string;
    readonly model: string;
    readonly sets: number;
    readonly buy?: number;
    readonly chance?: number;
    readonly by?: string;
    readonly order?: string;
    readonly reason?: string;
  }[];
  readonly notes: readonly string[];
}

export interface KeptView {
  readonly groups: readonly (Keeping & { readonly group: string; readonly words: string })[];
  /** Orders that left, the latest 200 first, with what went otherwise than was taken for granted. */
  readonly orders: readonly {
    readonly order: string;
    readonly model: string;
    readonly given: string;
    readonly promised: string;
    readonly left: string;
    readonly days: number;
    readonly kept: boolean;
    readonly otherwise: readonly string[];
  }[];
  readonly words: string;
  readonly notes: readonly string[];
}

export interface LookBackView {
  readonly rungs: readonly {
    readonly stage: string;
    readonly title: string;
    readonly found: number;
    readonly possible: number;
    readonly spent_h: number;
  }[];
  readonly arrows: readonly (Arrow & { readonly words: string })[];
  readonly currency: string;
  readonly units: number;
  readonly faults: number;
  readonly late: number;
  readonly returns: { readonly count: number; readonly of: number; readonly without: number };
  /** What the hot plate's record says, and what it suggests. */
  readonly plate: readonly string[];
  readonly suggested: WhatIfOptionsView["suggested"];
  readonly notes: readonly string[];
}
