import type { HumHearingView } from "../../workshop/views.ts";
import { Measured } from "../common/Measured.tsx";
import { plainNumber } from "../common/number.ts";
import { levelWords } from "./level.ts";
import { tapWords as words } from "./messages.ts";

type Microphony = NonNullable<HumHearingView["microphony"]>;
type Ring = Microphony["recordings"][number]["rings"][number];

/** How long the picture of a ring lasts. */
const shown_ms = 120;

/** The envelope of a ring, dying away as it was measured; drawn as a tapering stroke. */
function Decay({ ring, width }: { readonly ring: Ring; readonly width: number }) {
  const height = 44;
  const middle = height / 2;
  const edge = (sign: number) =>
    Array.from({ length: 61 }, (_, i) => {
      const x = 1 + ((width - 2) * i) / 60;
      const left = Math.exp((-shown_ms * i) / 60 / ring.decay_ms);
      return `${x.toFixed(1)} ${(middle - sign * (middle - 3) * left).toFixed(1)}`;
    });
  return (
    <svg
      className="tap-decay"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={words.decayAlt(ring.frequency_Hz.toFixed(0), ring.decay_ms.toFixed(0))}
    >
      <path className="tap-envelope" d={`M${edge(1).join("L")}L${edge(-1).reverse().join("L")}z`} />
    </svg>
  );
}

/** What the unit's valves do when they are tapped: a fault that no hum recording shows. */
export function Taps({ microphony }: { readonly microphony: Microphony }) {
  return (
    <section className="taps" aria-labelledby="taps-name">
      <h2 id="taps-name">{words.title}</h2>
      <p className="taps-told">{microphony.words}</p>
      <ul>
        {microphony.recordings.map(({ recording, valves, taps, rings }) => (
          <li key={recording} className="tap-row">
            <div>
              <p>
                {words.recording(recording)} <span className="quiet">{words.taps(taps)}</span>
              </p>
              <p className="small quiet tabular">
                {Object.entries(valves)
                  .map(([position, valve]) => `${position} ${valve}`)
                  .join(", ")}
              </p>
            </div>
            {rings.length === 0 ? (
              <p className="quiet">{words.nothing}</p>
            ) : (
              rings.slice(0, 3).map((ring) => (
                <div key={ring.frequency_Hz} className="tap-ring">
                  <p>
                    <span className="figure pencil">{plainNumber(Math.round(ring.frequency_Hz))} Hz</span>
                    {", "}
                    <span className="figure pencil">{words.lasts(plainNumber(Math.round(ring.decay_ms)))}</span>
                    {", "}
                    <span className="figure pencil">{levelWords(ring.peak_Vpk)}</span> {words.peak}
                  </p>
                  <Measured first={360}>{(width) => <Decay ring={ring} width={Math.min(width, 460)} />}</Measured>
                </div>
              ))
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
