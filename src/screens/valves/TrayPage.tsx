import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { Link, useSearch } from "wouter";
import type { TrayView } from "../../workshop/views.ts";
import { get } from "../common/api.ts";
import { day, dayAndTime } from "../common/calendar.ts";
import { fixed, plainNumber } from "../common/number.ts";
import { Papers } from "../common/Papers.tsx";
import { useArrival } from "../common/useArrival.ts";
import { Answer } from "../common/Waiting.tsx";
import { scaleOf } from "./geometry.ts";
import { Limits } from "./Limits.tsx";
import { limits as limitWords, sets, tray as words } from "./messages.ts";
import { ReadFile } from "./ReadFile.tsx";
import { ReadRound } from "./ReadRound.tsx";
import { Sets } from "./Sets.tsx";
import { TrayPicture } from "./TrayPicture.tsx";
import { ValveCard } from "./ValveCard.tsx";
import "./valves.css";

export default function TrayPage({ batch }: { readonly batch: string }) {
  const path = `/api/trays/${encodeURIComponent(batch)}`;
  const asked = useQuery({ queryKey: [path], queryFn: () => get<TrayView>(path) });
  // A valve's label leads to its tray with the valve already pressed.
  const scanned = new URLSearchParams(useSearch()).get("valve");
  return (
    <Answer asked={asked} what={words.what(batch)}>
      {(view) => <Tray tray={view} key={`${view.batch} ${scanned}`} {...(scanned !== null && { first: scanned })} />}
    </Answer>
  );
}

/** A tray: the picture, the valve that was pressed, and below it the work that is done at it. */
export function Tray({ tray, first }: { readonly tray: TrayView; readonly first?: string }) {
  const [chosen, setChosen] = useState(first);
  const valve = tray.valves.find((one) => one.valve === chosen);
  const hasLimits = tray.limits !== undefined;
  useArrival();
  const close = () => {
    document.querySelector<HTMLButtonElement>(`[data-valve="${CSS.escape(chosen ?? "")}"]`)?.focus();
    setChosen(undefined);
  };
  return (
    <article className="tray">
      <h1>{words.title(tray.batch)}</h1>
      <p className="lead">{words.came(tray.type, tray.valves.length, tray.seller, day(tray.at, tray.now))}</p>
      <ul className="tray-ways">
        <li>
          <Link href="/valves">{words.all}</Link>
        </li>
        {hasLimits && (
          <li>
            <a href="#read">{words.toRead}</a>
          </li>
        )}
        {hasLimits && (
          <li>
            <a href="#sets">{words.toSets}</a>
          </li>
        )}
        <li>
          <Link href={`/valves/${encodeURIComponent(tray.batch)}/seller`}>{words.toSeller}</Link>
        </li>
        <li>
          <a href={`/api/labels.pdf?codes=${encodeURIComponent(tray.batch)}&valves=yes`}>{words.toLabels}</a>
        </li>
      </ul>
      {tray.wanting && (
        <p className="tray-wanting">
          <strong>{words.wanting}.</strong> {tray.wanting}
        </p>
      )}
      {tray.heatRunEnds && (
        <p className="tray-wanting">
          {Date.parse(tray.heatRunEnds) > Date.parse(tray.now)
            ? words.heatUntil(dayAndTime(tray.heatRunEnds))
            : words.heatOver(dayAndTime(tray.heatRunEnds))}
        </p>
      )}
      <div className={valve ? "tray-body tray-body-open" : "tray-body"}>
        <div className="tray-side">
          <Lean tray={tray} />
          <TrayPicture tray={tray} chosen={chosen} choose={setChosen} />
          <p className="quiet small">{words.how}</p>
          <Papers of={["valves.verdict"]} />
          <Scale tray={tray} />
        </div>
        {valve && <ValveCard tray={tray} valve={valve} close={close} key={valve.valve} />}
      </div>
      <div className="tray-desk">
        {hasLimits && (
          <section id="read" aria-labelledby="read-name">
            <h2 id="read-name">{words.toRead}</h2>
            <ReadRound tray={tray} key={tray.batch} />
          </section>
        )}
        {hasLimits && (
          <section id="file">
            <details>
              <summary>{words.toFile}</summary>
              <ReadFile tray={tray} />
            </details>
          </section>
        )}
        {hasLimits && <Folded id="sets" title={sets.title} render={() => <Sets tray={tray} />} />}
        <section id="limits">
          <details open={!hasLimits}>
            <summary>{limitWords.title(tray.type)}</summary>
            <Limits tray={tray} key={hasLimits ? "known" : "new"} />
          </details>
        </section>
      </div>
    </article>
  );
}

/** What takes computing is asked for only when it is unfolded. */
function Folded({
  id,
  title,
  render,
}: {
  readonly id: string;
  readonly title: string;
  readonly render: () => React.ReactNode;
}) {
  const [isOpen, setOpen] = useState(false);
  return (
    <section id={id}>
      <details onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>{title}</summary>
        {isOpen && render()}
      </details>
    </section>
  );
}

function Lean({ tray: { reference } }: { readonly tray: TrayView }) {
  if (!reference) return null;
  const { lean_pct, doubt_pct } = reference;
  if (lean_pct === undefined) return <p className="tray-lean quiet">{words.leanUnknown}</p>;
  const said = `${fixed(Math.abs(lean_pct), 1)} %`;
  return (
    <p className="tray-lean">
      {Math.abs(lean_pct) > doubt_pct * Math.SQRT2 ? words.lean(said, lean_pct < 0) : words.leanNone(said)}
    </p>
  );
}

function Scale({ tray }: { readonly tray: TrayView }) {
  if (tray.middle_mA === undefined) return null;
  const { reach_pct, middle_mA } = scaleOf(tray);
  return (
    <p className="quiet small">
      {words.scale(`±${plainNumber(reach_pct)} %`, plainNumber((2 * reach_pct * middle_mA) / 100))} {words.choose}
    </p>
  );
}
