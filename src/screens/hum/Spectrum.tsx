import { scaleLinear, scaleLog } from "d3-scale";
import type { HumLineView, SpectrumView } from "../../workshop/views.ts";
import { channelWords } from "../common/channel.ts";
import { plainNumber } from "../common/number.ts";
import { hertz } from "./level.ts";
import { words } from "./messages.ts";

interface Props {
  readonly spectrum: SpectrumView;
  readonly lines: readonly HumLineView[];
  readonly width: number;
  readonly height?: number;
  readonly levels_dBV: readonly [number, number];
}

const margin = { left: 58, right: 12, top: 50, bottom: 44 };
const named_Hz = [10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000];
const label_px = 40;
const tier_px = 16;

/** The range of levels that several spectra share, in whole steps of 20 dB: from a little under the floor to the top. */
export function levelsOf(spectra: readonly SpectrumView[]): readonly [number, number] {
  const tops = spectra.flatMap((spectrum) => spectrum.columns.map((c) => c.high_dBV)).filter(Number.isFinite);
  if (tops.length === 0) return [-140, -40];
  const floor = Math.max(
    -190,
    tops.reduce((a, b) => Math.min(a, b)),
  );
  const top = tops.reduce((a, b) => Math.max(a, b));
  return [Math.floor((floor - 10) / 20) * 20, Math.ceil((top + 3) / 20) * 20];
}

interface Named {
  readonly line: HumLineView;
  readonly tier: number;
}

/** Names in two tiers; where both are taken, the stronger line keeps its name. */
function namedLines(lines: readonly HumLineView[], x: (frequency_Hz: number) => number): readonly Named[] {
  const named: Named[] = [];
  for (const line of [...lines].sort((a, b) => b.level_Vrms - a.level_Vrms)) {
    const isFree = (tier: number) =>
      named
        .filter((other) => other.tier === tier)
        .every((other) => Math.abs(x(other.line.frequency_Hz) - x(line.frequency_Hz)) > label_px);
    const tier = [0, 1].find(isFree);
    if (tier !== undefined) named.push({ line, tier });
  }
  return named;
}

const thousands = (hz: number) => (hz >= 1000 ? `${plainNumber(hz / 1000)} k` : plainNumber(hz));

/** Round frequencies to name: the usual ones on a whole axis, an even division further in. */
function ticksBetween([from, to]: readonly [number, number]): readonly number[] {
  if (to / from > 30) return named_Hz.filter((hz) => hz >= from * 0.999 && hz <= to * 1.001);
  const rough = (to - from) / 6;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((digit) => digit * power).find((one) => one >= rough) ?? 10 * power;
  const first = Math.ceil(from / step);
  return Array.from({ length: Math.max(0, Math.floor(to / step) - first + 1) }, (_, i) =>
    Number(((first + i) * step).toPrecision(9)),
  );
}

/** Amplitude spectrum on a log frequency axis, lowest and highest level in each column; pure. */
export function Spectrum({ spectrum, lines, width, height = 260, levels_dBV }: Props) {
  const { columns } = spectrum;
  const ends = [columns[0]?.frequency_Hz ?? 20, columns.at(-1)?.frequency_Hz ?? 20000] as const;
  const x = scaleLog()
    .domain([Math.max(1, ends[0]), Math.max(ends[1], ends[0] * 1.0005)])
    .range([margin.left, width - margin.right]);
  const y = scaleLinear()
    .domain(levels_dBV)
    .range([height - margin.bottom, margin.top]);
  const point = (hz: number, dBV: number) => `${x(hz).toFixed(1)} ${y(Math.max(levels_dBV[0], dBV)).toFixed(1)}`;
  const top = columns.map((c) => point(c.frequency_Hz, c.high_dBV));
  const under = columns.map((c) => point(c.frequency_Hz, c.low_dBV)).reverse();
  const ticks = ticksBetween(ends);
  const isWhole = ends[1] / ends[0] > 30;
  const roomy = ticks.filter((hz, i) => width > 520 || i % 2 === 0 || (isWhole && hz === 50));
  const grid = Array.from({ length: (levels_dBV[1] - levels_dBV[0]) / 20 + 1 }, (_, i) => levels_dBV[0] + 20 * i);
  const here = lines.filter(
    (line) =>
      line.recording === spectrum.recording &&
      line.channel === spectrum.channel &&
      line.frequency_Hz >= ends[0] * 0.999 &&
      line.frequency_Hz <= ends[1] * 1.001,
  );
  const named = new Map(namedLines(here, x).map(({ line, tier }) => [line, tier]));
  const summary = `${words.spectrumAlt(spectrum.recording, channelWords(spectrum.channel))}: ${[...named.keys()].map((l) => `${hertz(l.frequency_Hz)} Hz`).join(", ") || words.noLines}`;
  return (
    <svg
      className="spectrum"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={summary}
    >
      {grid.map((dBV) => (
        <g key={dBV}>
          <path className="spectrum-grid" d={`M${margin.left} ${y(dBV)}H${width - margin.right}`} />
          <text className="spectrum-number" x={margin.left - 7} y={y(dBV) + 4} textAnchor="end">
            {plainNumber(dBV)}
          </text>
        </g>
      ))}
      {ticks.map((hz) => (
        <path key={hz} className="spectrum-tick" d={`M${x(hz).toFixed(1)} ${height - margin.bottom}v6`} />
      ))}
      {roomy.map((hz) => (
        <text key={hz} className="spectrum-number" x={x(hz)} y={height - margin.bottom + 19} textAnchor="middle">
          {thousands(hz)}
        </text>
      ))}
      <path className="spectrum-axis" d={`M${margin.left} ${height - margin.bottom}H${width - margin.right}`} />
      <text className="spectrum-title" x={width - margin.right} y={height - 6} textAnchor="end">
        {words.frequency}
      </text>
      <text className="spectrum-title" x={2} y={14}>
        {words.level}
      </text>
      {columns.length > 0 && <path className="spectrum-band" d={`M${top.join("L")}L${under.join("L")}z`} />}
      {columns.length > 0 && <path className="spectrum-top" d={`M${top.join("L")}`} />}
      {here.map((line) => {
        const at = x(line.frequency_Hz);
        const tier = named.get(line);
        const foot = margin.top - 6 - (tier ?? 0) * tier_px;
        const peak = y(20 * Math.log10(line.level_Vrms));
        return (
          <g key={`${line.of} ${line.order} ${line.frequency_Hz}`} className="spectrum-mark">
            <path
              d={`M${at.toFixed(1)} ${(peak - 4).toFixed(1)}V${tier !== undefined ? foot : (peak - 11).toFixed(1)}`}
            />
            {tier !== undefined && (
              <text x={at} y={foot - 4} textAnchor={at < margin.left + 26 ? "start" : "middle"}>
                {hertz(line.frequency_Hz)}
              </text>
            )}
          </g>
        );
      })}
    </svg>
  );
}
