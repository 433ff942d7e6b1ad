import { useId } from "react";
import { day, daysBetween } from "../common/calendar.ts";

const height = 46;
const fewest_days = 3;
const most_days = 21;

/** Days to come, and on them when a batch ripens: its likely moment, the hatching where it may lie. */
export function RipeningRule({
  now,
  ripe,
  width,
}: {
  readonly now: string;
  readonly ripe: { readonly at: string; readonly from: string; readonly to?: string };
  readonly width: number;
}) {
  const id = useId();
  const to = daysBetween(now, ripe.to ?? ripe.at);
  const span = Math.min(most_days, Math.max(fewest_days, Math.ceil(1.1 * to)));
  const x = (days: number) => Number((Math.min(1, Math.max(0, days / span)) * (width - 2) + 1).toFixed(1));
  const at = (instant: string) => x(daysBetween(now, instant));
  const every = Math.max(1, Math.ceil((span * 84) / width));
  const midnight = 1 - (daysBetween(`${now.slice(0, 10)}T00:00`, now) % 1);
  const days = Array.from({ length: span }, (_, i) => i + midnight).filter((one) => one < span);
  const dayOf = (ahead: number) => new Date(Date.parse(now) + ahead * 86_400_000 + 60_000).toISOString();
  return (
    <svg
      className="ripening-rule"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      aria-hidden="true"
      focusable="false"
    >
      <defs>
        <pattern id={id} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line x1="0" y1="0" x2="0" y2="5" className="band-hatch" />
        </pattern>
      </defs>
      <rect
        x={at(ripe.from)}
        y="5"
        width={Math.max(3, (ripe.to === undefined ? width : at(ripe.to)) - at(ripe.from))}
        height="15"
        fill={`url(#${id})`}
      />
      <path className="holds-mean" d={`M${at(ripe.at)} 3v21`} />
      <path className="rule-base" d={`M0 24.500h${width}`} />
      {days.map((ahead, i) => (
        <g key={ahead}>
          <path className="rule-mark" d={`M${x(ahead)} 24.500v4`} />
          {i % every === 0 && x(ahead) < width - 50 && (
            <text x={x(ahead) + 3} y="41" className="rule-number">
              {day(dayOf(ahead))}
            </text>
          )}
        </g>
      ))}
    </svg>
  );
}
