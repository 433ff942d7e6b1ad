import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { get, type WorkshopHead } from "../common/api.ts";
import { Answer } from "../common/Waiting.tsx";
import type { Offers } from "./ask.ts";
import { words } from "./messages.ts";
import { TakeIn } from "./TakeIn.tsx";
import "../common/office.css";
import "./exchange.css";

const formats = ["csv", "json", "xlsx"] as const;

export default function ExchangePage({ workshop }: { readonly workshop: WorkshopHead | undefined }) {
  const asked = useQuery({ queryKey: ["/api/exchange"], queryFn: () => get<Offers>("/api/exchange") });
  return (
    <Answer asked={asked} what={words.what}>
      {(offers) => <Exchange offers={offers} now={workshop?.now ?? ""} />}
    </Answer>
  );
}

/** Lists and tables on their way out, tables on their way in. */
export function Exchange({ offers, now }: { readonly offers: Offers; readonly now: string }) {
  return (
    <article className="office exchange">
      <h1>{words.title}</h1>
      <p className="lead">{words.lead}</p>
      <TakeIn offers={offers} now={now} />
      <TakeOut offers={offers} />
    </article>
  );
}

function TakeOut({ offers }: { readonly offers: Offers }) {
  const written = offers.kinds.filter(({ entries }) => entries > 0);
  const [chosen, setChosen] = useState("");
  const kind = chosen || written[0]?.kind;
  return (
    <section aria-labelledby="exchange-out">
      <h2 id="exchange-out">{words.out}</h2>
      <p className="small">{words.outLead}</p>
      <ul className="office-rows exchange-lists">
        {offers.lists.map((list) => (
          <li key={list}>
            <span>{words.lists[list] ?? list}</span>
            <Files of={list} named={words.lists[list] ?? list} />
          </li>
        ))}
        {kind !== undefined && (
          <li>
            <label>
              <span>{words.evidence}</span>
              <select value={kind} onChange={({ target }) => setChosen(target.value)}>
                {written.map(({ kind: one, entries }) => (
                  <option key={one} value={one}>
                    {words.kindOf(one, entries)}
                  </option>
                ))}
              </select>
            </label>
            <Files of={kind} named={kind} />
          </li>
        )}
        <li>
          <div>
            <h3>{words.whole}</h3>
            <p className="small">{words.wholeLead}</p>
          </div>
          <span className="exchange-files">
            <a href="/api/exchange/workshop.zip" download>
              {words.wholeFile}
            </a>
          </span>
        </li>
      </ul>
    </section>
  );
}

function Files({ of, named }: { readonly of: string; readonly named: string }) {
  return (
    <span className="exchange-files">
      {formats.map((format) => (
        <a
          key={format}
          href={`/api/exchange/${encodeURIComponent(of)}/${format}`}
          download={`${of}.${format}`}
          aria-label={words.formatOf(named, words.formats[format])}
        >
          {words.formats[format]}
        </a>
      ))}
    </span>
  );
}
