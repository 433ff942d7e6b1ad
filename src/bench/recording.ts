/** A recording in volts: what every bench and hum figure starts from. */
export interface Recording {
  readonly rate_Hz: number;
  /** Digital samples scaled so that 1 is digital full scale; one array a channel, in file order. Not to be written. */
  readonly samples: readonly Float64Array[];
  /** The file's header promised more samples than it holds. */
  readonly truncated: boolean;
  /** Bits a sample as stored; the recorder's own grain. */
  readonly bits: number;
  readonly float: boolean;
}
