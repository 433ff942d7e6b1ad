import { scaleLinear, scalePoint } from "d3-scale";
import type { BalanceView } from "../../workshop/bench/views.ts";
import { plainNumber } from "../common/number.ts";
import { words } from "./messages.ts";

const margin = { left: 52, right: 16, top: 20, bottom: 42 };
/** Drawn in less than this, two channels that are alike would look apart. */
const leastSpan_dB = 1;
const height = 220;

/** Left over right at each setting of the volume control: a line for each set of valves, told apart by its stroke. */
export function BalancePicture({ rounds, width }: { readonly rounds: BalanceView["rounds"]; readonly width: number }) {
  const settings = [...new Set(rounds.flatMap(({ byPosition }) => byPosition.map(({ position }) => position)))];
  const all = rounds.flatMap(({ byPosition }) => byPosition.map(({ difference_dB }) => difference_dB));
  const [least, most] = [Math.min(0, ...all), Math.max(0, ...all)];
  const half = Math.max(leastSpan_dB, (most - least) * 1.2) / 2;
  const step = [0.1, 0.2, 0.5, 1, 2, 5].find((one) => (2 * half) / one <= 6) ?? 10;
  const [low, high] = [
    Math.floor(((least + most) / 2 - half) / step) * step,
    Math.ceil(((least + most) / 2 + half) / step) * step,
  ];
  const x = scalePoint<string>()
    .domain(settings)
    .range([margin.left, width - margin.right])
    .padding(0.4);
  const y = scaleLinear()
    .domain([low, high])
    .range([height - margin.bottom, margin.top]);
  const grid = Array.from({ length: Math.round((high - low) / step) + 1 }, (_, i) => low + i * step);
  const isTight = width / settings.length < 92;
  return (
    <svg
      className="balance-picture"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={words.balanceAlt(settings.length)}
    >
      {grid.map((dB) => (
        <g key={dB}>
          <path
            className={Math.abs(dB) < step / 100 ? "balance-zero" : "response-grid"}
            d={`M${margin.left} ${y(dB)}H${width - margin.right}`}
          />
          <text className="response-number" x={margin.left - 7} y={y(dB) + 4} textAnchor="end">
            {plainNumber(Number(dB.toFixed(2)))}
          </text>
        </g>
      ))}
      {settings.map((setting) => (
        <text
          key={setting}
          className="response-number"
          x={x(setting)}
          y={height - margin.bottom + 20}
          textAnchor="middle"
        >
          {isTight ? setting.replace(/ o['’]clock/, "") : setting}
        </text>
      ))}
      {rounds.map(({ valves, byPosition }, round) => {
        const points = byPosition.map(({ position, difference_dB }) => `${x(position)} ${y(difference_dB)}`);
        return (
          <g key={JSON.stringify(valves)} className={`balance-round balance-round-${round % 3}`}>
            <path d={`M${points.join("L")}`} />
            {byPosition.map(({ position, difference_dB }) => (
              <circle key={position} cx={x(position)} cy={y(difference_dB)} r="4" />
            ))}
          </g>
        );
      })}
      <text className="response-title" x={2} y={12}>
        {words.balanceAxis}
      </text>
      <text className="response-title" x={width - margin.right} y={height - 4} textAnchor="end">
        {words.volumeAxis}
      </text>
    </svg>
  );
}
