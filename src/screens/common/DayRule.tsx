import { inGenitive } from "../languages/sentences/forms.ts";
import { localeInUse } from "../languages/spoken.ts";
import { day, daysBetween, wallClock } from "./calendar.ts";

export interface DayMark {
  readonly at: string;
  readonly words: string;
  /** Fewer words for a narrow rule. */
  readonly short: string;
  readonly kind: "promised" | "before" | "after";
}

const line = 24;
const letter_px = 7.3;
const narrow_px = 460;
const top = 10;

const letter = new Intl.DateTimeFormat(localeInUse(), { timeZone: "UTC", weekday: "narrow" });
const date = new Intl.DateTimeFormat(localeInUse(), { timeZone: "UTC", day: "numeric", month: "short" });

/** A rule of days with a few dates scribed on it, one line of lettering a mark so that they never run into each other. */
export function DayRule({ marks, width = 420 }: { readonly marks: readonly DayMark[]; readonly width?: number }) {
  const sorted = [...marks].sort((a, b) => daysBetween(b.at, a.at));
  const first = sorted[0];
  const last = sorted.at(-1);
  if (!first || !last) return null;
  const origin = `${first.at.slice(0, 10)}T00:00`;
  const days = Math.max(4, Math.ceil(daysBetween(origin, last.at)) + 1);
  const x = (at: number) => 8 + (at / days) * (width - 16);
  const every = days > 60 ? 14 : days > 16 ? 7 : 1;
  const rule = top + sorted.length * line + 4;
  const start_ms = wallClock(origin)?.getTime() ?? 0;
  const dayAt = (i: number) => new Date(start_ms + i * 86_400_000);
  const words = sorted.map((mark) => `${mark.words} ${day(mark.at)}`).join("; ");
  return (
    <svg
      className="day-rule"
      viewBox={`0 0 ${width} ${rule + 30}`}
      width={width}
      height={rule + 30}
      role="img"
      aria-label={words}
    >
      <path className="ruler-body" d={`M8 ${rule}H${width - 8}v26H8z`} />
      {Array.from({ length: Math.floor(days / every) + (every === 1 ? 0 : 1) }, (_, i) => i * every).map((i) => (
        <g key={i}>
          <path className="ruler-tick" d={`M${x(i).toFixed(1)} ${rule}v8`} />
          <text
            className="ruler-number"
            x={every === 1 ? x(i + 0.5) : x(i) + 3}
            y={rule + 20}
            textAnchor={every === 1 ? "middle" : "start"}
          >
            {every === 1 ? letter.format(dayAt(i)) : inGenitive(date.format(dayAt(i)))}
          </text>
        </g>
      ))}
      {sorted.map((mark, i) => {
        const at = x(daysBetween(origin, mark.at));
        const y = top + i * line;
        const said = `${width < narrow_px ? mark.short : mark.words} ${day(mark.at)}`;
        const left = at > width / 2;
        const room_px = said.length * letter_px;
        const start = left ? Math.max(0, at - 16 - room_px) : Math.max(0, Math.min(at + 16, width - room_px));
        return (
          <g key={`${mark.kind}${mark.at}`} className={`day-mark day-mark-${mark.kind}`}>
            <path d={`M${at.toFixed(1)} ${rule + 8}V${y - 4}`} />
            {mark.kind === "promised" && (
              <path className="day-flag" d={`M${at.toFixed(1)} ${y - 4}l${left ? -11 : 11} 5l${left ? 11 : -11} 5z`} />
            )}
            {mark.kind !== "promised" && <circle cx={at} cy={y} r="4.5" />}
            <text x={left ? start + room_px : start} y={y + 5} textAnchor={left ? "end" : "start"}>
              {said}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
