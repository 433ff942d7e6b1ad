import type {
  ProbeCardView,
  ProbeKind,
  ProbePointView,
  ProbeReadingView,
  ProbeWindowsView,
} from "../../workshop/views.ts";
import { withDoubt } from "../common/number.ts";
import { WindowRuler } from "../common/WindowRuler.tsx";
import { Sign } from "./Chassis.tsx";
import { figure, windowWords } from "./figures.ts";
import { kinds, states, units, list as words } from "./messages.ts";
import { type Probe, readingAt, stateOf, windowAt } from "./order.ts";

interface Props {
  readonly card: ProbeCardView;
  readonly windows: ProbeWindowsView | undefined;
  readonly choose: (probe: Probe) => void;
}

const all: readonly ProbeKind[] = ["resistance", "dc", "gain"];

/** Every test point with what good units give there and what was read. */
export function PointList({ card, windows, choose }: Props) {
  return (
    <ol className="point-list">
      {card.points.map((point, i) => (
        <li key={point.point}>
          <div className="point-name">
            <span className="figure point-number">{i + 1}</span>
            <h3>{point.point}</h3>
            <button
              type="button"
              className="point-read"
              aria-label={words.readHere(point.point)}
              onClick={() => choose({ kind: nextKind(point), point: point.point })}
            >
              {words.button}
            </button>
          </div>
          <ul className="point-figures">
            {all.map((kind) => (
              <Figure key={kind} point={point} kind={kind} windows={windows} />
            ))}
          </ul>
          {point.readings
            .filter(({ fallen }) => fallen !== undefined)
            .map((reading) => (
              <p key={reading.evidence} className="quiet small">
                <s>{valueWords(reading)}</s> {words.fallen(reading.fallen ?? "")}
              </p>
            ))}
        </li>
      ))}
    </ol>
  );
}

/** What a finger on this point most likely means to read: what is still missing. */
export function nextKind(point: ProbePointView): ProbeKind {
  return all.find((kind) => kind !== "gain" && readingAt(point, kind) === undefined) ?? "dc";
}

function Figure({
  point,
  kind,
  windows,
}: {
  readonly point: ProbePointView;
  readonly kind: ProbeKind;
  readonly windows: ProbeWindowsView | undefined;
}) {
  const window = windowAt(windows, { kind, point: point.point });
  const reading = readingAt(point, kind);
  if (!window && !reading) return null;
  const state = stateOf(reading, window);
  const scale = kind === "resistance" && (window?.high ?? 0) >= 2000 ? 1000 : 1;
  return (
    <li className={`point-figure point-${state}`}>
      <span className="point-kind">{kinds[kind]}</span>
      <span className="point-value">
        {reading ? (
          <strong className="figure">{valueWords(reading)}</strong>
        ) : (
          <span className="quiet">{states.unread}</span>
        )}
        {reading && (
          <span className="point-state">
            <Sign state={state} /> {states[state]}
          </span>
        )}
      </span>
      {window && <span className="pencil figure point-window">{windowWords(window, kind)}</span>}
      {window && reading && (
        <WindowRuler
          value={reading.value / scale}
          doubt={reading.doubt / scale}
          low={window.low / scale}
          high={window.high / scale}
          unit={scale === 1 ? units[kind] : "kΩ"}
          width={200}
        />
      )}
    </li>
  );
}

function valueWords({ kind, value, doubt }: ProbeReadingView): string {
  return kind === "resistance" ? figure(value, kind) : `${withDoubt(value, doubt)} ${units[kind]}`;
}
