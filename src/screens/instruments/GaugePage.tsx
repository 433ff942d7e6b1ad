import { useQuery } from "@tanstack/react-query";
import { Link } from "wouter";
import type { GaugeView } from "../../workshop/instruments/views.ts";
import { get } from "../common/api.ts";
import { longDay } from "../common/calendar.ts";
import { Measured } from "../common/Measured.tsx";
import { plainNumber } from "../common/number.ts";
import { quantitySaid } from "../common/quantity.ts";
import { capital } from "../common/sentence.ts";
import { Answer, Empty } from "../common/Waiting.tsx";
import { EatenRuler } from "./EatenRuler.tsx";
import { GaugeForm } from "./GaugeForm.tsx";
import { GaugeResult } from "./GaugeResult.tsx";
import { HandsPicture } from "./HandsPicture.tsx";
import { gauge as words } from "./studyMessages.ts";
import "../common/office.css";
import "./instruments.css";

type Study = GaugeView["studies"][number];

export default function GaugePage() {
  const asked = useQuery({ queryKey: ["/api/gauge-studies"], queryFn: () => get<GaugeView>("/api/gauge-studies") });
  return (
    <Answer asked={asked} what={words.what}>
      {(view) => <GaugeStudies view={view} />}
    </Answer>
  );
}

/** Studies on record with what each leaves of the windows it is used for, and the form for another. */
export function GaugeStudies({ view }: { readonly view: GaugeView }) {
  return (
    <article className="office gauge">
      <h1>{words.title}</h1>
      <p className="lead">{words.lead}</p>
      <ul className="office-ways">
        <li>
          <Link href="/instruments">{words.toInstruments}</Link>
        </li>
        <li>
          <Link href="/instruments/units">{words.toUnits}</Link>
        </li>
        <li>
          <Link href="/instruments/budget">{words.toBudget}</Link>
        </li>
      </ul>
      {view.studies.length === 0 && <Empty title={words.title}>{words.none}</Empty>}
      {view.studies.map((study) => (
        <One key={study.id} study={study} />
      ))}
      <GaugeForm view={view} />
    </article>
  );
}

function One({ study }: { readonly study: Study }) {
  const { title, quantity, what, readings, result, by, at, windows } = study;
  const { name, unit } = quantitySaid(quantity);
  const count = (key: "part" | "operator") => new Set(readings.map((one) => one[key])).size;
  const [parts, hands] = [count("part"), count("operator")];
  return (
    <section aria-label={`${title}, ${name}`}>
      <h2>
        {title}: {name}
        {what && <span className="quiet"> {what}</span>}
      </h2>
      <p className="small quiet">
        {words.of(parts, hands, readings.length / (parts * hands))}. {words.by(by, longDay(at))}.
      </p>
      <Measured>{(width) => <HandsPicture title={title} readings={readings} unit={unit} width={width} />}</Measured>
      <GaugeResult result={result} unit={unit} />
      {result.state === "solved" && <Windows windows={windows} unit={unit} />}
    </section>
  );
}

function Windows({ windows, unit }: { readonly windows: Study["windows"]; readonly unit: string }) {
  if (windows.length === 0) return <p className="small">{words.noWindow}</p>;
  return (
    <>
      <h3>{words.window}</h3>
      <p>{words.windowLead}</p>
      <ul className="office-rows">
        {windows.map((window) => {
          const { model, title, low, high, eaten_pct, least_pct, most_pct, guard } = window;
          return (
            <li key={`${model} ${title} ${low} ${high}`} className="office-line gauge-window">
              <p>
                <strong>{model}</strong> <span className="quiet">{capital(title)}</span>
              </p>
              {eaten_pct === undefined ? (
                <span className="small quiet">{words.oneEnd}</span>
              ) : (
                <EatenRuler window={window} words={words.ruler(model, eaten_pct.toFixed(0))} />
              )}
              <span className="figure pencil">
                {eaten_pct === undefined ? (
                  words.guard(plainNumber(guard), unit)
                ) : eaten_pct >= 100 ? (
                  words.all
                ) : (
                  <>
                    <strong>{words.eaten(eaten_pct.toFixed(0))}</strong>
                    <br />
                    <span className="small">{words.eatenBetween(least_pct!.toFixed(0), most_pct!.toFixed(0))}</span>
                  </>
                )}
              </span>
            </li>
          );
        })}
      </ul>
    </>
  );
}
