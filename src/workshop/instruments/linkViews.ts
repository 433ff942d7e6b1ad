/** Instruments on a wire, as screens and terminal show them. */

/** How an instrument's last trial stands now; `expired` when it is too long ago. */
export interface TrialStanding {
  readonly state: "good" | "failed" | "undecided" | "untried" | "expired";
  readonly words: string;
  readonly at?: string;
  /** The id of its last trial. */
  readonly trial?: string;
}

/** A figure as it was read, not written down yet. */
export interface TakenView {
  /** Given to the entry that it becomes, so that it becomes one only once. */
  readonly id: string;
  readonly instrument: string;
  readonly quantity: string;
  readonly value: number;
  readonly doubt: number;
  readonly at: string;
  /** The answer as it came. */
  readonly raw: string;
  readonly conditions: Readonly<Record<string, number | string>>;
  readonly standing: TrialStanding;
}

/** What a log or a reading is of. */
export interface About {
  readonly unit?: string;
  readonly valve?: string;
  readonly section?: string;
  readonly channel?: string;
  readonly point?: string;
  readonly piece?: string;
}

interface LogWords {
  readonly log: string;
  readonly instrument: string;
  readonly quantity: string;
  readonly about: About;
  readonly every_s: number;
  readonly for_s: number;
  readonly by: string;
  readonly begun: string;
}

export interface RunningLogView extends LogWords {
  /** Steps passed, and all there will be. */
  readonly passed: number;
  readonly all: number;
  readonly logged: number;
  readonly missed: number;
  /** The newest, oldest first. */
  readonly steps: readonly {
    readonly step: number;
    readonly at: string;
    readonly value?: number;
    readonly doubt?: number;
    /** Why there was no reading. */
    readonly why?: string;
    readonly problem?: string;
  }[];
}

export interface EndedLogView extends LogWords {
  readonly ended: string;
  readonly because: string;
  readonly logged: number;
  readonly missed: readonly { readonly count: number; readonly problem: string }[];
}

interface SettingView {
  readonly setting: "output_Vrms" | "output_V" | "frequency_Hz";
  readonly decimals: number;
  /** Its owner's limits; without them it is not set. */
  readonly low?: number;
  readonly high?: number;
}

export interface LinkedView {
  readonly instrument: string;
  readonly title: string;
  /** Where it is: `TCP 192.168.1.40, port 5025`. */
  readonly where: string;
  readonly state: "unused" | "open" | "lost";
  /** Why it is lost. */
  readonly why?: string;
  readonly standing: TrialStanding;
  readonly quantities: readonly { readonly quantity: string; readonly speaksByItself: boolean }[];
  readonly settings: readonly SettingView[];
  readonly limitsBy?: string;
  readonly limitsAt?: string;
  readonly least_Hz: number;
  readonly hasOutput: boolean;
  /** What it was last known to be set to. */
  readonly supply?: {
    readonly at: string;
    readonly settings: Readonly<Partial<Record<SettingView["setting"], number>>>;
    readonly isOn?: boolean;
  };
  readonly logs: readonly RunningLogView[];
}

export interface LinksView {
  readonly now: string;
  readonly linked: readonly LinkedView[];
  readonly ended: readonly EndedLogView[];
}

export interface SupplyView {
  readonly instrument: string;
  readonly settings: Readonly<Partial<Record<SettingView["setting"], number>>>;
  readonly isOn?: boolean;
}
