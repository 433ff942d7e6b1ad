import type { HumHearingView } from "../../workshop/views.ts";
import { fixed, plainNumber, withDoubt } from "../common/number.ts";
import { inWords } from "../common/sentence.ts";
import { supplyWords as words } from "./messages.ts";

type Supply = HumHearingView["supplies"][number];

/** One cycle of the supply as its crest factor lets one see it: a sine, or a sine whose peaks are cut. */
function Cycle({ crestFactor }: { readonly crestFactor: number }) {
  // A sine of peak 1 has a crest factor of √2; one cut at a height c keeps its slopes, and its crest falls with c.
  const cut = Math.min(1, Math.max(0.5, 1 - 2.6 * (Math.SQRT2 - crestFactor)));
  const points = Array.from({ length: 65 }, (_, i) => {
    const v = Math.max(-cut, Math.min(cut, Math.sin((2 * Math.PI * i) / 64)));
    return `${(2 + i).toFixed(1)} ${(18 - 14 * v).toFixed(1)}`;
  });
  return (
    <svg className="supply-cycle" width="69" height="36" viewBox="0 0 69 36" aria-hidden="true">
      <path className="supply-zero" d="M2 18H66" />
      <path className="supply-wave" d={`M${points.join("L")}`} />
    </svg>
  );
}

const small = (sentence: string) => sentence.charAt(0).toLowerCase() + sentence.slice(1);

function Row({ supply }: { readonly supply: Supply }) {
  const { recording, instrument, state, against, trial, shape, beside, ht } = supply;
  return (
    <li className={`supply-row supply-${state.replace(" ", "-")}`}>
      <div>
        <p className="supply-recording">
          {words.recording(recording)} {instrument && <span className="quiet">{instrument}</span>}
        </p>
        <p className="supply-state">{words.states[state]}</p>
      </div>
      <dl className="supply-figures">
        <div>
          <dt>{words.trial}</dt>
          <dd>{trial ? words.trials[trial] : words.unknown}</dd>
        </div>
        <div>
          <dt>{words.shape}</dt>
          <dd>
            {shape ? (
              <>
                <Cycle crestFactor={shape.crestFactor} />
                <span className="figure pencil">{fixed(shape.crestFactor, 3)}</span>{" "}
                <span className="quiet small">{words.sine}</span>
              </>
            ) : (
              words.unknown
            )}
          </dd>
        </div>
        {beside && (
          <div>
            <dt>{words.beside}</dt>
            <dd>
              <Cycle crestFactor={beside.crestFactor} />
              <span className="figure pencil">{fixed(beside.crestFactor, 3)}</span>{" "}
              <span className="quiet small">{words.sine}</span>
              {beside.level && (
                <>
                  {" "}
                  <span className="figure pencil nowrap">
                    {withDoubt(beside.level.change_pct, beside.level.doubt_pct)} %
                  </span>{" "}
                  <span className="quiet small">{words.level}</span>
                </>
              )}
            </dd>
          </div>
        )}
        <div>
          <dt>{words.ht}</dt>
          <dd>
            {ht ? (
              <>
                <span className="figure pencil">
                  {words.htValue(plainNumber(ht.here_V), plainNumber(ht.building_V))}
                </span>{" "}
                <span className="figure pencil nowrap">{withDoubt(ht.change_pct, ht.doubt_pct)} %</span>
              </>
            ) : (
              words.unknown
            )}
          </dd>
        </div>
      </dl>
      {against.length > 0 && (
        <p className="supply-against">
          {words.against} {small(inWords(against.join("; ")))}.
        </p>
      )}
    </li>
  );
}

/** Whether the clean supply was clean: what speaks for and against each recording that was made on it. */
export function Supplies({ supplies }: { readonly supplies: HumHearingView["supplies"] }) {
  if (supplies.length === 0) return null;
  return (
    <section className="supplies" aria-labelledby="supplies-name">
      <h2 id="supplies-name">{words.title}</h2>
      <p className="quiet">{words.lead}</p>
      <ul>
        {supplies.map((supply) => (
          <Row key={supply.recording} supply={supply} />
        ))}
      </ul>
    </section>
  );
}
