import type { Recording } from "./recording.ts";
import { type RecordingStream, refuseOutside } from "./recordingStream.ts";
import { UnreadableRecording } from "./unreadableRecording.ts";
import {
  extensibleTail,
  least_Hz,
  most_Hz,
  mostChannels,
  mostSampleValues,
  type WavFormat,
  wavExtensible,
  wavFloat,
  wavPcm,
} from "./wavFormat.ts";

/** Bytes that can be read at any place; a short answer means that the file ends there. */
export interface ByteSource {
  readonly size: number;
  read(offset: number, length: number): Uint8Array;
}

/**
 * Opens a WAV file for reading a stretch at a time: PCM of 16, 24 or 32 bits or float of 32 or 64, plain or extensible
 * header, RIFF or RF64, of any length.
 *
 * Integers are scaled so that 2^(bits−1) is 1; floats stand as they are. A file that ends early gives what it
 * holds, marked `truncated`.
 *
 * @throws UnreadableRecording  not such a file; while reading: a float that is no number, or a file that shrank
 * @source RIFF WAVE as of Multimedia Programming Interface 1.0 (1991); RF64: EBU Tech 3306 (remembered)
 */
export function openWav(source: ByteSource): RecordingStream {
  const { format, data } = findChunks(source);
  const { channels, rate_Hz, bits, float } = format;
  const frames = Math.floor(data.length / (format.containerBytes * channels));
  if (frames === 0) throw new UnreadableRecording("a WAV file without samples", "at least one sample", "record again");
  return {
    rate_Hz,
    channels,
    frames,
    truncated: data.truncated,
    bits,
    float,
    read(first, into) {
      refuseOutside(first, into, frames);
      decode(source, data.offset, first, into, format);
    },
  };
}

/**
 * Reads a whole WAV file into memory, as `openWav` would.
 *
 * @throws UnreadableRecording  as there, or more than 64 million sample values in all
 */
export function readWav(source: ByteSource): Recording {
  return inMemory(openWav(source));
}

/** @throws UnreadableRecording  more than 64 million sample values in all */
export function inMemory(stream: RecordingStream): Recording {
  const { rate_Hz, channels, frames, truncated, bits, float } = stream;
  if (frames * channels > mostSampleValues) {
    throw new UnreadableRecording(
      `${frames} samples of ${channels} channels`,
      `at most ${mostSampleValues} sample values in all channels together`,
      "cut the recording into shorter parts, or record at a lower rate",
    );
  }
  const samples = Array.from({ length: channels }, () => new Float64Array(frames));
  stream.read(0, samples);
  return { rate_Hz, samples, truncated, bits, float };
}

/** A byte source over bytes in memory. */
export function bytesInMemory(bytes: Uint8Array): ByteSource {
  return { size: bytes.length, read: (offset, length) => bytes.subarray(offset, offset + length) };
}

interface DataPlace {
  readonly offset: number;
  readonly length: number;
  readonly truncated: boolean;
}

const unknownSize = 0xffff_ffff;

function findChunks(source: ByteSource): { format: WavFormat; data: DataPlace } {
  const head = view(source, 0, 12);
  const magic = head && tag(head, 0);
  if (!head || tag(head, 8) !== "WAVE" || !(magic === "RIFF" || magic === "RF64" || magic === "BW64")) throw notWav();
  const large = magic !== "RIFF";

  let format: WavFormat | undefined;
  let data: DataPlace | undefined;
  let largeData: number | undefined;
  let offset = 12;
  while (offset + 8 <= source.size && !(format && data)) {
    const header = view(source, offset, 8);
    if (!header) break;
    const id = tag(header, 0);
    const size = header.getUint32(4, true);
    const body = offset + 8;
    let length = size;
    if (id === "ds64") largeData = readLargeDataSize(source, body, size);
    if (id === "fmt ") format = readFormat(source, body, size);
    if (id === "data") {
      if (large && size === unknownSize && largeData !== undefined) length = largeData;
      data = placeData(source, body, length, head.getUint32(4, true));
      length = data.length;
    }
    offset = nextChunk(source, body, length);
  }
  if (!format) {
    throw new UnreadableRecording(
      "a WAV file without a format chunk",
      "a complete header",
      "record or export it again",
    );
  }
  if (!data) throw new UnreadableRecording("a WAV file without samples", "a data chunk", "record or export it again");
  return { format, data };
}

function notWav(): UnreadableRecording {
  return new UnreadableRecording(
    "a file that is not WAV",
    "WAV (RIFF or RF64): PCM of 16, 24 or 32 bits, or float of 32 or 64",
    "export the recording as WAV",
  );
}

/** Chunks begin on even places; some writers forget the padding byte after an odd chunk. */
function nextChunk(source: ByteSource, body: number, length: number): number {
  const end = body + length;
  if (length % 2 === 0) return end;
  const unpadded = view(source, end, 4);
  const padded = view(source, end + 1, 4);
  return unpadded && (!padded || !isChunkName(padded)) && isChunkName(unpadded) ? end : end + 1;
}

function isChunkName(at: DataView): boolean {
  return [0, 1, 2, 3].every((i) => at.getUint8(i) >= 0x20 && at.getUint8(i) < 0x7f);
}

function placeData(source: ByteSource, offset: number, promised: number, riffSize: number): DataPlace {
  const held = Math.max(0, source.size - offset);
  // A recorder that lost power leaves both sizes at zero; a writer to a pipe leaves the largest number.
  const unfinished = promised === 0 && held > 0 && riffSize + 8 <= offset;
  if (unfinished) return { offset, length: held, truncated: true };
  if (promised === unknownSize) return { offset, length: held, truncated: false };
  return { offset, length: Math.min(promised, held), truncated: promised > held };
}

function readLargeDataSize(source: ByteSource, body: number, size: number): number | undefined {
  const at = size >= 16 ? view(source, body, 16) : undefined;
  return at && at.getUint32(8, true) + at.getUint32(12, true) * 2 ** 32;
}

function readFormat(source: ByteSource, body: number, size: number): WavFormat {
  const at = view(source, body, Math.min(size, 40));
  if (!at || at.byteLength < 16) {
    throw new UnreadableRecording("a WAV file cut off in its header", "a complete header", "record or export it again");
  }
  const channels = at.getUint16(2, true);
  const rate_Hz = at.getUint32(4, true);
  const blockBytes = at.getUint16(12, true);
  let bits = at.getUint16(14, true);
  let kind = at.getUint16(0, true);
  let containerBytes = channels > 0 ? blockBytes / channels : 0;
  if (containerBytes * 8 < bits || !Number.isInteger(containerBytes)) containerBytes = Math.ceil(bits / 8);
  if (kind === wavExtensible && at.byteLength >= 40) {
    const known = extensibleTail.every((byte, i) => at.getUint8(26 + i) === byte);
    kind = known ? at.getUint16(24, true) : 0;
    const valid = at.getUint16(18, true);
    if (valid > 0 && valid < bits) bits = valid;
  }
  if (channels < 1 || channels > mostChannels) {
    throw new UnreadableRecording(
      `${channels} channels`,
      `1 to ${mostChannels} channels`,
      "export the channels you need",
    );
  }
  if (rate_Hz < least_Hz || rate_Hz > most_Hz) {
    throw new UnreadableRecording(
      `a sample rate of ${rate_Hz} Hz`,
      `${least_Hz} to ${most_Hz} Hz`,
      "record at a rate within these limits",
    );
  }
  const float = kind === wavFloat;
  const whole = kind === wavPcm;
  const fits = float ? containerBytes === 4 || containerBytes === 8 : containerBytes >= 2 && containerBytes <= 4;
  if (!(float || whole) || !fits) {
    throw new UnreadableRecording(
      `WAV samples of format ${kind} with ${bits} bits`,
      "PCM of 16, 24 or 32 bits, or float of 32 or 64",
      "export the recording uncompressed",
    );
  }
  return { channels, rate_Hz, float, containerBytes, bits };
}

/** Read a megabyte at a time, so that the file and its samples never stand in memory together. */
function decode(
  source: ByteSource,
  offset: number,
  first: number,
  into: readonly Float64Array[],
  format: WavFormat,
): void {
  const frameBytes = format.channels * format.containerBytes;
  const frames = into[0]!.length;
  const framesAtOnce = Math.max(1, Math.floor(2 ** 20 / frameBytes));
  for (let from = 0; from < frames; from += framesAtOnce) {
    const count = Math.min(framesAtOnce, frames - from);
    const bytes = source.read(offset + (first + from) * frameBytes, count * frameBytes);
    if (bytes.length < count * frameBytes) {
      throw new UnreadableRecording("a file that shrank while it was read", "a file at rest", "read it again");
    }
    const values = storedValues(bytes, format);
    into.forEach((channel, c) => {
      spread(values, c, format, channel, from, count);
    });
    if (format.float) refuseWhatIsNoNumber(into, from, count, first, format.rate_Hz);
  }
}

const littleEndian = new Uint8Array(Uint16Array.of(1).buffer)[0] === 1;

/** Samples as they are stored, all channels in turn. */
function storedValues(
  bytes: Uint8Array,
  { float, containerBytes }: WavFormat,
): Int16Array | Int32Array | Float32Array | Float64Array {
  const count = bytes.length / containerBytes;
  if (containerBytes === 3) {
    const values = new Int32Array(count);
    // Shifted to the top and back down, so that the sign comes along.
    for (let i = 0, b = 0; i < count; i++, b += 3) {
      values[i] = ((bytes[b]! << 8) | (bytes[b + 1]! << 16) | (bytes[b + 2]! << 24)) >> 8;
    }
    return values;
  }
  const Kind = float
    ? containerBytes === 4
      ? Float32Array
      : Float64Array
    : containerBytes === 2
      ? Int16Array
      : Int32Array;
  if (littleEndian) {
    const aligned = bytes.byteOffset % containerBytes === 0 ? bytes : bytes.slice();
    return new Kind(aligned.buffer as ArrayBuffer, aligned.byteOffset, count);
  }
  const turned = bytes.slice();
  for (let b = 0; b < turned.length; b += containerBytes) turned.subarray(b, b + containerBytes).reverse();
  return new Kind(turned.buffer, 0, count);
}

/** One channel of interleaved samples, scaled. */
function spread(
  values: ArrayLike<number>,
  channel: number,
  { float, containerBytes, channels }: WavFormat,
  into: Float64Array,
  from: number,
  count: number,
): void {
  const scale = float ? 1 : 2 ** (1 - 8 * containerBytes);
  for (let i = 0, at = channel; i < count; i++, at += channels) into[from + i] = values[at]! * scale;
}

/** Beyond this many times full scale a float file holds garbage, and squares would overflow. */
const mostFullScales = 1e12;

function refuseWhatIsNoNumber(
  samples: readonly Float64Array[],
  from: number,
  count: number,
  first: number,
  rate_Hz: number,
): void {
  samples.forEach((channel, c) => {
    for (let i = from; i < from + count; i++) {
      if (Math.abs(channel[i]!) <= mostFullScales) continue;
      throw new UnreadableRecording(
        `float samples that are no usable number, the first at ${((first + i) / rate_Hz).toFixed(3)} s in channel ${c + 1}`,
        `finite numbers up to ${mostFullScales} times full scale`,
        "export the recording again, or as PCM",
      );
    }
  });
}

function view(source: ByteSource, offset: number, length: number): DataView | undefined {
  if (offset + length > source.size) return undefined;
  const bytes = source.read(offset, length);
  return bytes.length < length ? undefined : new DataView(bytes.buffer, bytes.byteOffset, length);
}

function tag(at: DataView, byte: number): string {
  return String.fromCharCode(at.getUint8(byte), at.getUint8(byte + 1), at.getUint8(byte + 2), at.getUint8(byte + 3));
}
