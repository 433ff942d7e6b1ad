import { scaleLinear } from "d3-scale";
import { useId } from "react";
import type { PanelYearView } from "../../workshop/timber/views.ts";
import { fixed, plainNumber } from "../common/number.ts";
import { tradeWord } from "../common/tradeMessages.ts";
import { caseWords as words } from "./messages.ts";

const height = 150;
const edge = { left: 40, right: 8, top: 10, bottom: 20 };

/** A panel's edge through the year, and what it must stay clear of. */
export function YearCurve({ panel, width }: { readonly panel: PanelYearView; readonly width: number }) {
  const id = useId();
  const year = panel.year ?? [];
  const isHeld = panel.fixed === "edges";
  const moves = year.map(({ moved_mm }) => moved_mm);
  const room = isHeld ? 0 : panel.gap_mm;
  const reach = Math.max(1, room, ...moves.map(Math.abs));
  const y = scaleLinear(
    [Math.min(-0.12 * reach, ...moves) - 0.3 * reach, Math.max(room, ...moves) + 0.22 * reach],
    [height - edge.bottom, edge.top],
  );
  const x = scaleLinear([1, 12], [edge.left + 8, width - edge.right - 8]);
  const line = year.map(({ month, moved_mm }, i) => `${i ? "L" : "M"}${x(month).toFixed(1)} ${y(moved_mm).toFixed(1)}`);
  const [left, right] = [edge.left, width - edge.right];
  return (
    <svg
      className="year-curve"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={`${words.curve}: ${tradeWord(panel.panel)}`}
    >
      <defs>
        <pattern id={id} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
          <line x1="0" y1="0" x2="0" y2="7" className="wall-hatch" />
        </pattern>
      </defs>
      {isHeld ? (
        <>
          <rect
            x={left}
            y={edge.top}
            width={right - left}
            height={Math.max(0, y(0) - edge.top - 2)}
            fill={`url(#${id})`}
          />
          <rect
            x={left}
            y={y(0) + 2}
            width={right - left}
            height={Math.max(0, height - edge.bottom - y(0) - 2)}
            fill={`url(#${id})`}
          />
        </>
      ) : (
        <>
          <rect
            x={left}
            y={edge.top}
            width={right - left}
            height={Math.max(0, y(room) - edge.top)}
            fill={`url(#${id})`}
          />
          <path className="wall-line" d={`M${left} ${y(room).toFixed(1)}H${right}`} />
          <text x={left - 5} y={y(room) + 4} textAnchor="end" className="rule-number">
            +{plainNumber(room)}
          </text>
        </>
      )}
      <path className="joined-line" d={`M${left} ${y(0).toFixed(1)}H${right}`} />
      <text x={left - 5} y={y(0) + 4} textAnchor="end" className="rule-number">
        0
      </text>
      <path className="year-line" d={line.join("")} />
      {year
        .filter(({ moved_mm }) => moved_mm === Math.min(...moves) || moved_mm === Math.max(...moves))
        .map(({ month, moved_mm }) => (
          <g key={month}>
            <circle className="year-end" cx={x(month)} cy={y(moved_mm)} r="3" />
            <text
              className="rule-number year-number"
              x={x(month)}
              y={y(moved_mm) + (moved_mm === Math.max(...moves) ? -8 : 17)}
              textAnchor={month < 3 ? "start" : month > 10 ? "end" : "middle"}
            >
              {signed(moved_mm)} mm
            </text>
          </g>
        ))}
      {words.months.map((letter, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: months keep their order
        <text key={i} x={x(i + 1)} y={height - 4} textAnchor="middle" className="rule-number">
          {letter}
        </text>
      ))}
    </svg>
  );
}

const signed = (value: number) => `${value > 0.05 ? "+" : value < -0.05 ? "\u2212" : ""}${fixed(Math.abs(value), 1)}`;
