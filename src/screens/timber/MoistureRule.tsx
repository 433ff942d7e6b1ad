import { useId } from "react";
import type { BandView, MoistureView } from "../../workshop/timber/views.ts";
import { along } from "./grain.ts";

const marks_pct = [4, 8, 12, 16];
const height = 34;

/** A rule of moisture: the band that the destination will impose, and where the piece stands on it with its doubt. */
export function MoistureRule({
  moisture,
  band,
  target_pct,
  width,
}: {
  readonly moisture?: MoistureView | undefined;
  readonly band?: Pick<BandView, "driest_pct" | "wettest_pct"> | undefined;
  readonly target_pct?: number | undefined;
  readonly width: number;
}) {
  const id = useId();
  const x = (moisture_pct: number) => Number((along(moisture_pct) * width).toFixed(1));
  return (
    <svg
      className="moisture-rule"
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
      {band && (
        <>
          <rect
            x={x(band.driest_pct)}
            y="3"
            width={Math.max(2, x(band.wettest_pct) - x(band.driest_pct))}
            height="15"
            fill={`url(#${id})`}
          />
          <path className="band-end" d={`M${x(band.driest_pct)} 2v17M${x(band.wettest_pct)} 2v17`} />
        </>
      )}
      {target_pct !== undefined && <path className="band-target" d={`M${x(target_pct)} 15l3.500 4.500h-7z`} />}
      <path className="rule-base" d={`M0 20.500h${width}`} />
      {marks_pct.map((mark) => (
        <g key={mark}>
          <path className="rule-mark" d={`M${x(mark)} 20.500v4`} />
          <text x={x(mark)} y="33" textAnchor="middle" className="rule-number">
            {mark}
          </text>
        </g>
      ))}
      {moisture && (
        <g className={moisture.basis === "fitted" ? "holds" : "holds holds-loose"}>
          <path d={`M${x(moisture.low_pct)} 10.500H${x(moisture.high_pct)}`} className="holds-doubt" />
          <path d={`M${x(moisture.low_pct)} 7.500v6M${x(moisture.high_pct)} 7.500v6`} className="holds-doubt" />
          <path d={`M${x(moisture.mean_pct)} 2v18`} className="holds-mean" />
        </g>
      )}
    </svg>
  );
}
