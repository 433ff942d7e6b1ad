import type { ProbeCardView, ProbeSuspectsView } from "../../workshop/views.ts";
import { inHundred } from "../common/number.ts";
import { Papers } from "../common/Papers.tsx";
import { StateMark, StopSign } from "../common/StateSign.tsx";
import { suspects as words } from "./messages.ts";

const marks = { unread: "open", good: "proven", undecided: "undecided" } as const;

/** What the readings speak for: good, or a fault and who is suspected of it, with odds. */
export function Suspects({ suspects, card }: { readonly suspects: ProbeSuspectsView; readonly card: ProbeCardView }) {
  const numbers = new Map(card.points.map(({ point }, i) => [point, i + 1]));
  const { state } = suspects;
  return (
    <section className="suspects" aria-labelledby="suspects-name">
      <h2 id="suspects-name" className={`suspects-state suspects-${state}`}>
        {state === "faulty" ? <StopSign /> : <StateMark state={marks[state]} />}
        {words.title[state]}
      </h2>
      <p>{suspects.because}</p>
      {suspects.trouble && <p className="outcome-error">{suspects.trouble}</p>}
      {suspects.counted > 0 && <p className="quiet small">{words.counted(suspects.counted)}</p>}
      {suspects.suspects.length > 0 && (
        <>
          <h3>{words.list}</h3>
          <Papers of={["circuits.suspects", "circuits.spread"]} />
          <ol className="suspect-list">
            {suspects.suspects.map((suspect) => (
              <li key={`${suspect.part} ${suspect.fault} ${suspect.words}`}>
                <OddsBar odds={suspect.odds} />
                <div>
                  <p>
                    <strong className="figure">{suspect.part}</strong> {words.faults[suspect.fault] ?? suspect.fault}
                    <span className="pencil suspect-odds">{inHundred(suspect.odds)}</span>
                  </p>
                  {suspect.words !== "" && <p className="quiet">{suspect.words}</p>}
                  {suspect.alike.length > 0 && <p>{words.alike(suspect.alike.join(", "))}</p>}
                  {suspect.near.length > 0 && (
                    <p className="quiet">
                      {words.near(suspect.near.map((point) => `${numbers.get(point)} ${point}`).join(", "))}
                    </p>
                  )}
                </div>
              </li>
            ))}
          </ol>
          <p className="quiet small">{words.other}</p>
        </>
      )}
      {suspects.notes.map((note) => (
        <p key={note} className="quiet small">
          {note}
        </p>
      ))}
    </section>
  );
}

/** The odds as the filled part of a short upright rule. */
function OddsBar({ odds }: { readonly odds: number }) {
  const height = 40;
  const filled = Math.max(1, height * odds);
  return (
    <svg
      className="odds-bar"
      viewBox={`0 0 12 ${height}`}
      width={12}
      height={height}
      aria-hidden="true"
      focusable="false"
    >
      <rect className="odds-all" x={0.5} y={0.5} width={11} height={height - 1} />
      <rect className="odds-part" x={0.5} y={height - filled} width={11} height={filled} />
    </svg>
  );
}
