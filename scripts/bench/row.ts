import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** One figure of the benchmark: our time beside that of a general-purpose reference doing the same. */
export interface Row {
  readonly what: string;
  readonly ours_ms: number;
  readonly reference: string;
  /** Undefined where the reference is not installed. */
  readonly reference_ms: number | undefined;
  /** What else was seen: that both agree, the memory taken, the gap left. */
  readonly seen?: string;
}

/** Debian's Python first: its numerical packages are the reference named in the rows. */
const python = existsSync("/usr/bin/python3") ? "/usr/bin/python3" : "python3";

/** Median time of `times` runs after one to warm up, in ms. */
export function median_ms(run: () => void, times = 7): number {
  return taken_ms(run, times)[times >> 1]!;
}

/** The shortest: what the machine can do while it does nothing else. */
export function least_ms(run: () => void, times = 7): number {
  return taken_ms(run, times)[0]!;
}

function taken_ms(run: () => void, times: number): number[] {
  run();
  const taken = Array.from({ length: times }, () => {
    const begun = process.hrtime.bigint();
    run();
    return Number(process.hrtime.bigint() - begun) / 1e6;
  });
  return taken.sort((a, b) => a - b);
}

/** Median time of a Python statement after its set-up, in ms; undefined where the packages are missing. */
export function python_ms(setup: string, statement: string, times = 7): number | undefined {
  const script = `import time\n${setup}\ndef run():\n    ${statement}\nrun()\nt=[]\nfor _ in range(${times}):\n    a=time.perf_counter(); run(); t.append(time.perf_counter()-a)\nprint(sorted(t)[${times >> 1}]*1000)`;
  const { status, stdout } = spawnSync(python, ["-c", script], { encoding: "utf8" });
  return status === 0 ? Number(stdout) : undefined;
}

/**
 * Runs a Python reference kept beside the rows; it reads one JSON question on stdin and prints one JSON answer.
 *
 * @param file  name in `scripts/bench/`
 * @returns the answer, or undefined where its packages are missing
 */
export function pythonAnswer<T>(file: string, question: unknown): T | undefined {
  const path = fileURLToPath(new URL(file, import.meta.url));
  const { status, stdout, stderr } = spawnSync(python, [path], {
    input: JSON.stringify(question),
    encoding: "utf8",
    maxBuffer: 2 ** 28,
  });
  if (status === 0) return JSON.parse(stdout) as T;
  if (!/ModuleNotFoundError/.test(stderr)) throw new Error(`${file}: ${stderr.slice(-2000)}`);
  return undefined;
}
