import { Link } from "wouter";
import type { MorningView } from "../../workshop/views.ts";
import { DangerOf } from "../common/Caution.tsx";
import { day, dayAndTime, longDay, sameDay, time } from "../common/calendar.ts";
import { FirstSteps } from "../common/FirstSteps.tsx";
import { stepName } from "../common/messages.ts";
import { minutes } from "../common/number.ts";
import { Papers } from "../common/Papers.tsx";
import { StateMark } from "../common/StateSign.tsx";
import { capital, inWords } from "../common/sentence.ts";
import { BeginHere } from "./BeginHere.tsx";
import { DayStrip } from "./DayStrip.tsx";
import { words } from "./messages.ts";
import { toldOf } from "./told.ts";
import "./morning.css";

type Hands = MorningView["hands"][number];
type Next = Hands["next"][number];

const unitPath = (next: Pick<Next, "unit" | "claim">) => `/unit/${encodeURIComponent(next.unit)}#claim-${next.claim}`;

function Later({ next }: { readonly next: Next }) {
  return (
    <li>
      {next.start && <time dateTime={next.start}>{time(next.start)}</time>} <span className="figure">{next.unit}</span>{" "}
      <Link href={unitPath(next)}>{capital(next.title)}</Link> <span className="quiet">{minutes(next.hands_min)}</span>{" "}
      <DangerOf danger={next.danger} short />
    </li>
  );
}

function idleWords({ home, beforeHome }: Hands): string {
  if (beforeHome === undefined) return words.nothingNext;
  if (home === undefined) return words.gone;
  return beforeHome.length > 0 ? words.onlyHome : words.nothingNext;
}

/** What goes on by itself over night, each with the last moment to set it going. */
function BeforeHome({ hands, now }: { readonly hands: Hands; readonly now: string }) {
  const { beforeHome = [], home } = hands;
  if (beforeHome.length === 0) return null;
  return (
    <div className="hands-home">
      <p>
        <strong>{words.beforeHome}</strong> {home && <span className="quiet">{words.home(time(home))}</span>}
      </p>
      <ol>
        {beforeHome.map((one) => (
          <li key={`${one.unit} ${one.claim}`}>
            <p>
              <time dateTime={one.latest}>{words.by(time(one.latest))}</time> <span className="figure">{one.unit}</span>{" "}
              <Link href={unitPath(one)}>{capital(one.title)}</Link>{" "}
              <span className="quiet">
                {words.ready(sameDay(one.ripe, now) ? time(one.ripe) : `${day(one.ripe)}, ${time(one.ripe)}`)}
              </span>{" "}
              <DangerOf danger={one.danger} short />
            </p>
            <p className="small pencil">{inWords(one.why)}</p>
            {one.wait_h !== undefined && (
              <BeginHere
                what={{
                  name: one.unit,
                  units: [one.unit],
                  claim: one.claim,
                  place: one.place,
                  slot: one.slot,
                  hours: one.wait_h,
                }}
                now={now}
                place={one.place}
              />
            )}
          </li>
        ))}
      </ol>
    </div>
  );
}

function PairOfHands({ hands, now }: { readonly hands: Hands; readonly now: string }) {
  const [first, ...later] = hands.next;
  return (
    <li className="hands">
      <h3>{hands.person}</h3>
      {first === undefined ? (
        <div className="hands-next">
          <p className="quiet">{idleWords(hands)}</p>
          <BeforeHome hands={hands} now={now} />
        </div>
      ) : (
        <div className="hands-next">
          <p className="hands-check">
            <span className="figure hands-unit">{first.unit}</span>
            <Link href={unitPath(first)}>{capital(first.title)}</Link>
            <span className="quiet">{minutes(first.hands_min)}</span>
          </p>
          {first.why && <p className={first.start ? "pencil" : undefined}>{inWords(first.why)}</p>}
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
          <BeforeHome hands={hands} now={now} />
        </div>
      )}
    </li>
  );
}

/** What nobody can do today, and why. */
function Blocked({ blocked }: { readonly blocked: NonNullable<MorningView["blocked"]> }) {
  return (
    <details className="blocked">
      <summary>{words.blocked(blocked.length)}</summary>
      <ul>
        {blocked.map((one) => (
          <li key={`${one.unit} ${one.claim}`}>
            <span className="figure">{one.unit}</span> <Link href={unitPath(one)}>{capital(one.title)}</Link>:{" "}
            {inWords(one.why).replace(/^./, (first) => first.toLowerCase())}
          </li>
        ))}
      </ul>
    </details>
  );
}

/** Steps that go on by themselves once somebody sets them going. */
function ToBegin({ toBegin, now }: { readonly toBegin: NonNullable<MorningView["toBegin"]>; readonly now: string }) {
  return (
    <section aria-labelledby="begin-name">
      <h2 id="begin-name">{words.toBegin}</h2>
      <ul className="to-begin">
        {toBegin.map(({ unit, step, place, hours, free, slot }) => (
          <li key={`${unit} ${step}`}>
            <p>
              <span className="figure hands-unit">{unit}</span>{" "}
              <Link href={`/unit/${encodeURIComponent(unit)}`}>{capital(stepName(step))}</Link>{" "}
              <span className="quiet">
                {words.goesOn(hours)}
                {place !== undefined && `, ${place}`}
                {free !== undefined && `: ${words.free(free)}`}
              </span>
            </p>
            <BeginHere what={{ name: unit, units: [unit], step, place, slot, hours }} now={now} place={place} />
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Units that came back and wait to be read anew: no check of theirs is open, so nothing above names them. */
function CameBack({ back, now }: { readonly back: NonNullable<MorningView["back"]>; readonly now: string }) {
  const lines = (some: typeof back) => (
    <ul className="to-begin">
      {some.map(({ unit, at, says }) => (
        <li key={unit}>
          <p>
            <span className="figure hands-unit">{unit}</span>{" "}
            <Link href={`/unit/${encodeURIComponent(unit)}/return`}>{words.readAnew}</Link>{" "}
            <span className="quiet">{words.cameBack(day(at, now))}</span> <q>{says}</q>
          </p>
        </li>
      ))}
    </ul>
  );
  return (
    <section aria-labelledby="back-name">
      <h2 id="back-name">{words.back}</h2>
      <p className="quiet">{words.backLead}</p>
      {lines(back.slice(0, newestBack))}
      {back.length > newestBack && (
        <details className="blocked">
          <summary>{words.moreBack(back.length - newestBack)}</summary>
          {lines(back.slice(newestBack))}
        </details>
      )}
    </section>
  );
}

/** Those that came last stand open; a long row of older ones waits behind a line. */
const newestBack = 3;

const ways = [
  { to: "/orders", name: words.toOrders },
  { to: "/shop", name: words.toShop },
  { to: "/instruments", name: words.toInstruments },
  { to: "/checks", name: words.toChecks },
  { to: "/costs", name: words.toCosts },
  { to: "/safety", name: words.toLimits },
  { to: "/listening", name: words.toListening },
  { to: "/soaks", name: words.toSoaks },
];

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
      <h1>{capital(longDay(morning.now))}</h1>
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
              <PairOfHands key={hands.person} hands={hands} now={morning.now} />
            ))}
          </ul>
        )}
        {morning.blocked !== undefined && morning.blocked.length > 0 && <Blocked blocked={morning.blocked} />}
        <p className="small quiet">{words.how}</p>
        <Papers of={["production.next"]} />
      </section>
      {morning.toBegin !== undefined && morning.toBegin.length > 0 && (
        <ToBegin toBegin={morning.toBegin} now={morning.now} />
      )}
      {morning.back !== undefined && morning.back.length > 0 && <CameBack back={morning.back} now={morning.now} />}
      <section aria-labelledby="instruments-name">
        <h2 id="instruments-name">{words.instruments}</h2>
        <Instruments instruments={morning.instruments} />
      </section>
      <nav aria-label={words.ways} className="morning-ways">
        <ul>
          {ways.map(({ to, name }) => (
            <li key={to}>
              <Link href={to}>{name}</Link>
            </li>
          ))}
        </ul>
      </nav>
    </article>
  );
}
