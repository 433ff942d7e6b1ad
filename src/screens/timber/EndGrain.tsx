import { useId } from "react";
import type { PieceCardView } from "../../workshop/timber/views.ts";
import { rings, shade, throughThickness } from "./grain.ts";

type Shown = Pick<PieceCardView, "width_mm" | "thickness_mm" | "ringAngle_deg" | "moisture" | "flaws" | "rough">;

/** Thickness is drawn larger than width, so that the core can be told from the skin. */
const stretch = 3.1;

/** The end of a board as one sees it on the shelf: rings at their angle, darker where it is wetter. */
export function EndGrain({
  piece,
  faces,
  scale,
}: {
  readonly piece: Shown;
  readonly faces: "both" | "one";
  /** Pixels to the millimetre of width. */
  readonly scale: number;
}) {
  const id = useId();
  const width = piece.width_mm * scale;
  const height = piece.thickness_mm * scale * stretch;
  const { cx, cy, radii } = rings(width, height, piece.ringAngle_deg, Math.max(4.5, 8.5 * scale));
  const corner = piece.rough ? 0 : 1.5;
  return (
    <svg
      className="end-grain"
      width={width + 2}
      height={height + 2}
      viewBox={`-1 -1 ${width + 2} ${height + 2}`}
      aria-hidden="true"
      focusable="false"
    >
      <defs>
        <clipPath id={`${id}-c`}>
          <rect width={width} height={height} rx={corner} />
        </clipPath>
        <linearGradient id={`${id}-m`} x1="0" y1="0" x2="0" y2="1">
          {piece.moisture &&
            throughThickness(piece.moisture, faces).map(({ at, moisture_pct }) => (
              <stop key={at} offset={at} className="grain-water" stopOpacity={shade(moisture_pct)} />
            ))}
        </linearGradient>
      </defs>
      <rect className="grain-wood" width={width} height={height} rx={corner} />
      {piece.moisture && <rect width={width} height={height} rx={corner} fill={`url(#${id}-m)`} />}
      <g clipPath={`url(#${id}-c)`} className="grain-rings">
        {radii.map((radius, i) => (
          <circle key={radius} cx={cx} cy={cy} r={radius} className={i % 3 === 0 ? "grain-late" : undefined} />
        ))}
        {piece.flaws.some((flaw) => flaw.startsWith("crack")) && (
          <path className="grain-crack" d={crackOf(width, height)} />
        )}
      </g>
      <rect
        className={piece.moisture ? "grain-edge" : "grain-edge grain-unknown"}
        width={width}
        height={height}
        rx={corner}
      />
    </svg>
  );
}

/** A split from the upper face, about where they open. */
function crackOf(width: number, height: number): string {
  const x = 0.58 * width;
  return `M${x} 0l3 ${0.24 * height}l-4 ${0.2 * height}l3 ${0.2 * height}`;
}
