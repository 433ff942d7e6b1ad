import type { InstrumentView } from "../../workshop/instruments/views.ts";
import { day } from "../common/calendar.ts";
import { fixed } from "../common/number.ts";
import { words } from "./messages.ts";

const height = 132;
const top = 12;
const bottom = 24;
const left = 58;
const right = 10;

/**
 * Trials along a strip of paper, the true value its middle line: ruled over beyond the limits, each reading a tick with
 * its doubt, the slow mean a pencil line. A failed trial is a filled red square, its shape alone tells it apart.
 */
export function TrialStrip({ one, width }: { readonly one: InstrumentView; readonly width: number }) {
  const { trials, trial, chart } = one;
  const off = trials.map(({ value, doubt }) => Math.abs(value - trial.true) + doubt);
  const reach = 1.25 * Math.max(trial.limit, ...off);
  const x = (i: number) => left + ((i + 0.5) / trials.length) * (width - left - right);
  const y = (value: number) => top + ((trial.true + reach - value) / (2 * reach)) * (height - top - bottom);
  // As many decimals as tell a limit from the true value.
  const decimals = Math.min(9, Math.max(0, Math.ceil(-Math.log10(trial.limit) + 0.3)));
  const every = Math.max(1, Math.ceil(trials.length / (width / 130)));
  const mean = chart?.weighted
    .map((value, i) => `${i === 0 ? "M" : "L"}${x(i).toFixed(1)} ${y(value).toFixed(1)}`)
    .join("");
  const [high, low] = [y(trial.true + trial.limit), y(trial.true - trial.limit)];
  const hatch = (from: number, to: number) =>
    Array.from({ length: Math.ceil((width - left - right) / 9) }, (_, i) => left + i * 9)
      .map((at) => `M${at} ${to.toFixed(1)}L${Math.min(at + 6, width - right)} ${from.toFixed(1)}`)
      .join("");
  return (
    <svg
      className="trial-strip"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={words.chart(one.title, trials.length)}
    >
      <path className="trial-beyond" d={hatch(top, high) + hatch(low, height - bottom)} />
      <rect className="trial-inside" x={left} y={high} width={width - left - right} height={low - high} />
      <path
        className="trial-limit"
        d={`M${left} ${high.toFixed(1)}H${width - right}M${left} ${low.toFixed(1)}H${width - right}`}
      />
      <path className="trial-true" d={`M${left} ${y(trial.true).toFixed(1)}H${width - right}`} />
      {[trial.true + trial.limit, trial.true, trial.true - trial.limit].map((value) => (
        <text key={value} x={left - 6} y={y(value) + 4} textAnchor="end" className="trial-number">
          {fixed(value, decimals)}
        </text>
      ))}
      {mean && <path className="trial-mean" d={mean} />}
      {trials.map(({ at, value, doubt, state }, i) => (
        <g key={at} className={`trial trial-${state}`}>
          <path d={`M${x(i).toFixed(1)} ${y(value + doubt).toFixed(1)}V${y(value - doubt).toFixed(1)}`} />
          {state === "refuted" ? (
            <rect x={x(i) - 4} y={y(value) - 4} width={8} height={8} />
          ) : (
            <circle cx={x(i)} cy={y(value)} r={state === "undecided" ? 3.2 : 2.2} />
          )}
        </g>
      ))}
      {trials.map(({ at }, i) =>
        i % every === 0 && x(i) < width - 70 ? (
          <text key={at} x={x(i)} y={height - 6} className="trial-number">
            {day(at)}
          </text>
        ) : null,
      )}
    </svg>
  );
}
