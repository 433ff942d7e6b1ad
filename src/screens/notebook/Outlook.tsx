import type { OutlookView } from "../../workshop/notebook/views.ts";
import { words } from "./messages.ts";
import { Tally } from "./Tally.tsx";

const hundredths = (share: number) => {
  const of100 = Math.round(share * 1000) / 10;
  return String(of100);
};

/** What becomes of a version built many times over, from the shop's own valves where it has measured enough. */
export function Outlook({ outlook, name }: { readonly outlook: OutlookView; readonly name: string }) {
  const { fromShelf, costly, broken, notServing } = outlook;
  const drawn = Object.entries(fromShelf);
  return (
    <section className="outlook" aria-label={name}>
      <h4>{name}</h4>
      {outlook.trouble !== undefined && (
        <p>
          {words.unsolved} {outlook.trouble}
        </p>
      )}
      {outlook.yield && (
        <>
          <Tally
            good={Math.round(outlook.yield.share * 100)}
            label={words.outOf(Math.round(outlook.yield.share * 100))}
          />
          <p className="pencil outlook-yield">{words.outOf(Math.round(outlook.yield.share * 100))}</p>
          <p className="small">
            {words.yieldRange(hundredths(outlook.yield.low), hundredths(outlook.yield.high), outlook.yield.draws)}
          </p>
          {broken.length > 0 && (
            <>
              <h5>{words.brokenTitle}</h5>
              <ul className="outlook-list">
                {broken.slice(0, 6).map(({ limit, share }) => (
                  <li key={limit}>
                    {limit} <span className="pencil">{hundredths(share)} of 100</span>
                  </li>
                ))}
              </ul>
              <h5>{words.costlyTitle}</h5>
              <ul className="outlook-list">
                {costly.length === 0 && <li>{words.noCostly}</li>}
                {costly.map(({ part, gain, doubt }) => (
                  <li key={part}>{words.costly(part, hundredths(gain), hundredths(doubt))}</li>
                ))}
              </ul>
            </>
          )}
          <h5>{words.shelfTitle}</h5>
          <ul className="outlook-list">
            {drawn.length === 0 && notServing.length === 0 && <li>{words.noShelf}</li>}
            {drawn.map(([type, count]) => (
              <li key={type}>{words.fromShelf(type, count)}</li>
            ))}
            {drawn.length > 0 && notServing.length === 0 && <li>{words.allServe}</li>}
            {notServing.map(({ valve, type, reasons }) => (
              <li key={valve}>
                <strong>
                  {valve}, {type}
                </strong>{" "}
                {words.notServing}: {reasons.slice(0, 2).join("; ")}
              </li>
            ))}
          </ul>
        </>
      )}
      {outlook.notes.length > 0 && (
        <details>
          <summary>{words.notes}</summary>
          <ul className="outlook-list small">
            {outlook.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}
