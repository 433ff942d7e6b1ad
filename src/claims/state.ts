import type { ClaimSpec, Subject } from "./evidence.ts";

export type State = "open" | "proven" | "refuted" | "undecided" | "void" | "conceded";

/** One figure that a claim needs, and the evidence that decides it. */
export interface FigureState {
  /** What a reading must name to answer it. */
  readonly subject: Subject;
  readonly quantity: string;
  /** `left channel`, `V2 section b (T-117)` */
  readonly where: string;
  readonly value?: number;
  /** 95 % half-width, same unit as the value. */
  readonly doubt?: number;
  readonly low?: number;
  readonly high?: number;
  readonly state: Exclude<State, "conceded">;
  /** Id of the entry it rests on. */
  readonly evidence?: string;
  readonly instrument?: string;
  /** The calculation that drew it, where it was not read. */
  readonly calculation?: string;
  readonly at?: string;
  readonly why: string;
  readonly wouldDecide?: string;
}

export interface ClaimState {
  readonly claim: string;
  readonly title: string;
  readonly sheet: ClaimSpec["sheet"];
  readonly safety: boolean;
  readonly state: State;
  /** Why it stands so, in one sentence. */
  readonly because: string;
  readonly figures: readonly FigureState[];
  /** What would decide it, when it is not proven. */
  readonly wouldDecide?: string;
  readonly check: ClaimSpec["check"];
  /** Id of the concession that stands for it. */
  readonly concession?: string;
}

/** Whether a claim no longer keeps a unit from being released. */
export function isClosed({ state }: Pick<ClaimState, "state">): boolean {
  return state === "proven" || state === "conceded";
}
