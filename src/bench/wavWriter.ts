import { extensibleTail, wavExtensible, wavFloat, wavPcm } from "./wavFormat.ts";

export type WavEncoding = "pcm16" | "pcm24" | "pcm32" | "float32" | "float64";

/** Where a file's bytes go, in order. */
export interface ByteSink {
  /** Takes the bytes over; they are not written into afterwards. */
  append(bytes: Uint8Array): void;
  /** Writes over what was appended before; needed where the length is not known at the start. */
  overwrite?(offset: number, bytes: Uint8Array): void;
}

export interface WavWriting {
  readonly rate_Hz: number;
  readonly channels: number;
  readonly encoding?: WavEncoding;
  /** Writes the longer header of WAVE_FORMAT_EXTENSIBLE. */
  readonly extensible?: boolean;
  /** Samples of each channel that will come; without it the header is put right at the end. */
  readonly frames?: number;
  /** A file of more bytes becomes RF64; what 32-bit sizes hold when left out. */
  readonly largeFrom_B?: number;
}

export interface WavWriter {
  /** Appends samples where 1 is full scale: one array a channel, all of one length. */
  write(samples: readonly Float64Array[]): void;
  /**
   * Ends the file.
   *
   * @throws RangeError  other than the promised number of samples was written
   */
  close(): void;
}

const unknownSize = 0xffff_ffff;
/** Body of the chunk that holds 64-bit sizes. */
const largeBytes = 28;
/** Encoded at once, so that a long stretch is never in memory twice. */
const framesAtOnce = 2 ** 15;

/**
 * Writes a WAV file a stretch at a time, of any length: RIFF, or RF64 where 32-bit sizes would not hold it. Integers are
 * rounded to the nearest step and held at the ends of their range, so dither is the caller's affair.
 *
 * Where the length is not promised, room for 64-bit sizes is kept by a chunk that readers skip, and the header written
 * over at the end; a writer cut off before that leaves sizes of zero, which readers take for an unfinished recording.
 *
 * @throws RangeError  channels of different lengths or another number of them
 * @source RIFF WAVE as of Multimedia Programming Interface 1.0 (1991); RF64: EBU Tech 3306 (remembered)
 */
export function wavWriter(sink: ByteSink, writing: WavWriting): WavWriter {
  const { channels, encoding = "pcm24", frames: promised } = writing;
  const frameBytes = channels * bytesOf(encoding);
  let written = 0;
  if (promised === undefined && !sink.overwrite) {
    throw new RangeError("a sink that cannot be written over needs the number of samples");
  }
  sink.append(promised === undefined ? header(writing, undefined) : header(writing, promised));
  return {
    write(samples) {
      const count = samples[0]?.length ?? 0;
      if (samples.length !== channels || samples.some(({ length }) => length !== count)) {
        throw new RangeError(`${channels} channels of one length are needed`);
      }
      for (let first = 0; first < count; first += framesAtOnce) {
        const end = Math.min(count, first + framesAtOnce);
        sink.append(
          encoded(
            samples.map((channel) => channel.subarray(first, end)),
            encoding,
          ),
        );
      }
      written += count;
    },
    close() {
      if (promised !== undefined && promised !== written) {
        throw new RangeError(`${written} samples were written where ${promised} were promised`);
      }
      if ((written * frameBytes) % 2 === 1) sink.append(new Uint8Array(1));
      if (promised === undefined) sink.overwrite!(0, header(writing, written, true));
    },
  };
}

function bytesOf(encoding: WavEncoding): number {
  return Number(encoding.replace(/\D+/, "")) / 8;
}

/**
 * @param frames  undefined while it is not known
 * @param kept  was room kept for 64-bit sizes?
 */
function header(
  { rate_Hz, channels, encoding = "pcm24", extensible = false, largeFrom_B = unknownSize }: WavWriting,
  frames: number | undefined,
  kept = frames === undefined,
): Uint8Array {
  const sampleBytes = bytesOf(encoding);
  const float = encoding.startsWith("float");
  const formatBytes = extensible ? 40 : 16;
  const dataBytes = (frames ?? 0) * channels * sampleBytes;
  const sized = (room: number) => 12 + room + 8 + formatBytes + 8 + dataBytes + (dataBytes % 2);
  const large = frames !== undefined && sized(kept ? 8 + largeBytes : 0) - 8 >= largeFrom_B;
  const room = large || kept ? 8 + largeBytes : 0;
  const total = sized(room);
  const bytes = new Uint8Array(12 + room + 8 + formatBytes + 8);
  const at = new DataView(bytes.buffer);
  let place = 0;
  const text = (letters: string) => {
    for (const letter of letters) at.setUint8(place++, letter.charCodeAt(0));
  };
  const u16 = (value: number) => {
    at.setUint16(place, value, true);
    place += 2;
  };
  const u32 = (value: number) => {
    at.setUint32(place, value, true);
    place += 4;
  };
  const u64 = (value: number) => {
    u32(value % 2 ** 32);
    u32(Math.floor(value / 2 ** 32));
  };
  const size = (value: number) => u32(frames === undefined ? 0 : large ? unknownSize : value);

  text(large ? "RF64" : "RIFF");
  size(total - 8);
  text("WAVE");
  if (room > 0) {
    text(large ? "ds64" : "JUNK");
    u32(largeBytes);
    u64(large ? total - 8 : 0);
    u64(large ? dataBytes : 0);
    u64(large ? frames : 0);
    u32(0);
  }
  text("fmt ");
  u32(formatBytes);
  u16(extensible ? wavExtensible : float ? wavFloat : wavPcm);
  u16(channels);
  u32(rate_Hz);
  u32(rate_Hz * channels * sampleBytes);
  u16(channels * sampleBytes);
  u16(sampleBytes * 8);
  if (extensible) {
    u16(22);
    u16(sampleBytes * 8);
    u32(0);
    u16(float ? wavFloat : wavPcm);
    for (const byte of extensibleTail) at.setUint8(place++, byte);
  }
  text("data");
  size(dataBytes);
  return bytes;
}

function encoded(samples: readonly Float64Array[], encoding: WavEncoding): Uint8Array {
  const sampleBytes = bytesOf(encoding);
  const frames = samples[0]?.length ?? 0;
  const bytes = new Uint8Array(frames * samples.length * sampleBytes);
  const write = sampleWriter(encoding, new DataView(bytes.buffer));
  let place = 0;
  for (let i = 0; i < frames; i++) {
    for (const channel of samples) {
      write(place, channel[i]!);
      place += sampleBytes;
    }
  }
  return bytes;
}

function sampleWriter(encoding: WavEncoding, at: DataView): (byte: number, value: number) => void {
  const code = (value: number, steps: number) => Math.max(-steps, Math.min(steps - 1, Math.round(value * steps)));
  switch (encoding) {
    case "pcm16":
      return (byte, value) => at.setInt16(byte, code(value, 2 ** 15), true);
    case "pcm24":
      return (byte, value) => {
        const step = code(value, 2 ** 23);
        at.setUint16(byte, step & 0xffff, true);
        at.setInt8(byte + 2, step >> 16);
      };
    case "pcm32":
      return (byte, value) => at.setInt32(byte, code(value, 2 ** 31), true);
    case "float32":
      return (byte, value) => at.setFloat32(byte, value, true);
    case "float64":
      return (byte, value) => at.setFloat64(byte, value, true);
  }
}
