import { Link } from "wouter";
import type { ListeningIndexView, SeriesCardView } from "../../workshop/listening/views.ts";
import { day } from "../common/calendar.ts";
import { series as words } from "./seriesMessages.ts";

export const seriesPath = (name: string, rest = "") => `/listening/${encodeURIComponent(name)}${rest}`;

/** Every blind series, the last planned first. */
export function SeriesList({ index }: { readonly index: ListeningIndexView }) {
  return (
    <section aria-labelledby="series-name">
      <h2 id="series-name">{words.list}</h2>
      {index.series.length === 0 ? (
        <p className="quiet">{words.none}</p>
      ) : (
        <ul className="office-rows">
          {index.series.map((one) => (
            <Card key={one.series} card={one} />
          ))}
        </ul>
      )}
    </section>
  );
}

function Card({ card }: { readonly card: SeriesCardView }) {
  const { series, model, versions, asked, answered, of, state, at } = card;
  return (
    <li className="series-card">
      <div>
        <p>
          <Link href={seriesPath(series)}>
            <strong>{series}</strong>
          </Link>
        </p>
        <p className="small quiet">
          {words.pair(model, ...versions)}, {words.asks[asked]} {day(at)}
        </p>
      </div>
      <p className="series-state">
        {words.states[state]}
        <span className="small quiet">{words.answers(answered, of)}</span>
      </p>
    </li>
  );
}
