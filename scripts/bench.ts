// npm run bench: each figure is a ratio beside a general-purpose reference run on this machine, just now.
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { realSpectrum } from "../src/maths/spectra/fourier.ts";
import { promise } from "../src/production/index.ts";

interface Row {
  readonly what: string;
  readonly ours_ms: number;
  readonly reference: string;
  readonly reference_ms: number | undefined;
}

/** Debian's Python first: its numerical packages are the reference named in the rows. */
const python = existsSync("/usr/bin/python3") ? "/usr/bin/python3" : "python3";

function median_ms(run: () => void, times = 7): number {
  run();
  const taken = Array.from({ length: times }, () => {
    const begun = process.hrtime.bigint();
    run();
    return Number(process.hrtime.bigint() - begun) / 1e6;
  });
  return taken.sort((a, b) => a - b)[times >> 1]!;
}

/** Median time of a Python statement after its set-up, in ms; undefined where the packages are missing. */
function python_ms(setup: string, statement: string, times = 7): number | undefined {
  const script = `import time\n${setup}\ndef run():\n    ${statement}\nrun()\nt=[]\nfor _ in range(${times}):\n    a=time.perf_counter(); run(); t.append(time.perf_counter()-a)\nprint(sorted(t)[${times >> 1}]*1000)`;
  const { status, stdout } = spawnSync(python, ["-c", script], { encoding: "utf8" });
  return status === 0 ? Number(stdout) : undefined;
}

const signal = new Float64Array(2 ** 20).map((_, i) => Math.sin(i * 0.1) + 0.1 * Math.sin(i * 1.7));
const day = ["08:00-12:00", "13:00-17:00"];
const orders = Array.from({ length: 38 }, (_, i) => ({ id: `o${i}`, model: "m", units: 1 }));
const route = Array.from({ length: 12 }, (_, i) => ({
  step: `s${i}`,
  skill: i % 2 ? "a" : "b",
  place: `p${i % 4}`,
  hours: { fast: 1, usual: 2, slow: 4 },
  failOdds: 0.05,
  onFail: { repair_h: 1 },
}));
const shop = {
  now: "2027-03-01T08:00:00+00:00",
  calendars: { c: { week: { mon: day, tue: day, wed: day, thu: day, fri: day } } },
  people: [
    { id: "x", skills: ["a", "b"], calendar: "c" },
    { id: "y", skills: ["a"], calendar: "c" },
    { id: "z", skills: ["b"], calendar: "c" },
  ],
  places: Array.from({ length: 4 }, (_, i) => ({ id: `p${i}`, kind: "single" as const })),
  routes: { m: route },
  orders,
  runs: 2000,
  seed: 1,
};

const rows: Row[] = [
  {
    what: "spectrum of 2^20 real samples",
    ours_ms: median_ms(() => realSpectrum(signal)),
    reference: "numpy.fft.rfft",
    reference_ms: python_ms("import numpy as np\nx=np.random.randn(2**20)", "np.fft.rfft(x)"),
  },
  {
    what: "promise: 2,000 runs, 38 orders, 12 steps with rework",
    ours_ms: median_ms(() => void promise(shop), 3),
    reference: "none yet; a discrete-event library on the same model is to follow",
    reference_ms: undefined,
  },
];

for (const { what, ours_ms, reference, reference_ms } of rows) {
  const beside =
    reference_ms === undefined
      ? `(${reference})`
      : `${(ours_ms / reference_ms).toFixed(2)} of ${reference}'s ${reference_ms.toFixed(1)} ms`;
  console.log(`${what}: ${ours_ms.toFixed(1)} ms, ${beside}`);
}
