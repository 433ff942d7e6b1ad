import { scaleLinear } from "d3-scale";
import { useId } from "react";
import type { PieceView } from "../../workshop/timber/views.ts";
import { day } from "../common/calendar.ts";
import { piece as words } from "./messages.ts";

const height = 300;
const edge = { left: 34, right: 10, top: 10, bottom: 46 };

type Course = NonNullable<PieceView["course"]>;

/** How a piece dried: its mean with the doubt about it, skin and core, what it weighed, and where it stood below. */
export function CourseChart({
  view,
  width,
  isWhole,
}: {
  readonly view: PieceView & { readonly course: Course };
  readonly width: number;
  /** From when it came in; else from a little before its present stay. */
  readonly isWhole: boolean;
}) {
  const id = useId();
  const { course, card, weighings, stays, now } = view;
  const times = course.at.map((at) => Date.parse(at));
  const last = times.at(-1)!;
  const stay_ms = Date.parse(stays.findLast(({ isPlanned }) => !isPlanned)?.from ?? course.at[0]!);
  const early = Math.max(times[0]!, stay_ms - 0.2 * (last - stay_ms));
  const first = isWhole ? times[0]! : early;
  const all = [...course.low_pct, ...course.high_pct, ...course.surface_pct, ...course.core_pct];
  const band = card.band ? [card.band.driest_pct, card.band.wettest_pct] : [];
  const x = scaleLinear([first, last], [edge.left, width - edge.right]);
  const y = scaleLinear(
    [Math.max(0, Math.floor(Math.min(...all, ...band) - 0.5)), Math.ceil(Math.max(...all, ...band) + 0.5)],
    [height - edge.bottom, edge.top],
  );
  const line = (of: readonly number[]) =>
    of.map((pct, i) => `${i ? "L" : "M"}${f(x(times[i]!))} ${f(y(pct))}`).join("");
  const area = `${line(course.high_pct)}${course.low_pct
    .map((_, i) => {
      const j = course.low_pct.length - 1 - i;
      return `L${f(x(times[j]!))} ${f(y(course.low_pct[j]!))}`;
    })
    .join("")}Z`;
  const now_x = x(Date.parse(now));
  const days = x.ticks(Math.max(2, Math.floor(width / 130)));
  return (
    <svg
      className="course-chart"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={`${words.course}: ${words.moisture}`}
    >
      <defs>
        <pattern id={id} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line x1="0" y1="0" x2="0" y2="6" className="band-hatch" />
        </pattern>
        <clipPath id={`${id}-f`}>
          <rect
            x={edge.left}
            y={edge.top}
            width={width - edge.left - edge.right}
            height={height - edge.top - edge.bottom}
          />
        </clipPath>
      </defs>
      {card.band && (
        <rect
          x={edge.left}
          y={y(card.band.wettest_pct)}
          width={width - edge.left - edge.right}
          height={y(card.band.driest_pct) - y(card.band.wettest_pct)}
          fill={`url(#${id})`}
          className="course-band"
        />
      )}
      {y.ticks(6).map((pct) => (
        <g key={pct}>
          <path className="course-grid" d={`M${edge.left} ${f(y(pct))}H${width - edge.right}`} />
          <text x={edge.left - 6} y={y(pct) + 4} textAnchor="end" className="rule-number">
            {pct}
          </text>
        </g>
      ))}
      <g clipPath={`url(#${id}-f)`}>
        <path d={area} className="course-doubt" />
        <path d={line(course.surface_pct)} className="course-skin" />
        <path d={line(course.core_pct)} className="course-core" />
        <path d={line(course.mean_pct)} className="course-mean" />
      </g>
      {weighings.map(({ at, moisture_pct }) =>
        moisture_pct === undefined || Date.parse(at) < first ? null : (
          <circle key={at} cx={x(Date.parse(at))} cy={y(moisture_pct)} r="4" className="course-weighing" />
        ),
      )}
      <path className="course-now" d={`M${f(now_x)} ${edge.top}V${height - edge.bottom}`} />
      <text x={now_x - 4} y={edge.top + 11} textAnchor="end" className="rule-number">
        {words.now}
      </text>
      {stays.map((stay, i) => {
        const from = Math.max(edge.left, x(Date.parse(stay.from)));
        const to = stay.to ? x(Date.parse(stay.to)) : width - edge.right;
        if (to < edge.left) return null;
        return (
          <g key={stay.from}>
            <path
              className={stay.isPlanned ? "stay-line stay-planned" : i % 2 ? "stay-line stay-other" : "stay-line"}
              d={`M${f(from)} ${height - edge.bottom + 8}H${f(to)}`}
            />
            {to - from > 6.2 * stay.place.length && (
              <text x={(from + to) / 2} y={height - edge.bottom + 23} textAnchor="middle" className="rule-number">
                {stay.place}
              </text>
            )}
          </g>
        );
      })}
      {days.map((at) => (
        <text key={at} x={x(at)} y={height - 4} textAnchor="middle" className="rule-number">
          {x(at) > edge.left + 26 && x(at) < width - 34 ? day(new Date(at).toISOString()) : ""}
        </text>
      ))}
    </svg>
  );
}

const f = (value: number) => value.toFixed(1);
