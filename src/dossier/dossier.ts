import type { HumLine, PanelYear, ResponseCurve, SpectrumColumns } from "./drawings/drawn.ts";

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
  /** The calculation that drew it, where it was not read. */
  readonly calculation?: string;
  readonly at?: string;
  readonly evidence?: string;
}

export interface DossierClaim {
  readonly claim: string;
  readonly title: string;
  readonly sheet: string;
  readonly safety: boolean;
  readonly state: FigureState;
  /** Why it stands so, in the ledger's own sentence. */
  readonly because: string;
  readonly concession?: { readonly at: string; readonly reason: string };
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
  /** Around the heat run, put right by the reference valve. */
  readonly sections: readonly {
    readonly section: string;
    readonly cold_mA?: number;
    readonly hot_mA?: number;
    readonly drift_pct?: number;
    readonly doubt_pct?: number;
  }[];
  readonly sectionSpread_pct?: number;
  readonly sectionSpreadDoubt_pct?: number;
}

export interface DossierPanel {
  readonly panel: string;
  readonly piece: string;
  readonly species: string;
  readonly moisture_pct?: number;
  readonly moistureDoubt_pct?: number;
  readonly clearance_mm?: number;
  readonly verdict: "proven" | "refuted" | "undecided";
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
  readonly title?: string;
  readonly standing: "good" | "failed" | "undecided" | "untried";
  /** The newest reading of the known thing that it is tried against. */
  readonly trial?: {
    readonly at: string;
    readonly reference: string;
    readonly quantity: string;
    readonly value: number;
    readonly doubt: number;
  };
}

/** What stands in one entry of the ledger about the unit. */
export type Entry =
  | {
      readonly kind: "unit";
      readonly model: string;
      readonly revision: string;
      readonly tap: string;
      readonly fitted: Readonly<Record<string, string>>;
    }
  | { readonly kind: "step"; readonly step: string }
  | {
      readonly kind: "reading";
      readonly quantity: string;
      readonly where: string;
      readonly value: number;
      readonly doubt: number;
      readonly instrument: string;
    }
  | {
      readonly kind: "finding";
      readonly quantity: string;
      readonly where: string;
      readonly value: number;
      readonly doubt: number;
      readonly calculation: string;
    }
  | {
      readonly kind: "recording";
      readonly recording: string;
      readonly purpose: string;
      /** Of the clean supply; on the building's mains it is left out. */
      readonly hertz?: number;
      readonly input: string;
      readonly valves: Readonly<Record<string, string>>;
    }
  | { readonly kind: "rework"; readonly why: string; readonly fitted?: Readonly<Record<string, string>> }
  | { readonly kind: "coat"; readonly coat: string }
  | { readonly kind: "machined"; readonly piece: string }
  | { readonly kind: "caseGiven"; readonly case: string }
  | { readonly kind: "meant"; readonly pieces: string }
  | { readonly kind: "concession"; readonly claim: string; readonly reason: string }
  | { readonly kind: "release"; readonly claims: number; readonly version: string }
  | { readonly kind: "other"; readonly name: string };

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
  /** Tap of the mains transformer. */
  readonly tap: string;
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
  /** Build steps written down, the oldest first; those of before its folder by name alone. */
  readonly steps: readonly {
    readonly step: string;
    readonly by: string;
    readonly at: string;
    readonly entry: string;
  }[];
  readonly stepsBefore: readonly string[];
  readonly panels: readonly DossierPanel[];
  readonly coats: readonly { readonly coat: string; readonly at: string }[];
  readonly claims: readonly DossierClaim[];
  /** What the pictures are drawn from. */
  readonly pictures: {
    readonly response?: { readonly curves: readonly ResponseCurve[]; readonly recording: string };
    readonly spectra: readonly SpectrumColumns[];
    readonly hum: readonly HumLine[];
    readonly panels: readonly PanelYear[];
    readonly casePlace: string;
  };
  /** Left over right at each setting of the volume control, where it was recorded. */
  readonly balance?: {
    readonly cause: "control" | "valves" | "circuit" | "alike" | "undecided";
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
    readonly entry: Entry;
  }[];
  /** What work at it can hurt by. */
  readonly dangers: readonly ("high-voltage" | "mains" | "hot" | "dust")[];
  /** When the newest of this evidence was written down, by which the record is dated. */
  readonly asOf: string;
  /** Newest hash of the chain that all this stands in. */
  readonly head_sha256: string;
  readonly version: string;
}
