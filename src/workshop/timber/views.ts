/** What the timber screens and the terminal show: plain data, drawn from pieces' own weighings and places. */

export interface MoistureView {
  readonly mean_pct: number;
  /** 95 % ends of the mean. */
  readonly low_pct: number;
  readonly high_pct: number;
  readonly surface_pct: number;
  readonly core_pct: number;
  /** `fitted` to weighings with an oven-dry mass; `approach` without one; `unweighed` from its places alone. */
  readonly basis: "fitted" | "approach" | "unweighed";
}

/** What the rooms at a destination will make of the wood over a year. */
export interface BandView {
  readonly unit: string;
  readonly place: string;
  readonly driest_pct: number;
  readonly wettest_pct: number;
  readonly doubt_pct: number;
}

export type BandStanding = "inside" | "too wet" | "too dry" | "cannot tell";

export interface PieceCardView {
  readonly piece: string;
  readonly species: string;
  readonly rough: boolean;
  readonly length_mm: number;
  readonly width_mm: number;
  readonly thickness_mm: number;
  readonly ringAngle_deg: number;
  readonly place: string;
  readonly since: string;
  readonly from?: string;
  readonly meantFor?: string;
  /** Being computed; ask again in a moment. */
  readonly pending: boolean;
  /** Why nothing can be said of its moisture, and what would mend it. */
  readonly wanting?: string;
  readonly moisture?: MoistureView;
  readonly band?: BandView;
  readonly stands?: BandStanding;
  readonly target_pct?: number;
  /** When it comes to its target where it stands, with its 95 % ends. */
  readonly ripe?: { readonly at: string; readonly from: string; readonly to?: string };
  readonly check?: { readonly index: number; readonly doubt: number; readonly words: string };
  /** `place` where its plan has it then. */
  readonly nextWeighing?: { readonly at: string; readonly why: string; readonly place: string };
  readonly lastWeighed?: string;
  readonly flaws: readonly string[];
  /** What to do with it, in a sentence. */
  readonly advice: string;
}

export interface TimberPlaceView {
  readonly place: string;
  readonly what: "room" | "chamber" | "plate" | "amplifier" | "outside";
  readonly faces: "both" | "one";
  readonly set_C?: number;
  /** Newest air on its log, and what wood comes to in it. */
  readonly air?: {
    readonly at: string;
    readonly temperature_C: number;
    readonly humidity_pct: number;
    readonly emc_pct: number;
  };
  readonly holds?: number;
  readonly pieces: readonly string[];
  readonly warning?: string;
}

/** Pieces that are in a warm place together: by thickness and target, each with its own hour to come out. */
export interface RunView {
  readonly begins: string;
  readonly ends: string;
  readonly groups: readonly {
    readonly thickness_mm: number;
    readonly target_pct: number;
    readonly unit?: string;
    readonly destination?: string;
    readonly pieces: readonly {
      readonly piece: string;
      readonly out: { readonly at: string; readonly from: string; readonly to?: string };
      /** What it would hold when the last of them is out. */
      readonly ifLeft_pct: number;
      readonly isOverDryIfLeft: boolean;
      /** Moved on then by its plan, whatever it holds. */
      readonly planned?: { readonly to: string; readonly at: string };
    }[];
  }[];
}

/** What is in the chamber and on the plate, what goes in next, and what to weigh. */
export interface RunsView {
  /** Moment from which it is planned. */
  readonly from: string;
  readonly places: readonly {
    readonly place: string;
    readonly holds?: number;
    readonly runs: readonly RunView[];
    /** At their target or below: to be taken out. */
    readonly ripe: readonly string[];
    readonly noTarget: readonly string[];
    readonly never: readonly { readonly piece: string; readonly why: string }[];
    /** Of those that wait in the rooms. */
    readonly next: readonly RunView[];
    readonly wanting?: string;
  }[];
  /** Most told per minute of hands first. */
  readonly weigh: readonly {
    readonly piece: string;
    readonly place: string;
    readonly at: string;
    readonly why: string;
  }[];
  readonly waiting: readonly string[];
  readonly notPlaced: readonly { readonly piece: string; readonly why: string }[];
  /** Too many to be planned at once. */
  readonly later: readonly string[];
  readonly notes: readonly string[];
}

/** Which piece of which board becomes which panel, over all cases not made yet. */
export interface CutPlanView {
  readonly units: readonly {
    readonly unit: string;
    readonly place?: string;
    readonly panels: number;
    readonly wanting?: string;
  }[];
  /** Units without a case whose panels nobody wrote down. */
  readonly open: readonly string[];
  readonly boards: readonly {
    readonly board: string;
    readonly species: string;
    readonly length_mm: number;
    readonly width_mm: number;
    readonly thickness_mm: number;
    readonly ringAngle_deg: number;
    readonly moisture_pct: number;
    readonly place: string;
    readonly defects: readonly DefectView[];
    readonly figure?: number;
    readonly opened_dm2: number;
    readonly used_dm2: number;
    readonly offcuts_mm: readonly number[];
    readonly cuts: readonly {
      /** The number that it would be given. */
      readonly piece: string;
      readonly unit: string;
      readonly panel: string;
      readonly stave: number;
      readonly staves: number;
      readonly from_mm: number;
      readonly to_mm: number;
      readonly across_mm: number;
      readonly width_mm: number;
      readonly movement_mm: number;
      /** Over the panel's target: to be dried out first. */
      readonly dryBy_pct: number;
    }[];
  }[];
  readonly unplaced: readonly { readonly unit: string; readonly panel: string; readonly why: string }[];
  readonly aside: readonly { readonly piece: string; readonly why: string }[];
  readonly sum?: {
    readonly opened_dm2: number;
    readonly wasted_dm2: number;
    readonly movement_mm: number;
    readonly words: string;
  };
  readonly notes: readonly string[];
}

/** When cracks were found, by hours on the plate until then. */
export interface CrackRecordView {
  readonly pieces: number;
  readonly cracks: number;
  readonly found: readonly { readonly upTo_h?: number; readonly what: string; readonly count: number }[];
  /** Share of all cracks found within the first night on the plate, with its 95 % ends. */
  readonly firstNight?: { readonly share: number; readonly low: number; readonly high: number };
  readonly words: readonly string[];
}

/** Where and when pieces cracked, only as far as the intervals say anything. */
export interface CrackLookBackView {
  readonly groups: readonly {
    readonly stage: string;
    readonly species: string;
    readonly thickness: string;
    readonly pieces: number;
    readonly cracked: number;
    readonly share: number;
    /** 95 % ends. */
    readonly low: number;
    readonly high: number;
    readonly half_h?: number;
    readonly mostBy_h?: number;
    readonly longest_mm: number;
  }[];
  /** So many groups have an interval too wide to say anything. */
  readonly silent: number;
  /** Share still whole by hours on the plate; of all woods first, then of single ones. */
  readonly plate: readonly {
    readonly species?: string;
    readonly pieces: number;
    readonly points: readonly {
      readonly hours: number;
      readonly atRisk: number;
      readonly survival: number;
      readonly low: number;
      readonly high: number;
    }[];
  }[];
  /** How well the check index told cracked from whole pieces. */
  readonly index?: { readonly told: number; readonly low: number; readonly high: number; readonly words: string };
  readonly notes: readonly string[];
}

/** What a weighing before the plate would have told of the pieces that cracked. */
export interface EarlyWeighingView {
  readonly cracked: number;
  readonly whole: number;
  /** Wetter than four of five whole pieces as they were laid on the plate. */
  readonly limit_pct?: number;
  readonly held: number;
  readonly share?: number;
  readonly words: string;
  /** Whether the check index told cracked from whole pieces. */
  readonly indexWords?: string;
}

export interface CaseCardView {
  readonly case: string;
  readonly unit?: string;
  readonly place?: string;
  readonly panels: number;
  readonly joinedAt: string;
}

export interface TimberShelfView {
  readonly now: string;
  readonly pieces: readonly PieceCardView[];
  readonly places: readonly TimberPlaceView[];
  /** Cases of units not yet gone, and of none. */
  readonly cases: readonly CaseCardView[];
  readonly cracks: CrackRecordView;
  /** So many pieces are still being computed. */
  readonly computing: number;
  readonly species: readonly string[];
  readonly instruments: readonly string[];
  readonly units: readonly { readonly unit: string; readonly place: string; readonly hasClimate: boolean }[];
}

export interface PieceEventView {
  readonly id: string;
  readonly at: string;
  readonly by: string;
  readonly kind: string;
  readonly words: string;
  readonly photo_sha256?: string;
  /** Of a weighing, so that it can be put right. */
  readonly mass_g?: number;
  readonly instrument?: string;
}

/** What a piece will hold as a stage ends that is planned, or that it is in. */
export interface RipensView {
  readonly place: string;
  readonly from: string;
  readonly to: string;
  readonly mean_pct: number;
  readonly low_pct: number;
  readonly high_pct: number;
  readonly surface_pct: number;
  readonly core_pct: number;
  /** Of the change that the stage's air asks for, the share still to come. */
  readonly leftUndone: number;
}

/** The calendar of a case's finishing plan: coats that are on, and those to come when its hands are in. */
export interface FinishPlanView {
  readonly who: string;
  readonly steps: readonly {
    readonly at: string;
    readonly what: string;
    readonly kind: "coat" | "turn" | "handle" | "hard";
    readonly isDone: boolean;
  }[];
  readonly coatsLeft: number;
  readonly hard: string;
  /** More coats are on than were planned. */
  readonly extraCoats: number;
  /** The air of the room is not logged: as at 20 °C and 50 %. */
  readonly isAirAssumed: boolean;
  readonly soak?: {
    readonly place: string;
    readonly from: string;
    readonly to: string;
    readonly isAllowed: boolean;
    readonly earliest: string;
    readonly why: string;
  };
  readonly cautions: readonly string[];
}

/** What a coat that is still hardening lets be done, and when. */
export interface FinishingView {
  /** Earliest moment of another coat; unknown where the room's air is not logged. */
  readonly nextCoat?: string;
  readonly handle?: string;
  readonly hard: string;
  /** No heat soak and no parcel before. */
  readonly heatFrom: string;
  /** Hard through then, should another coat go on as early as it can. */
  readonly hardWithNext?: string;
  readonly cautions: readonly string[];
}

export interface PieceView {
  readonly now: string;
  readonly card: PieceCardView;
  readonly seller?: string;
  readonly claimed_pct?: number;
  readonly papers: readonly string[];
  /** Where its check index stands among the shop's own past pieces of the species. */
  readonly rank?: { readonly words: string; readonly pending: boolean };
  /** Rules of trade that may apply to the species, and what is asked for. */
  readonly papersAsked?: string;
  readonly into: readonly string[];
  readonly inCase?: { readonly case: string; readonly panel: string; readonly unit?: string };
  readonly course?: {
    readonly at: readonly string[];
    readonly mean_pct: readonly number[];
    readonly low_pct: readonly number[];
    readonly high_pct: readonly number[];
    readonly surface_pct: readonly number[];
    readonly core_pct: readonly number[];
  };
  /** Moisture at each weighing, by the oven-dry mass. */
  readonly weighings: readonly { readonly at: string; readonly mass_g: number; readonly moisture_pct?: number }[];
  readonly stays: readonly {
    readonly place: string;
    readonly from: string;
    readonly to?: string;
    readonly isPlanned?: boolean;
  }[];
  readonly aside: readonly { readonly at: string; readonly mass_g: number; readonly why: string }[];
  readonly events: readonly PieceEventView[];
  readonly finishing?: FinishingView;
  /** Stages to come by its plan, each with what it will hold then. */
  readonly ripens: readonly RipensView[];
  readonly planWanting?: string;
  readonly defects: readonly DefectView[];
  readonly figure?: number;
  readonly notes: readonly string[];
}

/** Where a board is not clear, from its end and from its edge; the whole width where nothing is said across. */
export interface DefectView {
  readonly what: "knot" | "check" | "sapwood" | "other";
  readonly along: { readonly from_mm: number; readonly to_mm: number };
  readonly across?: { readonly from_mm: number; readonly to_mm: number };
}

export interface PanelYearView {
  readonly panel: string;
  readonly piece: string;
  readonly species: string;
  readonly width_mm: number;
  readonly thickness_mm: number;
  readonly ringAngle_deg: number;
  readonly fixed: "edges" | "centre" | "free";
  readonly gap_mm: number;
  readonly warm: boolean;
  /** As it was joined. */
  readonly moisture_pct?: number;
  readonly moistureDoubt_pct?: number;
  readonly driest_pct?: number;
  readonly wettest_pct?: number;
  readonly shrink_mm?: number;
  readonly swell_mm?: number;
  readonly clearance_mm?: number;
  readonly low_mm?: number;
  readonly high_mm?: number;
  readonly verdict: "proven" | "refuted" | "undecided";
  readonly remedy: string;
  /** Movement against its size at joining, month by month; wider is positive. */
  readonly year?: readonly { readonly month: number; readonly moisture_pct: number; readonly moved_mm: number }[];
}

export interface CaseView {
  readonly now: string;
  readonly unit: string;
  readonly order?: string;
  readonly case?: string;
  readonly joinedAt?: string;
  readonly destination?: string;
  readonly basis?: string;
  readonly wall_C?: number;
  readonly months?: readonly {
    readonly month: number;
    readonly temperature_C: number;
    readonly humidity_pct: number;
  }[];
  readonly panels: readonly PanelYearView[];
  readonly verdict: "proven" | "refuted" | "undecided" | "open";
  readonly words: string;
  readonly coats: readonly {
    readonly at: string;
    readonly finish: string;
    readonly product?: string;
    readonly hardAt: string;
    readonly turnAt?: string;
  }[];
  readonly finishing?: FinishingView;
  readonly finishPlan?: FinishPlanView;
  /** Who may be named in a plan. */
  readonly people: readonly string[];
  /** Places that a soak can be planned in. */
  readonly warmPlaces: readonly string[];
  /** Before this no heat soak: an oil is still taking up oxygen. */
  readonly noSoakBefore?: string;
  /** A heat soak that was read before the oil was hard: it is to be done again. */
  readonly soakTooEarly?: string;
  /** Cases given to no unit yet. */
  readonly free: readonly string[];
  /** Pieces that could become panels. */
  readonly pieces: readonly string[];
}
