import type { PieceState } from "../../claims/timber/yard.ts";
import type { Course } from "./courses.ts";
import type { Band } from "./destination.ts";
import type { Life, LifeTold } from "./life.ts";

/** What is known of a piece at some moment, with the question that it was asked by. */
export interface Known {
  readonly state: PieceState;
  readonly told: LifeTold;
  readonly life?: Life;
  readonly course?: Course;
  readonly fault?: string;
  readonly band?: Band;
  readonly target_pct?: number;
}
