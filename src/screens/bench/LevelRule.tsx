import { channelWords } from "../common/channel.ts";
import { plainNumber } from "../common/number.ts";
import type { Level } from "./capture/capture.ts";
import { take } from "./messages.ts";

const lowest_dB = -80;
const height = 34;

const decibels = (peak: number) => (peak > 0 ? Math.max(lowest_dB, 20 * Math.log10(peak)) : lowest_dB);

/** The level of one channel as a stroke along a rule of decibels under full scale. */
export function LevelRule({
  level,
  channel,
  width,
}: {
  readonly level: Level;
  readonly channel: string;
  readonly width: number;
}) {
  const left = 4;
  const x = (dB: number) => left + ((dB - lowest_dB) / -lowest_dB) * (width - 2 * left);
  const now_dB = decibels(level.peak);
  const words = `${take.meter(channelWords(channel), plainNumber(Math.round(now_dB)))}${level.clipped ? `, ${take.clipped}` : ""}`;
  return (
    <div className="level-rule">
      <p className="figure">{words}</p>
      <svg viewBox={`0 0 ${width} ${height}`} width={width} height={height} aria-hidden="true" focusable="false">
        <path className="level-scale" d={`M${left} 20H${width - left}`} />
        {Array.from({ length: 9 }, (_, i) => lowest_dB + 10 * i).map((dB) => (
          <g key={dB}>
            <path className="level-scale" d={`M${x(dB)} 20v${dB % 20 === 0 ? -9 : -5}`} />
            {dB % 20 === 0 && (
              <text
                className="response-number"
                x={x(dB)}
                y={33}
                textAnchor={dB === 0 ? "end" : dB === lowest_dB ? "start" : "middle"}
              >
                {plainNumber(dB)}
              </text>
            )}
          </g>
        ))}
        <path className="level-stroke" d={`M${left} 15H${x(now_dB).toFixed(1)}`} />
      </svg>
    </div>
  );
}
