import type { UnitChartView } from "../../workshop/instruments/views.ts";
import { fixed } from "../common/number.ts";
import { quantitySaid } from "../common/quantity.ts";
import { unitCharts as words } from "./studyMessages.ts";

const [height, top, bottom, left, right] = [140, 12, 26, 62, 10] as const;

/**
 * Units along a strip in the order of their numbers: the model's window ruled over beyond its limits where it is in
 * sight, the units' own scatter a pencil wash, each unit a tick with its doubt. What stands out wears a ring.
 */
export function UnitStrip({ chart, width }: { readonly chart: UnitChartView; readonly width: number }) {
  const { units, centre, low, high, window, signals, quantity } = chart;
  const { name, unit: sign } = quantitySaid(quantity);
  const own = [low, high, ...units.flatMap(({ value, doubt }) => [value - doubt, value + doubt])];
  const [least, most] = [Math.min(...own), Math.max(...own)];
  const span = most - least || 1;
  // A limit far away would flatten all that can be seen here.
  const near = [window.low, window.high].filter(
    (limit): limit is number => limit !== undefined && limit > least - 1.2 * span && limit < most + 1.2 * span,
  );
  const [from, to] = [Math.min(least, ...near) - 0.08 * span, Math.max(most, ...near) + 0.08 * span];
  const x = (i: number) => left + ((i + 0.5) / units.length) * (width - left - right);
  const y = (value: number) => top + ((to - value) / (to - from)) * (height - top - bottom);
  const decimals = Math.min(6, Math.max(0, Math.ceil(-Math.log10((high - low) / 6))));
  const loud = new Set(signals.map(({ index }) => index));
  const every = Math.max(1, Math.ceil((units.length * 44) / (width - left - right)));
  const labels = [high, centre, low].filter((value, i, all) => i === 0 || y(value) - y(all[i - 1]!) > 12);
  return (
    <svg
      className="unit-strip"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={words.chart(name, units.length)}
    >
      <rect className="unit-own" x={left} y={y(high)} width={width - left - right} height={y(low) - y(high)} />
      <path className="unit-centre" d={`M${left} ${y(centre).toFixed(1)}H${width - right}`} />
      {near.map((limit) => (
        <path key={limit} className="trial-limit" d={`M${left} ${y(limit).toFixed(1)}H${width - right}`} />
      ))}
      {labels.map((value) => (
        <text key={value} x={left - 6} y={y(value) + 4} textAnchor="end">
          {fixed(value, decimals)}
        </text>
      ))}
      <text x={4} y={height - 6}>
        {sign}
      </text>
      {units.map(({ unit, value, doubt, hasLeft }, i) => (
        <g key={unit} className="unit-tick">
          <path d={`M${x(i).toFixed(1)} ${y(value + doubt).toFixed(1)}V${y(value - doubt).toFixed(1)}`} />
          {hasLeft ? (
            <circle cx={x(i)} cy={y(value)} r={2.6} />
          ) : (
            <rect className="unit-here" x={x(i) - 3} y={y(value) - 3} width={6} height={6} />
          )}
          {loud.has(i) && <circle className="unit-ring" cx={x(i)} cy={y(value)} r={8} />}
          {i % every === 0 && (
            <text x={x(i)} y={height - 6} textAnchor="middle">
              {unit}
            </text>
          )}
        </g>
      ))}
    </svg>
  );
}
