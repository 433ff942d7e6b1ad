import type { LookBackView } from "../../workshop/promises/views.ts";
import { stageWords } from "../common/stageWords.ts";
import { words } from "./messages.ts";

interface Props {
  readonly view: LookBackView;
  readonly width: number;
}

const rung_px = 46;
const top = 14;
type Arrow = LookBackView["arrows"][number];

/** Arrows side by side, the short ones nearest to the rungs, so that none lies on another. */
function lanes(
  view: LookBackView,
): readonly (Arrow & { readonly from: number; readonly to: number; readonly lane: number })[] {
  const at = new Map(view.rungs.map(({ stage }, i) => [stage, i]));
  const spans = view.arrows
    .map((arrow) => ({ ...arrow, from: at.get(arrow.found)!, to: at.get(arrow.possible)! }))
    .toSorted((a, b) => a.from - a.to - (b.from - b.to) || a.from - b.from);
  const taken: { from: number; to: number }[][] = [];
  return spans.map((span) => {
    let lane = taken.findIndex((others) => others.every((other) => other.from <= span.to || other.to >= span.from));
    if (lane < 0) lane = taken.push([]) - 1;
    taken[lane]!.push(span);
    return { ...span, lane };
  });
}

/** A ladder of stages; arrows from where faults were found down to where they could have been. */
export function Ladder({ view, width }: Props) {
  const drawn = lanes(view);
  const count = view.rungs.length;
  const height = top * 2 + rung_px * (count - 1) + 10;
  const y = (rung: number) => top + rung_px * (count - 1 - rung);
  const isNarrow = width < 560;
  const names = isNarrow ? 118 : 190;
  const rungEnd = names + (isNarrow ? 46 : 90);
  const laneCount = Math.max(1, ...drawn.map(({ lane }) => lane + 1));
  const laneWidth = Math.min(54, (width - rungEnd - 14) / laneCount);
  const most_h = Math.max(1, ...view.arrows.map(({ spent_h }) => spent_h));
  return (
    <svg
      className="ladder"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={words.ladder}
    >
      <path
        className="ladder-side"
        d={`M${names + 8} ${y(count - 1) - 8}V${y(0) + 8}M${rungEnd} ${y(count - 1) - 8}V${y(0) + 8}`}
      />
      {view.rungs.map((rung, i) => (
        <g key={rung.stage}>
          <path className="ladder-rung" d={`M${names + 8} ${y(i)}H${rungEnd}`} />
          <text x={names} y={y(i) + 5} textAnchor="end">
            {stageWords(rung.stage)}
          </text>
          {rung.found > 0 && (
            <text className="ladder-count" x={(names + 8 + rungEnd) / 2} y={y(i) - 4} textAnchor="middle">
              {isNarrow ? rung.found : words.found(rung.found)}
            </text>
          )}
        </g>
      ))}
      {drawn.map((arrow, i) => {
        const x = rungEnd + 10 + laneWidth * (arrow.lane + 0.5);
        const thick = 1.2 + (7 * arrow.spent_h) / most_h;
        const [from, to] = [y(arrow.from), y(arrow.to)];
        const bend = Math.min(14, laneWidth / 2);
        const key = `${arrow.fault} ${arrow.found} ${arrow.possible}`;
        return (
          <g key={key} className={`ladder-arrow ladder-${arrow.state}`}>
            <path
              strokeWidth={thick}
              d={`M${rungEnd + 3} ${from}H${x - bend}Q${x} ${from} ${x} ${from + bend}V${to - bend}Q${x} ${to} ${x - bend} ${to}H${rungEnd + 12}`}
            />
            <path className="ladder-head" d={`M${rungEnd + 4} ${to}l9 -5.500v11z`} />
            <circle className="ladder-badge" cx={x} cy={(from + to) / 2 + ((i % 3) - 1) * 15} r={11} />
            <text className="ladder-number" x={x} y={(from + to) / 2 + ((i % 3) - 1) * 15 + 4.5} textAnchor="middle">
              {numberOf(view, arrow)}
            </text>
          </g>
        );
      })}
    </svg>
  );
}

/** Arrows are told apart by the number they have in the list below. */
export function numberOf(view: LookBackView, arrow: Pick<Arrow, "fault" | "found" | "possible">): number {
  return (
    1 +
    view.arrows.findIndex(
      ({ fault, found, possible }) => fault === arrow.fault && found === arrow.found && possible === arrow.possible,
    )
  );
}
