import { Link } from "wouter";
import type { BlindView } from "../../workshop/notebook/views.ts";
import { asWritten, plainNumber } from "../common/number.ts";
import { blindWords as words } from "./messages.ts";

type Told = BlindView["told"][number];

const chance = (p: number): string =>
  asWritten(p < 0.001 ? words.under("0.001") : p.toPrecision(p < 0.1 ? 2 : 3).replace(/\.?0+$/, ""));
const percent = (share: number): string => String(Math.round(100 * share));

/** What was heard blind between versions: who told which apart, whether guessing would do as well, what was preferred. */
export function Blind({ blind, isInner = false }: { readonly blind: BlindView; readonly isInner?: boolean }) {
  const { told, preferred } = blind;
  const shown = (
    <>
      {told.map((pair) => (
        <Pair key={pair.versions.join(" ")} pair={pair} />
      ))}
      {preferred && <Preferred preferred={preferred} />}
    </>
  );
  if (isInner) return shown;
  return (
    <section aria-labelledby="blind-name">
      <h2 id="blind-name">{words.title}</h2>
      {told.length === 0 && !preferred && <p className="quiet">{words.none}</p>}
      {shown}
      <p>
        <Link href="/listening">{words.toSeries}</Link>
      </p>
    </section>
  );
}

function Pair({ pair: { versions, together, listeners } }: { readonly pair: Told }) {
  const name = words.pair(...versions);
  const { trials, right, p, needed, power, moreTrials, share } = together;
  const isShown = p <= 0.05;
  const through = [...new Set(listeners.flatMap((heard) => heard.through))];
  return (
    <section className="blind-pair" aria-label={name}>
      <h3>{name}</h3>
      <p>
        <span className="pencil blind-verdict">{isShown ? words.shown : words.notShown}</span>{" "}
        {words.together(right, trials, listeners.length, through.length === 1 ? through[0] : undefined)}{" "}
        <span className="pencil">{words.byChance(chance(p))}</span>
      </p>
      <p className="small">
        {words.share(percent(share.value), percent(share.low), percent(share.high))}{" "}
        {needed !== undefined && words.needed(needed)}{" "}
        {!isShown && (moreTrials ? words.more(moreTrials) : words.power(percent(power)))}
      </p>
      <table className="blind-listeners">
        <caption className="small">{words.caption(listeners.length)}</caption>
        <thead>
          <tr>
            <th scope="col">{words.listener}</th>
            <th scope="col">{words.right}</th>
            <th scope="col">{words.p}</th>
          </tr>
        </thead>
        <tbody>
          {listeners.map((heard) => (
            <tr key={heard.listener}>
              <th scope="row">
                {heard.listener}
                {through.length > 1 && <span className="small blind-through">{heard.through.join(", ")}</span>}
                <Answers {...heard} />
              </th>
              <td>
                {words.of(heard.right, heard.trials)}
                {heard.needed !== undefined && <span className="small blind-through">{words.needs(heard.needed)}</span>}
              </td>
              <td className="pencil">
                {chance(heard.p)}
                {heard.p <= 0.05 && (
                  <span className="small blind-through">
                    {heard.amongAll <= 0.05 ? words.hears : words.among(chance(heard.amongAll))}
                  </span>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** A full stroke for each right answer, a low one for each wrong; the line stands where guessing ends. */
function Answers({ trials, right, needed }: Told["listeners"][number]) {
  if (trials > 40) return <span className="small">{words.tooMany}</span>;
  const step = 7;
  return (
    <svg
      className="blind-answers"
      width={trials * step + 6}
      height={24}
      viewBox={`0 0 ${trials * step + 6} 24`}
      role="img"
      aria-label={words.drawn(right, trials, needed)}
    >
      {Array.from({ length: trials }, (_, i) => {
        const isRight = i < right;
        const x = 3 + i * step;
        return <line key={x} x1={x} x2={x} y1={isRight ? 4 : 15} y2={20} className={isRight ? "right" : "wrong"} />;
      })}
      {needed !== undefined && <line x1={needed * step} x2={needed * step} y1={0} y2={24} className="needed" />}
    </svg>
  );
}

function Preferred({ preferred }: { readonly preferred: NonNullable<BlindView["preferred"]> }) {
  const { trials, listeners, ranking, p, reason, order, ordered = trials } = preferred;
  const most = Math.max(...ranking.map(({ high }) => high), 0.01);
  return (
    <section className="blind-pair" aria-label={words.preferredTitle}>
      <h3>{words.preferredTitle}</h3>
      <p>
        {words.choices(trials, listeners)}{" "}
        {p !== undefined && (
          <span className="pencil">{p <= 0.05 ? words.order(chance(p)) : words.noOrder(chance(p))}</span>
        )}
      </p>
      {reason !== undefined && <p>{reason}</p>}
      <ol className="blind-ranking">
        {ranking.map(({ item, strength, low, high }) => (
          <li key={item}>
            <span className="blind-item">{words.version(item)}</span>
            <svg className="blind-strength" viewBox="0 0 200 16" preserveAspectRatio="none" aria-hidden="true">
              <line x1={(200 * low) / most} x2={(200 * high) / most} y1={8} y2={8} />
              <rect x={(200 * strength) / most - 2} y={2} width={4} height={12} />
            </svg>
            <span className="pencil">{words.strength(percent(strength), percent(low), percent(high))}</span>
          </li>
        ))}
      </ol>
      {order && (
        <p className="small pencil">
          {order.state === "undecided" || order.odds === undefined
            ? words.orderUntold(order.reason ?? "")
            : order.low! <= 1 && order.high! >= 1
              ? words.orderNaught(plainNumber(order.odds), plainNumber(order.low!), plainNumber(order.high!), ordered)
              : words.orderTold(plainNumber(order.odds), plainNumber(order.low!), plainNumber(order.high!), ordered)}
        </p>
      )}
    </section>
  );
}
