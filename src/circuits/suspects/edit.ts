import type { ValveModel } from "../../valves/model.ts";
import type { Part } from "../netlist.ts";
import type { ValveFactor } from "../valve.ts";
import type { ValueAt } from "./tolerances.ts";

/** What one fault does to a net list. */
export interface Edit {
  /** Parts in place of the net list's own, by their place. */
  readonly instead?: ReadonlyMap<number, Part>;
  /** Parts that come after the net list's own: a leak, a bridge. */
  readonly added?: readonly Part[];
  /** Valves and junctions that carry nothing at all. */
  readonly silent?: readonly number[];
  /** Other curves in some positions. */
  readonly models?: ReadonlyMap<string, ValveModel>;
  /** Factors on a faulted valve's current and mu. */
  readonly factors?: ReadonlyMap<string, ValveFactor>;
  /** The value that the fault's severity moves, and whose own tolerance no longer counts where it is the part's. */
  readonly severe?: ValueAt;
  /** Other parts whose tolerance no longer counts. */
  readonly freed?: readonly number[];
  /** Ends of parts are joined otherwise, so that the equations have to be laid out anew. */
  readonly relaid?: boolean;
}
