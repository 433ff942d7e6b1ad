import { useId } from "react";
import type { CutPlanView } from "../../workshop/timber/views.ts";
import { tradeWord } from "../common/tradeMessages.ts";

/** A board from above, to one scale with its neighbours: what becomes panels is ruled, what does not is hatched. */
export function BoardDrawn({
  board,
  longest_mm,
  width,
}: {
  readonly board: CutPlanView["boards"][number];
  readonly longest_mm: number;
  readonly width: number;
}) {
  const id = useId();
  const scale = (width - 4) / longest_mm;
  const px = (mm: number) => Number((mm * scale).toFixed(1));
  const [long, wide] = [px(board.length_mm), px(board.width_mm)];
  return (
    <svg
      className="board-drawn"
      width={width}
      height={wide + 4}
      viewBox={`-2 -2 ${width} ${wide + 4}`}
      aria-hidden="true"
      focusable="false"
    >
      <defs>
        <pattern id={id} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
          <line x1="0" y1="0" x2="0" y2="6" className="waste-hatch" />
        </pattern>
      </defs>
      <rect className="grain-wood" width={long} height={wide} />
      <rect width={long} height={wide} fill={`url(#${id})`} />
      {board.cuts.map((cut) => {
        const [x, y] = [px(cut.from_mm), px(cut.across_mm)];
        const [w, h] = [px(cut.to_mm - cut.from_mm), px(cut.width_mm)];
        const lines = Math.max(1, Math.floor(h / 11));
        return (
          <g key={cut.piece}>
            <rect className="cut-piece" x={x} y={y} width={w} height={h} />
            {Array.from({ length: lines }, (_, i) => (
              <path
                // biome-ignore lint/suspicious/noArrayIndexKey: strokes of grain are alike
                key={i}
                className="cut-grain"
                d={grain(x, y + ((i + 0.5) * h) / lines, w, i)}
              />
            ))}
            <text className="cut-name" x={x + w / 2} y={y + h / 2 + 5} textAnchor="middle">
              {labelOf(cut, w)}
            </text>
          </g>
        );
      })}
      {board.defects.map((defect) => (
        <Defect key={JSON.stringify(defect)} defect={defect} px={px} wide={wide} />
      ))}
      <rect className="grain-edge" width={long} height={wide} />
    </svg>
  );
}

/** A knot as a ring, a check as the split it is, sapwood as the pale edge, all else crossed out. */
function Defect({
  defect: { what, along, across },
  px,
  wide,
}: {
  readonly defect: CutPlanView["boards"][number]["defects"][number];
  readonly px: (mm: number) => number;
  readonly wide: number;
}) {
  const [x, w] = [px(along.from_mm), Math.max(3, px(along.to_mm - along.from_mm))];
  const [y, h] = across ? [px(across.from_mm), Math.max(3, px(across.to_mm - across.from_mm))] : [0, wide];
  const [cx, cy] = [x + w / 2, y + h / 2];
  if (what === "knot")
    return (
      <g className="defect">
        <ellipse className="defect-knot" cx={cx} cy={cy} rx={w / 2} ry={h / 2} />
        <ellipse cx={cx} cy={cy} rx={w / 4} ry={h / 4} />
      </g>
    );
  if (what === "sapwood") return <rect className="defect defect-sapwood" x={x} y={y} width={w} height={h} />;
  if (what === "check")
    return (
      <path
        className="defect"
        d={`M${x} ${cy}l${w * 0.3} ${-0.1 * h}l${w * 0.3} ${0.16 * h}l${w * 0.4} ${-0.06 * h}`}
      />
    );
  return <path className="defect" d={`M${x} ${y}l${w} ${h}m0 ${-h}l${-w} ${h}`} />;
}

/** A stroke along the grain, a little uneven as a pencil's. */
function grain(x: number, y: number, length: number, i: number): string {
  const lift = i % 2 === 0 ? 2.2 : -1.8;
  return `M${x + 3} ${y}q${0.3 * length} ${lift} ${0.5 * length} 0t${0.5 * length - 6} 0`;
}

function labelOf(cut: CutPlanView["boards"][number]["cuts"][number], width: number): string {
  const { unit, piece } = cut;
  const panel = tradeWord(cut.panel);
  const whole = `${unit} ${panel}`;
  const room = Math.floor(width / 7.4);
  if (whole.length <= room) return whole;
  const number = piece.slice(piece.lastIndexOf("."));
  return panel.length <= room ? panel : number;
}
