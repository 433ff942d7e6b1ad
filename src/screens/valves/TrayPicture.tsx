import type { KeyboardEvent } from "react";
import type { TrayView } from "../../workshop/views.ts";
import { Measured } from "../common/Measured.tsx";
import { fixed } from "../common/number.ts";
import { leanOf, scaleOf } from "./geometry.ts";
import { tray as words } from "./messages.ts";
import { Pocket } from "./Pocket.tsx";

interface Props {
  readonly tray: TrayView;
  readonly chosen: string | undefined;
  readonly choose: (valve: string) => void;
}

/**
 * The tray as it lies on the bench. It leans as far as the tester moved between the two sessions, so that inside it
 * every steady valve lies level, whatever the tester did.
 */
export function TrayPicture({ tray, chosen, choose }: Props) {
  const scale = scaleOf(tray);
  const lean_deg = leanOf(tray.reference?.lean_pct, scale);
  return (
    <Measured first={900}>
      {(width) => {
        const rise = (width / 2) * Math.tan((Math.abs(lean_deg) * Math.PI) / 180);
        return (
          <div className="tray-room" style={{ paddingBlock: `${rise.toFixed(0)}px` }}>
            <div className="tray-wood" style={{ transform: `skewY(${lean_deg.toFixed(2)}deg)` }}>
              <fieldset
                className="tray-pockets"
                style={{ gridTemplateColumns: `repeat(${columnsFor(width, tray.valves.length)}, minmax(0, 1fr))` }}
                aria-label={words.pockets}
                onKeyDown={walk}
              >
                {tray.valves.map((valve) => (
                  <Pocket
                    key={valve.valve}
                    valve={valve}
                    scale={scale}
                    isChosen={valve.valve === chosen}
                    choose={() => choose(valve.valve)}
                  />
                ))}
              </fieldset>
              <Edge tray={tray} />
            </div>
            <Bench rise={rise} lean_deg={lean_deg} />
          </div>
        );
      }}
    </Measured>
  );
}

/** The near edge of the tray, where the reference valve lies; it is that valve's own stroke. */
function Edge({ tray }: { readonly tray: TrayView }) {
  const { reference } = tray;
  if (!reference) return <p className="tray-edge tray-edge-empty">{words.referenceNone}</p>;
  const { cold_pct, hot_pct } = reference;
  return (
    <div className="tray-edge">
      <span className="tray-edge-end">
        {cold_pct === undefined ? words.coldEnd : `${words.coldEnd} ${signed(cold_pct)}`}
      </span>
      <span className="tray-edge-name">{words.edge(reference.valve)}</span>
      <span className="tray-edge-end">
        {hot_pct === undefined ? words.hotEnd : `${words.hotEnd} ${signed(hot_pct)}`}
      </span>
    </div>
  );
}

/** The level bench that the tray leans on; its words stand where the tray is lifted off it. */
function Bench({ rise, lean_deg }: { readonly rise: number; readonly lean_deg: number }) {
  if (rise < leastTold_px) return null;
  return (
    <p className={lean_deg < 0 ? "tray-bench tray-bench-right" : "tray-bench"} aria-hidden="true">
      {words.trueLevel}
    </p>
  );
}

/** A tray lifted by less than this leaves no room for words under it. */
const leastTold_px = 14;

/** `+0.2 %`, `−2.8 %`: to a tenth, as a reading is good for no more. */
export function signed(pct: number): string {
  const plain = fixed(Math.abs(pct), 1);
  const sign = Math.abs(pct) < 0.05 ? "" : pct > 0 ? "+" : "\u2212";
  return `${sign}${plain} %`;
}

const pocketLeast_px = 92;
const narrowTray_px = 480;
const narrowPocket_px = 82;

/** As many pockets in a row as a finger can tell apart, and rows as even as the tray allows. */
function columnsFor(width: number, count: number): number {
  const least_px = width < narrowTray_px ? narrowPocket_px : pocketLeast_px;
  const most = Math.max(2, Math.floor((width - 20) / (least_px + 6)));
  const rows = Math.ceil(count / most);
  return Math.max(2, Math.ceil(count / rows));
}

const steps: Readonly<Record<string, (columns: number) => number>> = {
  ArrowLeft: () => -1,
  ArrowRight: () => 1,
  ArrowUp: (columns) => -columns,
  ArrowDown: (columns) => columns,
};

/** Arrow keys go from pocket to pocket as a finger would. */
function walk(event: KeyboardEvent<HTMLFieldSetElement>): void {
  const step = steps[event.key];
  if (!step) return;
  const pockets = [...event.currentTarget.querySelectorAll<HTMLButtonElement>(".pocket")];
  const here = pockets.indexOf(document.activeElement as HTMLButtonElement);
  if (here < 0) return;
  const top = pockets[0]!.offsetTop;
  const columns = Math.max(1, pockets.filter(({ offsetTop }) => offsetTop === top).length);
  const next = pockets[here + step(columns)];
  if (!next) return;
  event.preventDefault();
  next.focus();
}
