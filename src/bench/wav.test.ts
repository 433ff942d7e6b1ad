import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { encodeWav, type WavEncoding } from "./encodeWav.ts";
import { UnreadableRecording } from "./unreadableRecording.ts";
import { bytesInMemory, openWav, readWav } from "./wav.ts";
import { wavWriter } from "./wavWriter.ts";

const read = (bytes: Uint8Array) => readWav(bytesInMemory(bytes));
const ascii = (text: string) => [...text].map((letter) => letter.charCodeAt(0));
const u32 = (value: number) => [value & 255, (value >>> 8) & 255, (value >>> 16) & 255, (value >>> 24) & 255];
const u16 = (value: number) => [value & 255, value >>> 8];

/** A file put together by hand, byte by byte, as the format's description lays it out. */
function byHand(chunks: number[][], magic = "RIFF"): Uint8Array {
  const body = [...ascii("WAVE"), ...chunks.flat()];
  return Uint8Array.from([...ascii(magic), ...u32(body.length), ...body]);
}
const format = (channels: number, bits: number, kind = 1, rate = 48000) => [
  ...ascii("fmt "),
  ...u32(16),
  ...u16(kind),
  ...u16(channels),
  ...u32(rate),
  ...u32((rate * channels * bits) / 8),
  ...u16((channels * bits) / 8),
  ...u16(bits),
];
const data = (bytes: number[], promised = bytes.length) => [...ascii("data"), ...u32(promised), ...bytes];

describe("a file laid out by hand", () => {
  // source: two's complement by hand: 0x8000 = −32768, 0x4000 = 16384, of 32768
  test("16 bits, two channels", () => {
    const recording = read(byHand([format(2, 16), data([0x00, 0x80, 0x00, 0x40, 0xff, 0x7f, 0xff, 0xff])]));
    expect([...recording.samples[0]!]).toEqual([-1, 32767 / 32768]);
    expect([...recording.samples[1]!]).toEqual([0.5, -1 / 32768]);
    expect(recording).toMatchObject({ rate_Hz: 48000, truncated: false, bits: 16, float: false });
  });

  // source: by hand: 0xC00000 = −2^22 of 2^23
  test("24 bits after an odd chunk with its padding byte, and one without it", () => {
    const odd = [...ascii("LIST"), ...u32(3), 1, 2, 3];
    for (const padding of [[0], []]) {
      const recording = read(byHand([[...odd, ...padding], format(1, 24), data([0, 0, 0xc0, 0, 0, 0x20])]));
      expect([...recording.samples[0]!]).toEqual([-0.5, 0.25]);
    }
  });

  test("a file that ends early is used as far as it goes", () => {
    const recording = read(byHand([format(1, 16), data([0, 0x40, 0, 0x40, 7], 48000)]));
    expect(recording.truncated).toBe(true);
    expect([...recording.samples[0]!]).toEqual([0.5, 0.5]);
  });

  test("sizes left at zero by a recorder that lost power", () => {
    const bytes = byHand([format(1, 16), data([0, 0x40, 0, 0x40], 0)]);
    bytes.set(u32(0), 4);
    expect(read(bytes)).toMatchObject({ truncated: true });
    expect(read(bytes).samples[0]).toHaveLength(2);
  });

  test("chunks after the samples do not count as samples", () => {
    const recording = read(byHand([format(1, 16), data([0, 0x40]), [...ascii("LIST"), ...u32(2), 9, 9]]));
    expect(recording.samples[0]).toHaveLength(1);
  });
});

const encodings: [WavEncoding, number][] = [
  ["pcm16", 2 ** -16],
  ["pcm24", 2 ** -24],
  ["pcm32", 2 ** -32],
  ["float32", 2 ** -24],
  ["float64", 0],
];

// property: what is written is read back to within half a step
test.each(encodings)("%s survives writing and reading, with every header", (encoding, error) => {
  const value = fc.double({ min: -1, max: 1 - 2 ** -15, noNaN: true });
  const shape = fc.integer({ min: 1, max: 8 }).chain((channels) =>
    fc.record({
      samples: fc.integer({ min: 1, max: 9 }).chain((frames) =>
        fc.array(fc.array(value, { minLength: frames, maxLength: frames }), {
          minLength: channels,
          maxLength: channels,
        }),
      ),
      rate_Hz: fc.integer({ min: 8000, max: 384000 }),
      extensible: fc.boolean(),
      rf64: fc.boolean(),
    }),
  );
  fc.assert(
    fc.property(shape, ({ samples, rate_Hz, extensible, rf64 }) => {
      const channels = samples.map((channel) => Float64Array.from(channel));
      const recording = read(encodeWav(rate_Hz, channels, { encoding, extensible, rf64 }));
      expect(recording.rate_Hz).toBe(rate_Hz);
      expect(recording.truncated).toBe(false);
      expect(recording.samples).toHaveLength(channels.length);
      channels.forEach((channel, c) => {
        channel.forEach((v, i) => {
          expect(Math.abs(recording.samples[c]![i]! - v)).toBeLessThanOrEqual(error);
        });
      });
    }),
    { numRuns: 60 },
  );
});

describe("refused with the reason, and nothing of the file quoted", () => {
  const secret = "root:x:0:0:secret words of another file, long enough to hold a header";
  test.each([
    ["text", Uint8Array.from(ascii(secret)), /not WAV/],
    ["nothing", new Uint8Array(0), /not WAV/],
    ["a header alone", byHand([format(1, 16)]), /without samples/],
    ["no samples", byHand([format(1, 16), data([])]), /without samples/],
    ["no format", byHand([data([0, 0])]), /without a format/],
    ["nine channels", byHand([format(9, 16), data(new Array(18).fill(0))]), /1 to 8 channels/],
    ["4 kHz", byHand([format(1, 16, 1, 4000), data([0, 0])]), /8000 to 384000/],
    ["8 bits", byHand([format(1, 8), data([0, 0])]), /16, 24 or 32/],
    ["compressed", byHand([format(1, 16, 85), data([0, 0])]), /uncompressed/],
    ["secret chunks", byHand([ascii(secret)]), /without/],
  ])("%s", (_, bytes, message) => {
    expect(() => read(bytes)).toThrow(UnreadableRecording);
    expect(() => read(bytes)).toThrow(message);
    expect(() => read(bytes)).not.toThrow(/secret/);
  });

  test("float samples that are no number, with their place", () => {
    const bytes = encodeWav(8000, [Float64Array.of(0, 0, 0, 0, 0, 0, 0, 0, Number.NaN)], { encoding: "float32" });
    expect(() => read(bytes)).toThrow(/at 0\.001 s in channel 1/);
  });

  test("more sample values than memory should hold, with the limit", () => {
    const head = encodeWav(48000, [new Float64Array(1)], { encoding: "pcm16" });
    head.set(u32(4_000_000_000), 40);
    const source = {
      size: 44 + 4_000_000_000,
      read: (offset: number, length: number) => head.slice(offset, offset + length),
    };
    expect(() => readWav(source)).toThrow(/64000000 sample values/);
  });
});

/** A sink that keeps its bytes, as a file would. */
function kept() {
  const pieces: Uint8Array[] = [];
  const whole = () => Uint8Array.from(pieces.flatMap((piece) => [...piece]));
  return {
    append: (bytes: Uint8Array) => pieces.push(bytes),
    overwrite(offset: number, bytes: Uint8Array) {
      const all = whole();
      all.set(bytes, offset);
      pieces.splice(0, pieces.length, all);
    },
    whole,
  };
}

// property: any stretch of a stream is what the whole file holds there
test("a stretch is read as the whole is, however it was written", () => {
  const cut = fc.record({ first: fc.nat(40), count: fc.nat(40), pieces: fc.integer({ min: 1, max: 7 }) });
  const written = fc.constantFrom(...encodings.map(([encoding]) => encoding));
  fc.assert(
    fc.property(
      cut,
      written,
      fc.boolean(),
      fc.nat(9000),
      ({ first, count, pieces }, encoding, promises, largeFrom_B) => {
        const samples = [0, 1, 2].map((c) => new Float64Array(81).map((_, n) => Math.sin(n * (c + 0.3)) / 2));
        const sink = kept();
        const frames = promises ? { frames: 81 } : {};
        const writer = wavWriter(sink, { rate_Hz: 44_100, channels: 3, encoding, largeFrom_B, ...frames });
        for (let i = 0; i < pieces; i++) {
          const [from, to] = [i, i + 1].map((edge) => Math.round((81 * edge) / pieces));
          writer.write(samples.map((channel) => channel.subarray(from, to)));
        }
        writer.close();
        const bytes = sink.whole();
        expect(String.fromCharCode(...bytes.subarray(0, 4))).toBe(bytes.length - 8 >= largeFrom_B ? "RF64" : "RIFF");
        const whole = read(bytes);
        const stream = openWav(bytesInMemory(bytes));
        expect(stream).toMatchObject({ frames: 81, channels: 3, rate_Hz: 44_100, truncated: false });
        const into = [0, 1, 2].map(() => new Float64Array(count));
        stream.read(first, into);
        expect(into).toEqual(whole.samples.map((channel) => channel.slice(first, first + count)));
      },
    ),
    { numRuns: 60 },
  );
});

test("a stretch beyond the end is refused", () => {
  const stream = openWav(bytesInMemory(encodeWav(8000, [new Float64Array(10)])));
  expect(() => stream.read(5, [new Float64Array(6)])).toThrow(RangeError);
});

// source: 2 channels of 24 bits: sample n of channel c stands at 80 + 6n + 3c; the middle byte is n's lowest, by hand
test("beyond 4 GiB the samples of an RF64 file are read where they stand", () => {
  const frames = 7200 * 192_000;
  let head = new Uint8Array();
  const writing = { rate_Hz: 192_000, channels: 2, frames } as const;
  wavWriter({ append: (bytes) => (head = Uint8Array.from(bytes)) }, writing);
  const size = head.length + 6 * frames;
  const stream = openWav({
    size,
    read(offset, length) {
      return Uint8Array.from({ length: Math.min(length, size - offset) }, (_, i) => {
        const at = offset + i;
        if (at < head.length) return head[at]!;
        return (at - head.length) % 3 === 1 ? Math.floor((at - head.length) / 6) % 128 : 0;
      });
    },
  });
  expect(head).toHaveLength(80);
  expect(stream).toMatchObject({ frames, truncated: false });
  const into = [new Float64Array(3), new Float64Array(3)];
  stream.read(frames - 3, into);
  const last = [3, 2, 1].map((back) => (((frames - back) % 128) * 256) / 2 ** 23);
  expect(into.map((channel) => [...channel])).toEqual([last, last]);
});

test.runIf(process.env.STILLGLOW_LARGE)(
  "a file of more than 4 GiB is written as RF64 with its sizes, and a shorter one is not",
  () => {
    const block = [new Float64Array(2 ** 20).fill(0.25)];
    for (const [blocks, magic] of [
      [1025, "RF64"],
      [3, "RIFF"],
    ] as const) {
      let [size, head] = [0, new Uint8Array()];
      const sink = {
        append: (bytes: Uint8Array) => (size += bytes.length),
        overwrite: (_: number, bytes: Uint8Array) => (head = Uint8Array.from(bytes)),
      };
      const writer = wavWriter(sink, { rate_Hz: 48_000, channels: 1, encoding: "float32" });
      for (let i = 0; i < blocks; i++) writer.write(block);
      writer.close();
      const at = new DataView(head.buffer);
      expect(String.fromCharCode(...head.subarray(0, 4))).toBe(magic);
      if (magic === "RF64") {
        expect(Number(at.getBigUint64(20, true))).toBe(size - 8);
        expect(Number(at.getBigUint64(28, true))).toBe(blocks * 2 ** 22);
        expect(Number(at.getBigUint64(36, true))).toBe(blocks * 2 ** 20);
      } else {
        expect(at.getUint32(4, true)).toBe(size - 8);
      }
    }
  },
  300_000,
);

// property: whatever bytes come, the answer is a recording or the one error
test("arbitrary bytes after a good start never break the reader", () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 120 }), fc.nat(60), (noise, keep) => {
      const good = byHand([format(1, 16), data([0, 0x40, 0, 0x40])]);
      const bytes = Uint8Array.from([...good.slice(0, keep), ...noise]);
      try {
        expect(read(bytes).samples.length).toBeGreaterThan(0);
      } catch (error) {
        expect(error).toBeInstanceOf(UnreadableRecording);
      }
    }),
    { numRuns: 500 },
  );
});
