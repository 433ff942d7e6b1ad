import type { BlindView } from "../notebook/views.ts";

export interface SeriesCardView {
  readonly series: string;
  readonly model: string;
  readonly versions: readonly [string, string];
  readonly asked: "difference" | "preference";
  readonly at: string;
  readonly by: string;
  readonly listeners: number;
  readonly answered: number;
  readonly of: number;
  readonly state: "open" | "answered" | "closed";
}

export interface LevelReadingView {
  readonly id: string;
  readonly at: string;
  readonly what: string;
  readonly level_dB: number;
  readonly doubt_dB: number;
}

export interface ListeningIndexView {
  readonly now: string;
  readonly series: readonly SeriesCardView[];
  /** Models with two versions or more, the newest version last. */
  readonly models: readonly { readonly model: string; readonly versions: readonly string[] }[];
  readonly headphones: readonly string[];
  /** Levels on record that a level check may be made from, the newest first. */
  readonly levels: readonly LevelReadingView[];
}

/** A series while it runs, and what it showed once it is closed. Nothing here tells what is played. */
export interface SeriesView extends SeriesCardView {
  readonly now: string;
  readonly through?: string;
  readonly source?: string;
  readonly trials: number;
  readonly design?: { readonly heard: number; readonly falseAlarm: number; readonly power: number };
  readonly level?: {
    readonly state: "proven" | "undecided" | "refuted";
    readonly difference_dB: number;
    readonly doubt_dB: number;
    readonly within_dB: number;
    readonly from: readonly string[];
    readonly wouldDecide_dB?: number;
  };
  readonly progress: readonly { readonly listener: string; readonly answered: number }[];
  readonly closed?: { readonly at: string; readonly by: string; readonly why: string };
  readonly told?: BlindView["told"][number] & { readonly odds: number };
  readonly preferred?: BlindView["preferred"];
  /** What to keep in mind of the result. */
  readonly notes: readonly string[];
}

/** For whoever switches, and nobody who listens. */
export interface SwitchingView {
  readonly series: string;
  readonly listener: string;
  readonly asked: "difference" | "preference";
  readonly trials: readonly {
    readonly trial: number;
    readonly plays: readonly string[];
    readonly isAnswered: boolean;
  }[];
}
