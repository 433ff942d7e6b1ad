export interface PanelYear {
  readonly panel: string;
  /** Clearance that is left at its movement; a panel may move so far either way. */
  readonly room_mm: number;
  readonly year: readonly { readonly month: number; readonly moved_mm: number }[];
}

export interface HumLine {
  readonly frequency_Hz: number;
  readonly channel: string;
  readonly level_Vrms: number;
  readonly causes: readonly { readonly cause: string; readonly position?: string; readonly share: number }[];
  /** Headphones it is heard on. */
  readonly heard: readonly string[];
}

export interface ResponseCurve {
  readonly channel: string;
  readonly frequencies_Hz: readonly number[];
  readonly gain_dB: readonly number[];
}

export interface SpectrumColumns {
  readonly recording: string;
  readonly channel: string;
  readonly columns: readonly { readonly frequency_Hz: number; readonly low_dBV: number; readonly high_dBV: number }[];
  readonly resolution_Hz: number;
}
