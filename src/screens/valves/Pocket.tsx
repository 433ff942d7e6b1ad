import type { TrayValveView } from "../../workshop/views.ts";
import { pocket, type Stroke, strokesOf, type TrayScale } from "./geometry.ts";
import { standingWords, tray as words } from "./messages.ts";
import { Standing } from "./Standing.tsx";

interface Props {
  readonly valve: TrayValveView;
  readonly scale: TrayScale;
  readonly isChosen: boolean;
  readonly choose: () => void;
}

/** A valve in its pocket: its sections as short strokes, its number, its sign. */
export function Pocket({ valve, scale, isChosen, choose }: Props) {
  const { standsIn } = valve;
  const where = standsIn ? `, ${words.standsIn(standsIn.unit, standsIn.position)}` : "";
  return (
    <button
      type="button"
      className={`pocket${standsIn ? " pocket-out" : ""}`}
      aria-pressed={isChosen}
      aria-label={words.pocket(valve.valve, standingWords[valve.standing], where)}
      data-valve={valve.valve}
      onClick={choose}
    >
      <span className="pocket-name figure">{valve.valve}</span>
      <Strokes strokes={strokesOf(valve, scale)} />
      <Standing standing={valve.standing} />
      {standsIn && <span className="pocket-where">{words.standsIn(standsIn.unit, standsIn.position)}</span>}
    </button>
  );
}

function Strokes({ strokes }: { readonly strokes: readonly Stroke[] }) {
  return (
    <svg
      className="strokes"
      viewBox={`0 0 ${pocket.width} ${pocket.height}`}
      width={pocket.width}
      height={pocket.height}
      aria-hidden="true"
      focusable="false"
    >
      <path className="strokes-middle" d={`M2 ${pocket.height / 2}H${pocket.width - 2}`} />
      {strokes.map((stroke) => (
        <SectionStroke key={stroke.section} {...stroke} />
      ))}
    </svg>
  );
}

function SectionStroke({ x, cold_y, hot_y, doubt, beyond }: Stroke) {
  const end = x + pocket.stroke;
  if (cold_y === undefined && hot_y === undefined)
    return <path className="stroke-unread" d={`M${x} ${pocket.height / 2}H${end}`} />;
  return (
    <g className="stroke">
      {cold_y !== undefined && hot_y !== undefined && (
        <path d={`M${x} ${cold_y.toFixed(2)}L${end} ${hot_y.toFixed(2)}`} />
      )}
      {cold_y !== undefined && hot_y === undefined && (
        <path className="stroke-half" d={`M${x + 4} ${cold_y.toFixed(2)}h10`} />
      )}
      {cold_y !== undefined && <circle className="stroke-cold" cx={x} cy={cold_y} r={2.6} />}
      {hot_y !== undefined && (
        <path className="stroke-doubt" d={`M${end} ${(hot_y - doubt).toFixed(2)}v${(2 * doubt).toFixed(2)}`} />
      )}
      {beyond && (
        <path
          className="stroke-beyond"
          d={beyond === "above" ? `M${x + 9} 4l4.5 -4l4.5 4` : `M${x + 9} ${pocket.height - 4}l4.5 4l4.5 -4`}
        />
      )}
    </g>
  );
}
