import type { WindowShare } from "../../measurement/index.ts";
import { plainNumber } from "../common/number.ts";

const [width, height, inset, top, bottom] = [240, 34, 8, 4, 18] as const;

/** A window as a strip of paper, hatched at both ends where a single reading proves nothing. */
export function EatenRuler({
  window: { low = 0, high = 0, eaten_pct = 0 },
  words,
}: {
  readonly window: WindowShare & { readonly low?: number; readonly high?: number };
  readonly words: string;
}) {
  const [from, to] = [inset, width - inset];
  const end = ((to - from) * Math.min(100, eaten_pct)) / 200;
  const hatch = (start: number) =>
    Array.from({ length: Math.floor(end / 4) + 1 }, (_, i) => start + Math.min(end, 4 * i))
      .map((x) => `M${x.toFixed(1)} ${bottom}v${top - bottom}`)
      .join("");
  return (
    <svg
      className="eaten"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={words}
    >
      <rect x={from} y={top} width={to - from} height={bottom - top} />
      <path d={hatch(from) + hatch(to - end)} />
      <path className="eaten-limit" d={`M${from} ${top - 3}V${bottom + 3}M${to} ${top - 3}V${bottom + 3}`} />
      <text x={from - 4} y={height - 2}>
        {plainNumber(low)}
      </text>
      <text x={to + 4} y={height - 2} textAnchor="end">
        {plainNumber(high)}
      </text>
    </svg>
  );
}
