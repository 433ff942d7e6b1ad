import { useQuery } from "@tanstack/react-query";
import { Link } from "wouter";
import type { AdoptedLimitsView, SafetyLimitsView } from "../../workshop/safety/views.ts";
import { get } from "../common/api.ts";
import { dayAndTime } from "../common/calendar.ts";
import { plainNumber } from "../common/number.ts";
import { quantitySaid } from "../common/quantity.ts";
import { capital } from "../common/sentence.ts";
import { Answer } from "../common/Waiting.tsx";
import { LimitsForm } from "./LimitsForm.tsx";
import { words as sheetWords, limits as words } from "./messages.ts";
import "../common/office.css";
import "./safety.css";

export default function LimitsPage() {
  const asked = useQuery({
    queryKey: ["/api/safety-limits"],
    queryFn: () => get<SafetyLimitsView>("/api/safety-limits"),
  });
  return (
    <Answer asked={asked} what={words.what}>
      {(view) => <SafetyLimits view={view} />}
    </Answer>
  );
}

/** Limits of each market as somebody adopted them, to be changed by whoever answers for them. */
export function SafetyLimits({ view }: { readonly view: SafetyLimitsView }) {
  return (
    <article className="office safety">
      <h1>{words.title}</h1>
      <p className="lead">{words.lead}</p>
      <ul className="office-ways">
        <li>
          <Link href="/units">{words.toUnits}</Link>
        </li>
        <li>
          <Link href="/instruments">{sheetWords.toInstruments}</Link>
        </li>
      </ul>
      {view.uncovered.length > 0 && <p className="safety-wait">{words.uncovered(view.uncovered.join("; "))}</p>}
      {view.markets.length === 0 && <p>{words.none}</p>}
      {view.markets.map((market) => (
        <Market key={market.id} market={market} view={view} />
      ))}
      <section>
        <details>
          <summary>{words.add}</summary>
          <LimitsForm view={view} />
        </details>
      </section>
    </article>
  );
}

function Market({ market, view }: { readonly market: AdoptedLimitsView; readonly view: SafetyLimitsView }) {
  return (
    <section aria-label={market.market}>
      <h2>{market.market}</h2>
      <p>{market.edition}</p>
      <p className="small quiet">
        {words.adopted(market.by, dayAndTime(market.at))}. {words.places}: {market.places.join("; ")}.
      </p>
      <div className="office-scroll">
        <table>
          <thead>
            <tr>
              <th scope="col">{words.test}</th>
              <th scope="col">{words.limit}</th>
              <th scope="col">{words.source}</th>
              <th scope="col">{words.seen}</th>
            </tr>
          </thead>
          <tbody>
            {market.limits.map(({ quantity, test, point, low, high, source, seen }) => {
              const { unit } = quantitySaid(quantity);
              return (
                <tr key={`${quantity} ${point ?? ""}`}>
                  <th scope="row">
                    {capital(test)}
                    {point && `, ${point}`}
                  </th>
                  <td>
                    {[
                      low === undefined ? "" : sheetWords.atLeast(`${plainNumber(low)} ${unit}`),
                      high === undefined ? "" : sheetWords.atMost(`${plainNumber(high)} ${unit}`),
                    ]
                      .filter(Boolean)
                      .join(", ")}
                  </td>
                  <td>{source}</td>
                  <td className={seen === "memory" ? "safety-memory" : undefined}>{words.seenShort[seen]}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      <details>
        <summary>{words.change}</summary>
        <LimitsForm view={view} market={market} />
      </details>
    </section>
  );
}
