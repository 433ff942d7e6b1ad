import type { RecorderView } from "../../workshop/bench/views.ts";
import { channelWords } from "../common/channel.ts";
import { plainNumber, withDoubt } from "../common/number.ts";
import { inWords } from "../common/sentence.ts";
import { words } from "./messages.ts";

/** What is known of each recorder, and how old that is. */
export function Recorders({ recorders }: { readonly recorders: readonly RecorderView[] }) {
  const calibrated = recorders.filter(({ calibratedAt }) => calibratedAt !== undefined);
  return (
    <section className="bench-recorder" aria-labelledby="bench-recorder">
      <h2 id="bench-recorder">{words.recorder}</h2>
      {calibrated.length === 0 && <p>{words.noRecorder}</p>}
      {recorders.map(({ instrument, title, age_days, grain_bits, channels, standing, trial }) => (
        <div key={instrument} className="bench-recorder-one">
          <h3>
            {title} {title !== instrument && <span className="quiet">{instrument}</span>}
          </h3>
          {channels.length > 0 && (
            <ul>
              {channels.map((channel) => (
                <li key={channel.channel}>
                  <span className="figure pencil">
                    {words.fullScale(
                      channelWords(channel.channel),
                      withDoubt(channel.fullScale_Vpk, channel.doubt_Vpk),
                    )}
                  </span>
                  <span className="small quiet">
                    {[
                      channel.noiseA_Vrms === undefined ? "" : words.ownNoise(plainNumber(channel.noiseA_Vrms * 1e6)),
                      channel.thd_pct === undefined ? "" : words.ownThd(plainNumber(channel.thd_pct)),
                    ]
                      .filter(Boolean)
                      .join(", ")}
                  </span>
                </li>
              ))}
            </ul>
          )}
          {age_days !== undefined && (
            <p className="small quiet">
              {[words.age(age_days), grain_bits === undefined || grain_bits > 24 ? "" : words.grain(grain_bits)]
                .filter(Boolean)
                .join("; ")}
              .
            </p>
          )}
          <p className="small quiet">{inWords(standing.words, trial ? [trial.quantity] : [])}.</p>
        </div>
      ))}
    </section>
  );
}
