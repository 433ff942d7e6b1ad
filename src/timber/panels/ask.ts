import type { OwnWood } from "../ownWood.ts";

/** A board as it lies on the shelf. */
export interface Board {
  readonly id: string;
  readonly species: string;
  /** In place of the catalogue's: the wood as the shop measured it. */
  readonly wood?: OwnWood;
  readonly length_mm: number;
  readonly width_mm: number;
  readonly thickness_mm: number;
  /** 0 flat-sawn, 90 quarter-sawn. */
  readonly ringAngle_deg: number;
  readonly moisture_pct: number;
  /** What no panel may hold, along the board from its end: knots, checks, sapwood. */
  readonly defects?: readonly {
    readonly from_mm: number;
    readonly to_mm: number;
    /** From the edge; the whole width where left out. */
    readonly across?: { readonly from_mm: number; readonly to_mm: number };
  }[];
  /** 0 plain to 3 the finest figure. */
  readonly figure?: number;
}

export interface WantedPanel {
  readonly case: string;
  readonly name: string;
  readonly species: string;
  /** In place of the catalogue's: the wood as the shop measured it. */
  readonly wood?: OwnWood;
  /** Finished sizes, length along the grain. */
  readonly length_mm: number;
  readonly width_mm: number;
  readonly thickness_mm: number;
  /** Glued up from so many staves of equal width; 1 where left out. */
  readonly staves?: number;
  /** Moisture at which it is to be built, and how far its home will take it from there. */
  readonly target_pct: number;
  readonly span_pct: number;
  /** Least figure wanted. */
  readonly figure?: number;
  /** Panels of a case with the same word come from one board, so that their faces match. */
  readonly matched?: string;
  /** Ring angles allowed, both ends included. */
  readonly ringAngle_deg?: { readonly from: number; readonly to: number };
}

export interface Allowance {
  readonly length_mm: number;
  readonly width_mm: number;
  readonly thickness_mm: number;
  readonly kerf_mm: number;
}

/** Common practice, no source: 20 mm in length, 8 in width, 3 in thickness, a 3 mm kerf. */
export const usualAllowance: Allowance = { length_mm: 20, width_mm: 8, thickness_mm: 3, kerf_mm: 3 };

/** What each counts against a square decimetre of board opened. */
export interface Worth {
  readonly movement_per_mm: number;
  readonly moisture_per_pct: number;
  readonly figureUnused: number;
}

export const usualWorth: Worth = { movement_per_mm: 3, moisture_per_pct: 0.5, figureUnused: 2 };

export interface PanelsQuestion {
  readonly boards: readonly Board[];
  readonly panels: readonly WantedPanel[];
  readonly allowance?: Partial<Allowance>;
  readonly worth?: Partial<Worth>;
  /** Offcuts from this length on are kept. */
  readonly keep_mm?: number;
  readonly seconds?: number;
}

export interface PanelsAnswer {
  readonly cuts: readonly {
    readonly case: string;
    readonly panel: string;
    readonly stave: number;
    readonly board: string;
    /** Along the board, from its end. */
    readonly from_mm: number;
    readonly to_mm: number;
    /** Across it, from its edge. */
    readonly across_mm: number;
    readonly width_mm: number;
    readonly movement_mm: number;
    readonly dryBy_pct: number;
  }[];
  readonly unplaced: readonly { readonly case: string; readonly panel: string; readonly why: string }[];
  readonly boards: readonly {
    readonly board: string;
    readonly opened_dm2: number;
    readonly used_dm2: number;
    readonly offcuts_mm: readonly number[];
  }[];
  readonly opened_dm2: number;
  readonly wasted_dm2: number;
  readonly movement_mm: number;
  readonly cost: number;
  /** No plan that places as many can cost less. */
  readonly bound: number;
  readonly optimal: boolean;
  readonly notes: readonly string[];
}
