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
  const least = ((isWide ? 1.9 : 3.2) * points.length * size.width * size.height) / width;
  const room = { width, height: Math.round(Math.max(deep_mm * scale, least, 220)) };
  const stretch = { x: (width - 2 * flange_px) / wide_mm, y: (room.height - 2 * flange_px) / deep_mm };
  const places = points.map(({ x_mm, y_mm }) => ({
    x: flange_px + (x_mm - left + margin_mm) * stretch.x,
    y: flange_px + (back - y_mm + margin_mm) * stretch.y,
  }));
  const inside = places.map(({ x, y }) => ({ x: x - flange_px, y: y - flange_px }));
  const sheet = { width: room.width - 2 * flange_px, height: room.height - 2 * flange_px };
  const marks = pushedApart(inside, size, sheet).map(({ x, y }) => ({ x: x + flange_px, y: y + flange_px }));
  return { room, places, marks, isWide };
}

/** Folded sheet, its corner holes, the valve sockets, the strips, and a line from each mark to its place. */
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
      {socketsOf(card, places).map((socket) => (
        <Socket key={socket.position} {...socket} />
      ))}
      {stripsOf(card.points, places).map(({ key, x, y, width }) => (
        <rect key={key} className="metal-strip" x={x} y={y - 8} width={width} height={16} rx={3} />
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

interface SocketAt extends Mark {
  readonly position: string;
  readonly valve: string | undefined;
  /** The test points that its electrodes are wired to. */
  readonly wired: readonly Mark[];
}

const socket_px = 27;

/** A socket in the middle of the points that its valve is wired to; one with no test point is not drawn. */
function socketsOf({ points, valves }: ProbeCardView, places: readonly Mark[]): readonly SocketAt[] {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  return valves.flatMap(({ position, valve }): SocketAt[] => {
    const wired = places.filter((_, i) => points[i]!.valves.includes(position));
    if (wired.length === 0) return [];
    return [{ position, valve, wired, x: mean(wired.map(({ x }) => x)), y: mean(wired.map(({ y }) => y)) }];
  });
}

/** A valve's socket from below: its ring of pins, the key at the bottom, and the wires that leave it. */
function Socket({ position, valve, wired, x, y }: SocketAt) {
  const pins = Array.from({ length: 8 }, (_, i) => ((i + 0.5) * Math.PI) / 4 + Math.PI / 2);
  return (
    <g className="socket">
      {wired.map((place) => (
        <path key={`${place.x} ${place.y}`} className="socket-wire" d={`M${x} ${y}L${place.x} ${place.y}`} />
      ))}
      <circle className="socket-ring" cx={x} cy={y} r={socket_px} />
      {pins.map((angle) => (
        <circle
          key={angle}
          className="socket-pin"
          cx={x + Math.cos(angle) * (socket_px - 6)}
          cy={y + Math.sin(angle) * (socket_px - 6)}
          r={2.6}
        />
      ))}
      <text className="socket-name" x={x} y={y + 4.5} textAnchor="middle">
        {position}
      </text>
      {valve && (
        <text className="socket-valve" x={x} y={y + socket_px + 13} textAnchor="middle">
          {valve}
        </text>
      )}
    </g>
  );
}

interface Strip {
  readonly key: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
}

const sameRow_px = 8;

/** A strip of lugs where neighbouring points of one stage and channel lie in a row. */
function stripsOf(points: readonly ProbePointView[], places: readonly Mark[]): readonly Strip[] {
  const lugs = places.map((place, i) => ({ ...place, of: `${points[i]!.stage ?? ""} ${points[i]!.channel ?? ""}` }));
  const rows = new Map<string, Mark[]>();
  for (const { of, x, y } of lugs) {
    const row = [...rows].find(([key, held]) => key.startsWith(`${of}|`) && Math.abs(held[0]!.y - y) < sameRow_px);
    if (row) row[1].push({ x, y });
    else rows.set(`${of}|${y}`, [{ x, y }]);
  }
  return [...rows].flatMap(([key, held]): Strip[] => {
    if (held.length < 2) return [];
    const xs = held.map(({ x }) => x);
    const left = Math.min(...xs) - 14;
    return [{ key, x: left, y: held[0]!.y, width: Math.max(...xs) + 14 - left }];
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
