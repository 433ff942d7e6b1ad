/** What one part carries at rest. Power is positive where the part takes it up, negative where it gives it. */
export interface PartAtRest {
  /** Through the part, from the first of `between` to the second; a valve's plate current, a transformer's first winding. */
  readonly current_mA: number;
  /** First end against second; a valve's plate against its cathode. */
  readonly voltage_V: number;
  readonly power_mW: number;
  readonly windings?: readonly { readonly current_mA: number; readonly voltage_V: number; readonly power_mW: number }[];
  /** The rest belongs to valves. */
  readonly plate_V?: number;
  readonly grid_V?: number;
  readonly screen_V?: number;
  readonly plate_mA?: number;
  readonly grid_mA?: number;
  readonly screen_mA?: number;
  readonly cathode_mA?: number;
  readonly gm_mS?: number;
  /** Left out, like mu, where the plate has no influence left (cut off); the notes say so. */
  readonly rp_ohm?: number;
  readonly mu?: number;
  /** Heat of the plate. */
  readonly dissipation_W?: number;
  readonly screenDissipation_W?: number;
}
