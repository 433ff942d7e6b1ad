import { type FormEvent, useState } from "react";
import type { NoteView, ReportsView } from "../../workshop/notebook/views.ts";
import { writeDown } from "../common/api.ts";
import { By } from "../common/By.tsx";
import { day } from "../common/calendar.ts";
import { Choice, Field, FormEnd, Recalled } from "../common/fields.tsx";
import { common } from "../common/messages.ts";
import { Pick } from "../common/Pick.tsx";
import { useBy } from "../common/useBy.ts";
import { useDraft } from "../common/useDraft.ts";
import { useSending } from "../common/useSending.ts";
import { reportWords as words } from "./messages.ts";
import "../common/office.css";

type Heard = keyof typeof words.matters;
const matters = Object.keys(words.matters) as Heard[];
const matterName = (heard: string) => words.matters[heard as Heard] ?? heard;

interface Of {
  readonly model: string;
  readonly reports: ReportsView;
  readonly headphones: readonly string[];
}

/** What testers outside reported, matter by matter beside the versions, and a form for one more note. */
export function Reports({ model, reports, headphones }: Of) {
  const { rows, versions, notes, testers } = reports;
  return (
    <section aria-labelledby="reports-name">
      <h2 id="reports-name">{words.title}</h2>
      <p>{notes.length === 0 ? words.none : words.lead(notes.length, testers)}</p>
      {rows.length > 0 && (
        <div className="reports-scroll">
          <table className="reports stacks">
            <caption className="small">{words.caption}</caption>
            <thead>
              <tr>
                <th scope="col">{words.matter}</th>
                {versions.map((version) => (
                  <th key={version} scope="col">
                    {version}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {rows.map(({ heard, cells }) => (
                <tr key={heard}>
                  <th scope="row">{matterName(heard)}</th>
                  {cells.map((cell, i) => (
                    <td key={versions[i]} data-label={words.version(versions[i]!)}>
                      {cell && <Cell cell={cell} />}
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {notes.length > 0 && <Notes notes={notes} />}
      <details>
        <summary>{words.add}</summary>
        <NoteForm model={model} versions={versions} headphones={headphones} />
      </details>
    </section>
  );
}

function Cell({ cell }: { readonly cell: NonNullable<ReportsView["rows"][number]["cells"][number]> }) {
  return (
    <>
      <span className="figure">{words.testers(cell.testers)}</span>
      <span className="small quiet reports-sides">
        {[
          cell.for > 0 ? words.for(cell.for) : "",
          cell.against > 0 ? words.against(cell.against) : "",
          cell.blind > 0 ? words.blind(cell.blind) : words.notBlind,
        ]
          .filter(Boolean)
          .join(", ")}
      </span>
      <Strength of={cell.strength} />
    </>
  );
}

/** Five strokes, as many full as the middle note is strong. */
function Strength({ of }: { readonly of: number }) {
  return (
    <svg
      className="reports-strength"
      viewBox="0 0 44 12"
      width={44}
      height={12}
      role="img"
      aria-label={words.strengthOf(of)}
    >
      {[1, 2, 3, 4, 5].map((stroke) => (
        <line key={stroke} x1={stroke * 8 - 2} x2={stroke * 8 - 2} y1={stroke <= of ? 1 : 8} y2={11} />
      ))}
    </svg>
  );
}

const atOnce = 8;

function Notes({ notes }: { readonly notes: readonly NoteView[] }) {
  const [isAll, setAll] = useState(false);
  const shown = isAll ? notes : notes.slice(0, atOnce);
  return (
    <details>
      <summary>{words.each(notes.length)}</summary>
      <ul className="reports-notes">
        {shown.map((note) => (
          <li key={note.id}>
            <p>
              <strong>{words.version(note.version)}</strong>, {matterName(note.heard)}: {words.speaks[note.speaks]}
              {note.against !== undefined && <> ({words.heldAgainst(note.against)})</>}
            </p>
            {note.says !== "" && <p>{note.says}</p>}
            <p className="small quiet">
              {[
                note.tester,
                note.through,
                note.source,
                words.strengthOf(note.strength),
                note.isBlind ? words.wasBlind : words.wasNotBlind,
                day(note.at),
              ]
                .filter(Boolean)
                .join(", ")}
            </p>
          </li>
        ))}
      </ul>
      {!isAll && notes.length > atOnce && (
        <button type="button" onClick={() => setAll(true)}>
          {words.all(notes.length)}
        </button>
      )}
    </details>
  );
}

function NoteForm({
  model,
  versions,
  headphones,
}: {
  readonly model: string;
  readonly versions: readonly string[];
  readonly headphones: readonly string[];
}) {
  const blank = {
    version: versions.at(-1) ?? "",
    against: "",
    tester: "",
    heard: "hiss",
    speaks: "neither",
    strength: "3",
    blind: "no",
    through: "",
    source: "",
    says: "",
  };
  const { typed, change, clear, isRecalled } = useDraft(`note ${model}`, blank);
  const [by, setBy] = useBy();
  const [tried, setTried] = useState(false);
  const sending = useSending();
  const put = (name: keyof typeof blank) => (text: string) => change({ [name]: text });
  const errors = {
    tester: typed.tester.trim() === "" ? words.testerNeeded : undefined,
    by: by.trim() === "" ? common.needed : undefined,
  };
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (errors.tester || errors.by) return;
    const given = (name: "against" | "through" | "source") =>
      typed[name].trim() === "" ? {} : { [name]: typed[name].trim() };
    const isDone = await sending.send(async () => {
      await writeDown(by.trim(), [
        {
          kind: "listener-note",
          model,
          version: typed.version,
          tester: typed.tester.trim(),
          heard: typed.heard as Heard,
          speaks: typed.speaks as NoteView["speaks"],
          strength: Number(typed.strength),
          isBlind: typed.blind === "yes",
          says: typed.says.trim(),
          ...given("against"),
          ...given("through"),
          ...given("source"),
        },
      ]);
      return words.written;
    });
    if (!isDone) return;
    setTried(false);
    clear({ ...blank, version: typed.version, tester: typed.tester, through: typed.through, source: typed.source });
  };
  const shown = (error: string | undefined) => (tried && error ? { error } : {});
  return (
    <form onSubmit={submit} noValidate className="reports-form">
      <Recalled isRecalled={isRecalled} clear={() => clear()} />
      <div className="fields">
        <Pick label={words.whichVersion} value={typed.version} onChange={put("version")} options={versions} />
        <Pick label={words.whichAgainst} value={typed.against} onChange={put("against")} options={versions} none="" />
        <Field
          label={words.tester}
          hint={words.testerHint}
          value={typed.tester}
          onChange={put("tester")}
          {...shown(errors.tester)}
        />
      </div>
      <div className="fields">
        <Pick
          label={words.matter}
          value={typed.heard}
          onChange={put("heard")}
          options={matters.map((value) => ({ value, label: words.matters[value] }))}
        />
        <Pick
          label={words.strength}
          value={typed.strength}
          onChange={put("strength")}
          options={["1", "2", "3", "4", "5"].map((value) => ({ value, label: words.strengthOf(Number(value)) }))}
        />
      </div>
      <Choice
        legend={words.speaksAsked}
        value={typed.speaks}
        onChange={put("speaks")}
        options={(["for", "against", "neither"] as const).map((value) => ({ value, label: words.speaks[value] }))}
      />
      <Choice
        legend={words.blindAsked}
        value={typed.blind}
        onChange={put("blind")}
        options={[
          { value: "yes", label: words.wasBlind },
          { value: "no", label: words.wasNotBlind },
        ]}
      />
      <div className="fields">
        <Field label={words.through} value={typed.through} onChange={put("through")} list={headphones} />
        <Field label={words.source} value={typed.source} onChange={put("source")} />
      </div>
      <div className="field">
        <label htmlFor="note-says">{words.says}</label>
        <textarea
          id="note-says"
          rows={3}
          value={typed.says}
          onChange={(event) => change({ says: event.target.value })}
        />
      </div>
      <By label={common.by} value={by} onChange={setBy} {...shown(errors.by)} />
      <FormEnd write={words.write} sending={sending} />
    </form>
  );
}
