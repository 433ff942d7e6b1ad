import type { HumHearingView } from "../../workshop/views.ts";
import { hertz } from "./level.ts";
import { words } from "./messages.ts";

interface Props {
  readonly next: HumHearingView["nextRecording"];
  /** Valves of the last recording, so that what changes can be named. */
  readonly before: Readonly<Record<string, string>>;
}

export function NextRecording({ next, before }: Props) {
  if (!next) return <p className="next-none">{words.noNext}</p>;
  return (
    <section className="next-recording" aria-labelledby="next-name">
      <h2 id="next-name">{words.nextTitle}</h2>
      <p className="lead">{next.why}</p>
      <p>{words.nextSupply(next.supply.source, hertz(next.supply.frequency_Hz))}</p>
      {Object.keys(next.valves).length > 0 && (
        <>
          <p>{words.nextValves}</p>
          <ul className="next-valves">
            {Object.entries(next.valves).map(([position, valve]) => {
              const old = before[position];
              const isChanged = old !== undefined && old !== valve;
              return (
                <li key={position} className={isChanged ? "next-changed" : undefined}>
                  <span>{position}</span> <span className="figure">{valve}</span>
                  {isChanged && <span className="quiet"> {words.changed(old)}</span>}
                </li>
              );
            })}
          </ul>
        </>
      )}
    </section>
  );
}
