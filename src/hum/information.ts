import type { Random } from "../maths/random.ts";
import type { OpenLine } from "./attributeChannel.ts";
import { type Setting, sameCause } from "./cause.ts";
import type { Design } from "./design.ts";
import { linePrior } from "./linePosterior.ts";
import { drawAmplitude } from "./sourcePrior.ts";

/** Levels nearer than this are one reading: contacts and chance move them by about as much. */
const step_dB = 1.5;
/** Anything further below the loudest that is expected reads as nothing. */
const depth_dB = 36;
const scatter = 0.05;

/**
 * What a recording yet to be made would tell of the cause of most of the hum: the mutual information between that cause
 * and the weighted levels that would be read,
 *
 *     I(C; Y) = H(C) + H(Y) − H(C, Y)
 *
 * over the explanations that the recordings so far leave. A valve from the shelf is drawn from what any source may put
 * out; a supply never used changes the unit's own hum as in `sampleLine`.
 *
 * @param lines    that bear on the verdict, the same explanations in each
 * @param next     how the unit would stand
 * @param reaches  whether a valve position can reach the channel
 * @returns bits, 0 or more; the counts' bias (cells − 1)(causes − 1)/2N taken off
 * @source  G. A. Miller, "Note on the bias of information estimates" (1955) (from memory)
 */
export function informationFrom(
  design: Design,
  lines: readonly OpenLine[],
  next: Setting,
  known: readonly Setting[],
  reaches: (position: string) => boolean,
  random: Random,
): number {
  const draws = lines[0]?.phasors.length ?? 0;
  if (draws === 0) return 0;
  const indexOf = (cause: Parameters<typeof sameCause>[0]) => design.sources.findIndex((s) => sameCause(s, cause));
  const fitted = Object.entries(next.valves)
    .filter(([position]) => reaches(position))
    .map(([position, valve]) => indexOf({ cause: "valve", position, valve }));
  const own = [indexOf({ cause: "amplifier" }), ...fitted];
  const onBuilding = next.supply.source === "building";
  const field = [indexOf({ cause: "pick-up" }), ...(onBuilding ? [indexOf({ cause: "mains" })] : [])];
  const isKnown = known.some(({ supply }) => supply.frequency_Hz === next.supply.frequency_Hz);
  const ratio = Math.log(next.supply.frequency_Hz / known[0]!.supply.frequency_Hz);
  const gainSpread = isKnown ? 0 : Math.hypot(0.05, 1.5 * ratio) / Math.SQRT2;

  const causes = new Int32Array(draws);
  const levels = next.offset ? [new Float64Array(draws), new Float64Array(draws)] : [new Float64Array(draws)];
  for (let i = 0; i < draws; i++) {
    causes[i] = leaderOf(design, lines, i);
    for (const { phasors, weight } of lines) {
      const at = phasors[i]!;
      const sum = (sources: readonly number[]) => {
        let re = 0;
        let im = 0;
        for (const s of sources) {
          const turn = 2 * Math.PI * random.uniform();
          const amplitude = s < 0 ? drawAmplitude(linePrior, random) : 0;
          re += s < 0 ? amplitude * Math.cos(turn) : at[2 * s]!;
          im += s < 0 ? amplitude * Math.sin(turn) : at[2 * s + 1]!;
        }
        return [re, im] as const;
      };
      const [x, y] = sum(own);
      const gRe = 1 + random.normal(0, gainSpread) + random.normal(0, scatter);
      const gIm = random.normal(0, gainSpread) + random.normal(0, scatter);
      const made = [gRe * x - gIm * y, gRe * y + gIm * x] as const;
      const [fieldRe, fieldIm] = sum(field.filter((s) => s >= 0));
      const seen = next.offset
        ? [made, [fieldRe, fieldIm] as const]
        : [[made[0] + fieldRe, made[1] + fieldIm] as const];
      for (const [f, [re, im]] of seen.entries()) levels[f]![i]! += weight * (re * re + im * im);
    }
  }
  const top = Math.max(...levels.map((level) => level.reduce((a, b) => Math.max(a, b), 0)));
  const cells = Array.from({ length: draws }, (_, i) =>
    levels.map((level) => Math.round(Math.max(-depth_dB, 10 * Math.log10(level[i]! / top + 1e-30)) / step_dB)).join(),
  );
  const kinds = new Set(causes).size;
  const bias = ((new Set(cells).size - 1) * (kinds - 1)) / (2 * draws * Math.LN2);
  const gained = entropy(causes) + entropy(cells) - entropy(cells.map((cell, i) => `${cell} ${causes[i]}`));
  return Math.max(0, gained - bias);
}

/** The source with most of the weighted hum in one explanation. */
function leaderOf(design: Design, lines: readonly OpenLine[], i: number): number {
  let leader = design.fitted[0]!;
  let most = -1;
  for (const s of design.fitted) {
    const power = lines.reduce((sum, { phasors, weight }) => {
      const at = phasors[i]!;
      return sum + weight * (at[2 * s]! ** 2 + at[2 * s + 1]! ** 2);
    }, 0);
    if (power > most) {
      most = power;
      leader = s;
    }
  }
  return leader;
}

/** Of what was drawn, in bits. */
function entropy(values: Iterable<number | string>): number {
  const counts = new Map<number | string, number>();
  let total = 0;
  for (const value of values) {
    counts.set(value, (counts.get(value) ?? 0) + 1);
    total++;
  }
  return [...counts.values()].reduce((sum, n) => sum - (n / total) * Math.log2(n / total), 0);
}
