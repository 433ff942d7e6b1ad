import { Link } from "wouter";
import type { NotebookView, OutlookView } from "../../workshop/notebook/views.ts";
import { useDraft } from "../common/useDraft.ts";
import { Blind } from "./Blind.tsx";
import { typedBench } from "./benched.ts";
import { type DraftName, DrawVersion } from "./DrawVersion.tsx";
import { words } from "./messages.ts";
import { Outlook } from "./Outlook.tsx";
import { ReleaseDesk } from "./ReleaseDesk.tsx";
import { Reports } from "./Reports.tsx";
import { Spread } from "./Spread.tsx";
import { TrialDesk } from "./TrialDesk.tsx";
import "./notebook.css";

interface Props {
  readonly notebook: NotebookView;
  readonly outlooks?: readonly OutlookView[] | undefined;
}

const nextName = (names: readonly string[]): string => {
  const numbers = names.map(Number).filter(Number.isInteger);
  return String(numbers.length > 0 ? Math.max(...numbers) + 1 : names.length + 1);
};

/** The pages of one model: side by side, one value on trial, the next version, and its way to a revision. */
export function Notebook({ notebook, outlooks }: Props) {
  const { model, pages, columns } = notebook;
  const newest = pages.at(-1)!;
  const blank: Record<DraftName, string> = {
    model,
    version: nextName(pages.map(({ version }) => version)),
    why: "",
    from: newest.version,
    text: newest.text,
    bench: JSON.stringify(typedBench(newest)),
  };
  return (
    <article className="notebook">
      <p className="small">
        <Link href="/notebook">{words.title}</Link>
      </p>
      <h1>{model}</h1>
      <Spread
        spread={notebook}
        pages={pages}
        outlooks={outlooks}
        currency={notebook.currency}
        caption={`${model}, ${words.versions(pages.length)}`}
      />
      <section aria-labelledby="outlook-name">
        <h2 id="outlook-name">{words.outlookTitle}</h2>
        {outlooks ? (
          <div className="outlooks">
            {outlooks.slice(-3).map((outlook) => (
              <Outlook key={outlook.name} outlook={outlook} name={words.page(outlook.name)} />
            ))}
          </div>
        ) : (
          <p className="quiet" role="status">
            {words.outlookWaiting}
          </p>
        )}
      </section>
      <Blind blind={notebook.blind} />
      <Reports model={model} reports={notebook.reports} headphones={notebook.headphones} />
      {columns.some(({ notes }) => notes.length > 0) && (
        <details>
          <summary>{words.notes}</summary>
          <ul className="outlook-list small">
            {[...new Set(columns.flatMap(({ notes }) => notes))].map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
      <Work key={newest.version} notebook={notebook} blank={blank} />
    </article>
  );
}

function Work({
  notebook,
  blank,
}: {
  readonly notebook: NotebookView;
  readonly blank: Readonly<Record<DraftName, string>>;
}) {
  const draft = useDraft<DraftName>(`notebook ${notebook.model}`, blank);
  return (
    <>
      <TrialDesk notebook={notebook} onKeep={(kept) => draft.change(kept)} />
      <DrawVersion draft={draft} model={notebook.model} onSaved={() => undefined} />
      <ReleaseDesk notebook={notebook} />
    </>
  );
}
