import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { encodeWav } from "../../src/bench/encodeWav.ts";
import { pythonAnswer, type Row } from "./row.ts";

const rate_Hz = 96_000;
const seconds = 60;

interface Answered {
  readonly channels: readonly {
    readonly frequency_Hz: number;
    readonly level_Vrms: number;
    readonly thd_pct: number;
    readonly noise_Vrms: number;
  }[];
  readonly seconds: number;
  /** Time on all processors together. */
  readonly processor_s: number;
  readonly peak_MB: number;
}

/** A tone with two harmonics, hum and hiss. */
function made(): Float64Array[] {
  let state = 12_345;
  const uniform = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  };
  return [0.5, 0.49].map((peak) =>
    new Float64Array(rate_Hz * seconds).map((_, n) => {
      const t = (2 * Math.PI * n) / rate_Hz;
      const tone = Math.sin(1000.3 * t) + 1e-3 * Math.sin(2000.6 * t) + 3e-4 * Math.sin(3000.9 * t);
      const hum = 1e-3 * Math.sin(50.01 * t) + 3e-4 * Math.sin(100.02 * t);
      return peak * tone + hum + 1e-5 * (uniform() + uniform() + uniform());
    }),
  );
}

/** Our own analysis in a process of its own, so that its memory can be seen; reading the file counts. */
function ours(path: string): Answered {
  const script = `
    import { openWavFile } from "${new URL("../../src/store/wavFile.ts", import.meta.url).pathname}";
    import { analyseTone } from "${new URL("../../src/bench/tone.ts", import.meta.url).pathname}";
    const begun = performance.now();
    const before = process.cpuUsage();
    const { channels } = analyseTone(openWavFile("${path}", "bench", "recording"), 1, { seconds: 600 });
    const seconds = (performance.now() - begun) / 1000;
    const { user, system } = process.cpuUsage(before);
    const peak_MB = process.resourceUsage().maxRSS / 1024;
    console.log(JSON.stringify({ channels, seconds, processor_s: (user + system) / 1e6, peak_MB }));`;
  const { stdout, stderr, status } = spawnSync(
    process.execPath,
    ["--import", "tsx", "--input-type=module", "-e", script],
    { encoding: "utf8", maxBuffer: 2 ** 26, cwd: fileURLToPath(new URL("../..", import.meta.url)) },
  );
  if (status !== 0) throw new Error(stderr.slice(-2000));
  return JSON.parse(stdout) as Answered;
}

export function rows(): Row[] {
  const folder = mkdtempSync(join(tmpdir(), "stillglow-bench-"));
  try {
    const samples = made();
    const wav = join(folder, "minute.wav");
    const raw = join(folder, "minute.raw");
    const bytes = encodeWav(rate_Hz, samples, { encoding: "float32" });
    writeFileSync(wav, bytes);
    writeFileSync(raw, bytes.subarray(44));
    const own = ours(wav);
    const python = pythonAnswer<Answered>("recordings.py", {
      path: raw,
      rate_Hz,
      frames: rate_Hz * seconds,
      channels: 2,
      mains_Hz: 50.0,
    });
    const apart = (key: "level_Vrms" | "thd_pct" | "noise_Vrms") =>
      python && `${(100 * Math.abs(own.channels[0]![key] / python.channels[0]![key] - 1)).toPrecision(2)} %`;
    return [
      {
        what: "level, distortion, hum and noise of a minute of stereo at 96 kHz, file to figures",
        ours_ms: 1000 * own.seconds,
        reference: "numpy and scipy (100 mains orders, 10 harmonics)",
        reference_ms: python && 1000 * python.seconds,
        seen: `${own.processor_s.toFixed(1)} s of processors${python ? ` against ${python.processor_s.toFixed(1)} s` : ""}; ${own.peak_MB.toFixed(0)} MB at most${python ? ` against ${python.peak_MB.toFixed(0)} MB; apart by ${apart("level_Vrms")} in level, ${apart("thd_pct")} in distortion, ${apart("noise_Vrms")} in noise` : ""}`,
      },
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
