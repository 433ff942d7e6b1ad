import { Link } from "wouter";
import type { TrayValveView, TrayView } from "../../workshop/views.ts";
import { day, longDay } from "../common/calendar.ts";
import { plainNumber, withDoubt } from "../common/number.ts";
import { inWords } from "../common/sentence.ts";
import { seller as words } from "./messages.ts";
import { signed } from "./TrayPicture.tsx";
import { current } from "./ValveCard.tsx";
import "./valves.css";

/** What failed in a batch and how it was measured, for whoever sold it: one page to print. */
export function SellerSheet({ tray }: { readonly tray: TrayView }) {
  const of = (standing: TrayValveView["standing"]) => tray.valves.filter((valve) => valve.standing === standing);
  const [use, hold, reject, unread] = [of("use"), of("hold"), of("reject"), of("unread")];
  return (
    <article className="seller-sheet">
      <p className="seller-ways">
        <Link href={`/valves/${encodeURIComponent(tray.batch)}`}>{words.back}</Link>
        <button type="button" onClick={() => window.print()}>
          {words.print}
        </button>
      </p>
      <h1>{words.title(tray.batch)}</h1>
      <p className="lead">
        {words.to(tray.seller)}. {words.came(tray.valves.length, tray.type, longDay(tray.at))}.
      </p>
      <p className="seller-summary">{words.summary(use.length, hold.length, reject.length, unread.length)}.</p>
      <h2>{words.failed}</h2>
      {reject.length === 0 ? (
        <p>{words.noneFailed}</p>
      ) : (
        <Found valves={reject} hasSections={tray.sections.length > 1} />
      )}
      {hold.length > 0 && (
        <>
          <h2>{words.held}</h2>
          <Found valves={hold} hasSections={tray.sections.length > 1} />
        </>
      )}
      <How tray={tray} />
      <p className="quiet">{words.date(day(tray.now))}</p>
    </article>
  );
}

function Found({ valves, hasSections }: { readonly valves: readonly TrayValveView[]; readonly hasSections: boolean }) {
  const [valve, section, cold, hot, drift, doubt] = words.head;
  return (
    <div className="seller-table">
      <table>
        <thead>
          <tr>
            <th scope="col">{valve}</th>
            {hasSections && <th scope="col">{section}</th>}
            <th scope="col">{cold}</th>
            <th scope="col">{hot}</th>
            <th scope="col">{drift}</th>
            <th scope="col">{doubt}</th>
          </tr>
        </thead>
        {valves.map((one) => (
          <tbody key={one.valve}>
            {one.sections.map((read, i) => (
              <tr key={read.section}>
                {i === 0 && (
                  <th scope="rowgroup" rowSpan={one.sections.length}>
                    {one.valve}
                  </th>
                )}
                {hasSections && <td>{read.section}</td>}
                <td>{read.cold_mA === undefined ? "–" : current(read.cold_mA)}</td>
                <td>{read.hot_mA === undefined ? "–" : current(read.hot_mA)}</td>
                <td>{driftAndDoubt(read)[0]}</td>
                <td>{driftAndDoubt(read)[1]}</td>
              </tr>
            ))}
            <tr className="seller-why">
              <td colSpan={hasSections ? 6 : 5}>
                {one.reasons.map((reason) => (
                  <span key={reason}>{inWords(reason)} </span>
                ))}
              </td>
            </tr>
          </tbody>
        ))}
      </table>
    </div>
  );
}

/** Both to the same decimal, as the doubt has it. */
function driftAndDoubt({ drift_pct, doubt_pct }: TrayValveView["sections"][number]): readonly [string, string] {
  if (drift_pct === undefined) return ["–", "–"];
  const [drift = "–", doubt = "–"] = withDoubt(drift_pct, doubt_pct).split(" ± ");
  return [drift, doubt];
}

function How({ tray: { limits, reference } }: { readonly tray: TrayView }) {
  if (!limits) return null;
  const { heatRun_h, gridCurrent_uA, leakage_uA, gm_min_pct } = limits;
  return (
    <>
      <h2>{words.how}</h2>
      <ul className="seller-how">
        <li>{words.point(plainNumber(limits.plate_V), plainNumber(limits.grid_V))}</li>
        <li>{heatRun_h === undefined ? words.twiceUnknown : words.twice(plainNumber(heatRun_h))}</li>
        {reference && <li>{words.right(reference.valve, current(reference.true_mA))}</li>}
        {reference?.cold_pct !== undefined && reference.hot_pct !== undefined && (
          <li>{words.tester(signed(reference.cold_pct), signed(reference.hot_pct))}</li>
        )}
        <li>{words.doubt(plainNumber(limits.reading_doubt_pct))}</li>
      </ul>
      <h3>{words.limits}</h3>
      <ul className="seller-how">
        <li>{words.drift(plainNumber(limits.drift_pct))}</li>
        <li>{words.spread(plainNumber(limits.sectionSpread_pct))}</li>
        {gridCurrent_uA !== undefined && <li>{words.gridCurrent(plainNumber(gridCurrent_uA))}</li>}
        {leakage_uA !== undefined && <li>{words.leakage(plainNumber(leakage_uA))}</li>}
        {gm_min_pct !== undefined && <li>{words.gm(plainNumber(gm_min_pct))}</li>}
      </ul>
    </>
  );
}
