import { useEffect, useRef, useState } from "react";
import { Link } from "wouter";
import type { UnitView } from "../../workshop/views.ts";
import { CautionMark } from "../common/Caution.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { StopSign } from "../common/StateSign.tsx";
import { useArrival } from "../common/useArrival.ts";
import { Empty } from "../common/Waiting.tsx";
import { Exchange } from "./Exchange.tsx";
import { History } from "./History.tsx";
import { words } from "./messages.ts";
import { Pile } from "./Pile.tsx";
import { Readings } from "./Readings.tsx";
import { ReleaseDesk } from "./ReleaseDesk.tsx";
import { Sheet } from "./Sheet.tsx";
import { sheetsOf } from "./sheets.ts";
import "./unit.css";

/** Languages that a record is printed in, each by its own name; without one, the order says. */
const dossierLanguages = { en: "English", de: "Deutsch", pl: "Polski" };

/** Of many reasons those that speak against the valve, where any do. */
function telling(reasons: readonly string[]): readonly string[] {
  const against = reasons.filter((reason) => !/: inside\.?$/.test(reason));
  return against.length > 0 ? against : reasons;
}

function Fitted({ fitted }: Pick<UnitView, "fitted">) {
  const positions = Object.entries(fitted);
  if (positions.length === 0) return <p className="quiet">{words.noFitted}</p>;
  return (
    <dl className="fitted">
      {positions.map(([position, { valve, type, verdict, reasons }]) => (
        <div key={position}>
          <dt>{position}</dt>
          <dd>
            <span className="figure">{valve}</span> <span className="quiet">{type}</span>
            {verdict && verdict !== "use" && <strong> {words.verdicts[verdict]}</strong>}
            {verdict && verdict === "use" && <span> {words.verdicts.use}</span>}
            {verdict !== "use" && telling(reasons).length > 0 && (
              <span className="fitted-reasons">{telling(reasons).join(" ")}</span>
            )}
          </dd>
        </div>
      ))}
    </dl>
  );
}

/** More gaps than this are counted; the stack of sheets shows them all. */
const namedMissing = 6;

function MissingNames({ missing }: Pick<UnitView["release"], "missing">) {
  return (
    <p className="standing-missing">
      {missing.slice(0, namedMissing).map(({ claim, title }) => (
        <a key={claim} href={`#claim-${claim}`}>
          {title}
        </a>
      ))}
      {missing.length > namedMissing && <a href="#release">{words.moreMissing(missing.length - namedMissing)}</a>}
    </p>
  );
}

function Standing({ unit }: { readonly unit: UnitView }) {
  const { missing } = unit.release;
  if (unit.back) {
    return (
      <>
        <p className="standing">{words.cameBack(dayAndTime(unit.back.at), unit.back.says)}</p>
        {missing.length > 0 && <MissingNames missing={missing} />}
      </>
    );
  }
  if (unit.packedAt) return <p className="standing">{words.packed(dayAndTime(unit.packedAt))}</p>;
  if (unit.released) return <p className="standing">{words.released}</p>;
  if (missing.length === 0) return <p className="standing">{words.mayLeave}</p>;
  return (
    <>
      <p className="standing standing-stop">
        <StopSign />
        <span>{words.mayNotLeave(missing.length)}</span>
      </p>
      <MissingNames missing={missing} />
    </>
  );
}

/** What was just written down. Its form may be gone by now, so the word takes the focus that the form had. */
function Told({ told }: { readonly told: string | undefined }) {
  const line = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    if (told) line.current?.focus();
  }, [told]);
  return (
    <div role="status">
      {told && (
        <p className="outcome-done told" ref={line} tabIndex={-1}>
          {told}
        </p>
      )}
    </div>
  );
}

/** The folder of one unit: what it is, whether it may leave, every proof and gap, and the desk where work is written down. */
export function UnitFolder({ unit }: { readonly unit: UnitView }) {
  const sheets = sheetsOf(unit.claims);
  const { destination } = unit;
  const [told, setTold] = useState<string>();
  useArrival();
  return (
    <article className="folder">
      <header className="folder-head">
        <div>
          <h1>{words.title(unit.unit)}</h1>
          <p className="lead">{words.model(unit.model, unit.revision)}</p>
          <Standing unit={unit} />
        </div>
        <dl className="particulars">
          <div>
            <dt>{words.order}</dt>
            <dd className="figure">
              <Link href={`/order/${encodeURIComponent(unit.order)}`}>{unit.order}</Link>
            </dd>
          </div>
          <div>
            <dt>{words.destination}</dt>
            <dd>
              {destination.place},{" "}
              <span className="figure">
                {destination.nominal_V}&nbsp;V, {destination.frequency_Hz}&nbsp;Hz
              </span>
            </dd>
          </div>
          <div>
            <dt>{words.due}</dt>
            <dd>{unit.due ? <time dateTime={unit.due}>{dayAndTime(unit.due)}</time> : words.noDue}</dd>
          </div>
          <div className="particulars-valves">
            <dt>{words.fitted}</dt>
            <dd>
              <Fitted fitted={unit.fitted} />
            </dd>
          </div>
        </dl>
      </header>

      {unit.cautions.length > 0 && (
        <section className="cautions" aria-labelledby="cautions-name">
          <h2 id="cautions-name" className="visually-hidden">
            {words.cautions}
          </h2>
          <CautionMark />
          <ul>
            {unit.cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </section>
      )}

      {sheets.length === 0 ? (
        <Empty title={words.emptyTitle}>{words.empty}</Empty>
      ) : (
        <div className="folder-body">
          <div className="folder-side">
            <Pile sheets={sheets} />
            <ul className="folder-ways">
              {unit.proposal && (
                <li>
                  <a href="#proposal">{words.toProposal}</a>
                </li>
              )}
              <li>
                <a href="#readings">{words.toReadings}</a>
              </li>
              <li>
                <a href="#release">{words.toRelease}</a>
              </li>
              <li>
                <Link href={`/unit/${encodeURIComponent(unit.unit)}/work`}>{words.seeWork}</Link>
              </li>
              {unit.released && (
                <>
                  <li>
                    <Link href={`/unit/${encodeURIComponent(unit.unit)}/pack`}>{words.seePack}</Link>
                  </li>
                  <li>
                    <Link href={`/unit/${encodeURIComponent(unit.unit)}/return`}>{words.seeReturn}</Link>
                  </li>
                </>
              )}
              <li>
                <Link href={`/unit/${encodeURIComponent(unit.unit)}/hum`}>{words.seeHum}</Link>
              </li>
              <li>
                <Link href={`/unit/${encodeURIComponent(unit.unit)}/probe`}>{words.seeProbe}</Link>
              </li>
              <li>
                <Link href={`/unit/${encodeURIComponent(unit.unit)}/bench`}>{words.seeBench}</Link>
              </li>
              <li>
                <Link href={`/unit/${encodeURIComponent(unit.unit)}/supply`}>{words.seeSupply}</Link>
              </li>
              <li>
                <Link href={`/unit/${encodeURIComponent(unit.unit)}/case`}>{words.seeCase}</Link>
              </li>
              <li>
                <Link href={`/unit/${encodeURIComponent(unit.unit)}/safety`}>{words.seeSafety}</Link>
              </li>
              <li>
                <a href={`/api/units/${encodeURIComponent(unit.unit)}/dossier.pdf`}>{words.dossier}</a>{" "}
                <span className="dossier-languages">
                  {Object.entries(dossierLanguages).map(([tag, name]) => (
                    <a
                      key={tag}
                      href={`/api/units/${encodeURIComponent(unit.unit)}/dossier.pdf?language=${tag}`}
                      lang={tag}
                      hrefLang={tag}
                    >
                      {name}
                    </a>
                  ))}
                </span>
              </li>
              <li>
                <a href={`/api/labels.pdf?codes=${encodeURIComponent(unit.unit)}`}>{words.label}</a>
              </li>
              <li>
                <a href="#history">{words.toHistory}</a>
              </li>
            </ul>
          </div>
          <div className="folder-sheets">
            <Told told={told} />
            {unit.proposal && (
              <Exchange unit={unit.unit} proposal={unit.proposal} tell={setTold} key={unit.proposal.in} />
            )}
            {sheets.map((sheet) => (
              <Sheet key={sheet.sheet} sheet={sheet} unit={unit.unit} />
            ))}
            {(!unit.released || unit.back) && <Readings unit={unit} tell={setTold} />}
            <ReleaseDesk unit={unit} />
            <History entries={unit.history} />
          </div>
        </div>
      )}
    </article>
  );
}
