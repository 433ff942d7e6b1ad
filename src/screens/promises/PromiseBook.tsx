import { Fragment } from "react";
import { Link } from "wouter";
import type { PromiseView } from "../../workshop/views.ts";
import { day, daysBetween } from "../common/calendar.ts";
import { FirstSteps } from "../common/FirstSteps.tsx";
import { Measured } from "../common/Measured.tsx";
import { stepName } from "../common/messages.ts";
import { Papers } from "../common/Papers.tsx";
import { StopSign } from "../common/StateSign.tsx";
import { Empty } from "../common/Waiting.tsx";
import { GiveDate } from "./GiveDate.tsx";
import { softDates, words } from "./messages.ts";
import { Ribbon, RibbonScale } from "./Ribbon.tsx";
import { softEnd } from "./softEnd.ts";
import "./promises.css";

interface Props {
  readonly now: string;
  readonly promises: readonly PromiseView[];
}

function Order({
  promise,
  now,
  last_days,
}: {
  readonly promise: PromiseView;
  readonly now: string;
  readonly last_days: number;
}) {
  const in_ = (at: string) => day(at, now);
  return (
    <li className="promise">
      <div className="promise-words">
        <h2>
          <Link href={`/order/${encodeURIComponent(promise.order)}`}>{promise.order}</Link>{" "}
          <span className="promise-model">{promise.model}</span>
        </h2>
        <p className="small">
          {words.units(promise.units)}{" "}
          {promise.units.map((unit, i) => (
            <Fragment key={unit}>
              <Link href={`/unit/${encodeURIComponent(unit)}`}>{unit}</Link>
              {i < promise.units.length - 1 && ", "}
            </Fragment>
          ))}
        </p>
      </div>
      <div className="promise-ribbon">
        <Measured first={620}>
          {(width) => <Ribbon promise={promise} now={now} last_days={last_days} width={width} />}
        </Measured>
        <p>
          {softDates(promise, in_)} {promise.promised ? words.promised(in_(promise.promised)) : words.noPromise}{" "}
          {promise.onTime !== undefined && <span className="pencil">{words.onTime(inHundred(promise.onTime))}</span>}
        </p>
        <GiveDate promise={promise} now={now} />
      </div>
      <p className="promise-held">
        {promise.late && (
          <strong className="promise-late">
            <StopSign />
            <span>{words.late(in_(promise.promised ?? ""), in_(promise.p80))}</span>
          </strong>
        )}
        <span>
          <em>{words.heldBy}</em> {stepName(promise.heldBy)}
        </span>
      </p>
    </li>
  );
}

/** A number that no line ends in the midst of. */
const unbroken = (order: string) => order.replaceAll("-", "\u2011");

/** A share of the runs in whole hundredths, never told as certain. */
function inHundred(share: number): string {
  if (share > 0.995) return words.nearlyAll;
  return share < 0.005 ? words.hardlyAny : String(Math.round(100 * share));
}

/** A line per order: its dates in words, a ribbon with a soft end, and the one thing that holds it. */
export function PromiseBook({ now, promises }: Props) {
  const last_days = Math.max(
    7,
    ...promises.flatMap((p) => [softEnd(p, now).at(-1)?.day ?? 0, p.promised ? daysBetween(now, p.promised) + 0.5 : 0]),
  );
  const late = promises.filter((promise) => promise.late);
  return (
    <article className="book">
      <h1>{words.title}</h1>
      <p className="book-ways">
        <Link href="/orders">{words.orders}</Link>
        <Link href="/promises/what-if">{words.whatIf}</Link>
        <Link href="/promises/what-if#ordering">{words.ordering}</Link>
        <Link href="/promises/kept">{words.kept}</Link>
        <Link href="/look-back">{words.lookBack}</Link>
      </p>
      {promises.length === 0 ? (
        <Empty title={words.emptyTitle} steps={<FirstSteps />}>
          {words.empty}
        </Empty>
      ) : (
        <>
          <p className="book-lead">
            {words.lead} {words.scale}
          </p>
          <Papers of={["production.promise"]} />
          {late.length > 0 && (
            <p className="book-late">
              <StopSign />
              <span>{words.lateOnes(late.map(({ order }) => unbroken(order)))}</span>
            </p>
          )}
          <div className="book-scale">
            <Measured first={620}>{(width) => <RibbonScale now={now} last_days={last_days} width={width} />}</Measured>
          </div>
          <ol className="promises">
            {promises.map((promise) => (
              <Order key={promise.order} promise={promise} now={now} last_days={last_days} />
            ))}
          </ol>
        </>
      )}
    </article>
  );
}
