/** One line of one family, read in one channel of one recording. */
export interface LineReading {
  readonly recording: number;
  readonly channel: string;
  readonly order: number;
  readonly family: "supply" | "building" | "both";
  readonly frequency_Hz: number;
  readonly level_Vrms: number;
  /** 95 % half-width. */
  readonly doubt_Vrms: number;
  /** Stands out of the floor. */
  readonly stands: boolean;
  /** Another family's line lies too near to be read apart from it. */
  readonly crowded: boolean;
  /** In its own recording, at the start of it; the record's own. */
  readonly angle_rad?: number;
  /** Against a reference that recordings share, where they have one. */
  readonly phase_rad?: number;
  /** How far the reference leaves that phase open, standard deviation. */
  readonly phaseSd_rad?: number;
  /** Which reference that is: phases of one tie compare with one another. */
  readonly tie?: string;
}
