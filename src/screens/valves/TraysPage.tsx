import { keepPreviousData, useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { Link, useLocation } from "wouter";
import type { TrayCardView, TraysView, ValveStanding } from "../../workshop/views.ts";
import { get } from "../common/api.ts";
import { day, dayAndTime } from "../common/calendar.ts";
import { Field } from "../common/fields.tsx";
import { Answer, Empty } from "../common/Waiting.tsx";
import { trays as words } from "./messages.ts";
import { Receive } from "./Receive.tsx";
import { Standing } from "./Standing.tsx";
import "./valves.css";

export default function TraysPage() {
  const [, navigate] = useLocation();
  const asked = useQuery({ queryKey: ["/api/trays"], queryFn: () => get<TraysView>("/api/trays") });
  return (
    <Answer asked={asked} what={words.what}>
      {(trays) => <Trays trays={trays} open={(batch) => navigate(`/valves/${encodeURIComponent(batch)}`)} />}
    </Answer>
  );
}

/** The newest trays with what each waits for, any older one by a word of it, and the form by which another comes in. */
export function Trays({ trays, open }: { readonly trays: TraysView; readonly open: (batch: string) => void }) {
  const [typed, setTyped] = useState("");
  const sought = typed.trim();
  const areAll = trays.traysInAll === undefined || trays.traysInAll === trays.trays.length;
  const asked = useQuery({
    queryKey: ["/api/trays", sought],
    queryFn: () => get<TraysView>(`/api/trays?find=${encodeURIComponent(sought)}`),
    enabled: sought !== "" && !areAll,
    placeholderData: keepPreviousData,
  });
  const shown = sought !== "" && asked.data ? asked.data : trays;
  return (
    <article className="trays">
      <h1>{words.title}</h1>
      {trays.trays.length === 0 ? (
        <Empty title={words.emptyTitle}>{words.empty}</Empty>
      ) : (
        <>
          {!areAll && (
            <>
              <Field label={words.find} value={typed} onChange={setTyped} narrow />
              <p className="quiet" role="status">
                {words.found(shown.trays.length, trays.traysInAll ?? shown.trays.length)}
              </p>
            </>
          )}
          <ul className="tray-list">
            {shown.trays.map((tray) => (
              <li key={tray.batch}>
                <Link href={`/valves/${encodeURIComponent(tray.batch)}`}>
                  <span className="tray-list-name">{tray.batch}</span>
                  <span>
                    {words.valves(tray.valves)} <em>{tray.type}</em>
                    <span className="quiet">
                      {" "}
                      {words.from(tray.seller)}, {words.came(day(tray.at, trays.now))}
                    </span>
                  </span>
                  <span className="tray-list-stands">
                    {(["use", "hold", "reject", "unread"] as const)
                      .filter((standing) => tray.stands[standing] > 0)
                      .map((standing) => (
                        <Count key={standing} standing={standing} count={tray.stands[standing]} />
                      ))}
                  </span>
                  <span>{stageOf(tray, trays.now)}</span>
                </Link>
              </li>
            ))}
          </ul>
        </>
      )}
      <section className="tray-desk" id="receive">
        <details open={trays.trays.length === 0}>
          <summary>{words.receive}</summary>
          <Receive trays={trays} done={open} />
        </details>
      </section>
    </article>
  );
}

function Count({ standing, count }: { readonly standing: ValveStanding; readonly count: number }) {
  return (
    <span className="tray-count">
      <span className="figure">{count}</span> <Standing standing={standing} />
    </span>
  );
}

/** How far a tray has come, in words. */
function stageOf({ valves, coldRead, hotRead, heatRunEnds }: TrayCardView, now: string): string {
  if (hotRead >= valves) return words.judged;
  if (hotRead > 0) return words.partHot(hotRead, valves);
  if (coldRead === 0) return words.notRead;
  if (coldRead < valves) return words.partCold(coldRead, valves);
  if (heatRunEnds === undefined) return words.waitsHot;
  const when = dayAndTime(heatRunEnds);
  return Date.parse(heatRunEnds) > Date.parse(now) ? words.onHeat(when) : words.heatOver(when);
}
