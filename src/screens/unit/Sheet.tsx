import type { ClaimView } from "../../workshop/views.ts";
import { DangerOf } from "../common/Caution.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { minutes, withDoubt } from "../common/number.ts";
import { quantitySaid } from "../common/quantity.ts";
import { StateSign } from "../common/StateSign.tsx";
import { inWords } from "../common/sentence.ts";
import { WindowRuler } from "../common/WindowRuler.tsx";
import { tell } from "../languages/sentences/told.ts";
import { paperAt } from "../shell/handbook.ts";
import { sheetNames, words } from "./messages.ts";
import { type Figure, isClosed, type SheetOfClaims, tightestFigure } from "./sheets.ts";

interface FigureProps {
  readonly figure: Figure;
  readonly unit: string;
  readonly struck: boolean;
  /** Unless the claim has said it already. */
  readonly saysWhy: boolean;
}

/** Whether a figure is of the unit as a whole, so that its place need not be said; in the reader's language it may be told already. */
const isWhole = (where: string, serial: string) => [`unit ${serial}`, tell(`unit ${serial}`)].includes(where);

function FigureRow({ figure, unit: serial, struck, saysWhy }: FigureProps) {
  const { name, unit } = quantitySaid(figure.quantity);
  const computed = figure.value !== undefined && figure.instrument === undefined;
  const said = figure.value === undefined ? undefined : `${withDoubt(figure.value, figure.doubt)} ${unit}`.trim();
  return (
    <li className={`figure-row${struck ? " figure-row-struck" : ""}`}>
      <p className="figure-name">
        {name}
        {figure.where && !isWhole(figure.where, serial) && <span className="quiet">, {figure.where}</span>}
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
        {figure.calculation && (
          <>
            {" "}
            <a href={paperAt(figure.calculation)}>{figure.calculation}</a>
          </>
        )}
        {figure.at && <>, {dayAndTime(figure.at)}</>}
        {saysWhy && figure.value !== undefined && figure.state !== "proven" && (
          <span className="figure-why">{inWords(figure.why, [figure.quantity])}</span>
        )}
      </p>
    </li>
  );
}

function Figures({ claim, unit }: ClaimProps) {
  if (claim.figures.length === 0) return null;
  return (
    <ul className="figures">
      {claim.figures.map((figure) => (
        <FigureRow
          key={`${figure.quantity} ${figure.where}`}
          figure={figure}
          unit={unit}
          struck={figure.state === "void"}
          saysWhy={!claim.because.includes(figure.why)}
        />
      ))}
    </ul>
  );
}

function HowChecked({ claim, saysHow }: { readonly claim: ClaimView; readonly saysHow: boolean }) {
  const { how, hands_min, wait_h, skill } = claim.check;
  const cost = [words.hands(minutes(hands_min)), wait_h > 0 ? words.wait(wait_h) : "", words.skill(skill)];
  return (
    <p>
      {saysHow && (
        <>
          <em>{words.how}:</em> {how.replace(/[.\s]*$/, ".")}{" "}
        </>
      )}
      <span className="quiet">{cost.filter(Boolean).join(", ")}.</span>
    </p>
  );
}

interface ClaimProps {
  readonly claim: ClaimView;
  readonly unit: string;
}

/** A proof that is missing: all of it lies open. */
function Gap({ claim, unit }: ClaimProps) {
  const quantities = claim.figures.map((figure) => figure.quantity);
  const decide = claim.wouldDecide;
  return (
    <li className="claim claim-gap" id={`claim-${claim.claim}`}>
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
      <Figures claim={claim} unit={unit} />
      <div className="claim-check small">
        <HowChecked claim={claim} saysHow={!decide?.includes(claim.check.how)} />
        <DangerOf danger={claim.check.danger} />
        {claim.safety && <p className="claim-safety">{words.safety}</p>}
      </div>
    </li>
  );
}

function Tightest({
  figure,
  count,
  unit: serial,
}: {
  readonly figure: Figure;
  readonly count: number;
  readonly unit: string;
}) {
  const { name, unit } = quantitySaid(figure.quantity);
  const where = figure.where && !isWhole(figure.where, serial) ? `, ${figure.where}` : "";
  const isComputed = figure.instrument === undefined;
  const said = figure.value === undefined ? "" : `${withDoubt(figure.value, figure.doubt)} ${unit}`.trim();
  return (
    <>
      <span className="claim-tightest">
        <span className="quiet">{count > 1 ? words.tightest(count, `${name}${where}`) : `${name}${where}`}</span>{" "}
        <strong className={`figure nowrap${isComputed ? " pencil" : ""}`}>{said}</strong>
      </span>
      <span className="claim-ruler">
        <WindowRuler
          value={figure.value}
          doubt={figure.doubt}
          low={figure.low}
          high={figure.high}
          unit={unit}
          computed={isComputed}
          width={200}
        />
      </span>
    </>
  );
}

/** A proof that stands: one line with its tightest figure, which opens to all of them. */
function Proof({ claim, unit }: ClaimProps) {
  const tightest = tightestFigure(claim.figures);
  const quantities = claim.figures.map((figure) => figure.quantity);
  return (
    <li className="claim claim-closed" id={`claim-${claim.claim}`}>
      <details>
        <summary>
          <h3>{claim.title}</h3>
          <StateSign state={claim.state} />
          {tightest && claim.state === "proven" ? (
            <Tightest figure={tightest} count={claim.figures.length} unit={unit} />
          ) : (
            <span className="claim-tightest">{inWords(claim.because, quantities)}</span>
          )}
        </summary>
        {tightest && <p className="claim-because">{inWords(claim.because, quantities)}</p>}
        <Figures claim={claim} unit={unit} />
        <div className="claim-check small">
          <HowChecked claim={claim} saysHow />
        </div>
      </details>
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
        {sheet.claims.map((claim) =>
          isClosed(claim) ? (
            <Proof key={claim.claim} claim={claim} unit={unit} />
          ) : (
            <Gap key={claim.claim} claim={claim} unit={unit} />
          ),
        )}
      </ol>
    </section>
  );
}
