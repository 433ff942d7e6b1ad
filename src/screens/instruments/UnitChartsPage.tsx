import { keepPreviousData, useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { Link } from "wouter";
import type { UnitChartsView, UnitChartView } from "../../workshop/instruments/views.ts";
import { get } from "../common/api.ts";
import { Choice } from "../common/fields.tsx";
import { Measured } from "../common/Measured.tsx";
import { fixed } from "../common/number.ts";
import { quantitySaid } from "../common/quantity.ts";
import { capital } from "../common/sentence.ts";
import { Answer, Empty } from "../common/Waiting.tsx";
import { unitCharts as words } from "./studyMessages.ts";
import { UnitStrip } from "./UnitStrip.tsx";
import "../common/office.css";
import "./instruments.css";

export default function UnitChartsPage() {
  const [model, setModel] = useState("");
  const path = `/api/unit-charts?model=${encodeURIComponent(model)}`;
  const asked = useQuery({
    queryKey: [path],
    queryFn: () => get<UnitChartsView>(path),
    // The charts of one model stand until those of the next have come.
    placeholderData: keepPreviousData,
  });
  return (
    <Answer asked={asked} what={words.what}>
      {(view) => <UnitCharts view={view} model={model} choose={setModel} />}
    </Answer>
  );
}

interface Props {
  readonly view: UnitChartsView;
  /** Left out, the first. */
  readonly model?: string;
  readonly choose?: (model: string) => void;
}

/** Every figure of a model over its units; those where something changed first. */
export function UnitCharts({ view, model: chosen, choose }: Props) {
  const model = chosen || view.models[0] || "";
  const own = view.charts.filter((chart) => chart.model === model);
  const loud = own.filter(({ signals }) => signals.length > 0);
  const quiet = own.filter(({ signals }) => signals.length === 0);
  return (
    <article className="office unit-charts">
      <h1>{words.title}</h1>
      <p className="lead">{words.lead}</p>
      <ul className="office-ways">
        <li>
          <Link href="/instruments/gauge">{words.toGauge}</Link>
        </li>
      </ul>
      {view.models.length === 0 ? (
        <Empty title={words.title}>{words.none}</Empty>
      ) : (
        <>
          <Choice
            legend={words.model}
            value={model}
            onChange={(name) => choose?.(name)}
            options={view.models.map((name) => ({ value: name, label: name }))}
          />
          {loud.map((chart) => (
            <One key={keyOf(chart)} chart={chart} />
          ))}
          {quiet.length > 0 && (
            <details open={loud.length === 0}>
              <summary>
                {words.quiet}: <span className="figure">{quiet.length}</span>
              </summary>
              {quiet.map((chart) => (
                <One key={keyOf(chart)} chart={chart} />
              ))}
            </details>
          )}
        </>
      )}
      {view.few > 0 && <p className="small quiet">{words.few(view.few)}</p>}
    </article>
  );
}

const keyOf = ({ claim, quantity, where }: UnitChartView) => `${claim} ${quantity} ${where}`;

function One({ chart }: { readonly chart: UnitChartView }) {
  const { title, quantity, where, units, signals, room } = chart;
  const { name } = quantitySaid(quantity);
  const serials = (rule: "outside" | "run") =>
    signals.filter((signal) => signal.rule === rule).map(({ index }) => units[index]!.unit);
  const [out, row] = [serials("outside"), serials("run")];
  return (
    <section className="unit-chart" aria-label={`${name} ${where}`}>
      <h2>
        {capital(name)}
        {where && <span className="quiet"> {where}</span>}
      </h2>
      <p className="small quiet">{title}</p>
      <Measured>{(width) => <UnitStrip chart={chart} width={width} />}</Measured>
      <p className="small">
        {out.length > 0 && (
          <span className="pencil">
            {words.stands(out.length)}: {out.join(", ")}.{" "}
          </span>
        )}
        {row.length > 0 && <span className="pencil">{capital(words.row(row.at(-1)!))}. </span>}
        {room?.low !== undefined && words.room(fixed(room.value, 1), fixed(room.low, 1), fixed(room.high!, 1))}
      </p>
    </section>
  );
}
