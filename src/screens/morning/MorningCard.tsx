import { Link } from "wouter";
import type { MorningView } from "../../workshop/views.ts";
import { DangerOf } from "../common/Caution.tsx";
import { dayAndTime, longDay } from "../common/calendar.ts";
import { FirstSteps } from "../common/FirstSteps.tsx";
import { minutes } from "../common/number.ts";
import { StateMark } from "../common/StateSign.tsx";
import { capital, inWords } from "../common/sentence.ts";
import { DayStrip } from "./DayStrip.tsx";
import { words } from "./messages.ts";
import { toldOf } from "./told.ts";
import "./morning.css";

type Hands = MorningView["hands"][number];
type Next = Hands["next"][number];

const unitPath = (next: Next) => `/unit/${encodeURIComponent(next.unit)}#claim-${next.claim}`;

function Later({ next }: { readonly next: Next }) {
  return (
    <li>
      <span className="figure">{next.unit}</span> <Link href={unitPath(next)}>{capital(next.title)}</Link>{" "}
      <span className="quiet">{minutes(next.hands_min)}</span> <DangerOf danger={next.danger} short />
    </li>
  );
}

function PairOfHands({ hands }: { readonly hands: Hands }) {
  const [first, ...later] = hands.next;
  return (
    <li className="hands">
      <h3>{hands.person}</h3>
      {first === undefined ? (
        <p className="quiet">{words.nothingNext}</p>
      ) : (
        <div className="hands-next">
          <p className="hands-check">
            <span className="figure hands-unit">{first.unit}</span>
            <Link href={unitPath(first)}>{capital(first.title)}</Link>
            <span className="quiet">{minutes(first.hands_min)}</span>
          </p>
          {first.why && <p>{inWords(first.why)}</p>}
          <DangerOf danger={first.danger} />
          {later.length > 0 && (
            <div className="hands-later">
              <p className="quiet">{words.later}</p>
              <ol>
                {later.map((next) => (
                  <Later key={`${next.unit} ${next.claim}`} next={next} />
                ))}
              </ol>
            </div>
          )}
        </div>
      )}
    </li>
  );
}

const urgency = ["failed", "undecided", "untried", "good"] as const;
const marks = { good: "proven", failed: "refuted", undecided: "undecided", untried: "open" } as const;

function Instruments({ instruments }: Pick<MorningView, "instruments">) {
  if (instruments.length === 0) return <p>{words.noInstruments}</p>;
  return (
    <ul className="instruments">
      {[...instruments]
        .sort((a, b) => urgency.indexOf(a.state) - urgency.indexOf(b.state))
        .map((one) => (
          <li key={one.instrument}>
            <p className={`state-sign${one.state === "failed" ? " trial-failed" : ""}`}>
              <StateMark state={marks[one.state]} />
              {words.trial[one.state]}
            </p>
            <p>
              <strong>{one.title}.</strong> {inWords(one.words)}
              {one.at && !one.words.includes(one.at.slice(0, 10)) && (
                <span className="quiet small">
                  {" "}
                  {words.tried} {dayAndTime(one.at)}
                </span>
              )}
            </p>
          </li>
        ))}
    </ul>
  );
}

/** The first thing read in the morning: what ripens, who does what next and why, and which instruments may be trusted. */
export function MorningCard({ morning }: { readonly morning: MorningView }) {
  const isBare = morning.hands.length === 0 && morning.instruments.length === 0;
  return (
    <article className="morning">
      <h1>{longDay(morning.now)}</h1>
      {isBare && (
        <div className="empty">
          <FirstSteps />
        </div>
      )}
      <section aria-labelledby="ripens-name">
        <h2 id="ripens-name">{words.ripens}</h2>
        <p className={morning.ripens.length === 0 ? "quiet" : "ripens-told"}>{toldOf(morning)}</p>
        <DayStrip now={morning.now} ripens={morning.ripens} />
      </section>
      <section aria-labelledby="hands-name">
        <h2 id="hands-name">{words.hands}</h2>
        {morning.hands.length === 0 ? (
          <p>{words.noHands}</p>
        ) : (
          <ul>
            {morning.hands.map((hands) => (
              <PairOfHands key={hands.person} hands={hands} />
            ))}
          </ul>
        )}
      </section>
      <section aria-labelledby="instruments-name">
        <h2 id="instruments-name">{words.instruments}</h2>
        <Instruments instruments={morning.instruments} />
      </section>
    </article>
  );
}
