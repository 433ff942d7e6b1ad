import type { ClaimView } from "../../workshop/views.ts";
import { DangerOf } from "../common/Caution.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { minutes, withDoubt } from "../common/number.ts";
import { quantityWords } from "../common/quantity.ts";
import { StateSign } from "../common/StateSign.tsx";
import { inWords } from "../common/sentence.ts";
import { WindowRuler } from "../common/WindowRuler.tsx";
import { sheetNames, words } from "./messages.ts";
import { type Figure, isClosed, type SheetOfClaims } from "./sheets.ts";

interface FigureProps {
  readonly figure: Figure;
  readonly unit: string;
  readonly struck: boolean;
  /** With several figures each says why it stands as it does; with one the claim has said it. */
  readonly saysWhy: boolean;
}

function FigureRow({ figure, unit: serial, struck, saysWhy }: FigureProps) {
  const { name, unit } = quantityWords(figure.quantity);
  const computed = figure.value !== undefined && figure.instrument === undefined;
  const said = figure.value === undefined ? undefined : `${withDoubt(figure.value, figure.doubt)} ${unit}`.trim();
  return (
    <li className="figure-row">
      <p className="figure-name">
        {name}
        {figure.where && figure.where !== `unit ${serial}` && <span className="quiet">, {figure.where}</span>}
      </p>
      <p className={`figure figure-value${computed ? " pencil" : ""}`}>
        {said === undefined ? (
          <span className="quiet">{words.notRead}</span>
        ) : struck ? (
          <>
            <s>{said}</s> <span className="figure-struck">{words.noLonger}</span>
          </>
        ) : (
          said
        )}
      </p>
      <div className="figure-ruler">
        <WindowRuler
          value={figure.value}
          doubt={figure.doubt}
          low={figure.low}
          high={figure.high}
          unit={unit}
          computed={computed}
          struck={struck}
        />
      </div>
      <p className="figure-source small quiet">
        {figure.value !== undefined && (figure.instrument ? words.read(figure.instrument) : words.computed)}
        {figure.at && <>, {dayAndTime(figure.at)}</>}
        {saysWhy && figure.value !== undefined && figure.state !== "proven" && (
          <span className="figure-why">{inWords(figure.why, [figure.quantity])}</span>
        )}
      </p>
    </li>
  );
}

function Claim({ claim, unit }: { readonly claim: ClaimView; readonly unit: string }) {
  const closed = isClosed(claim);
  const quantities = claim.figures.map((figure) => figure.quantity);
  const decide = closed ? undefined : claim.wouldDecide;
  return (
    <li className={`claim${closed ? "" : " claim-gap"}`} id={`claim-${claim.claim}`}>
      <div className="claim-head">
        <h3>{claim.title}</h3>
        <StateSign state={claim.state} />
      </div>
      <p className="claim-because">{inWords(claim.because, quantities)}</p>
      {decide && (
        <p className="claim-decide">
          <em>{words.decide}</em> {inWords(decide, quantities).replace(/[.\s]*$/, ".")}
        </p>
      )}
      {claim.figures.length > 0 && (
        <ul className="figures">
          {claim.figures.map((figure) => (
            <FigureRow
              key={`${figure.quantity} ${figure.where}`}
              figure={figure}
              unit={unit}
              struck={figure.state === "void"}
              saysWhy={claim.figures.length > 1}
            />
          ))}
        </ul>
      )}
      <div className="claim-check small">
        <p>
          {!decide?.includes(claim.check.how) && (
            <>
              <em>{words.how}:</em> {claim.check.how}{" "}
            </>
          )}
          <span className="quiet">
            {[
              words.hands(minutes(claim.check.hands_min)),
              claim.check.wait_h > 0 ? words.wait(claim.check.wait_h) : "",
              words.skill(claim.check.skill),
            ]
              .filter(Boolean)
              .join(", ")}
            .
          </span>
        </p>
        {!closed && <DangerOf danger={claim.check.danger} />}
        {claim.safety && !closed && <p className="claim-safety">{words.safety}</p>}
      </div>
    </li>
  );
}

/** One sheet of the folder. A proof that is missing leaves a hole in it; a sheet without any proof is an outline. */
export function Sheet({ sheet, unit }: { readonly sheet: SheetOfClaims; readonly unit: string }) {
  const id = `sheet-${sheet.sheet}`;
  return (
    <section className={`sheet${sheet.closed === 0 ? " sheet-empty" : ""}`} id={id} aria-labelledby={`${id}-name`}>
      <header className="sheet-head">
        <h2 id={`${id}-name`}>{sheetNames[sheet.sheet]}</h2>
        <p className="quiet">{words.closed(sheet.closed, sheet.claims.length)}</p>
      </header>
      <ol>
        {sheet.claims.map((claim) => (
          <Claim key={claim.claim} claim={claim} unit={unit} />
        ))}
      </ol>
    </section>
  );
}
