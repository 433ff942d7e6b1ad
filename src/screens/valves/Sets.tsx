import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { Link } from "wouter";
import type { TrayView, ValveSetsView } from "../../workshop/views.ts";
import { get } from "../common/api.ts";
import { day } from "../common/calendar.ts";
import { Choice } from "../common/fields.tsx";
import { plainNumber, withDoubt } from "../common/number.ts";
import { Papers } from "../common/Papers.tsx";
import { Answer } from "../common/Waiting.tsx";
import { sets as words } from "./messages.ts";

/** Sets for the open orders, asked for when this part of the page is opened. */
export function Sets({ tray }: { readonly tray: TrayView }) {
  const [from, setFrom] = useState("tray");
  const path = `/api/trays/${encodeURIComponent(tray.batch)}/sets?from=${from}`;
  const asked = useQuery({ queryKey: [path], queryFn: () => get<ValveSetsView>(path) });
  return (
    <>
      <Choice
        legend={words.from}
        value={from}
        onChange={setFrom}
        options={[
          { value: "tray", label: words.fromTray },
          { value: "shelf", label: words.fromShelf(tray.type) },
        ]}
      />
      <Answer asked={asked} what={words.what}>
        {(sets) => <SetList sets={sets} now={tray.now} />}
      </Answer>
    </>
  );
}

export function SetList({ sets, now }: { readonly sets: ValveSetsView; readonly now: string }) {
  return (
    <div className="sets">
      <p>{words.considered(sets.considered)}</p>
      {sets.notes.map((note) => (
        <p key={note}>{note}</p>
      ))}
      {sets.models.map((model) => (
        <ModelSets key={`${model.model} ${model.revision}`} model={model} now={now} />
      ))}
      {sets.left.length > 0 && sets.models.length > 0 && (
        <p>
          {words.left(sets.left.length)} <span className="figure">{sets.left.slice(0, 12).join(", ")}</span>
          {sets.left.length > 12 && " …"}
        </p>
      )}
    </div>
  );
}

function ModelSets({ model, now }: { readonly model: ValveSetsView["models"][number]; readonly now: string }) {
  const unit = model.by === "circuit" ? "dB" : "%";
  return (
    <section className="set-model">
      <h3>{model.by === "circuit" ? words.byCircuit(model.model) : words.byCurrent(model.model)}</h3>
      <Papers of={["valves.sets"]} />
      {model.sets.length === 0 ? (
        <p className="quiet">{words.none}</p>
      ) : (
        <ul className="set-list">
          {model.sets.map((set) => (
            <li key={set.unit}>
              <span className="set-for">
                <Link href={`/order/${encodeURIComponent(set.order)}`}>{words.unit(set.unit, set.order)}</Link>
                {set.due && <span className="quiet"> {words.due(day(set.due, now))}</span>}
              </span>
              <Positions positions={set.positions} />
              <span className="figure pencil">
                {withDoubt(set.cost, set.doubt)} {unit}
              </span>
              {model.limit !== undefined && <span className="quiet">{words.limit(plainNumber(model.limit))}</span>}
            </li>
          ))}
        </ul>
      )}
      {model.unplaced.length > 0 && <p>{words.unplaced(model.unplaced.join(", "))}</p>}
      {model.sets.length > 0 && (
        <p className="quiet">{model.optimal ? words.optimal : words.gap(`${plainNumber(model.gap)} ${unit}`)}</p>
      )}
      {model.reserve.length > 0 && (
        <>
          <h4>{words.reserve}</h4>
          <ul className="set-list">
            {model.reserve.map((set) => (
              <li key={Object.values(set.positions).join()}>
                <Positions positions={set.positions} />
                <span className="figure pencil">
                  {withDoubt(set.cost, set.doubt)} {unit}
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function Positions({ positions }: { readonly positions: Readonly<Record<string, string>> }) {
  return (
    <span className="set-positions">
      {Object.entries(positions).map(([position, valve]) => (
        <span key={position}>
          <span className="quiet">{position}</span> <span className="figure">{valve}</span>
        </span>
      ))}
    </span>
  );
}
