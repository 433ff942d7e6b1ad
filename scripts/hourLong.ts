// node --import tsx scripts/hourLong.ts [--seconds 3600] [--rate 192000] [--folder FOLDER] [WORD …]
// An hour of stereo at 192 kHz in 24 bits (4.1 GB, so RF64) through the command itself, `seconds` granted: time taken and
// memory at its highest, held against what was put in. Writes docs/hourLong.md from four minutes on, a row for each length.
import { execFileSync, spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { takeOutTone } from "../src/bench/loneTone.ts";
import { struck } from "../src/bench/testing/struck.ts";
import { addNoise } from "../src/bench/testing/synthesiser.ts";
import { turnsAt } from "../src/bench/turning.ts";
import { randomStream } from "../src/maths/random.ts";
import { createWavFile } from "../src/store/wavFile.ts";

const { values, positionals } = parseArgs({
  options: {
    seconds: { type: "string", default: "3600" },
    rate: { type: "string", default: "192000" },
    folder: { type: "string", default: tmpdir() },
  },
  allowPositionals: true,
});
const rate_Hz = Number(values.rate);
const seconds = Number(values.seconds);
const most_s = 600;

const tone = {
  frequency_Hz: 1000.7,
  peaks: [0.5, 0.45],
  third: 1e-4,
  hum: { frequency_Hz: 50.01, peak: 1e-3 },
} as const;
const ring = { frequency_Hz: 640, q: 80, peak: 0.1, apart_s: 3 } as const;
const noise_V_per_rtHz = 3e-7;

/** Adds a sine whose phase runs on from block to block. */
function addSine(block: Float64Array, first: number, frequency_Hz: number, peak: number): void {
  const angle = 2 * Math.PI * turnsAt(frequency_Hz / rate_Hz, first);
  takeOutTone(block, 0, rate_Hz, { frequency_Hz, re: -peak * Math.cos(angle), im: -peak * Math.sin(angle) });
}

/**
 * Hiss for an hour from eight seconds of it, so that making the file takes minutes: a second at a time from anywhere, each
 * value with a sign of its own, for the same eight seconds over and over would have lines.
 */
function hisses() {
  const random = randomStream("an hour of hiss");
  const stock = new Float64Array(8 * rate_Hz);
  addNoise(stock, random, rate_Hz, noise_V_per_rtHz);
  const signs = xorshift(1 + random.integer(2 ** 31 - 1));
  return (block: Float64Array) => {
    const from = random.integer(stock.length - block.length);
    for (let n = 0; n < block.length; ) {
      let bits = signs();
      for (const end = Math.min(block.length, n + 32); n < end; n++, bits >>>= 1) {
        block[n]! += bits & 1 ? stock[from + n]! : -stock[from + n]!;
      }
    }
  };
}

/** @source G. Marsaglia, Xorshift RNGs, J. Stat. Softw. 8 (2003): shifts 13, 17, 5 (remembered) */
function xorshift(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state;
  };
}

function write(path: string, fill: (block: Float64Array, first: number, channel: number) => void): void {
  const writer = createWavFile(path, { rate_Hz, channels: 2, encoding: "pcm24", frames: seconds * rate_Hz });
  const hiss = hisses();
  for (let s = 0; s < seconds; s++) {
    const blocks = [0, 1].map((channel) => {
      const block = new Float64Array(rate_Hz);
      fill(block, s * rate_Hz, channel);
      hiss(block);
      return block;
    });
    writer.write(blocks);
  }
  writer.close();
}

function writeTone(path: string): void {
  write(path, (block, first, channel) => {
    addSine(block, first, tone.frequency_Hz, tone.peaks[channel]!);
    addSine(block, first, 3 * tone.frequency_Hz, tone.third * tone.peaks[channel]!);
    addSine(block, first, tone.hum.frequency_Hz, tone.hum.peak);
  });
}

/** One tap, struck anew every few seconds. */
function writeTaps(path: string): void {
  const { frequency_Hz, q, peak, apart_s } = ring;
  const decay_s = q / (Math.PI * frequency_Hz);
  const one = struck(randomStream("a tap"), rate_Hz, apart_s, [1], [{ frequency_Hz, decay_s, peaks: [peak] }], 0);
  write(path, (block, first) => {
    for (let n = 0; n < block.length; n++) block[n]! += one[(first + n) % one.length]!;
  });
}

/** What the rows look at of any of the answers. */
interface Answer {
  readonly channels: {
    readonly left: {
      readonly level_Vrms: number;
      readonly thd_pct: number;
      readonly noise_Vrms: number;
      readonly hiss_Vrms: number;
      readonly mains: { readonly lines: readonly { readonly level_Vrms: number }[] };
    };
  };
  readonly byPosition: readonly { readonly difference_dB: number; readonly doubt_dB: number }[];
  readonly taps: number;
  readonly resonances: readonly { readonly q: number; readonly peak_Vpk: number }[];
}

interface Run {
  readonly answer: string;
  readonly taken_s: number;
  readonly processor_s: number;
  readonly peak_MB: number;
}

/** Runs the command; Linux keeps the highest memory of a process where it can be read while it lives. */
async function run(name: string, input: unknown): Promise<Run> {
  const command = join(import.meta.dirname, "..", "bin", "stillglow");
  const begun = performance.now();
  const child = spawn(command, ["calc", name], { stdio: ["pipe", "pipe", "inherit"] });
  child.stdin.end(JSON.stringify(input));
  let [answer, peak_MB, processor_s] = ["", 0, 0];
  child.stdout.on("data", (text: Buffer) => {
    answer += text.toString();
  });
  const watch = setInterval(() => {
    const all = descendants(child.pid!);
    const memory = all.map((pid) => Number(/VmHWM:\s+(\d+)/.exec(procFile(pid, "status"))?.[1] ?? 0) / 1024);
    peak_MB = Math.max(peak_MB, ...memory);
    const used = all.map((pid) => procFile(pid, "stat").split(") ")[1]?.split(" ") ?? []);
    processor_s = Math.max(
      processor_s,
      used.reduce((sum, of) => sum + (Number(of[11] ?? 0) + Number(of[12] ?? 0)) / 100, 0),
    );
  }, 200);
  const status = await new Promise<number | null>((done) => {
    child.on("close", done);
  });
  clearInterval(watch);
  if (status !== 0) throw new Error(`${name} ended with status ${status}`);
  return { answer, taken_s: (performance.now() - begun) / 1000, processor_s, peak_MB };
}

function procFile(pid: number, file: string): string {
  try {
    return readFileSync(`/proc/${pid}/${file}`, "utf8");
  } catch {
    return "";
  }
}

function descendants(pid: number): number[] {
  const children = procFile(pid, `task/${pid}/children`).trim().split(" ").filter(Boolean).map(Number);
  return [pid, ...children.flatMap(descendants)];
}

const pct = (value: number, truth: number) => `${(100 * Math.abs(value / truth - 1)).toPrecision(2)} % off`;
const folder = mkdtempSync(join(values.folder, "stillglow-hour-"));
const rows: string[] = [];
const revision = execFileSync("git", ["rev-parse", "--short=12", "HEAD"], { encoding: "utf8" }).trim();
const date = new Date().toISOString().slice(0, 10);

try {
  const kinds = [
    {
      file: "tone.wav",
      make: writeTone,
      asked: [
        {
          name: "bench.tone",
          input: {},
          seen: (answer: Answer) =>
            `level ${pct(answer.channels.left.level_Vrms, tone.peaks[0] * Math.SQRT1_2)}, THD ${pct(answer.channels.left.thd_pct, 100 * tone.third)}, noise ${pct(answer.channels.left.noise_Vrms, noise_V_per_rtHz * Math.sqrt(19_980))}`,
        },
        {
          name: "bench.noise",
          input: {},
          seen: (answer: Answer) =>
            `hiss ${pct(answer.channels.left.hiss_Vrms, noise_V_per_rtHz * Math.sqrt(19_980))}, mains line ${pct(answer.channels.left.mains.lines[0]?.level_Vrms ?? 0, tone.hum.peak * Math.SQRT1_2)}`,
        },
        {
          name: "bench.balance",
          input: (recording: unknown) => ({ recordings: [recording], kind: "tone" }),
          seen: (answer: Answer) =>
            `difference off by ${Math.abs(answer.byPosition[0]!.difference_dB - 20 * Math.log10(tone.peaks[0] / tone.peaks[1])).toExponential(1)} dB, stated ${answer.byPosition[0]!.doubt_dB.toExponential(1)} dB`,
        },
      ],
    },
    {
      file: "taps.wav",
      make: writeTaps,
      asked: [
        {
          name: "bench.tap",
          input: {},
          seen: (answer: Answer) =>
            `${answer.taps} of ${Math.floor((seconds - 1) / ring.apart_s) + 1} taps, Q ${pct(answer.resonances[0]!.q, ring.q)}, peak ${pct(answer.resonances[0]!.peak_Vpk, ring.peak)}`,
        },
      ],
    },
  ];
  for (const { file, make, asked } of kinds) {
    const wanted = asked.filter(({ name }) => positionals.length === 0 || positionals.some((w) => name.includes(w)));
    if (wanted.length === 0) continue;
    const path = join(folder, file);
    make(path);
    const size_GB = statSync(path).size / 1e9;
    for (const { name, input, seen } of wanted) {
      const recording = { recording: path, fullScale_Vpk: 1 };
      const whole = typeof input === "function" ? input(recording) : { ...recording, ...input };
      const { answer, taken_s, processor_s, peak_MB } = await run(name, { ...whole, seconds: most_s });
      const row = `| ${name} | ${seconds / 60} min | ${size_GB.toFixed(2)} GB | ${taken_s.toFixed(0)} s | ${processor_s.toFixed(0)} s | ${peak_MB.toFixed(0)} MB | ${seen(JSON.parse(answer))} | ${date}, revision ${revision} |`;
      console.log(row);
      rows.push(row);
    }
    rmSync(path);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}

if (seconds >= 240) {
  const page = join(import.meta.dirname, "..", "docs", "hourLong.md");
  const before = existsSync(page) ? readFileSync(page, "utf8").split("\n") : [];
  const table = new Map(
    [...before, ...rows].flatMap((row) => (row.startsWith("| bench.") ? [[keyOf(row), row] as const] : [])),
  );
  writeFileSync(
    page,
    `# Recordings of an hour

Stereo at ${rate_Hz} Hz in 24 bits, made with known figures, through the command \`stillglow calc\` with \`seconds\` of
${most_s} granted: time on the clock and on all processors, the highest memory of the process (its run-time included), and
how far the figures came out from what was made. Memory must not grow with the length. Written by

    node --import tsx scripts/hourLong.ts

and brought up to date for one calculation by naming it; \`--seconds 600\` makes ten minutes.

| calculation | length | file | taken | processors | memory at most | figures | on |
|---|---|---|---|---|---|---|---|
${[...table]
  .sort(([a], [b]) => (a < b ? -1 : 1))
  .map(([, row]) => row)
  .join("\n")}
`,
  );
}

/** Calculation and length, in an order that puts shorter before longer. */
function keyOf(row: string): string {
  const [, name, length] = row.split("|").map((cell) => cell.trim());
  return `${name} ${length!.padStart(12)}`;
}
