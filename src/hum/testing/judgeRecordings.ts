import { bytesInMemory, readWav } from "../../bench/wav.ts";
import { type Random, randomStream } from "../../maths/random.ts";
import { type HumTrace, traceHum } from "../index.ts";
import { type Bench, drawBench, type Make, truthAmong } from "./drawBench.ts";
import { drawLab, type Lab } from "./drawLab.ts";
import { type Judged, judge, referenceOf } from "./judge.ts";
import { sharesHeld } from "./sharesHeld.ts";
import { synthesise } from "./synthesise.ts";

export interface JudgedRecordings {
  readonly judged: readonly Judged[];
  /** Lines named where there is a stray tone and no mains line. */
  readonly strayLines: number;
  readonly trace: HumTrace;
  readonly lab: Lab;
}

/** Cut peaks and a sag charge the reservoirs to less: on such a supply the unit's own hum falls by 3 to 12 dB. */
function withLowHt(bench: Bench, random: Random): Bench {
  const left = 10 ** (-(3 + 9 * random.uniform()) / 20);
  const even = bench.settings.map(() => 1);
  const { gain = even, own = even, field = even } = bench.mishap ?? {};
  return {
    ...bench,
    mishap: { gain, field, own: own.map((x, r) => (bench.settings[r]!.supply.source === "building" ? x : x * left)) },
  };
}

/** Draws the bench and the workshop of a seed, makes its WAV files, reads them back and judges each verdict. */
export function judgeRecordings(seed: number, make?: Make): JudgedRecordings {
  const { input, judged, lab } = drawRecordings(seed, make);
  return { ...judged(traceHum(input, randomStream("hum.trace"))), lab };
}

/** What a drawn bench and workshop are asked about, and how a trace of it is judged. */
export function drawRecordings(seed: number | string, make?: Make) {
  const random = randomStream(`bench ${seed}`);
  const drawn = drawBench(random.fork("draw"), make);
  const lab = drawLab(drawn, random.fork("lab"));
  // A sag shows only against the building's mains at the same scale.
  const onBuilding = drawn.settings.some(({ supply }) => supply.source === "building");
  const isUnsound = lab.supply === "cut" || (lab.supply === "sagging" && onBuilding);
  const bench = isUnsound ? withLowHt(drawn, random.fork("low HT")) : drawn;
  // The first recording is what the verdict is about, whatever it was made on.
  const kept = [...bench.settings.keys()].filter(
    (r) => !isUnsound || r === referenceOf(bench) || bench.settings[r]!.supply.source === "building",
  );
  const recordings = bench.settings.map(({ supply, valves }, i) => {
    const { wav, fullScale_Vpk, channels } = synthesise(bench, i, random, lab);
    return { id: `r${i + 1}`, recording: readWav(bytesInMemory(wav)), fullScale_Vpk, channels, supply, valves };
  });
  const { building_Hz, feeds } = bench;
  const input = { building_Hz, feeds, recordings: recordings.map((r) => ({ ...r, input: "shorted" })) };
  const judged = (trace: HumTrace): Omit<JudgedRecordings, "lab"> => {
    const judged = bench.channels.map((channel): Judged => {
      const truth = truthAmong(bench, channel, kept);
      const verdict = trace.verdict[channel]!;
      // On a supply that was not sound the unit hummed otherwise than its sources say.
      const compared = new Set(kept.map((r) => recordings[r]!.id));
      const lines = trace.lines.filter((line) => line.channel === channel && compared.has(line.recording));
      const held = lines.map(({ order, causes }) => sharesHeld(bench, channel, order, causes));
      return { seed: Number(seed), channel, truth, verdict, outcome: judge(truth, verdict), lines: held };
    });
    const highest = bench.orders.at(-1)!;
    const strayLines = trace.lines.filter(({ order, frequency_Hz }) => {
      return order > highest && lab.strays.some((stray) => Math.abs(stray.frequency_Hz - frequency_Hz) < 2);
    }).length;
    return { judged, strayLines, trace };
  };
  return { input, judged, lab };
}
