import type { OptionCost } from "../../production/index.ts";
import type { SoakChangeView } from "./soakViews.ts";

export interface SpentView {
  readonly mean_cents: number;
  readonly p05_cents: number;
  readonly p50_cents: number;
  readonly p80_cents: number;
  readonly p95_cents: number;
}

/** What one model costs, from its bill, its hours and the shop's own records. */
export interface ModelCostView {
  readonly model: string;
  readonly revision: string;
  readonly price_cents: number;
  readonly cost: SpentView;
  readonly parts: SpentView;
  readonly work: SpentView;
  readonly rework: SpentView;
  readonly scrap: SpentView;
  readonly margin: SpentView & { readonly oddsOfLoss: number };
  readonly bySkill: readonly { readonly skill: string; readonly mean_h: number; readonly mean_cents: number }[];
  /** What units of the model really took, from their accounts. */
  readonly accounts: number;
  readonly real?: { readonly mean_cents: number; readonly low_cents: number; readonly high_cents: number };
}

export type OptionCostView = OptionCost;

export interface CostsView {
  readonly currency?: string;
  /** Cents an hour by skill. */
  readonly rates: Readonly<Record<string, number>>;
  readonly models: readonly ModelCostView[];
  /** Models that can't be told, and what is missing. */
  readonly missing: readonly { readonly model: string; readonly why: string }[];
  readonly options: readonly OptionCostView[];
  readonly untold: readonly { readonly option: string; readonly choice: string; readonly why: string }[];
  readonly accounts: number;
  /** Open orders, what is left of each price at best guess. */
  readonly orders: readonly {
    readonly order: string;
    readonly model: string;
    readonly units: number;
    readonly margin_cents: number;
    readonly low_cents: number;
    readonly high_cents: number;
  }[];
}

export interface ProposalView {
  readonly what: "move" | "add" | "drop";
  readonly check: string;
  readonly title: string;
  readonly from?: string;
  readonly to?: string;
  readonly saving_cents: number;
  readonly low_cents: number;
  readonly high_cents: number;
  readonly units: number;
  readonly state: "saves" | "costs" | "undecided";
}

export interface ChecksView {
  readonly currency?: string;
  /** Units looked back at, and faults found in them. */
  readonly units: number;
  readonly faults: number;
  readonly today_cents: number;
  /** To add or to move. */
  readonly saves: readonly ProposalView[];
  /** Checks that cost more than they found, by these records; for the owner to weigh. */
  readonly dear: readonly ProposalView[];
  readonly silent: readonly ProposalView[];
  /** Soaks and places that the hours on record say to make shorter or longer, undecided ones among them. */
  readonly soaks?: readonly SoakChangeView[];
  /** Order of checks of each model: what the cheapest order saves against today's. */
  readonly orders: readonly {
    readonly model: string;
    readonly revision: string;
    readonly now: readonly string[];
    readonly best: readonly string[];
    readonly now_min: number;
    readonly best_min: number;
    readonly optimal: boolean;
  }[];
  /** Where faults of each sort were found. */
  readonly sorts: readonly {
    readonly fault: string;
    readonly count: number;
    readonly possible: string;
    readonly found: readonly { readonly stage: string; readonly count: number; readonly mean_cents: number }[];
  }[];
}
