import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { Link } from "wouter";
import type { SeriesView, SwitchingView } from "../../workshop/listening/views.ts";
import { get } from "../common/api.ts";
import { CautionMark } from "../common/Caution.tsx";
import { Pick } from "../common/Pick.tsx";
import { Answer } from "../common/Waiting.tsx";
import { seriesPath } from "./SeriesList.tsx";
import { answering, series as seriesWords, switching as words } from "./seriesMessages.ts";
import "../common/office.css";
import "./listening.css";

export default function SwitchPage({ series }: { readonly series: string }) {
  const path = `/api/listening/${encodeURIComponent(series)}`;
  const asked = useQuery({ queryKey: [path], queryFn: () => get<SeriesView>(path) });
  return (
    <Answer asked={asked} what={seriesWords.what}>
      {(view) => <Switching view={view} />}
    </Answer>
  );
}

/** For whoever switches: what to play each listener, shown only when asked for. */
export function Switching({ view, given }: { readonly view: SeriesView; readonly given?: SwitchingView }) {
  const { series, progress } = view;
  const [isOpen, setOpen] = useState(given !== undefined);
  const [who, setWho] = useState(progress[0]!.listener);
  const path = `/api/listening/${encodeURIComponent(series)}/switching/${encodeURIComponent(who)}`;
  const asked = useQuery({
    queryKey: [path],
    queryFn: () => get<SwitchingView>(path),
    enabled: isOpen && given === undefined,
  });
  const shown = given ?? asked.data;
  return (
    <article className="office listening">
      <p className="small">
        <Link href={seriesPath(series)}>{answering.back}</Link>
      </p>
      <h1>{words.title(series)}</h1>
      <p className="caution">
        <CautionMark />
        <span>{words.caution}</span>
      </p>
      {!isOpen ? (
        <p>
          <button type="button" onClick={() => setOpen(true)}>
            {words.open}
          </button>
        </p>
      ) : (
        <>
          <Pick label={words.who} value={who} onChange={setWho} options={progress.map(({ listener }) => listener)} />
          <p className="small">{words.loud}</p>
          {shown && (
            <table className="switching">
              <thead>
                <tr>
                  <th scope="col">{words.trial}</th>
                  <th scope="col">{words.plays}</th>
                </tr>
              </thead>
              <tbody>
                {shown.trials.map(({ trial, plays, isAnswered }) => (
                  <tr key={trial} className={isAnswered ? "quiet" : undefined}>
                    <th scope="row" className="figure">
                      {trial}
                    </th>
                    <td>
                      {plays.join(", ")} {isAnswered && <span className="small">{words.answered}</span>}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          )}
        </>
      )}
    </article>
  );
}
