/** The prototype notebook, as screens, terminal and API show it. */

export interface NotebookIndexView {
  readonly now: string;
  /** The model last worked at first. */
  readonly models: readonly {
    readonly model: string;
    readonly versions: number;
    readonly newest: { readonly version: string; readonly at: string; readonly why: string };
    readonly revisions: readonly string[];
  }[];
}

export interface EndsView {
  readonly channel: string;
  readonly input: string;
  readonly output: string;
}

interface LoadView {
  readonly name: string;
  readonly ohm: number;
  readonly level_Vrms?: number | undefined;
}

interface LimitsView {
  readonly balance_dB?: number | undefined;
  readonly gain_dB?: number | undefined;
}

/** What a page is judged with, besides its net list. */
export interface BenchedView {
  readonly channels: readonly EndsView[];
  readonly loads: readonly LoadView[];
  readonly limits: LimitsView;
}

export interface PageView extends BenchedView {
  readonly version: string;
  readonly at: string;
  readonly by: string;
  readonly why: string;
  readonly from?: string;
  /** Revisions of the model that it was released as. */
  readonly revisions: readonly string[];
  /** The net list, a part to a line. */
  readonly text: string;
}

export type ChangeView =
  | { readonly kind: "added" | "taken out"; readonly part: string; readonly what: string }
  | {
      readonly kind: "changed";
      readonly part: string;
      readonly field: string;
      readonly before: unknown;
      readonly after: unknown;
    };

/** One version, or a value on trial, as a column of the spread. */
export interface ColumnView {
  readonly name: string;
  /** Against which other column the differences are told. */
  readonly against?: string;
  readonly changes: readonly ChangeView[];
  /** Why nothing could be computed, in words. */
  readonly trouble?: string;
  readonly notes: readonly string[];
}

export interface CellView {
  readonly value: number;
  /** Against the column it is told against; left out where that has no such figure. */
  readonly difference?: number;
  /** Beyond what the rating allows. */
  readonly over?: boolean;
}

export interface RowView {
  readonly key: string;
  /** What it is of; several where they agree in all columns. */
  readonly of: readonly string[];
  /** Channels. */
  readonly where: readonly string[];
  readonly quantity: string;
  /** The rating. */
  readonly most?: number;
  /** One for each column, in order. */
  readonly cells: readonly (CellView | null)[];
}

export interface SpreadView {
  readonly columns: readonly ColumnView[];
  readonly groups: readonly { readonly group: string; readonly rows: readonly RowView[] }[];
}

/** What was heard blind between versions of a model. */
export interface BlindView {
  /** Pairs that listeners tried to tell apart. */
  readonly told: readonly {
    readonly versions: readonly [string, string];
    readonly together: {
      readonly trials: number;
      readonly right: number;
      /** Chance of as many right by guessing. */
      readonly p: number;
      readonly needed?: number;
      /** Chance that one worth finding reaches `needed`. */
      readonly power: number;
      readonly moreTrials?: number;
      readonly share: { readonly value: number; readonly low: number; readonly high: number };
    };
    /** The surest first. */
    readonly listeners: readonly {
      readonly listener: string;
      readonly through: readonly string[];
      readonly trials: number;
      readonly right: number;
      readonly p: number;
      /** p times the number of listeners, at most 1. */
      readonly amongAll: number;
      readonly needed?: number;
    }[];
  }[];
  readonly preferred?: {
    readonly trials: number;
    readonly listeners: number;
    readonly ranking: readonly {
      readonly item: string;
      readonly strength: number;
      readonly low: number;
      readonly high: number;
    }[];
    readonly p?: number;
    /** Why there is no order, and what would decide. */
    readonly reason?: string;
    /** What being played first does by itself, and from how many choices that is known. */
    readonly order?: {
      readonly state: "solved" | "undecided";
      readonly odds?: number;
      readonly low?: number;
      readonly high?: number;
      readonly reason?: string;
    };
    readonly ordered?: number;
  };
}

/** What testers reported of one matter, version by version. */
export interface ReportRowView {
  readonly heard: string;
  /** For each version of the notebook, in order. */
  readonly cells: readonly (ReportCellView | null)[];
}

export interface ReportCellView {
  readonly testers: number;
  readonly notes: number;
  /** Notes made without knowing which version played. */
  readonly blind: number;
  readonly for: number;
  readonly against: number;
  /** Middle one of the strengths, 1 to 5. */
  readonly strength: number;
}

export interface NoteView {
  readonly id: string;
  readonly at: string;
  readonly version: string;
  readonly tester: string;
  readonly heard: string;
  readonly speaks: "for" | "against" | "neither";
  readonly strength: number;
  readonly isBlind: boolean;
  readonly against?: string;
  readonly through?: string;
  readonly source?: string;
  readonly says: string;
}

/** Structured notes of testers outside: leads, on which nothing rests. */
export interface ReportsView {
  readonly testers: number;
  readonly versions: readonly string[];
  readonly rows: readonly ReportRowView[];
  /** The newest first. */
  readonly notes: readonly NoteView[];
}

export interface NotebookView extends SpreadView {
  readonly model: string;
  readonly now: string;
  readonly currency?: string;
  readonly pages: readonly PageView[];
  readonly blind: BlindView;
  readonly reports: ReportsView;
  readonly headphones: readonly string[];
}

/** Windows and yield of a column; slower to come than its figures. */
export interface OutlookView {
  readonly name: string;
  readonly trouble?: string;
  readonly windows: readonly { readonly point: string; readonly low_V: number; readonly high_V: number }[];
  readonly yield?: { readonly share: number; readonly low: number; readonly high: number; readonly draws: number };
  readonly broken: readonly { readonly limit: string; readonly share: number }[];
  readonly costly: readonly { readonly part: string; readonly gain: number; readonly doubt: number }[];
  readonly fromShelf: Readonly<Record<string, number>>;
  readonly notServing: readonly {
    readonly valve: string;
    readonly type: string;
    readonly reasons: readonly string[];
  }[];
  readonly notes: readonly string[];
}

export interface FaultView {
  readonly line: number;
  readonly part?: string;
  readonly message: string;
}

/** A net list being written: what is wrong with it, or what can be chosen in it. */
export type DraftView =
  | { readonly state: "faulty"; readonly faults: readonly FaultView[] }
  | {
      readonly state: "good";
      readonly sources: readonly string[];
      readonly nodes: readonly string[];
      /** Ends of the channels, as far as the names of parts and nodes say. */
      readonly guess: readonly EndsView[];
      /** Each part with its line, and what of it can be put on trial. */
      readonly parts: readonly {
        readonly part: string;
        readonly line: number;
        readonly kind: string;
        readonly fields: readonly { readonly field: string; readonly value: number | string | null }[];
      }[];
    };

/** What a draft, or one value on trial, comes to beside what it is told against. */
export type TrialView =
  | { readonly state: "faulty"; readonly faults: readonly FaultView[] }
  | { readonly state: "good"; readonly text: string; readonly spread: SpreadView };

export interface ReleaseDraftView {
  readonly model: string;
  readonly version: string;
  readonly revision: string;
  /** The entry to be written down, once its limits are right. */
  readonly entry: Readonly<Record<string, unknown>>;
  /** Claims taken over from the revision before. */
  readonly carried: readonly string[];
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
}
