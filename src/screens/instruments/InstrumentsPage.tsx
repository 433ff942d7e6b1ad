import { useQuery } from "@tanstack/react-query";
import { Link } from "wouter";
import type { LinksView } from "../../workshop/instruments/linkViews.ts";
import type { InstrumentsView, InstrumentView } from "../../workshop/instruments/views.ts";
import { get } from "../common/api.ts";
import { Measured } from "../common/Measured.tsx";
import { plainNumber } from "../common/number.ts";
import { Papers } from "../common/Papers.tsx";
import { quantitySaid } from "../common/quantity.ts";
import { StateMark, StopSign } from "../common/StateSign.tsx";
import { inWords } from "../common/sentence.ts";
import { Answer, Empty } from "../common/Waiting.tsx";
import { Linked } from "./Linked.tsx";
import { linked } from "./linkMessages.ts";
import { words } from "./messages.ts";
import { budget, gauge, unitCharts } from "./studyMessages.ts";
import { TrialForm } from "./TrialForm.tsx";
import { TrialStrip } from "./TrialStrip.tsx";
import { useLiveLinks } from "./useLinks.ts";
import "../common/office.css";
import "./instruments.css";

export default function InstrumentsPage() {
  const asked = useQuery({
    queryKey: ["/api/instruments"],
    queryFn: () => get<InstrumentsView>("/api/instruments"),
  });
  const links = useLiveLinks();
  return (
    <Answer asked={asked} what={words.what}>
      {(view) => <Instruments view={view} {...(links.data && { links: links.data })} />}
    </Answer>
  );
}

const urgency = ["failed", "undecided", "untried", "good"] as const;
const marks = { good: "proven", failed: "refuted", undecided: "undecided", untried: "open" } as const;

/** Every instrument with its trials, the one that must be stopped first. */
export function Instruments({ view, links }: { readonly view: InstrumentsView; readonly links?: LinksView }) {
  const sorted = view.instruments.toSorted(
    (a, b) => urgency.indexOf(a.standing.state) - urgency.indexOf(b.standing.state),
  );
  return (
    <article className="office">
      <h1>{words.title}</h1>
      <p className="lead">{words.lead}</p>
      <Papers of={["measurement.chart"]} />
      <ul className="office-ways">
        {links && (
          <li>
            <a href="#on-the-wire">{linked.title}</a>
          </li>
        )}
        <li>
          <Link href="/">{words.toMorning}</Link>
        </li>
        <li>
          <Link href="/safety">{words.toLimits}</Link>
        </li>
        <li>
          <Link href="/instruments/gauge">{gauge.title}</Link>
        </li>
        <li>
          <Link href="/instruments/units">{unitCharts.title}</Link>
        </li>
        <li>
          <Link href="/instruments/budget">{budget.title}</Link>
        </li>
      </ul>
      {sorted.length === 0 ? (
        <Empty title={words.title}>{words.none}</Empty>
      ) : (
        <ul className="office-rows">
          {sorted.map((one) => (
            <One key={one.instrument} one={one} />
          ))}
        </ul>
      )}
      {links && <Linked view={links} />}
    </article>
  );
}

function One({ one }: { readonly one: InstrumentView }) {
  const { title, trial, standing, trials, chart, restsOnIt, reopened } = one;
  const { unit } = quantitySaid(trial.quantity);
  const failed = standing.state === "failed";
  return (
    <li className="instrument">
      <div className="instrument-head">
        <h2>{title}</h2>
        <p className={`state-sign${failed ? " trial-failed" : ""}`}>
          {failed ? <StopSign /> : <StateMark state={marks[standing.state]} />}
          {words.states[standing.state]}
        </p>
      </div>
      <p>
        {words.against(trial.reference, plainNumber(trial.true), plainNumber(trial.limit), unit).replace(/\.?$/, ".")}{" "}
        {inWords(standing.words)}.
      </p>
      {trials.length > 0 && <Measured>{(width) => <TrialStrip one={one} width={width} />}</Measured>}
      <p className="small">
        {chart === undefined ? (
          words.few
        ) : (
          <span className="pencil">
            {failed ? words.before : chart.drifts ? words.drifts : words.steady}{" "}
            {chart.signals.length > 0 && words.signals(new Set(chart.signals.map(({ index }) => index)).size)}
          </span>
        )}{" "}
        {words.rests(restsOnIt)}
      </p>
      {reopened.length > 0 && (
        <div className="instrument-fell">
          <p>{words.reopened(reopened.length)}</p>
          <ul>
            {reopened.map(({ unit: serial, claim, title: name }) => (
              <li key={`${serial} ${claim}`}>
                <Link href={`/unit/${encodeURIComponent(serial)}#claim-${claim}`}>
                  <span className="figure">{serial}</span> {name}
                </Link>
              </li>
            ))}
          </ul>
        </div>
      )}
      <TrialForm one={one} />
    </li>
  );
}
