import { scaleLinear, scaleLog } from "d3-scale";
import type { BenchCurve } from "../../workshop/bench/views.ts";
import { channelWords } from "../common/channel.ts";
import { plainNumber } from "../common/number.ts";
import { words } from "./messages.ts";

const margin = { left: 46, right: 12, top: 18, bottom: 40 };
const named_Hz = [10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000];
/** A response drawn in less than this looks as if it were bent. */
const leastSpan_dB = 6;

const thousands = (hz: number) => (hz >= 1000 ? `${plainNumber(hz / 1000)} k` : String(hz));

/** Gain against frequency on ruled paper; pure. */
export function ResponseCurve({
  curve,
  width,
  height = 220,
}: {
  readonly curve: BenchCurve;
  readonly width: number;
  readonly height?: number;
}) {
  const { frequencies_Hz, gain_dB, channel } = curve;
  const [least, most] = [Math.min(...gain_dB), Math.max(...gain_dB)];
  const middle = (least + most) / 2;
  const half = Math.max(leastSpan_dB, (most - least) * 1.15) / 2;
  const step = [0.5, 1, 2, 5, 10, 20].find((one) => (2 * half) / one <= 8) ?? 50;
  const [low, high] = [Math.floor((middle - half) / step) * step, Math.ceil((middle + half) / step) * step];
  const x = scaleLog()
    .domain([frequencies_Hz[0] ?? 20, frequencies_Hz.at(-1) ?? 20_000])
    .range([margin.left, width - margin.right]);
  const y = scaleLinear()
    .domain([low, high])
    .range([height - margin.bottom, margin.top]);
  const points = frequencies_Hz.map((hz, i) => `${x(hz).toFixed(1)} ${y(gain_dB[i]!).toFixed(1)}`);
  const ticks = named_Hz.filter(
    (hz) => hz >= (frequencies_Hz[0] ?? 0) * 0.999 && hz <= (frequencies_Hz.at(-1) ?? 0) * 1.001,
  );
  const grid = Array.from({ length: Math.round((high - low) / step) + 1 }, (_, i) => low + i * step);
  return (
    <svg
      className="response"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={words.curveAlt(channelWords(channel), plainNumber(least), plainNumber(most))}
    >
      {grid.map((dB) => (
        <g key={dB}>
          <path className="response-grid" d={`M${margin.left} ${y(dB)}H${width - margin.right}`} />
          <text className="response-number" x={margin.left - 7} y={y(dB) + 4} textAnchor="end">
            {plainNumber(dB)}
          </text>
        </g>
      ))}
      {ticks.map((hz, i) => (
        <g key={hz}>
          <path className="response-grid" d={`M${x(hz).toFixed(1)} ${margin.top}V${height - margin.bottom}`} />
          {(width > 520 || i % 2 === 0) && (
            <text className="response-number" x={x(hz)} y={height - margin.bottom + 18} textAnchor="middle">
              {thousands(hz)}
            </text>
          )}
        </g>
      ))}
      <path className="response-line" d={`M${points.join("L")}`} />
      <text className="response-title" x={width - margin.right} y={height - 4} textAnchor="end">
        {words.frequency}
      </text>
      <text className="response-title" x={2} y={12}>
        {words.decibels}
      </text>
    </svg>
  );
}
