import { useId } from "react";
import { day, daysBetween } from "../common/calendar.ts";

const fewest_days = 3;
const most_days = 21;

/** Days that a rule must show for all these moments to lie on it. */
export function spanFor(from: string, moments: readonly string[]): number {
  const furthest = Math.max(0, ...moments.map((at) => daysBetween(from, at)));
  return Math.min(most_days, Math.max(fewest_days, Math.ceil(1.08 * furthest)));
}

interface Ruled {
  readonly from: string;
  readonly span_days: number;
  readonly width: number;
}

const place = (days: number, { span_days, width }: Ruled) =>
  Number((Math.min(1, Math.max(0, days / span_days)) * (width - 4) + 2).toFixed(1));

const midnights = ({ from, span_days }: Ruled) => {
  const first = 1 - (daysBetween(`${from.slice(0, 10)}T00:00`, from) % 1);
  return Array.from({ length: span_days }, (_, i) => i + first).filter((one) => one < span_days);
};

/** When a piece comes out: its likely moment, the hatching where that may lie. */
export function OutRule({
  out,
  ...ruled
}: Ruled & { readonly out: { readonly at: string; readonly from: string; readonly to?: string } }) {
  const id = useId();
  const at = (instant: string) => place(daysBetween(ruled.from, instant), ruled);
  const [left, right] = [at(out.from), out.to === undefined ? ruled.width : at(out.to)];
  return (
    <svg className="out-rule" width={ruled.width} height="26" aria-hidden="true" focusable="false">
      <defs>
        <pattern id={id} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line x1="0" y1="0" x2="0" y2="5" className="band-hatch" />
        </pattern>
      </defs>
      {midnights(ruled).map((days) => (
        <path key={days} className="day-line" d={`M${place(days, ruled)} 0v26`} />
      ))}
      <rect x={left} y="7" width={Math.max(3, right - left)} height="12" fill={`url(#${id})`} />
      <path className="holds-mean" d={`M${at(out.at)} 3v20`} />
    </svg>
  );
}

/** The days under such rules. */
export function DayScale(ruled: Ruled) {
  const every = Math.max(1, Math.ceil((ruled.span_days * 84) / ruled.width));
  const dayOf = (ahead: number) => new Date(Date.parse(ruled.from) + ahead * 86_400_000 + 60_000).toISOString();
  return (
    <svg className="out-rule" width={ruled.width} height="24" aria-hidden="true" focusable="false">
      <path className="rule-base" d={`M0 .5h${ruled.width}`} />
      {midnights(ruled).map((ahead, i) => (
        <g key={ahead}>
          <path className="rule-mark" d={`M${place(ahead, ruled)} .5v5`} />
          {i % every === 0 && place(ahead, ruled) < ruled.width - 50 && (
            <text x={place(ahead, ruled) + 3} y="18" className="rule-number">
              {day(dayOf(ahead))}
            </text>
          )}
        </g>
      ))}
    </svg>
  );
}
