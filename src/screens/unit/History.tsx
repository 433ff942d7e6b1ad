import type { UnitView } from "../../workshop/views.ts";
import { dayAndTime } from "../common/calendar.ts";
import { inWords } from "../common/sentence.ts";
import { history } from "./messages.ts";

const shown = 10;

function Entries({ entries }: { readonly entries: UnitView["history"] }) {
  return (
    <ol className="history">
      {entries.map((entry) => (
        <li key={entry.id}>
          <time dateTime={entry.at}>{dayAndTime(entry.at)}</time>
          <span>
            {inWords(entry.words)} <span className="quiet small">{entry.by}</span>
          </span>
        </li>
      ))}
    </ol>
  );
}

/** What was written down for this unit, newest first. */
export function History({ entries }: { readonly entries: UnitView["history"] }) {
  const newest = [...entries].sort((a, b) => Date.parse(b.at) - Date.parse(a.at));
  const older = newest.slice(shown);
  return (
    <section className="desk" id="history" aria-labelledby="history-name">
      <h2 id="history-name">{history.title}</h2>
      {newest.length === 0 ? <p className="quiet">{history.none}</p> : <Entries entries={newest.slice(0, shown)} />}
      {older.length > 0 && (
        <details>
          <summary>{history.more(older.length)}</summary>
          <Entries entries={older} />
        </details>
      )}
    </section>
  );
}
