import type { ProbeCardView, ProbePointView, ProbeWindowsView } from "../../workshop/views.ts";
import { Measured } from "../common/Measured.tsx";
import { states, words } from "./messages.ts";
import { markOf, type ReadState } from "./order.ts";
import { type Mark, pushedApart, type Room } from "./places.ts";

interface Props {
  readonly card: ProbeCardView;
  readonly windows: ProbeWindowsView | undefined;
  /** The point that the form asks for. */
  readonly here: string | undefined;
  readonly choose: (point: string) => void;
}

/** The sheet metal beyond the outermost points. */
const margin_mm = 24;
const flange_px = 12;
const wide_px = 620;
const tallest_px = 760;

interface Drawn {
  readonly scale: number;
  readonly room: Room;
  readonly places: readonly Mark[];
  readonly marks: readonly Mark[];
  readonly isWide: boolean;
}

/** The chassis from below with its test points; each is a large mark that a line leads from to its place. */
export function Chassis({ card, windows, here, choose }: Props) {
  return (
    <Measured first={720}>
      {(width) => {
        const drawn = draw(card.points, width);
        return (
          <figure className="chassis" style={{ height: `${drawn.room.height}px` }}>
            <Metal card={card} drawn={drawn} here={here} />
            {card.points.map((point, i) => (
              <PointMark
                key={point.point}
                point={point}
                number={i + 1}
                mark={drawn.marks[i]!}
                state={markOf(point, windows)}
                isHere={point.point === here}
                isNamed={drawn.isWide}
                choose={() => choose(point.point)}
              />
            ))}
          </figure>
        );
      }}
    </Measured>
  );
}

function draw(points: readonly ProbePointView[], width: number): Drawn {
  const xs = points.map(({ x_mm }) => x_mm);
  const ys = points.map(({ y_mm }) => y_mm);
  const [left, right, front, back] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const wide_mm = right - left + 2 * margin_mm;
  const deep_mm = back - front + 2 * margin_mm;
  const isWide = width >= wide_px;
  const size: Room = isWide ? { width: 104, height: 74 } : { width: 48, height: 50 };
  const scale = Math.min(width / wide_mm, tallest_px / deep_mm);
  // Deep enough that all marks find room beside each other.
  const least = (1.9 * points.length * size.width * size.height) / width;
  const room = { width, height: Math.round(Math.max(deep_mm * scale, least, 220)) };
  const stretch = { x: (width - 2 * flange_px) / wide_mm, y: (room.height - 2 * flange_px) / deep_mm };
  const places = points.map(({ x_mm, y_mm }) => ({
    x: flange_px + (x_mm - left + margin_mm) * stretch.x,
    y: flange_px + (back - y_mm + margin_mm) * stretch.y,
  }));
  const inner = { width: room.width, height: room.height - (isWide ? 10 : 4) };
  return { scale, room, places, marks: pushedApart(places, size, inner), isWide };
}

/** Folded sheet, its corner holes, the strips that hold a stage's parts, and a line from each mark to its place. */
function Metal({
  card,
  drawn,
  here,
}: {
  readonly card: ProbeCardView;
  readonly drawn: Drawn;
  readonly here: string | undefined;
}) {
  const { room, places, marks } = drawn;
  const [w, h, f] = [room.width - 1, room.height - 1, flange_px];
  return (
    <svg
      className="metal"
      viewBox={`0 0 ${room.width} ${room.height}`}
      width={room.width}
      height={room.height}
      aria-hidden="true"
      focusable="false"
    >
      <path className="metal-edge" d={`M1 1H${w}V${h}H1z`} />
      <path
        className="metal-fold"
        d={`M${f} ${f}H${w - f}V${h - f}H${f}zM1 1L${f} ${f}M${w} 1L${w - f} ${f}M${w} ${h}L${w - f} ${h - f}M1 ${h}L${f} ${h - f}`}
      />
      {[f + 14, w - f - 14].map((x) =>
        [f + 14, h - f - 14].map((y) => <circle key={`${x} ${y}`} className="metal-hole" cx={x} cy={y} r={4.5} />),
      )}
      {strips(card.points, places).map(({ key, name, x, y, width, height }) => (
        <g key={key}>
          <rect className="metal-strip" x={x} y={y} width={width} height={height} rx={5} />
          <text className="metal-stage" x={x + 6} y={y + height - 6}>
            {name}
          </text>
        </g>
      ))}
      <text className="metal-side" x={room.width / 2} y={h - f - 8} textAnchor="middle">
        {words.front}
      </text>
      <text className="metal-side" x={room.width / 2} y={f + 18} textAnchor="middle">
        {words.back}
      </text>
      {places.map((place, i) => {
        const mark = marks[i]!;
        const point = card.points[i]!.point;
        return (
          <g key={point} className={point === here ? "lead lead-here" : "lead"}>
            <path d={`M${place.x} ${place.y}L${mark.x} ${mark.y}`} />
            <circle cx={place.x} cy={place.y} r={3.4} />
          </g>
        );
      })}
    </svg>
  );
}

interface Strip extends Room, Mark {
  readonly key: string;
  readonly name: string;
}

/** A stage of a channel, where two points or more of it lie together. */
function strips(points: readonly ProbePointView[], places: readonly Mark[]): readonly Strip[] {
  const keys = [...new Set(points.map(({ stage, channel }) => (stage ? `${stage}\u0000${channel ?? ""}` : "")))];
  return keys.flatMap((key): Strip[] => {
    const held = places.filter((_, i) => `${points[i]!.stage}\u0000${points[i]!.channel ?? ""}` === key);
    if (key === "" || held.length < 2) return [];
    const xs = held.map(({ x }) => x);
    const ys = held.map(({ y }) => y);
    const [x, y] = [Math.min(...xs) - 22, Math.min(...ys) - 18];
    return [
      {
        key,
        name: key.split("\u0000")[0]!,
        x,
        y,
        width: Math.max(...xs) + 22 - x,
        height: Math.max(...ys) + 24 - y,
      },
    ];
  });
}

interface MarkProps {
  readonly point: ProbePointView;
  readonly number: number;
  readonly mark: Mark;
  readonly state: ReadState;
  readonly isHere: boolean;
  readonly isNamed: boolean;
  readonly choose: () => void;
}

function PointMark({ point, number, mark, state, isHere, isNamed, choose }: MarkProps) {
  return (
    <button
      type="button"
      className={`mark mark-${state}${isNamed ? " mark-named" : ""}`}
      style={{ left: `${mark.x.toFixed(1)}px`, top: `${mark.y.toFixed(1)}px` }}
      aria-pressed={isHere}
      aria-label={`${number}, ${point.point}: ${states[state]}`}
      data-point={point.point}
      onClick={choose}
    >
      <span className="mark-disc" aria-hidden="true">
        <span className="figure">{number}</span>
        <Sign state={state} />
      </span>
      {isNamed && (
        <span className="mark-name" aria-hidden="true">
          {point.point}
        </span>
      )}
    </button>
  );
}

const signs: Readonly<Partial<Record<ReadState, string>>> = {
  inside: "M2 6.500l3.200 3.500L11 2.500",
  outside: "M6.500 1v7M6.500 11v.6",
  undecided: "M3.500 4c.2-1.700 1.300-2.500 3-2.500s3 1 3 2.500c0 2-3 2.200-3 4.200M6.500 11.200v.5",
};

/** Tick, exclamation, question: told apart by shape. */
export function Sign({ state }: { readonly state: ReadState }) {
  const sign = signs[state];
  if (!sign) return null;
  return (
    <svg className="mark-sign" viewBox="0 0 13 13" width={13} height={13} aria-hidden="true" focusable="false">
      <path d={sign} />
    </svg>
  );
}
