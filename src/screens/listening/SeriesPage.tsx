import { useQuery } from "@tanstack/react-query";
import { type FormEvent, useState } from "react";
import { Link } from "wouter";
import type { SeriesView } from "../../workshop/listening/views.ts";
import { get, writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { dayAndTime } from "../common/calendar.ts";
import { Field, Outcome } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { plainNumber, withDoubt } from "../common/number.ts";
import { StateSign } from "../common/StateSign.tsx";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { Answer } from "../common/Waiting.tsx";
import { Blind } from "../notebook/Blind.tsx";
import { words as listening } from "./messages.ts";
import { seriesPath } from "./SeriesList.tsx";
import { series as words } from "./seriesMessages.ts";
import "../common/office.css";
import "../notebook/notebook.css";
import "./listening.css";

export default function SeriesPage({ series }: { readonly series: string }) {
  const path = `/api/listening/${encodeURIComponent(series)}`;
  const asked = useQuery({ queryKey: [path], queryFn: () => get<SeriesView>(path) });
  return (
    <Answer asked={asked} what={words.what}>
      {(view) => <Series view={view} />}
    </Answer>
  );
}

/** A series: how far its answers are while it runs, and what it showed once its lot is open. */
export function Series({ view }: { readonly view: SeriesView }) {
  const { series, model, versions, asked, trials, progress, through, source, design, closed } = view;
  return (
    <article className="office listening">
      <p className="small">
        <Link href="/listening">{words.toList}</Link>
      </p>
      <h1>{series}</h1>
      <p className="lead">
        {words.pair(model, ...versions)}: {words.asks[asked]}
      </p>
      <p>
        {words.trialsOf(trials, progress.length)}
        {[through, source].filter(Boolean).length > 0 && <> ({[through, source].filter(Boolean).join(", ")})</>}.{" "}
        {design && <span className="pencil">{words.designedFor(plainNumber(100 * design.heard))}</span>}
      </p>
      <Level level={view.level} />
      <ul className="office-ways">
        {!closed && (
          <>
            <li>
              <Link href={seriesPath(series, "/answer")}>{words.toAnswer}</Link>
            </li>
            <li>
              <Link href={seriesPath(series, "/switch")}>{words.toSwitch}</Link>
            </li>
          </>
        )}
        <li>
          <Link href={`/notebook/${encodeURIComponent(model)}`}>{words.toNotebook(model)}</Link>
        </li>
      </ul>
      {closed && <Result view={view} />}
      <Progress view={view} />
      {!closed && <CloseForm view={view} />}
    </article>
  );
}

function Level({ level }: Pick<SeriesView, "level">) {
  if (!level) return <p className="caution-line">{words.levelUnread}</p>;
  const { state, difference_dB, doubt_dB, within_dB, wouldDecide_dB } = level;
  return (
    <p>
      <StateSign state={state} />{" "}
      <span className="pencil">
        {words.level[state]} {words.levelIs(withDoubt(difference_dB, doubt_dB), plainNumber(within_dB))}{" "}
        {wouldDecide_dB !== undefined && words.levelWould(plainNumber(wouldDecide_dB))}
      </span>
    </p>
  );
}

function Progress({ view }: { readonly view: SeriesView }) {
  if (view.closed) {
    return (
      <details>
        <summary>{words.answers(view.answered, view.of)}</summary>
        <Counted view={view} />
      </details>
    );
  }
  return (
    <section aria-labelledby="progress-name">
      <h2 id="progress-name">{words.progress}</h2>
      <Counted view={view} />
    </section>
  );
}

function Counted({ view: { progress, trials } }: { readonly view: SeriesView }) {
  return (
    <ul className="series-progress">
      {progress.map(({ listener, answered }) => (
        <li key={listener}>
          <span>{listener}</span>
          <meter min={0} max={trials} value={answered} aria-label={listener} />
          <span className="figure">
            {answered} / {trials}
          </span>
        </li>
      ))}
    </ul>
  );
}

function Result({ view }: { readonly view: SeriesView }) {
  const { told, preferred, notes, closed } = view;
  const odds = told?.odds;
  return (
    <section aria-labelledby="result-name">
      <h2 id="result-name">{words.result}</h2>
      <p className="small quiet">
        {closed && words.closed(closed.by, dayAndTime(closed.at))} {closed?.why && words.stopped(closed.why)}
      </p>
      {!told && !preferred && <p>{words.nothing}</p>}
      {odds !== undefined && (
        <p className="pencil">
          {odds >= 1
            ? words.odds(listening.times(plainNumber(odds)))
            : words.oddsAgainst(listening.times(plainNumber(1 / Math.max(1e-300, odds))))}
        </p>
      )}
      <Blind blind={{ told: told ? [told] : [], ...(preferred && { preferred }) }} isInner />
      {notes.length > 0 && (
        <>
          <h3>{words.keep}</h3>
          <ul className="outlook-list">
            {notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function CloseForm({ view: { series, answered, of } }: { readonly view: SeriesView }) {
  const [by, setBy] = useBy();
  const { typed, change, clear } = useDraft(`close ${series}`, { why: "" });
  const [tried, setTried] = useState(false);
  const sending = useSending();
  const lacks = answered < of;
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (by.trim() === "") return;
    const isDone = await sending.send(async () => {
      await writeDown(by.trim(), [{ kind: "listening-close", series, why: typed.why.trim() }]);
      return words.done;
    });
    if (isDone) clear();
  };
  return (
    <section aria-labelledby="close-name">
      <h2 id="close-name">{words.close}</h2>
      <p>{words.closeLead}</p>
      <form onSubmit={submit} noValidate>
        {lacks && (
          <Field label={words.why} hint={words.whyHint} value={typed.why} onChange={(why) => change({ why })} />
        )}
        <By
          label={common.by}
          value={by}
          onChange={setBy}
          {...(tried && by.trim() === "" ? { error: words.byNeeded } : {})}
        />
        <button type="submit" className={lacks ? undefined : "main"} disabled={sending.busy}>
          {words.close}
        </button>
        <Outcome {...sending} />
      </form>
    </section>
  );
}
