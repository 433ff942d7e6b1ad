import { common } from "./messages.ts";
import { plainNumber, withDoubt } from "./number.ts";

interface Props {
  readonly value?: number;
  readonly doubt?: number;
  readonly low?: number;
  readonly high?: number;
  readonly unit: string;
  /** A computed figure is drawn in pencil blue, a read one in ink. */
  readonly computed?: boolean;
  /** The reading no longer counts. */
  readonly struck?: boolean;
  readonly width?: number;
}

const height = 50;
const inset = 10;
const edgeTop = 30;

/** Round steps of 1, 2 or 5 so that a ruler shows four to nine divisions. */
function stepFor(span: number): number {
  const rough = span / 7;
  const decade = 10 ** Math.floor(Math.log10(rough));
  return [1, 2, 5, 10].map((m) => m * decade).find((step) => step >= rough) ?? 10 * decade;
}

/** The piece of ruler that holds the limits and the reading with its doubt, with a margin of one sixth. */
export function rulerRange({ value, doubt = 0, low, high }: Omit<Props, "unit">): readonly [number, number] {
  const points = [low, high].filter((x) => x !== undefined);
  if (value !== undefined) points.push(value - doubt, value + doubt);
  if (low === undefined && high !== undefined && high > 0 && Math.min(...points) >= 0) points.push(0);
  if (points.length === 0) return [0, 1];
  const from = Math.min(...points);
  const to = Math.max(...points);
  const margin = (to - from || Math.abs(to) || 1) / 6;
  return [from - (from === 0 ? 0 : margin), to + margin];
}

function words({ value, doubt, low, high, unit }: Props): string {
  const said = value === undefined ? common.ruler.unread : `${withDoubt(value, doubt)} ${unit}`.trim();
  const limits = [
    low === undefined ? "" : common.ruler.notUnder(plainNumber(low)),
    high === undefined ? "" : common.ruler.notOver(plainNumber(high)),
  ].filter(Boolean);
  return `${said}; ${limits.length ? `${limits.join(", ")} ${unit}` : common.ruler.noLimits}`.trim();
}

/**
 * A few divisions of a steel rule: outside the limits it is ruled over, the reading is a scribed line, its doubt
 * the bracket about it. Pure, so that the printed record can draw it too.
 */
export function WindowRuler(props: Props) {
  const { value, doubt = 0, low, high, computed = false, struck = false, width = 260 } = props;
  const [from, to] = rulerRange(props);
  const x = (at: number) => inset + ((at - from) / (to - from)) * (width - 2 * inset);
  const clip = (at: number) => Math.min(width - inset, Math.max(inset, x(at)));
  const step = stepFor(to - from);
  const first = Math.ceil(from / step - 1e-9);
  const ticks = Array.from({ length: Math.floor(to / step + 1e-9) - first + 1 }, (_, i) => (first + i) * step);
  const pen = `${computed ? "pencil" : "ink"}${struck ? " struck" : ""}`;
  const shut = [
    low === undefined ? undefined : ([inset, x(low)] as const),
    high === undefined ? undefined : ([x(high), width - inset] as const),
  ].filter((span) => span !== undefined);
  const every = ticks.length > 6 ? 2 : 1;
  return (
    <svg
      className="ruler"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={words(props)}
    >
      <path className="ruler-body" d={`M${inset} ${edgeTop}H${width - inset}V${height - 1}H${inset}z`} />
      {shut.map(([a, b]) => (
        <g key={a} className="ruler-shut">
          {Array.from({ length: Math.max(0, Math.floor((b - a) / 5)) + 1 }, (_, i) => a + i * 5)
            .filter((at) => at + 4 <= b + 0.5)
            .map((at) => (
              <path key={at} d={`M${at.toFixed(1)} ${edgeTop - 2}l4 -8`} />
            ))}
        </g>
      ))}
      {low !== undefined && <path className="ruler-limit" d={`M${x(low)} ${edgeTop}v-16`} />}
      {high !== undefined && <path className="ruler-limit" d={`M${x(high)} ${edgeTop}v-16`} />}
      {ticks.map((at, i) => (
        <g key={at}>
          <path className="ruler-tick" d={`M${x(at).toFixed(1)} ${edgeTop}v${i % every === 0 ? 6 : 4}`} />
          {i % every === 0 && x(at) > inset + 9 && x(at) < width - inset - 9 && (
            <text className="ruler-number" x={x(at)} y={height - 4} textAnchor="middle">
              {plainNumber(Number(at.toPrecision(6)))}
            </text>
          )}
        </g>
      ))}
      {value !== undefined && (
        <g className={`ruler-reading ${pen}`}>
          {doubt > 0 && (
            <path
              className="ruler-doubt"
              d={`M${clip(value - doubt)} ${edgeTop - 3}v-12h${clip(value + doubt) - clip(value - doubt)}v12`}
            />
          )}
          <path className="ruler-line" d={`M${clip(value)} ${edgeTop}V3`} />
        </g>
      )}
    </svg>
  );
}
