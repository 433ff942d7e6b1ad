import type { GaugeReading } from "../../measurement/index.ts";
import { plainNumber } from "../common/number.ts";
import { gauge as words } from "./studyMessages.ts";

const [height, top, bottom, left, right] = [176, 10, 40, 64, 8] as const;
/** Marks that shape alone tells apart. */
const marks = [
  "M-4 0h8M0 -4v8",
  "M-3.5 -3.5l7 7M3.5 -3.5l-7 7",
  "M0 -4.5l4 7h-8z",
  "M-3.5 -3.5h7v7h-7z",
  "M0 -4.5l4.5 4.5l-4.5 4.5l-4.5 -4.5z",
];

/** A mark put at a place: its moves are from its own middle. */
const moved = (mark: string, x: number, y: number) =>
  mark.replace(
    /M(-?[\d.]+) (-?[\d.]+)/g,
    (_, dx, dy) => `M${(x + Number(dx)).toFixed(1)} ${(y + Number(dy)).toFixed(1)}`,
  );

/**
 * Each part's readings about the part's own mean, a small lane for each pair of hands: what is left is the instrument and
 * the hands. A stroke spans what the same hands read of the same part.
 */
export function HandsPicture({
  title,
  readings,
  unit,
  width,
}: {
  readonly title: string;
  readonly readings: readonly GaugeReading[];
  readonly unit: string;
  readonly width: number;
}) {
  const parts = [...new Set(readings.map(({ part }) => part))];
  const hands = [...new Set(readings.map(({ operator }) => operator))];
  const lane = (width - left - right) / parts.length;
  const cells = parts.flatMap((part, i) => {
    const own = readings.filter((one) => one.part === part);
    const mean = own.reduce((sum, { value }) => sum + value / own.length, 0);
    return hands.map((operator, j) => ({
      key: `${part} ${operator}`,
      x: left + lane * (i + (j + 0.75) / (hands.length + 0.5)),
      mark: marks[j % marks.length]!,
      offs: own.filter((one) => one.operator === operator).map(({ value }) => value - mean),
    }));
  });
  const reach = 1.15 * Math.max(Number.MIN_VALUE, ...cells.flatMap(({ offs }) => offs.map(Math.abs)));
  const y = (off: number) => top + ((reach - off) / (2 * reach)) * (height - top - bottom);
  const isCrowded = lane < 34;
  return (
    <svg
      className="hands-picture"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={words.drawn(title)}
    >
      {parts.slice(1).map((part, i) => (
        <path
          key={part}
          className="hands-lane"
          d={`M${(left + lane * (i + 1)).toFixed(1)} ${top}V${height - bottom}`}
        />
      ))}
      <path className="hands-mean" d={`M${left} ${y(0).toFixed(1)}H${width - right}`} />
      {[reach / 1.15, 0, -reach / 1.15].map((off) => (
        <text key={off} x={left - 6} y={y(off) + 4} textAnchor="end">
          {off > 0 ? "+" : ""}
          {plainNumber(Number(off.toPrecision(2)))}
        </text>
      ))}
      {cells.map(({ key, x, mark, offs }) => (
        <g key={key}>
          <path
            className="hands-span"
            d={`M${x.toFixed(1)} ${y(Math.min(...offs)).toFixed(1)}V${y(Math.max(...offs)).toFixed(1)}`}
          />
          <path className="hands-mark" d={offs.map((off) => moved(mark, x, y(off))).join("")} />
        </g>
      ))}
      {parts.map((part, i) =>
        isCrowded && i % 2 === 1 ? null : (
          <text key={part} x={left + lane * (i + 0.5)} y={height - bottom + 16} textAnchor="middle">
            {part}
          </text>
        ),
      )}
      {hands.map((operator, j) => (
        <g key={operator} transform={`translate(${left + (j * (width - left - right)) / hands.length} ${height - 8})`}>
          <path className="hands-mark" transform="translate(5 -4)" d={marks[j % marks.length]} />
          <text x={14}>{operator}</text>
        </g>
      ))}
      <text x={4} y={height - bottom + 16}>
        {unit}
      </text>
    </svg>
  );
}
