import type { Drawing } from "./drawings/drawing.ts";

export type FigureState = "open" | "proven" | "refuted" | "undecided" | "void" | "conceded";

/** One figure of a claim with the evidence that answers it. */
export interface DossierFigure {
  readonly quantity: string;
  readonly where: string;
  readonly value?: number;
  readonly doubt?: number;
  readonly low?: number;
  readonly high?: number;
  readonly state: FigureState;
  readonly instrument?: string;
  readonly at?: string;
  readonly evidence?: string;
}

export interface DossierClaim {
  readonly claim: string;
  readonly title: string;
  readonly sheet: string;
  readonly safety: boolean;
  readonly state: FigureState;
  readonly because: string;
  readonly how: string;
  readonly figures: readonly DossierFigure[];
}

export interface DossierValve {
  readonly position: string;
  readonly type: string;
  readonly valve: string;
  readonly batch?: string;
  readonly seller?: string;
  readonly verdict?: string;
  /** What its readings before and after the heat run say, in sentences. */
  readonly reasons: readonly string[];
}

export interface DossierPanel {
  readonly panel: string;
  readonly piece: string;
  readonly species: string;
  readonly moisture_pct?: number;
  readonly moistureDoubt_pct?: number;
  readonly clearance_mm?: number;
  readonly remedy: string;
}

/** What the plate on the back says, drawn from the unit's own readings; what none of them told stays empty. */
export interface RatingPlate {
  readonly model: string;
  readonly unit: string;
  readonly nominal_V: number;
  readonly frequency_Hz: number;
  readonly mains_W?: number;
  readonly fuse_A?: number;
  /** `T` for a slow fuse, `F` for a quick one, as stamped on its cap. */
  readonly fuseKind?: string;
}

export interface Instrument {
  readonly instrument: string;
  readonly title: string;
  /** What it was last tried against, and what came of it, in words. */
  readonly trial: string;
}

/** Everything that a unit's printed record is made of; computed from evidence and from nothing else. */
export interface Dossier {
  readonly shop: string;
  readonly unit: string;
  readonly model: string;
  /** What the model is, in words. */
  readonly title: string;
  readonly revision: string;
  readonly order: string;
  readonly destination: { readonly place: string; readonly nominal_V: number; readonly frequency_Hz: number };
  readonly plate: RatingPlate;
  /** Set once every claim was closed and the unit let go; figures are then those it left with. */
  readonly release?: {
    readonly at: string;
    readonly by: string;
    readonly version: string;
    readonly resting_sha256: string;
    readonly entry: string;
  };
  /** Titles of the claims that still stand open, where it is not released. */
  readonly missing: readonly string[];
  readonly valves: readonly DossierValve[];
  readonly panels: readonly DossierPanel[];
  readonly claims: readonly DossierClaim[];
  readonly drawings: readonly Drawing[];
  /** Left over right at each setting of the volume control, where it was recorded. */
  readonly balance?: {
    readonly words: string;
    readonly rows: readonly { readonly position: string; readonly difference_dB: number; readonly doubt_dB: number }[];
  };
  readonly instruments: readonly Instrument[];
  readonly concessions: readonly {
    readonly title: string;
    readonly reason: string;
    readonly by: string;
    readonly at: string;
  }[];
  /** The newest last. */
  readonly history: readonly {
    readonly id: string;
    readonly at: string;
    readonly by: string;
    readonly words: string;
  }[];
  readonly cautions: readonly string[];
  /** When the newest of this evidence was written down, by which the record is dated. */
  readonly asOf: string;
  /** Newest hash of the chain that all this stands in. */
  readonly head_sha256: string;
  readonly version: string;
}
