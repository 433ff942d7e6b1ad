import { Link, useLocation } from "wouter";
import type { NotebookIndexView } from "../../workshop/notebook/views.ts";
import { day } from "../common/calendar.ts";
import { useDraft } from "../common/useDraft.ts";
import { Empty } from "../common/Waiting.tsx";
import { emptyBench } from "./benched.ts";
import { type DraftName, DrawVersion } from "./DrawVersion.tsx";
import { words } from "./messages.ts";
import "./notebook.css";

const blank: Record<DraftName, string> = {
  model: "",
  version: "1",
  why: "",
  from: "",
  text: "",
  bench: JSON.stringify(emptyBench),
};

/** Every model under design, and where a new one is begun. */
export function NotebookIndex({ index }: { readonly index: NotebookIndexView }) {
  const [, navigate] = useLocation();
  const draft = useDraft<DraftName>("notebook, a new model", blank);
  return (
    <article className="notebook">
      <h1>{words.title}</h1>
      {index.models.length === 0 ? (
        <Empty title={words.emptyTitle}>{words.empty}</Empty>
      ) : (
        <>
          <p className="lead">{words.lead}</p>
          <ol className="notebook-models">
            {index.models.map(({ model, versions, newest, revisions }) => (
              <li key={model}>
                <h2>
                  <Link href={`/notebook/${encodeURIComponent(model)}`}>{model}</Link>
                </h2>
                <p>
                  {words.versions(versions)}, {words.released(revisions)}
                </p>
                <p className="page-why">
                  {newest.version}: {newest.why} <span className="quiet">{day(newest.at, index.now)}</span>
                </p>
              </li>
            ))}
          </ol>
        </>
      )}
      <DrawVersion draft={draft} onSaved={(model) => navigate(`/notebook/${encodeURIComponent(model)}`)} />
    </article>
  );
}
