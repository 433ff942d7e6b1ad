import type { RunningLogView } from "../../workshop/instruments/linkViews.ts";
import { time } from "../common/calendar.ts";
import { fixed, plainNumber } from "../common/number.ts";
import { quantitySaid } from "../common/quantity.ts";
import { linked as words } from "./linkMessages.ts";

interface Props {
  readonly steps: RunningLogView["steps"];
  readonly quantity: string;
  readonly width: number;
}

const height = 118;
const top = 10;
const bottom = 26;
const left = 64;
const right = 8;

/** Readings as a pen writes them on a strip of paper, each with its doubt; where one was missed the pen is lifted. */
export function LogStrip({ steps, quantity, width }: Props) {
  const read = steps.flatMap(({ step, value, doubt = 0 }) => (value === undefined ? [] : [{ step, value, doubt }]));
  const [first, last] = [steps[0]!.step, steps.at(-1)!.step];
  const lowest = Math.min(...read.map(({ value, doubt }) => value - doubt));
  const highest = Math.max(...read.map(({ value, doubt }) => value + doubt));
  const reach = Math.max(highest - lowest, 1e-9 * Math.max(1, Math.abs(highest)));
  const x = (step: number) => left + ((step - first) / Math.max(1, last - first)) * (width - left - right);
  const y = (value: number) => top + ((highest - value) / reach) * (height - top - bottom);
  const decimals = Math.min(6, Math.max(0, Math.ceil(1 - Math.log10(reach))));
  const pen = read
    .map(({ step, value }, i) => {
      const isNext = i > 0 && read[i - 1]!.step === step - 1;
      return `${isNext ? "L" : "M"}${x(step).toFixed(1)} ${y(value).toFixed(1)}`;
    })
    .join("");
  const name = quantitySaid(quantity).name;
  if (read.length === 0) return null;
  return (
    <svg
      className="log-strip"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={words.strip(name, steps.length)}
    >
      <path className="log-edge" d={`M${left} ${top}H${width - right}M${left} ${height - bottom}H${width - right}`} />
      {read.map(({ step, value, doubt }) => (
        <path
          key={step}
          className="log-doubt"
          d={`M${x(step).toFixed(1)} ${y(value + doubt).toFixed(1)}V${y(value - doubt).toFixed(1)}`}
        />
      ))}
      <path className="log-pen" d={pen} />
      {read.map(({ step, value }) => (
        <circle key={step} className="log-dot" cx={x(step)} cy={y(value)} r={2} />
      ))}
      {steps.flatMap(({ step, problem }) =>
        problem === undefined
          ? []
          : [<path key={step} className="log-missed" d={`M${x(step) - 3} ${height - bottom - 3}l6 6m0 -6l-6 6`} />],
      )}
      {[highest, lowest].map((value) => (
        <text key={value} x={left - 6} y={y(value) + 4} textAnchor="end" className="trial-number">
          {decimals > 5 ? plainNumber(value) : fixed(value, decimals)}
        </text>
      ))}
      <text x={left} y={height - 8} className="trial-number">
        {time(steps[0]!.at)}
      </text>
      <text x={width - right} y={height - 8} textAnchor="end" className="trial-number">
        {time(steps.at(-1)!.at)}
      </text>
    </svg>
  );
}
