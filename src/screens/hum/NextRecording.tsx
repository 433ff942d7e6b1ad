import type { HumHearingView } from "../../workshop/views.ts";
import { minutes } from "../common/number.ts";
import { hertz } from "./level.ts";
import { words } from "./messages.ts";

interface Props {
  readonly hearing: HumHearingView;
  /** Valves of the last recording, so that what changes can be named. */
  readonly before: Readonly<Record<string, string>>;
}

/** The recording that would settle what is left, or that none is needed: it stands beside the verdict. */
export function NextRecording({ hearing, before }: Props) {
  const { nextRecording: next, verdict } = hearing;
  if (!next) {
    const isOpen = Object.values(verdict).some(({ state }) => state === "undecided");
    return (
      <section className="next-recording next-none" aria-labelledby="next-name">
        <h2 id="next-name">{isOpen ? words.noNextOpenTitle : words.noNextTitle}</h2>
        <p>{isOpen ? words.noNextOpen : words.noNext}</p>
      </section>
    );
  }
  return (
    <section className="next-recording" aria-labelledby="next-name">
      <h2 id="next-name">{words.nextTitle}</h2>
      <p className="next-how">
        {words.nextSupply(next.supply.source, hertz(next.supply.frequency_Hz))}{" "}
        {next.minutes !== undefined && <span className="quiet nowrap">{words.nextMinutes(minutes(next.minutes))}</span>}
      </p>
      {next.supply.source === "regenerated" && next.supply.frequency_Hz > hearing.building_Hz && (
        <p className="quiet small">{words.upward}</p>
      )}
      {Object.keys(next.valves).length > 0 && (
        <ul className="next-valves" aria-label={words.nextValves}>
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
      )}
      <p>{next.why}</p>
      <p>
        <a href="#recording">{words.bringIt}</a>
      </p>
    </section>
  );
}
