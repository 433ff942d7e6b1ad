/** How a WAV file stores one sample, and the limits kept while reading it. */
export interface WavFormat {
  readonly channels: number;
  readonly rate_Hz: number;
  readonly float: boolean;
  /** Bytes of one sample of one channel as stored; samples fill them from the top. */
  readonly containerBytes: number;
  /** Bits that carry the signal. */
  readonly bits: number;
}

export const wavPcm = 0x0001;
export const wavFloat = 0x0003;
export const wavExtensible = 0xfffe;

export const least_Hz = 8_000;
export const most_Hz = 384_000;
export const mostChannels = 8;

/** Sample values (all channels together) that one recording may hold: 512 MB of doubles, 5.5 min of stereo at 96 kHz. */
export const mostSampleValues = 64_000_000;

/** Tail shared by the format identifiers of WAVE_FORMAT_EXTENSIBLE, after the two bytes of the format tag. */
export const extensibleTail = [0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71] as const;
