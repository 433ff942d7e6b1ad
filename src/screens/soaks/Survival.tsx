import type { SoakSortView } from "../../workshop/production/soakViews.ts";
import { plainNumber } from "../common/number.ts";
import { words } from "./messages.ts";

interface Props extends Pick<SoakSortView, "curve" | "today_h" | "what"> {
  readonly pays_h: number | undefined;
}

const [width, height] = [420, 200];
const inset = { left: 48, right: 16, top: 12, bottom: 34 };

/** Share still good by the hour, as steps with their interval; today's length and the hours that pay as lines across. */
export function Survival({ curve, today_h, what, pays_h }: Props) {
  const last_h = Math.max(today_h, ...curve.map(({ hours }) => hours)) * 1.05;
  const lowest = Math.min(1, ...curve.map(({ low }) => low));
  const floor = Math.max(0, Math.floor(lowest * 20) / 20 - 0.05);
  const x = (hours: number) => inset.left + (hours / last_h) * (width - inset.left - inset.right);
  const y = (share: number) => inset.top + ((1 - share) / (1 - floor)) * (height - inset.top - inset.bottom);
  const steps = (of: "survival" | "low" | "high") => {
    let path = `M${x(0).toFixed(1)} ${y(1).toFixed(1)}`;
    for (const point of curve) path += `H${x(point.hours).toFixed(1)}V${y(point[of]).toFixed(1)}`;
    return `${path}H${x(last_h).toFixed(1)}`;
  };
  const shares = [1, (1 + floor) / 2, floor];
  const ticks = ticksTo(last_h);
  const told = curve
    .map(
      ({ hours, survival }) =>
        `${plainNumber(hours)} ${words.hour}: ${plainNumber(Math.round(1000 * survival) / 10)} %`,
    )
    .join("; ");
  return (
    <svg
      className="survival"
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={`${words.curve(what)}. ${told}`}
    >
      {shares.map((share) => (
        <g key={share}>
          <line className="survival-grid" x1={inset.left} x2={width - inset.right} y1={y(share)} y2={y(share)} />
          <text x={inset.left - 6} y={y(share) + 5} textAnchor="end">
            {plainNumber(Math.round(1000 * share) / 10)}
          </text>
        </g>
      ))}
      {ticks.map((hours) => (
        <text key={hours} x={x(hours)} y={height - 12} textAnchor="middle">
          {plainNumber(hours)}
        </text>
      ))}
      <text x={width - inset.right} y={height - 12} textAnchor="end">
        {words.hour}
      </text>
      <path className="survival-bound" d={steps("low")} />
      <path className="survival-bound" d={steps("high")} />
      <path className="survival-line" d={steps("survival")} />
      <line className="survival-today" x1={x(today_h)} x2={x(today_h)} y1={inset.top} y2={height - inset.bottom} />
      <text x={x(today_h) - 5} y={height - inset.bottom - 6} textAnchor="end">
        {words.today(plainNumber(today_h))}
      </text>
      {pays_h !== undefined && pays_h > 0 && pays_h !== today_h && (
        <line className="survival-pays" x1={x(pays_h)} x2={x(pays_h)} y1={inset.top} y2={height - inset.bottom} />
      )}
    </svg>
  );
}

function ticksTo(last: number): readonly number[] {
  const step = [1, 2, 4, 6, 12, 24, 48, 96, 168, 336].find((one) => last / one <= 8) ?? Math.ceil(last / 8);
  return Array.from({ length: Math.floor((last * 0.94) / step) + 1 }, (_, i) => i * step);
}
