import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { Link } from "wouter";
import type { SeriesView } from "../../workshop/listening/views.ts";
import { get, writeDown } from "../common/api.ts";
import { Outcome } from "../common/fields.tsx";
import { Pick } from "../common/Pick.tsx";
import { useKept } from "../common/useKept.ts";
import { useSending } from "../common/useSending.ts";
import { Answer } from "../common/Waiting.tsx";
import { useSession } from "../people/session.ts";
import { seriesPath } from "./SeriesList.tsx";
import { series as seriesWords, answering as words } from "./seriesMessages.ts";
import "../common/office.css";
import "./listening.css";

export default function AnswerPage({ series }: { readonly series: string }) {
  const path = `/api/listening/${encodeURIComponent(series)}`;
  const asked = useQuery({ queryKey: [path], queryFn: () => get<SeriesView>(path) });
  return (
    <Answer asked={asked} what={seriesWords.what}>
      {(view) => <Answering view={view} />}
    </Answer>
  );
}

/** For the listener: the trial's number and two answers, and nothing that tells what is played. */
export function Answering({ view }: { readonly view: SeriesView }) {
  const { series, progress, trials, asked, closed } = view;
  const [kept, setWho] = useKept(`stillglow.listener ${series}`, progress[0]!.listener);
  // What was just given counts at once: a quick hand must not answer, or put right, a trial gone by.
  const [given, setGiven] = useState<Readonly<Record<string, number>>>({});
  const found = progress.find(({ listener }) => listener === kept) ?? progress[0]!;
  const who = { ...found, answered: Math.max(found.answered, given[found.listener] ?? 0) };
  const { signedIn } = useSession();
  const [slip, setSlip] = useState(false);
  const sending = useSending();
  const isLast = slip && who.answered > 0;
  const trial = isLast ? who.answered : who.answered + 1;
  const give = (answer: "first" | "second") =>
    sending.send(async () => {
      const supersedes = isLast ? await standing(series, who.listener, trial) : undefined;
      await writeDown(signedIn?.person ?? who.listener, [
        {
          kind: "listening-answer",
          series,
          listener: who.listener,
          trial,
          answer,
          ...(supersedes !== undefined && { supersedes }),
        },
      ]);
      setSlip(false);
      setGiven((before) => ({ ...before, [who.listener]: Math.max(trial, before[who.listener] ?? 0) }));
      return words.written(trial);
    });
  const [first, second] = asked === "difference" ? [words.a, words.b] : [words.first, words.second];
  return (
    <article className="office listening">
      <p className="small">
        <Link href={seriesPath(series)}>{words.back}</Link>
      </p>
      <h1>{words.title(series)}</h1>
      <p className="lead">{words.lead}</p>
      <Pick
        label={words.who}
        value={who.listener}
        onChange={setWho}
        options={progress.map(({ listener }) => listener)}
      />
      {closed ? (
        <p>{words.closed}</p>
      ) : trial > trials ? (
        <p className="answer-trial">{words.done(who.listener)}</p>
      ) : (
        <section aria-labelledby="trial-name" className="answer">
          <h2 id="trial-name" className="answer-trial">
            {words.trial(trial, trials)}
          </h2>
          <p>{asked === "difference" ? words.difference : words.preference}</p>
          <div className="answer-choices">
            <button type="button" disabled={sending.busy} onClick={() => void give("first")}>
              {first}
            </button>
            <button type="button" disabled={sending.busy} onClick={() => void give("second")}>
              {second}
            </button>
          </div>
          <p className="small quiet">{words.again}</p>
        </section>
      )}
      <Outcome {...sending} />
      {!closed && who.answered > 0 && !slip && (
        <p>
          <button type="button" onClick={() => setSlip(true)}>
            {words.slip}
          </button>
        </p>
      )}
    </article>
  );
}

/** The answer that stands, which a slip of the hand puts right. */
async function standing(series: string, listener: string, trial: number): Promise<string | undefined> {
  const { ids } = await get<{ ids: readonly (string | null)[] }>(
    `/api/listening/${encodeURIComponent(series)}/answers/${encodeURIComponent(listener)}`,
  );
  return ids[trial - 1] ?? undefined;
}
