import { useId } from "react";
import { type Cause, segmentsOf, shortCause } from "./causes.ts";

interface Props {
  readonly causes: readonly Cause[];
  readonly width: number;
  readonly height?: number;
  readonly label: string;
}

const letter_px = 7.6;

/** The textures by which causes are told apart, as drawn with one blue pencil. */
export function Textures({ id }: { readonly id: string }) {
  return (
    <defs>
      <pattern id={`${id}-valve`} width="4" height="4" patternUnits="userSpaceOnUse">
        <rect className="texture-solid" width="4" height="4" />
      </pattern>
      <pattern id={`${id}-amplifier`} width="5" height="5" patternUnits="userSpaceOnUse">
        <path className="texture-line" d="M0 2.500h5" />
      </pattern>
      <pattern id={`${id}-pick-up`} width="7" height="7" patternUnits="userSpaceOnUse">
        <circle className="texture-dot" cx="1.750" cy="1.750" r="1.150" />
        <circle className="texture-dot" cx="5.250" cy="5.250" r="1.150" />
      </pattern>
      <pattern id={`${id}-mains`} width="6" height="6" patternUnits="userSpaceOnUse">
        <path className="texture-line" d="M3 0v6M0 3h6" />
      </pattern>
      <pattern id={`${id}-doubt`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <rect className="texture-paper" width="6" height="6" />
        <path className="texture-line" d="M0 0v6" />
      </pattern>
    </defs>
  );
}

/** One spectral line's power split by what makes it; pure, so that the printed record can draw it too. */
export function CauseBar({ causes, width, height = 30, label }: Props) {
  const id = useId();
  const x = (share: number) => 0.5 + share * (width - 1);
  return (
    <svg
      className="cause-bar"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      role="img"
      aria-label={label}
    >
      <Textures id={id} />
      {segmentsOf(causes).map(({ cause, from, to, sureFrom, sureTo }) => {
        const words = shortCause(cause);
        const sure_px = x(sureTo) - x(sureFrom);
        const fits = height >= 20 && sure_px > words.length * letter_px + 14;
        const middle = (x(sureFrom) + x(sureTo)) / 2;
        const isSolid = cause.cause === "valve";
        return (
          <g key={`${cause.cause} ${cause.position ?? ""} ${cause.valve ?? ""}`}>
            <rect
              x={x(from)}
              y={0.5}
              width={Math.max(0, x(to) - x(from))}
              height={height - 1}
              fill={`url(#${id}-doubt)`}
            />
            <rect className="cause-paper" x={x(sureFrom)} y={0.5} width={Math.max(0, sure_px)} height={height - 1} />
            <rect
              x={x(sureFrom)}
              y={0.5}
              width={Math.max(0, sure_px)}
              height={height - 1}
              fill={`url(#${id}-${cause.cause})`}
            />
            <rect className="cause-edge" x={x(from)} y={0.5} width={Math.max(0, x(to) - x(from))} height={height - 1} />
            {fits && !isSolid && (
              <rect
                className="cause-paper"
                x={middle - (words.length * letter_px) / 2 - 5}
                y={4}
                width={words.length * letter_px + 10}
                height={height - 8}
              />
            )}
            {fits && (
              <text
                className={isSolid ? "cause-name cause-name-solid" : "cause-name"}
                x={middle}
                y={height / 2 + 5}
                textAnchor="middle"
              >
                {words}
              </text>
            )}
          </g>
        );
      })}
    </svg>
  );
}
