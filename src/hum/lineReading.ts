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
  /** Against the common reference of the building's mains, where the recordings have one. */
  readonly phase_rad?: number;
}
