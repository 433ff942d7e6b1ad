/** The PCM sub-format of WAVE_FORMAT_EXTENSIBLE, as it stands in the file. */
const pcmSubFormat = Uint8Array.of(1, 0, 0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71);
const fullScale_steps = 2 ** 23;

/**
 * A 24-bit WAV file with an extensible header.
 *
 * @param channels  samples from −1 to 1, one array a channel, all of one length; rounded to the nearest step and
 *                  clipped at full scale as a converter clips
 * @throws RangeError  no channel, or channels of different lengths
 * @source Microsoft, multiple channel audio data and WAVE files, 2007 (from memory)
 */
export function wav24(rate_Hz: number, channels: readonly Float64Array[]): Uint8Array {
  const length = channels[0]?.length;
  if (length === undefined || channels.some((c) => c.length !== length)) {
    throw new RangeError("a WAV file needs at least one channel, and all channels of one length");
  }
  const frame_bytes = 3 * channels.length;
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
  view.setUint16(34, 24, true);
  view.setUint16(36, 22, true);
  view.setUint16(38, 24, true);
  view.setUint32(40, channels.length === 2 ? 3 : 0, true);
  file.set(pcmSubFormat, 44);
  word(60, "data");
  view.setUint32(64, data_bytes, true);

  let at = 68;
  for (let n = 0; n < length; n++) {
    for (const channel of channels) {
      const step = Math.round(channel[n]! * fullScale_steps);
      const held = Math.max(-fullScale_steps, Math.min(fullScale_steps - 1, step));
      file[at] = held & 0xff;
      file[at + 1] = (held >> 8) & 0xff;
      file[at + 2] = (held >> 16) & 0xff;
      at += 3;
    }
  }
  return file;
}
