import { area, curveMonotoneX } from "d3-shape";
import { useId } from "react";
import type { PromiseView } from "../../workshop/views.ts";
import { day, daysBetween, wallClock } from "../common/calendar.ts";
import { inGenitive } from "../languages/sentences/forms.ts";
import { localeInUse } from "../languages/spoken.ts";
import { softDates, words } from "./messages.ts";
import { type Moment, placeOf, softEnd } from "./softEnd.ts";

interface ScaleProps {
  readonly now: string;
  readonly last_days: number;
  readonly width: number;
}

const edge = 4;
const steps = [0, 2, 4, 7, 14, 28, 56, 91, 182, 365, 730];
const date = new Intl.DateTimeFormat(localeInUse(), { timeZone: "UTC", day: "numeric", month: "short" });

const place = (width: number, last_days: number) => (days: number) =>
  edge + placeOf(days, last_days) * (width - 2 * edge);

/** Days that fit along the strip without running into each other. */
function ticksOf({ now, last_days, width }: ScaleProps): readonly { x: number; label: string; end: boolean }[] {
  const x = place(width, last_days);
  const start_ms = wallClock(now)?.getTime() ?? 0;
  const kept: number[] = [];
  for (const days of steps.filter((step) => step <= last_days)) {
    const before = kept.at(-1);
    if (before === undefined || x(days) - x(before) >= 62) kept.push(days);
  }
  return kept.map((days) => ({
    x: x(days),
    label: days === 0 ? words.today : inGenitive(date.format(new Date(start_ms + days * 86_400_000))),
    end: x(days) > width - 30,
  }));
}

export function RibbonScale(props: ScaleProps) {
  return (
    <svg className="ribbon-scale" viewBox={`0 0 ${props.width} 30`} width={props.width} height={30} aria-hidden="true">
      <path className="ribbon-rule" d={`M${edge} 28H${props.width - edge}`} />
      {ticksOf(props).map(({ x, label, end }) => (
        <g key={label}>
          <path className="ribbon-rule" d={`M${x.toFixed(1)} 28v-6`} />
          <text
            x={end ? x + 3 : x - (label === words.today ? 3 : 0)}
            y={16}
            textAnchor={end ? "end" : label === words.today ? "start" : "middle"}
          >
            {label}
          </text>
        </g>
      ))}
    </svg>
  );
}

interface Props extends ScaleProps {
  readonly promise: PromiseView;
}

/** One order's coming days as a ribbon that thins as the runs end; pure, so that print can draw it too. */
export function Ribbon({ promise, now, last_days, width }: Props) {
  const id = useId();
  const height = 58;
  const middle = 36;
  const thick = 26;
  const x = place(width, last_days);
  const moments = softEnd(promise, now);
  const outline =
    area<Moment>()
      .x((m) => x(m.day))
      .y0((m) => middle - (m.stillHere * thick) / 2)
      .y1((m) => middle + (m.stillHere * thick) / 2)
      .curve(curveMonotoneX)([...moments]) ?? "";
  const notches = [
    { at: promise.p50, share: "50", stillHere: 0.5 },
    { at: promise.p80, share: "80", stillHere: 0.2 },
    { at: promise.p95, share: "95", stillHere: 0.05 },
  ].map((notch) => ({ ...notch, x: x(daysBetween(now, notch.at)) }));
  const promised = promise.promised === undefined ? undefined : x(daysBetween(now, promise.promised));
  const flagLeft = promised !== undefined && promised > width - 90;
  const said = softDates(promise, day);
  return (
    <svg
      className="ribbon"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={promise.promised ? `${said} ${words.promised(day(promise.promised))}` : said}
    >
      <defs>
        <pattern id={id} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(-52)">
          <path className="ribbon-stroke" d="M0 2.500h5" />
        </pattern>
      </defs>
      <path className="ribbon-rule" d={`M${edge} ${middle}H${width - edge}`} strokeDasharray="1 5" />
      <path className="ribbon-wash" d={outline} />
      <path d={outline} fill={`url(#${id})`} />
      <path className="ribbon-edge" d={outline} />
      {notches.map(({ share, stillHere, x: at }, i) => {
        const free = notches.slice(i + 1).every((later) => later.x - at > 20);
        return (
          <g key={share}>
            <path
              className="ribbon-notch"
              d={`M${at.toFixed(1)} ${middle - (stillHere * thick) / 2 - 3}V${middle + (stillHere * thick) / 2 + 3}`}
            />
            {free && (
              <text className="ribbon-share" x={at} y={height - 1} textAnchor="middle">
                {share}
              </text>
            )}
          </g>
        );
      })}
      {promised !== undefined && (
        <g className="ribbon-promised">
          <path d={`M${promised.toFixed(1)} ${height - 8}V4`} />
          <path
            className="day-flag"
            d={`M${promised.toFixed(1)} 3l${flagLeft ? -13 : 13} 5.500l${flagLeft ? 13 : -13} 5.500z`}
          />
          <text x={promised + (flagLeft ? -17 : 17)} y={13} textAnchor={flagLeft ? "end" : "start"}>
            {words.promisedMark}
          </text>
        </g>
      )}
    </svg>
  );
}
