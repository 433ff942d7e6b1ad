/** The PCM sub-format of WAVE_FORMAT_EXTENSIBLE, as it stands in the file. */
const pcmSubFormat = Uint8Array.of(1, 0, 0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71);

export interface WavForm {
  readonly rate_Hz: number;
  readonly bits: 16 | 24;
}

/**
 * A WAV file of 16 or 24 bits with an extensible header.
 *
 * @param channels   one array a channel, all of one length; rounded to the nearest step and clipped at full scale as a
 *                   converter clips
 * @param fullScale  the value that fills the scale
 * @throws RangeError  no channel, or channels of different lengths
 * @source Microsoft, multiple channel audio data and WAVE files, 2007 (from memory)
 */
export function wavFile({ rate_Hz, bits }: WavForm, channels: readonly Float64Array[], fullScale = 1): Uint8Array {
  const scale = 1 / fullScale;
  const length = channels[0]?.length;
  if (length === undefined || channels.some((c) => c.length !== length)) {
    throw new RangeError("a WAV file needs at least one channel, and all channels of one length");
  }
  const bytes = bits / 8;
  const frame_bytes = bytes * channels.length;
  const data_bytes = frame_bytes * length;
  const file = new Uint8Array(68 + data_bytes + (data_bytes % 2));
  const view = new DataView(file.buffer);
  const word = (at: number, letters: string) => file.set(new TextEncoder().encode(letters), at);

  word(0, "RIFF");
  view.setUint32(4, file.length - 8, true);
  word(8, "WAVEfmt ");
  view.setUint32(16, 40, true);
  view.setUint16(20, 0xfffe, true);
  view.setUint16(22, channels.length, true);
  view.setUint32(24, rate_Hz, true);
  view.setUint32(28, rate_Hz * frame_bytes, true);
  view.setUint16(32, frame_bytes, true);
  view.setUint16(34, bits, true);
  view.setUint16(36, 22, true);
  view.setUint16(38, bits, true);
  view.setUint32(40, channels.length === 2 ? 3 : 0, true);
  file.set(pcmSubFormat, 44);
  word(60, "data");
  view.setUint32(64, data_bytes, true);

  const fullScale_steps = 2 ** (bits - 1);
  for (const [c, channel] of channels.entries()) {
    let at = 68 + c * bytes;
    for (let n = 0; n < length; n++) {
      const step = Math.round(channel[n]! * scale * fullScale_steps);
      const held = step < -fullScale_steps ? -fullScale_steps : step >= fullScale_steps ? fullScale_steps - 1 : step;
      if (bits === 24) file[at + 2] = held >> 16;
      file[at + 1] = held >> 8;
      file[at] = held;
      at += frame_bytes;
    }
  }
  return file;
}
