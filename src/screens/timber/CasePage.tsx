import { useQuery } from "@tanstack/react-query";
import { Link } from "wouter";
import type { CaseView, PanelYearView } from "../../workshop/timber/views.ts";
import { get } from "../common/api.ts";
import { CautionMark } from "../common/Caution.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { Measured } from "../common/Measured.tsx";
import { common } from "../common/messages.ts";
import { plainNumber, fixed as put } from "../common/number.ts";
import { Papers } from "../common/Papers.tsx";
import { StateMark, stateWords } from "../common/StateSign.tsx";
import { capital } from "../common/sentence.ts";
import { tradeWord, woodName } from "../common/tradeMessages.ts";
import { useArrival } from "../common/useArrival.ts";
import { Answer } from "../common/Waiting.tsx";
import { FinishCalendar } from "./FinishCalendar.tsx";
import { Finishing } from "./Finishing.tsx";
import { Fold } from "./Fold.tsx";
import { ClimateForm, CoatForm, JoinForm, OpenedForm } from "./forms.tsx";
import { planning as planWords, shelf as shelfWords, caseWords as words } from "./messages.ts";
import { FinishPlanForm, SoakForm } from "./planForms.tsx";
import { YearCurve } from "./YearCurve.tsx";
import "./timber.css";

export default function CasePage({ unit }: { readonly unit: string }) {
  const path = `/api/units/${encodeURIComponent(unit)}/case`;
  const asked = useQuery({ queryKey: [path], queryFn: () => get<CaseView>(path) });
  return (
    <Answer asked={asked} what={words.what(unit)}>
      {(view) => <UnitCase view={view} />}
    </Answer>
  );
}

/** A unit's case: each panel through the year at its destination, and what would mend it. */
export function UnitCase({ view }: { readonly view: CaseView }) {
  useArrival();
  const { unit, panels, verdict, destination } = view;
  return (
    <article className="timber case-page">
      <h1>{words.title(unit)}</h1>
      <Papers of={["timber.case"]} />
      <p className="case-verdict">
        <StateMark state={verdict} />
        <span className="visually-hidden">{stateWords[verdict]}: </span>
        <span>{view.words}</span>
      </p>
      <ul className="timber-ways">
        <li>
          <Link href={`/unit/${encodeURIComponent(unit)}`}>{words.back(unit)}</Link>
        </li>
        <li>
          <Link href="/timber">{shelfWords.title}</Link>
        </li>
      </ul>
      {destination && (
        <p>
          {words.goesTo(destination)}{" "}
          <span className="quiet">{view.basis ? words.basis(view.basis) : words.noClimate}</span>
        </p>
      )}
      {view.noSoakBefore && (
        <p className="caution">
          <CautionMark />
          <span>{words.noSoak(dayAndTime(view.noSoakBefore))}</span>
        </p>
      )}
      {view.soakTooEarly && (
        <p className="caution">
          <CautionMark />
          <span>{words.soakTooEarly(dayAndTime(view.soakTooEarly))}</span>
        </p>
      )}
      {panels.length > 0 && <p className="quiet small shelf-how">{words.curveHow}</p>}
      <ol className="panels">
        {panels.map((panel) => (
          <Panel key={panel.panel} panel={panel} />
        ))}
      </ol>
      {view.coats.length > 0 && (
        <section aria-labelledby="coats-name">
          <h2 id="coats-name">{words.coats}</h2>
          <ul className="case-list">
            {view.coats.map((coat) => (
              <li key={`${coat.at} ${coat.finish}`}>
                <time dateTime={coat.at}>{dayAndTime(coat.at)}</time> {tradeWord(coat.product ?? coat.finish)},{" "}
                {words.hard(dayAndTime(coat.hardAt))}
                {coat.turnAt && `, ${words.turn(dayAndTime(coat.turnAt))}`}
              </li>
            ))}
          </ul>
          {view.finishing && !view.finishPlan && <Finishing view={view.finishing} />}
        </section>
      )}
      {view.finishPlan && (
        <section aria-labelledby="finish-plan-name">
          <h2 id="finish-plan-name">{planWords.finishTitle}</h2>
          <FinishCalendar plan={view.finishPlan} />
        </section>
      )}
      <div className="timber-desk">
        {destination && (
          <section id="climate">
            <Fold title={words.climate} first={view.months === undefined}>
              <ClimateForm place={destination} />
            </Fold>
          </section>
        )}
        <section id="join">
          <Fold title={words.join} first={view.case === undefined}>
            <JoinForm unit={unit} />
          </Fold>
        </section>
        {view.case !== undefined && (
          <>
            <section id="coat">
              <Fold title={words.coat}>
                <CoatForm unit={unit} />
              </Fold>
            </section>
            <section id="finish-plan">
              <Fold title={planWords.finishPlan}>
                <FinishPlanForm view={view} />
              </Fold>
            </section>
            {view.warmPlaces.length > 0 && (
              <section id="soak">
                <Fold title={planWords.planSoak}>
                  <SoakForm view={view} />
                </Fold>
              </section>
            )}
            <section id="opened">
              <Fold title={words.opened}>
                <p className="quiet">{words.openedHow}</p>
                <OpenedForm unit={unit} />
              </Fold>
            </section>
          </>
        )}
      </div>
      <p className="quiet small">{common.guide}</p>
    </article>
  );
}

function Panel({ panel }: { readonly panel: PanelYearView }) {
  const { clearance_mm, low_mm, high_mm, fixed } = panel;
  const isHeld = fixed === "edges";
  return (
    <li className={`panel panel-${panel.verdict}`}>
      <div className="panel-says">
        <h2>
          <StateMark state={panel.verdict} /> {capital(tradeWord(panel.panel))}{" "}
          <Link href={`/timber/piece/${encodeURIComponent(panel.piece)}`} className="panel-piece">
            {panel.piece}
          </Link>
        </h2>
        <p>
          <strong>{stateWords[panel.verdict]}.</strong> {panel.remedy}
        </p>
        <p className="quiet small">
          {woodName(panel.species)}, {words.across(plainNumber(panel.width_mm), plainNumber(panel.ringAngle_deg))},{" "}
          {words.held[fixed]}
          {isHeld ? "" : `, ${words.room(plainNumber(panel.gap_mm))}`}
          {panel.warm ? `, ${words.warm}` : ""}.{" "}
          {panel.moisture_pct !== undefined &&
            `${capital(words.joined(put(panel.moisture_pct, 1), put(panel.moistureDoubt_pct ?? 0, 1)))}; `}
          {panel.driest_pct !== undefined && `${words.year(put(panel.driest_pct, 1), put(panel.wettest_pct ?? 0, 1))}.`}
        </p>
      </div>
      <div className="panel-year">
        {clearance_mm !== undefined && (
          <p className="pencil panel-room">
            {isHeld ? words.take : words.clearance} <strong>{put(Math.abs(clearance_mm), 1)} mm</strong>{" "}
            <span className="small">
              ({isHeld ? range(-(high_mm ?? 0), -(low_mm ?? 0)) : range(low_mm ?? 0, high_mm ?? 0)})
            </span>
          </p>
        )}
        {panel.year && <Measured first={420}>{(width) => <YearCurve panel={panel} width={width} />}</Measured>}
      </div>
    </li>
  );
}

const range = (low: number, high: number) => common.to(put(low, 1), put(high, 1));
